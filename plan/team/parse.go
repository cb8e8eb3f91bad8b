package team

import (
	"fmt"
	"math"

	"cuewalk/course"
	"cuewalk/course/tomlfile"
)

// Parse reads a team file; name is what problems call it. Every figure the file
// does not set is that of the preset it is like: the dog's "large", or the size
// nearest to its withers where those alone are given; the handler's "average".
// Lengths and speeds are in the file's units, angles in degrees, turning in
// degrees per second.
//
// The error holds every problem of the file (tomlfile.Problems).
func Parse(name string, src []byte) (*Team, error) {
	doc, err := tomlfile.Parse(name, src)
	if err != nil {
		return nil, err
	}
	root := doc.Root()
	if !root.Has("team") && otherKind(root) {
		return nil, doc.Err()
	}
	t := &Team{File: name}
	var ok bool
	if t.Name, ok = root.String("team"); !ok {
		root.Missing("team", `begin the file with team = "name"`)
	}
	units := readUnits(root)
	t.Words = readWords(root)
	t.Dog = readDog(root, units, t)
	t.Handler = readHandler(root, units)
	doc.Done()
	if err := doc.Err(); err != nil {
		return nil, err
	}
	return t, nil
}

// otherKind notes that the file is of another kind, where it is.
func otherKind(root *tomlfile.Table) bool {
	for _, kind := range []string{"course", "plan"} {
		if root.Has(kind) {
			root.KeyProblem(kind, "this is a "+kind+" file, not a team", `a team file begins with team = "name"`)
			return true
		}
	}
	return false
}

func readUnits(root *tomlfile.Table) course.Units {
	if u, _ := root.Word("units", course.Metres.String(), course.Feet.String()); u == course.Feet.String() {
		return course.Feet
	}
	return course.Metres
}

func readDog(root *tomlfile.Table, u course.Units, t *Team) Dog {
	tab, ok := root.Table("dog")
	if !ok {
		d, _ := PresetDog("large")
		return d
	}
	d, _ := PresetDog(likeDog(tab, u))
	set := readFigures(tab, u, dogFigures, &d)
	checkOrder(tab, u, &d, set)
	readKnows(tab, root, t, &d)
	readDraw(tab, &d)
	return d
}

// likeDog returns the size to start from.
func likeDog(tab *tomlfile.Table, u course.Units) string {
	if size, ok := tab.Word("like", Sizes()...); ok {
		return size
	}
	if tab.Has("like") || !tab.Has("withers") {
		return "large"
	}
	f := dogFigures[0]
	least, most := f.limits(u)
	withers, ok := tab.Float(f.key, least, most)
	if !ok {
		return "large"
	}
	return SizeOf(withers * u.Factor())
}

// SizeOf returns the preset size whose withers are nearest to withers metres.
func SizeOf(withers float64) string {
	best, least := "", math.Inf(1)
	for _, size := range Sizes() {
		d, _ := PresetDog(size)
		if off := math.Abs(d.Withers - withers); off < least {
			best, least = size, off
		}
	}
	return best
}

func readHandler(root *tomlfile.Table, u course.Units) Handler {
	like := "average"
	tab, ok := root.Table("handler")
	if ok {
		if person, ok := tab.Word("like", Handlers()...); ok {
			like = person
		}
	}
	h, _ := PresetHandler(like)
	if ok {
		readFigures(tab, u, handlerFigures, &h)
		least, most := step.limits(u)
		if x, ok := tab.Float(step.key, least, most); ok {
			h.Step = step.dim.ours(x, u)
		}
	}
	return h
}

// readFigures sets those figures of v that the table has and returns their keys.
func readFigures[T any](tab *tomlfile.Table, u course.Units, figures []figure[T], v *T) map[string]bool {
	set := map[string]bool{}
	for _, f := range figures {
		least, most := f.limits(u)
		if x, ok := tab.Float(f.key, least, most); ok {
			*f.of(v) = f.dim.ours(x, u)
			set[f.key] = true
		}
	}
	return set
}

// checkOrder notes pairs of figures that are the wrong way round.
func checkOrder(tab *tomlfile.Table, u course.Units, d *Dog, set map[string]bool) {
	value := func(key string) float64 {
		for _, f := range dogFigures {
			if f.key == key {
				return f.dim.theirs(*f.of(d), u)
			}
		}
		return 0
	}
	for _, o := range ordered {
		slow, fast := value(o.slow), value(o.fast)
		if slow <= fast {
			continue
		}
		key, text := o.fast, fmt.Sprintf("%s is %s, less than %s, which is %s", o.fast, tomlfile.Length(fast), o.slow, tomlfile.Length(slow))
		hint := fmt.Sprintf("write at least %s, or set %s too", tomlfile.Length(slow), o.slow)
		if !set[o.fast] {
			key, text = o.slow, fmt.Sprintf("%s is %s, more than %s, which is %s", o.slow, tomlfile.Length(slow), o.fast, tomlfile.Length(fast))
			hint = fmt.Sprintf("write at most %s, or set %s too", tomlfile.Length(fast), o.fast)
		}
		tab.Problem(key, text, hint)
	}
}
