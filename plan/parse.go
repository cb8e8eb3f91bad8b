package plan

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/course/tomlfile"
	"cuewalk/plan/team"
)

const stridesHint = `write halves with a sign, such as "2 take-off -1" or "2 landing +0.5"`

// Parse reads a plan file for course c and team t; name is what problems call the
// file. Lengths are in the file's own units, else in the course's. c must have
// been checked; t may be nil, then only the words everybody has are known.
//
// The error holds every problem of the file (tomlfile.Problems), those that Check
// finds included. A plan that is for another course has that one problem beside
// those of its writing.
func Parse(name string, src []byte, c *course.Course, t *team.Team) (*Plan, error) {
	doc, err := tomlfile.Parse(name, src)
	if err != nil {
		return nil, err
	}
	r := &reader{root: doc.Root(), unread: map[int]map[string]bool{}}
	if !r.root.Has("plan") && r.otherKind() {
		return nil, doc.Err()
	}
	p := r.plan(name, c.Units)
	if p.For != "" && p.For != c.Name {
		r.root.Problem("for", elsewhere(p.For, c.Name), elsewhereHint)
	} else {
		r.check(&checker{p: p, c: c, t: t, unread: r.unread})
	}
	doc.Done()
	if err := doc.Err(); err != nil {
		return nil, err
	}
	return p, nil
}

// reader reads a plan from its file's tables.
type reader struct {
	root   *tomlfile.Table
	cues   []*tomlfile.Table
	units  course.Units
	unread map[int]map[string]bool // keys with values that could not be used
}

// otherKind notes that the file is of another kind, where it is.
func (r *reader) otherKind() bool {
	for _, kind := range []string{"course", "team"} {
		if r.root.Has(kind) {
			r.root.KeyProblem(kind, "this is a "+kind+" file, not a plan", `a plan file begins with plan = "name"`)
			return true
		}
	}
	return false
}

// plan reads everything that needs no course.
func (r *reader) plan(name string, units course.Units) *Plan {
	p := &Plan{File: name}
	var ok bool
	if p.Name, ok = r.root.String("plan"); !ok {
		r.root.Missing("plan", `begin the file with plan = "name"`)
		r.failed(-1, "plan")
	}
	p.For, _ = r.root.String("for")
	r.units = readUnits(r.root, units)
	if p.LeadOut, ok = r.point(r.root, "lead-out", -1); !ok {
		r.root.Missing("lead-out", "write lead-out = [x, y]: where the handler stands when the dog is released")
		r.failed(-1, "lead-out")
	}
	r.cues, _ = r.root.Tables("cue")
	for i, tab := range r.cues {
		p.Cues = append(p.Cues, r.cue(i, tab))
	}
	return p
}

func readUnits(root *tomlfile.Table, units course.Units) course.Units {
	switch u, _ := root.Word("units", course.Metres.String(), course.Feet.String()); u {
	case course.Metres.String():
		return course.Metres
	case course.Feet.String():
		return course.Feet
	}
	return units
}

func (r *reader) failed(cue int, key string) {
	if r.unread[cue] == nil {
		r.unread[cue] = map[string]bool{}
	}
	r.unread[cue][key] = true
}

func (r *reader) point(tab *tomlfile.Table, key string, cue int) (geom.Point, bool) {
	xy, ok := tab.Point(key)
	if !ok {
		if tab.Has(key) {
			r.failed(cue, key)
		}
		return geom.Point{}, false
	}
	f := r.units.Factor()
	return geom.Point{X: xy[0] * f, Y: xy[1] * f}, true
}

func (r *reader) cue(i int, tab *tomlfile.Table) Cue {
	cue := Cue{Line: tab.Line("")}
	r.when(i, tab, &cue)
	cue.Stand, cue.HasStand = r.point(tab, "stand", i)
	cue.Pace = Pace(r.word(i, tab, "pace", paceNames))
	cue.Arm = Arm(r.word(i, tab, "arm", armNames))
	cue.Signal = Signal(r.word(i, tab, "signal", signalNames))
	cue.Cross = Cross(r.word(i, tab, "cross", crossNames))
	r.shoulders(i, tab, &cue)
	if w, ok := tab.String("word"); ok {
		if cue.Word = w; w == "" {
			tab.Problem("word", "the word is empty", "write a word, or delete the line")
		}
	}
	return cue
}

// word reads one of names, of which an empty one cannot be written, and returns
// its index: 0 where there is none.
func (r *reader) word(i int, tab *tomlfile.Table, key string, names []string) int {
	first := 0
	if names[0] == "" {
		first = 1
	}
	w, ok := tab.Word(key, names[first:]...)
	if !ok {
		if tab.Has(key) {
			r.failed(i, key)
		}
		return 0
	}
	for k := first; k < len(names); k++ {
		if names[k] == w {
			return k
		}
	}
	return 0
}

func (r *reader) when(i int, tab *tomlfile.Table, cue *Cue) {
	s, ok := tab.String("when")
	if !ok {
		tab.Missing("when", `write when = "2 take-off -1": course number, moment, strides before or after it`)
		r.failed(i, "when")
		return
	}
	var err error
	if cue.When, err = ParseMoment(s); err != nil {
		tab.Problem("when", err.Error(), momentHint(s))
		r.failed(i, "when")
	}
}

// momentHint says what to write for what is no moment.
func momentHint(s string) string {
	f := strings.Fields(s)
	words := f
	if len(f) > 0 {
		if _, err := strconv.Atoi(f[0]); err == nil {
			words = f[1:]
		}
	}
	if len(words) > 0 {
		if near := tomlfile.Nearest(words[0], eventNames); near != "" && near != words[0] {
			return "did you mean " + tomlfile.Show(near) + "?"
		}
	}
	if _, err := ParseMoment(strings.Join(f[:min(2, len(f))], " ")); err == nil {
		return stridesHint
	}
	return `write "release", or a course number and take-off, landing, entry or exit, such as "2 take-off -1"`
}

// shoulders reads a word, "to 7", or a heading in degrees.
func (r *reader) shoulders(i int, tab *tomlfile.Table, cue *Cue) {
	const key = "shoulders"
	if !tab.Has(key) {
		tab.String(key) // known, though not there
		return
	}
	if !isText(tab, key) {
		if deg, ok := tab.Float(key, -360, 360); ok {
			cue.Shoulders = Shoulders{Facing: FaceHeading, Heading: geom.Deg(deg)}
		} else {
			r.failed(i, key)
		}
		return
	}
	s, _ := tab.String(key)
	var ok bool
	if cue.Shoulders, ok = parseFacing(s); !ok {
		r.failed(i, key)
		hint := `write "next", "way", "dog", "to 7" (a course number) or a heading in degrees without quotes: shoulders = 90`
		if x, err := strconv.ParseFloat(s, 64); err == nil && !math.IsNaN(x) && !math.IsInf(x, 0) {
			hint = "write a heading without quotes: shoulders = " + tomlfile.Number(x)
		} else if near := tomlfile.Nearest(s, []string{"next", "way", "dog"}); near != "" {
			hint = "did you mean " + tomlfile.Show(near) + "?"
		}
		tab.Problem(key, fmt.Sprintf("%s is nothing the shoulders can face", tomlfile.Show(s)), hint)
	}
}

// isText reports whether a key's value is a text: only then has its inside a place
// of its own.
func isText(tab *tomlfile.Table, key string) bool {
	return tab.InsidePos(key, 0) != tab.ValuePos(key)
}

// parseFacing reads what is written of shoulders as text.
func parseFacing(s string) (Shoulders, bool) {
	switch f := strings.Fields(s); {
	case s == "next":
		return Shoulders{Facing: FaceNext}, true
	case s == "way":
		return Shoulders{Facing: FaceWay}, true
	case s == "dog":
		return Shoulders{Facing: FaceDog}, true
	case len(f) == 2 && f[0] == "to":
		n, err := strconv.Atoi(f[1])
		return Shoulders{Facing: FaceNumber, Number: n}, err == nil
	}
	return Shoulders{}, false
}

// check notes what is wrong with the plan on its course, each at its key.
func (r *reader) check(k *checker) {
	for _, f := range k.all() {
		tab := r.root
		if f.Cue >= 0 {
			tab = r.cues[f.Cue]
		}
		tab.Problem(f.Key, f.Text, f.Hint)
	}
}
