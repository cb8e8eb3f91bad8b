package tui

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/tui/words"
)

// field is one value of a cue that arrows change and Enter types.
type field struct {
	name  string // of its row
	what  string // in the name of the change: "move stand of cue 4"
	show  func(e *editing) string
	step  func(e *editing, dir int) bool
	set   func(e *editing, text string) error // from text as in files
	clear func(e *editing)                    // back to "as before"; nil where there is no such thing
}

// editing is a cue on its way to another value. The lead-out is edited as a cue that has
// nothing but a stand.
type editing struct {
	m      *Model
	action int
	cue    plan.Cue
	solved plan.Action // what it comes to with what stayed from before
	here   geom.Point  // where the handler is when the cue comes
}

const before = "as before"

var (
	standFields = []field{
		{name: "stand", what: "move the stand of", show: func(e *editing) string { return e.standing(e.cue.Stand.X) },
			step: func(e *editing, dir int) bool { return e.moveStand(dir, 0) }, set: (*editing).setStand, clear: (*editing).noStand},
		{name: "", what: "move the stand of", show: func(e *editing) string { return e.standing(e.cue.Stand.Y) },
			step: func(e *editing, dir int) bool { return e.moveStand(0, dir) }, set: (*editing).setStand, clear: (*editing).noStand},
	}
	cueFields = append(append([]field{
		{name: "when", what: "move the moment of", show: func(e *editing) string { return numberText(e.cue.When) }, step: (*editing).number, set: (*editing).setWhen},
		{name: "", what: "move the moment of", show: (*editing).eventText, step: (*editing).event, set: (*editing).setWhen},
		{name: "shift", what: "shift", show: func(e *editing) string { return signed(e.cue.When.Strides) + " strides" }, step: (*editing).shift, set: (*editing).setWhen},
	}, standFields...), []field{
		list("pace", plan.Paces(), func(e *editing) *plan.Pace { return &e.cue.Pace }, func(e *editing) string { return e.solved.Pace.String() }),
		list("arm", plan.Arms(), func(e *editing) *plan.Arm { return &e.cue.Arm }, func(e *editing) string { return e.solved.Arm.String() }),
		list("signal", plan.Signals(), func(e *editing) *plan.Signal { return &e.cue.Signal }, nil),
		{name: "shoulders", what: "turn the shoulders of", show: (*editing).facing, step: (*editing).turn, set: (*editing).face,
			clear: func(e *editing) { e.cue.Shoulders = plan.Shoulders{} }},
		list("cross", plan.Crosses(), func(e *editing) *plan.Cross { return &e.cue.Cross }, nil),
		{name: "word", what: "change the word of", show: (*editing).word, step: (*editing).nextWord,
			set:   func(e *editing, s string) error { e.cue.Word = s; return nil },
			clear: func(e *editing) { e.cue.Word = "" }},
	}...)
)

// list is a field with a fixed list of words, the first of which means none; stayed says
// what holds instead, where something does.
func list[T ~uint8](name string, all []string, at func(e *editing) *T, stayed func(e *editing) string) field {
	return field{
		name: name, what: "change the " + name + " of",
		show: func(e *editing) string {
			switch v := *at(e); {
			case v != 0 || all[0] != "":
				return all[v]
			case stayed != nil && stayed(e) != "":
				return before + " (" + stayed(e) + ")"
			case stayed != nil:
				return before
			}
			return "none"
		},
		step: func(e *editing, dir int) bool {
			n := T(len(all))
			*at(e) = (*at(e) + n + T(dir)) % n
			return true
		},
		set: func(e *editing, s string) error {
			for i, w := range all {
				if w == s {
					*at(e) = T(i)
					return nil
				}
			}
			return fmt.Errorf("%q is none of %s", s, strings.Join(all[btoi(all[0] == ""):], ", "))
		},
		clear: func(e *editing) { *at(e) = 0 },
	}
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

func signed(x float64) string {
	s := strconv.FormatFloat(x, 'f', -1, 64)
	if x > 0 {
		return "+" + s
	}
	return s
}

func numberText(w plan.Moment) string {
	if w.Event == plan.Release {
		return "release"
	}
	return strconv.Itoa(w.Number)
}

// shift moves the moment by half strides.
func (e *editing) shift(dir int) bool {
	s := e.cue.When.Strides + float64(dir)/2
	if s < -20 || s > 20 || e.cue.When.Event == plan.Release && s < 0 {
		return false
	}
	e.cue.When.Strides = s
	return true
}

// number moves the moment to the number before or after; before 1 comes the release.
func (e *editing) number(dir int) bool {
	n := e.cue.When.Number + dir
	if n < 0 || n > len(e.m.s.Course().Order) {
		return false
	}
	after := e.cue.When.Event.After()
	e.cue.When.Number = n
	if n == 0 {
		e.cue.When.Event = plan.Release
		e.cue.When.Strides = math.Max(e.cue.When.Strides, 0)
	} else {
		e.cue.When.Event = eventOf(e.m.kindOf(n), after)
	}
	return true
}

// eventText is the moment's event; the release is said by the number already.
func (e *editing) eventText() string {
	if e.cue.When.Event == plan.Release {
		return "-"
	}
	return e.cue.When.Event.String()
}

func eventOf(k course.Kind, after bool) plan.Event {
	switch {
	case k.Jumped() && after:
		return plan.Landing
	case k.Jumped():
		return plan.TakeOff
	case after:
		return plan.Exit
	}
	return plan.Enter
}

func (e *editing) event(int) bool {
	w := &e.cue.When
	if w.Event == plan.Release {
		return false
	}
	w.Event = eventOf(e.m.kindOf(w.Number), !w.Event.After())
	return true
}

func (e *editing) setWhen(s string) error {
	w, err := plan.ParseMoment(s)
	if err == nil {
		e.cue.When = w
	}
	return err
}

// stridesOfMap is how far an arrow moves a stand: half a metre, or a foot.
func (e *editing) stepOfMap() float64 {
	if e.m.s.Course().Units == course.Feet {
		return course.FootLength
	}
	return .5
}

func (e *editing) standing(x float64) string {
	if !e.cue.HasStand {
		return "none"
	}
	return strings.TrimSuffix(words.Length(e.m.s.Course().Units, x), " "+e.m.s.Course().Units.String())
}

// farthestHop is how many steps a stand is moved on to get past what cannot be stood in.
const farthestHop = 12

func (e *editing) moveStand(x, y int) bool {
	d := e.stepOfMap()
	if !e.cue.HasStand {
		e.cue.HasStand = true
		e.cue.Stand = geom.Point{X: math.Round(e.here.X/d) * d, Y: math.Round(e.here.Y/d) * d}
	}
	from := e.cue.Stand
	for k := 1; k <= farthestHop; k++ {
		e.cue.Stand = from.Add(geom.Point{X: d * float64(k*x), Y: d * float64(k*y)})
		if e.m.fits(e) {
			return true
		}
	}
	e.cue.Stand = from.Add(geom.Point{X: d * float64(x), Y: d * float64(y)})
	return true
}

func (e *editing) setStand(s string) error {
	f := strings.FieldsFunc(s, func(r rune) bool { return strings.ContainsRune(" ,()[]", r) })
	if len(f) == 2 {
		x, errX := strconv.ParseFloat(f[0], 64)
		y, errY := strconv.ParseFloat(f[1], 64)
		if p := (geom.Point{X: x, Y: y}).Mul(e.m.s.Course().Units.Factor()); errX == nil && errY == nil && p.Finite() {
			e.cue.Stand, e.cue.HasStand = p, true
			return nil
		}
	}
	return fmt.Errorf("%q is no place; write two numbers such as 7.5 13", s)
}

func (e *editing) noStand() { e.cue.HasStand, e.cue.Stand = false, geom.Point{} }

func (e *editing) facing() string {
	sh := e.cue.Shoulders
	switch sh.Facing {
	case plan.FaceNext:
		return "next"
	case plan.FaceWay:
		return "way"
	case plan.FaceDog:
		return "dog"
	case plan.FaceNumber:
		return "to " + strconv.Itoa(sh.Number)
	case plan.FaceHeading:
		return strconv.Itoa(int(math.Round(sh.Heading.Compass().Degrees()))%360) + " degrees"
	}
	if e.cue.Cross != plan.NoCross {
		return "by the cross"
	}
	if s := words.Shoulders(e.solved.Shoulders); s != "" {
		return before + " (" + strings.TrimPrefix(s, "shoulders ") + ")"
	}
	return before
}

// turn goes through: as before, next, way, dog, the numbers about the cue's own; a heading is turned
// by 15 degrees.
func (e *editing) turn(dir int) bool {
	sh := &e.cue.Shoulders
	if sh.Facing == plan.FaceHeading {
		sh.Heading = (sh.Heading + geom.Deg(15*float64(dir))).Wrap()
		return true
	}
	all := []plan.Shoulders{{}, {Facing: plan.FaceNext}, {Facing: plan.FaceWay}, {Facing: plan.FaceDog}}
	for n := max(e.cue.When.Number, 1); n <= min(e.cue.When.Number+3, len(e.m.s.Course().Order)); n++ {
		all = append(all, plan.Shoulders{Facing: plan.FaceNumber, Number: n})
	}
	at := len(all) - 1
	for i, s := range all {
		if s == *sh {
			at = i
		}
	}
	*sh = all[(at+dir+len(all))%len(all)]
	return true
}

// face reads shoulders as in files: next, way, dog, to 7, or a heading in degrees.
func (e *editing) face(s string) error {
	var n int
	s = strings.TrimSuffix(strings.TrimSpace(s), " degrees")
	deg, err := strconv.ParseFloat(s, 64)
	switch _, scan := fmt.Sscanf(s, "to %d", &n); {
	case s == "next":
		e.cue.Shoulders = plan.Shoulders{Facing: plan.FaceNext}
	case s == "way":
		e.cue.Shoulders = plan.Shoulders{Facing: plan.FaceWay}
	case s == "dog":
		e.cue.Shoulders = plan.Shoulders{Facing: plan.FaceDog}
	case scan == nil:
		e.cue.Shoulders = plan.Shoulders{Facing: plan.FaceNumber, Number: n}
	case err == nil && math.Abs(deg) <= 360:
		e.cue.Shoulders = plan.Shoulders{Facing: plan.FaceHeading, Heading: geom.Deg(deg).Wrap()}
	default:
		return fmt.Errorf("%q is none of next, way, dog, to 7, or a heading such as 90", s)
	}
	return nil
}

func (e *editing) word() string {
	if e.cue.Word == "" {
		return "none"
	}
	return `"` + words.Safe(e.cue.Word) + `"`
}

func (e *editing) nextWord(dir int) bool {
	all := append([]string{""}, e.m.wordsKnown()...)
	at := -1
	for i, w := range all {
		if w == e.cue.Word {
			at = i
		}
	}
	e.cue.Word = all[(max(at, 0)+dir+len(all))%len(all)]
	return true
}
