package learn

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
)

// Radius is how near to the stand an answer must be, in metres: about a stride of a
// person. Nobody stands to a hand's breadth (C).
const Radius = 1.5

// Field is one of the things that a cue sets and that are asked.
type Field struct {
	Name    string   // "pace", "arm", "cross", "signal", "shoulders", "word"
	Options []string // what may be chosen; empty where it is typed
	Right   string   // as written in the plan
}

// Question asks for what a cue sets, and for nothing else.
type Question struct {
	Cue      int    // index in the plan's cues
	Ask      string // "7 is done: what now?"
	Moment   string // when the cue comes; told with the answer
	HasPlace bool   // where is asked too
	Place    geom.Point
	Fields   []Field
}

// Answer is what the handler says: a place, and a word for each field of the question.
type Answer struct {
	Place  geom.Point
	Placed bool // a place was pointed at
	Words  []string
}

// Verdict is what of an answer was right.
type Verdict struct {
	Right bool    // all of it
	Place bool    // within Radius of the stand, or not asked
	Off   float64 // metres from the stand; NaN where no place was pointed at
	Words []bool  // by field
}

// Ask makes the question for cue k of a plan. The moment itself is not told: what comes
// before it is.
func Ask(c *course.Course, p *plan.Plan, k int) Question {
	cue := &p.Cues[k]
	q := Question{Cue: k, Ask: asking(cue.When), Moment: cue.When.String(), HasPlace: cue.HasStand, Place: cue.Stand}
	add := func(name, right string, options ...string) {
		if right != "" {
			q.Fields = append(q.Fields, Field{name, options, right})
		}
	}
	signal := ""
	if cue.Signal != plan.Along {
		signal = cue.Signal.String()
	}
	add("pace", cue.Pace.String(), "run", "jog", "walk", "stop")
	add("arm", cue.Arm.String(), "left", "right")
	add("cross", cue.Cross.String(), "front", "blind", "rear")
	add("signal", signal, "pull", "push")
	add("shoulders", shoulders(cue.Shoulders), facings(c, cue)...)
	add("word", cue.Word)
	return q
}

// asking tells where the dog is: what it has done last.
func asking(m plan.Moment) string {
	switch {
	case m.Event == plan.Release:
		return "The dog is released: what now?"
	case m.Number == 1 && !m.Event.After():
		return "The dog is on its way to 1: what now?"
	case m.Event.After():
		return fmt.Sprintf("The dog is at %d: what now?", m.Number)
	}
	return fmt.Sprintf("%d is done: what now?", m.Number-1)
}

func shoulders(s plan.Shoulders) string {
	switch s.Facing {
	case plan.FaceNext:
		return "next"
	case plan.FaceWay:
		return "way"
	case plan.FaceDog:
		return "dog"
	case plan.FaceNumber:
		return "to " + strconv.Itoa(s.Number)
	case plan.FaceHeading:
		return "heading " + strconv.Itoa(int(math.Round(s.Heading.Compass().Degrees()))%360)
	}
	return ""
}

// facings are what shoulders may be told: the usual ones, the numbers about the cue, and
// the heading the plan says among its quarter turns.
func facings(c *course.Course, cue *plan.Cue) []string {
	out := []string{"next", "way", "dog"}
	for n := max(1, cue.When.Number-1); n <= min(len(c.Order), cue.When.Number+2); n++ {
		out = append(out, "to "+strconv.Itoa(n))
	}
	right := shoulders(cue.Shoulders)
	if cue.Shoulders.Facing == plan.FaceHeading {
		at := int(math.Round(cue.Shoulders.Heading.Compass().Degrees()))
		for turn := range 4 {
			out = append(out, "heading "+strconv.Itoa(((at%90)+turn*90)%360))
		}
	}
	if right != "" && !slices.Contains(out, right) {
		out = append(out, right)
	}
	return out
}

// Judge compares an answer with the plan. Words count as said: capitals and blanks around
// them do not matter.
func (q *Question) Judge(a Answer) Verdict {
	v := Verdict{Right: true, Place: true, Off: math.NaN()}
	if q.HasPlace {
		if a.Placed {
			v.Off = a.Place.Dist(q.Place)
		}
		v.Place = a.Placed && v.Off <= Radius
	}
	v.Right = v.Place
	for i, f := range q.Fields {
		said := ""
		if i < len(a.Words) {
			said = a.Words[i]
		}
		ok := strings.EqualFold(strings.TrimSpace(said), strings.TrimSpace(f.Right))
		v.Words = append(v.Words, ok)
		v.Right = v.Right && ok
	}
	return v
}

// Known tells one cue from another: what it sets and when, for knowing again after the
// plan has changed which cues are as they were.
func Known(cue *plan.Cue) string {
	place := ""
	if cue.HasStand {
		place = fmt.Sprintf(" at %.1f,%.1f", cue.Stand.X, cue.Stand.Y)
	}
	return strings.Join(strings.Fields(fmt.Sprintf("%s%s %s %s %s %s %s %q", cue.When, place, cue.Pace, cue.Arm, cue.Cross,
		cue.Signal, shoulders(cue.Shoulders), cue.Word)), " ")
}
