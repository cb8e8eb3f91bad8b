package plan

import (
	"fmt"
	"strings"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/course/tomlfile"
	"cuewalk/plan/team"
)

// MostCues is how many cues a plan may have.
const MostCues = 1000

// Fault is one thing wrong with a plan on its course: which cue (-1 for the plan
// itself), which key of it, what is wrong and what to write instead.
type Fault struct {
	Cue        int
	Key        string
	Text, Hint string
}

// String is the fault on one line, with the cue's number counted from 1.
func (f Fault) String() string {
	s := f.Text
	if f.Cue >= 0 {
		s = fmt.Sprintf("cue %d: %s", f.Cue+1, s)
	}
	if f.Hint != "" {
		s += "; " + f.Hint
	}
	return s
}

// Check returns everything that keeps p from being run on course c by team t, in
// the order of the cues; nil where nothing does. t may be nil: then the handler is
// the average one and only the words everybody has are known.
func (p *Plan) Check(c *course.Course, t *team.Team) []Fault {
	return (&checker{p: p, c: c, t: t}).all()
}

// Validate returns what Check finds, each as one line of text.
func (p *Plan) Validate(c *course.Course, t *team.Team) []string {
	faults := p.Check(c, t)
	texts := make([]string, len(faults))
	for i, f := range faults {
		texts[i] = f.String()
	}
	return texts
}

// checker looks at one plan. unread says which keys of a cue (-1 for the plan)
// could not be read from the file: nothing is said of what would follow from them.
type checker struct {
	p      *Plan
	c      *course.Course
	t      *team.Team
	unread map[int]map[string]bool
	bad    []bool // cues whose moment cannot be used
	line   *line
	faults []Fault
}

func (k *checker) note(cue int, key, text, hint string) {
	k.faults = append(k.faults, Fault{cue, key, text, hint})
}

func (k *checker) all() []Fault {
	if k.t == nil {
		t, _ := team.Preset("large", "average")
		k.t = &t
	}
	k.bad = make([]bool, len(k.p.Cues))
	if len(k.p.Cues) > MostCues {
		k.note(-1, "cue", fmt.Sprintf("the plan has %d cues", len(k.p.Cues)), fmt.Sprintf("write at most %d", MostCues))
		return k.faults
	}
	k.plan()
	k.line = newLine(k.c)
	for i := range k.p.Cues {
		k.cue(i)
	}
	k.ways()
	k.crosses()
	return k.faults
}

func (k *checker) plan() {
	if strings.TrimSpace(k.p.Name) == "" && !k.unread[-1]["plan"] {
		k.note(-1, "plan", "the plan has no name", `write plan = "name"`)
	}
	if k.p.For != "" && k.p.For != k.c.Name {
		k.note(-1, "for", elsewhere(k.p.For, k.c.Name), elsewhereHint)
	}
	if !k.unread[-1]["lead-out"] {
		k.stand(-1, "lead-out", k.p.LeadOut)
	}
}

const elsewhereHint = "give the course it is for, or change or delete this line"

func elsewhere(planFor, courseName string) string {
	return fmt.Sprintf("the plan is for %s, the course is %s", tomlfile.Show(planFor), tomlfile.Show(courseName))
}

func (k *checker) cue(i int) {
	cue := &k.p.Cues[i]
	if k.unread[i]["when"] {
		k.bad[i] = true
	} else if text, hint := k.moment(cue.When); text != "" {
		k.bad[i] = true
		k.note(i, "when", text, hint)
	} else {
		k.order(i)
	}
	if cue.HasStand {
		k.stand(i, "stand", cue.Stand)
	}
	if s := cue.Shoulders; s.Facing == FaceNumber && (s.Number < 1 || s.Number > len(k.c.Order)) {
		k.note(i, "shoulders", fmt.Sprintf("the course has no number %d", s.Number), k.numbersHint())
	}
	if cue.Word != "" {
		if _, ok := k.t.Meaning(cue.Word); !ok {
			k.note(i, "word", fmt.Sprintf("unknown word %s", tomlfile.Show(cue.Word)), wordHint(cue.Word, k.t))
		}
	}
}

func (k *checker) numbersHint() string {
	return fmt.Sprintf("write a number from 1 to %d", len(k.c.Order))
}

// wordHint names the words a team has.
func wordHint(word string, t *team.Team) string {
	all := t.Vocabulary()
	hint := "known are " + strings.Join(all, ", ")
	if near := tomlfile.Nearest(word, all); near != "" {
		hint = "did you mean " + tomlfile.Show(near) + "? " + hint
	}
	if len(t.Words) == 0 {
		hint += `; a word of your own goes into [words] of the team file`
	}
	return hint
}

// moment says what is wrong with a moment on this course; nothing where text is empty.
func (k *checker) moment(m Moment) (text, hint string) {
	switch {
	case m.Strides < -MostStrides || m.Strides > MostStrides || m.Strides*2 != float64(int(m.Strides*2)):
		return fmt.Sprintf("%q has strides that cannot be", m), stridesHint
	case m.Event == Release && m.Strides < 0:
		return fmt.Sprintf("%q is before the dog is released", m), `write "release" or strides after it: "release +1"`
	case m.Event == Release:
		return "", ""
	case m.Number < 1 || m.Number > len(k.c.Order):
		return fmt.Sprintf("the course has no number %d", m.Number), k.numbersHint()
	}
	kind := k.c.Obstacles[k.c.Order[m.Number-1].Obstacle].Kind
	before, after := EventsOf(kind)
	if m.Event == before || m.Event == after {
		return "", ""
	}
	right := m
	right.Event = before
	if m.Event.After() {
		right.Event = after
	}
	return fmt.Sprintf("number %d is %s: it has %s and %s, no %s", m.Number, kind.One(), before, after, m.Event),
		fmt.Sprintf("write %q", right)
}

// order notes a cue that does not come after the one before it.
func (k *checker) order(i int) {
	j := i - 1
	for j >= 0 && k.bad[j] {
		j--
	}
	if j < 0 || k.p.Cues[j].When.Before(k.p.Cues[i].When) {
		return
	}
	m, before := k.p.Cues[i].When, k.p.Cues[j].When
	if !m.Before(before) {
		k.note(i, "when", fmt.Sprintf("%q is the moment of the cue before already", m), "join the two, or shift one by half a stride")
		return
	}
	k.note(i, "when", fmt.Sprintf("%q comes before %q, the cue above it", m, before), "put the cues in the order of the run")
}

func (k *checker) stand(i int, key string, at geom.Point) {
	if !at.Finite() {
		k.note(i, key, "the place is not made of ordinary numbers", "write [x, y]")
		return
	}
	if off := outside(k.c, at); off > beyondRing {
		far := show(k.c, off) + " outside the ring"
		if off > 1e6 { // no length to write out
			far = "far outside the ring"
		}
		k.note(i, key, "he would stand "+far,
			fmt.Sprintf("the ring is %s wide and %s long, counted from its lower left corner; at most %s outside it",
				show(k.c, k.c.Ring.X), show(k.c, k.c.Ring.Y), show(k.c, beyondRing)))
		return
	}
	if o := standsIn(k.c, at); o >= 0 {
		k.note(i, key, "he would stand in the "+place(k.c, o), "move him beside it")
	}
}

// ways notes stands that cannot be reached from the one before.
func (k *checker) ways() {
	var all []geom.Segment
	var room []geom.Point
	from, known := k.p.LeadOut, !k.unread[-1]["lead-out"] && k.free(k.p.LeadOut)
	for i := range k.p.Cues {
		cue := &k.p.Cues[i]
		if !cue.HasStand {
			known = known && !k.unread[i]["stand"]
			continue
		}
		free := k.free(cue.Stand)
		if known && free {
			if all == nil {
				all = walls(k.c)
			}
			if _, ok := geom.Way(from, cue.Stand, all, k.t.Handler.Body, room[:0]); !ok {
				k.note(i, "stand", "there is no way for him to here from his stand before: obstacles close it off", "move one of the two stands")
			}
		}
		from, known = cue.Stand, free
	}
}

// free reports whether somebody can stand at p at all.
func (k *checker) free(p geom.Point) bool {
	return p.Finite() && outside(k.c, p) <= beyondRing && standsIn(k.c, p) < 0
}
