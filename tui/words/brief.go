package words

import (
	"math"
	"strconv"
	"strings"

	"cuewalk/plan"
	"cuewalk/sim"
)

// Brief is a cue in the fewest words, to be learnt by heart: at most five words in all, the
// word said counting as one.
type Brief struct {
	Moment string   // when: "1 before 7"
	What   string   // what he does: "rear cross"
	Arm    string   // "left", "right"
	Word   string   // what he says, safe; empty for nothing
	Also   []string // what did not go in
}

// wordy is how many words there may be of what he does.
const wordy = 2

// CueBrief is action i of s in the fewest words.
func CueBrief(s *sim.Setup, i int) Brief {
	a := &s.Actions[i]
	b := Brief{Moment: Moment(a.When), Arm: a.Arm.String(), Word: Safe(a.Spoken)}
	var what []string
	n := 0
	for _, d := range briefly(s, i) {
		if k := len(strings.Fields(d)); n+k <= wordy {
			what, n = append(what, d), n+k
			continue
		}
		b.Also = append(b.Also, d)
	}
	b.What = strings.Join(what, ", ")
	return b
}

// briefly lists what is new in action i, what matters most first.
func briefly(s *sim.Setup, i int) []string {
	a := &s.Actions[i]
	if i == 0 {
		return []string{"wait"}
	}
	was := &s.Actions[i-1]
	var d []string
	if a.Manoeuvre != plan.NoManoeuvre && a.Manoeuvre != plan.LeadOut {
		d = append(d, a.Manoeuvre.String())
	}
	if a.Signal != plan.Along {
		d = append(d, a.Signal.String())
	}
	if a.Pace != was.Pace {
		d = append(d, a.Pace.String())
	}
	if a.Cross == plan.NoCross && a.Shoulders != was.Shoulders {
		if f := facingBriefly(a.Shoulders); f != "" {
			d = append(d, f)
		}
	}
	switch {
	case d != nil:
		return d
	case a.Arm != was.Arm:
		return []string{"change arm"}
	case a.Pace == plan.Stop:
		return []string{"stay"}
	case a.Pace != plan.SamePace:
		return []string{a.Pace.String() + " on"}
	}
	return []string{"go on"}
}

func facingBriefly(sh plan.Shoulders) string {
	switch sh.Facing {
	case plan.FaceDog:
		return "face dog"
	case plan.FaceNumber:
		return "face " + strconv.Itoa(sh.Number)
	case plan.FaceHeading:
		return "face " + strconv.Itoa(int(math.Round(sh.Heading.Compass().Degrees()))%360)
	case plan.FaceWay:
		return "face way"
	case plan.FaceNext:
		return "face next"
	}
	return ""
}

// Moment says when in the fewest words: "release", "1½ before 7" for strides before its
// take-off or entry, "2 after 7" for strides after its landing or exit, else "landing 7 -1".
func Moment(m plan.Moment) string {
	if m.Event == plan.Release {
		if m.Strides == 0 {
			return m.Event.String()
		}
		return m.Event.String() + " " + signedHalves(m.Strides)
	}
	n := strconv.Itoa(m.Number)
	switch {
	case m.Strides == 0:
		return m.Event.String() + " " + n
	case m.Strides < 0 && !m.Event.After():
		return Halves(-m.Strides) + " before " + n
	case m.Strides > 0 && m.Event.After():
		return Halves(m.Strides) + " after " + n
	}
	return m.Event.String() + " " + n + " " + signedHalves(m.Strides)
}

func signedHalves(x float64) string {
	if x < 0 {
		return "-" + Halves(-x)
	}
	return "+" + Halves(x)
}

// Halves writes a number of 0 or more to the nearest half: "2", "1½", "½".
func Halves(x float64) string {
	n := int(math.Round(2 * x))
	switch {
	case n == 1:
		return "½"
	case n%2 == 1:
		return strconv.Itoa(n/2) + "½"
	}
	return strconv.Itoa(n / 2)
}

// InTen is a chance as a person feels it: "about 3 in 10".
func InTen(p float64) string {
	switch n := int(math.Round(10 * p)); {
	case math.IsNaN(p):
		return "unknown"
	case n <= 0:
		return "fewer than 1 in 10"
	case n >= 10:
		return "nearly always"
	default:
		return "about " + strconv.Itoa(n) + " in 10"
	}
}
