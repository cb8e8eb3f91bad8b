package words

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"cuewalk/plan"
	"cuewalk/sim"
)

// CueName is the name of action i: "lead-out" for 0, else "cue 4".
func CueName(i int) string {
	if i <= 0 {
		return "lead-out"
	}
	return "cue " + strconv.Itoa(i)
}

// Cue says the whole of action i of s:
//
//	cue 4: "7 take-off -1": stand (12.5, 8.0), stop, left arm, front cross, "here"
func Cue(s *sim.Setup, i int) string {
	if i < 0 || i >= len(s.Actions) {
		return "no cue"
	}
	return CueName(i) + ": " + CueRest(s, i)
}

// CueRest is Cue without the cue's number.
func CueRest(s *sim.Setup, i int) string {
	a := s.Actions[i]
	does := strings.Join(Does(s, i), ", ")
	if i == 0 {
		return does
	}
	return `"` + a.When.String() + `": ` + does
}

// Does lists what the handler does in action i of s, in the trade's words.
func Does(s *sim.Setup, i int) []string {
	a := &s.Actions[i]
	var d []string
	add := func(w string) {
		if w != "" {
			d = append(d, w)
		}
	}
	if a.HasStand {
		add("stand " + Place(s.Course.Units, a.Stand))
	}
	add(a.Pace.String())
	if a.Arm != plan.SameArm {
		add(a.Arm.String() + " arm")
	}
	if a.Signal != plan.Along {
		add(a.Signal.String())
	}
	if a.Cross == plan.NoCross { // a cross turns the shoulders by itself
		add(Shoulders(a.Shoulders))
	}
	if a.Manoeuvre != plan.LeadOut {
		add(a.Manoeuvre.String())
	}
	if a.Spoken != "" {
		add(`"` + Safe(a.Spoken) + `"`)
	}
	return d
}

// Shoulders says where the chest faces, where that is not simply his way.
func Shoulders(sh plan.Shoulders) string {
	switch sh.Facing {
	case plan.FaceDog:
		return "shoulders to the dog"
	case plan.FaceNumber:
		return "shoulders to " + strconv.Itoa(sh.Number)
	case plan.FaceHeading:
		return fmt.Sprintf("shoulders to heading %d", int(math.Round(sh.Heading.Compass().Degrees()))%360)
	}
	return ""
}

// Timing says what became of a cue: "given at 3.2 s, on time, read before the take-off of 7".
func Timing(r *sim.Rehearsal, c sim.CueTiming) string {
	if c.Sample < 0 {
		return "its moment never came"
	}
	s := "given at " + Seconds(c.Given) + ", " + Lateness(r, c)
	if read := Read(r, c); read != "" {
		s += ", " + read
	}
	return s
}

// Lateness says whether the handler was where he wanted to be: "on time", "0.4 s late, 1.2 m
// short of the stand", or "cannot be reached: 0.8 s short at a run".
func Lateness(r *sim.Rehearsal, c sim.CueTiming) string {
	if c.Sample < 0 {
		return "never given"
	}
	if c.Late < 0.05 {
		return "on time"
	}
	if c.Short >= 0.05 {
		return "cannot be reached: " + Seconds(c.Short) + " short at a run"
	}
	return Seconds(c.Late) + " late, " + Length(r.Setup.Course.Units, c.Off) + " short of the stand"
}

// Read says whether the dog has read the cue before the take-off or entry that it had to be
// read before; empty where it is for none.
func Read(r *sim.Rehearsal, c sim.CueTiming) string {
	n := c.Obstacle
	if n < 1 || n > len(r.Setup.Course.Order) || c.Sample < 0 {
		return ""
	}
	what := "entry"
	if r.Setup.Course.Obstacles[r.Setup.Course.Order[n-1].Obstacle].Kind.Jumped() {
		what = "take-off"
	}
	if c.ReadInTime {
		return fmt.Sprintf("read before the %s of %d", what, n)
	}
	return fmt.Sprintf("read too late for the %s of %d", what, n)
}
