package words

import (
	"strconv"
	"strings"

	"cuewalk/course"
	"cuewalk/course/tomlfile"
	"cuewalk/sim"
)

// Safe is text from a file with control characters made visible.
func Safe(s string) string { return tomlfile.Plain(s) }

// Obstacle names obstacle i of c: "tunnel 4 and 12 (tube)", "the dummy jump (oak)".
func Obstacle(c *course.Course, i int) string {
	if c == nil || i < 0 || i >= len(c.Obstacles) {
		return "an obstacle"
	}
	o := &c.Obstacles[i]
	ns := c.Numbers(i)
	if len(ns) == 0 {
		return "the dummy " + o.Kind.String() + " (" + Safe(o.ID) + ")"
	}
	return o.Kind.String() + " " + list(ns) + " (" + Safe(o.ID) + ")"
}

// Target names number n of c: "7, jump (oak)"; number 0 is "the start".
func Target(c *course.Course, n int) string {
	if n < 1 || n > len(c.Order) {
		return "the start"
	}
	return strconv.Itoa(n) + ", " + c.Obstacles[c.Order[n-1].Obstacle].Kind.String() + " (" + Safe(c.Label(n)) + ")"
}

// Short names obstacle i in the fewest words: "jump 7", "dummy tunnel".
func Short(c *course.Course, i int) string {
	if i < 0 || i >= len(c.Obstacles) {
		return "an obstacle"
	}
	ns := c.Numbers(i)
	if len(ns) == 0 {
		return "dummy " + c.Obstacles[i].Kind.String()
	}
	return c.Obstacles[i].Kind.String() + " " + list(ns)
}

// Leg names the leg to number n: "3 to 4", "start to 1".
func Leg(n int) string {
	if n <= 1 {
		return "start to 1"
	}
	return strconv.Itoa(n-1) + " to " + strconv.Itoa(n)
}

var faultWords = [sim.FaultKinds]string{"off course", "wrong side", "refusal", "knocked bar", "missed contact", "collision"}

// Kind is a kind of fault in the trade's words: "off course".
func Kind(k sim.FaultKind) string {
	if k < sim.FaultKinds {
		return faultWords[k]
	}
	return "fault"
}

// Fault says what goes wrong and where: "off course into tunnel 4 (tube)".
func Fault(s *sim.Setup, f sim.Fault) string {
	o := Obstacle(s.Course, f.Obstacle)
	switch f.Kind {
	case sim.OffCourse:
		return "off course into " + o + approach(s, f)
	case sim.WrongSide:
		return o + " from the wrong side"
	case sim.Refusal:
		return "refusal or run-out at " + o
	case sim.KnockedBar:
		return "bar down at " + o
	case sim.MissedContact:
		return "missed contact on " + o
	case sim.Collision:
		return "dog and handler meet"
	}
	return Kind(f.Kind)
}

// approach says that a numbered obstacle was taken from the side that no number takes it
// from; empty where it was not, and for a dummy, which has no right side.
func approach(s *sim.Setup, f sim.Fault) string {
	if f.Entry < 0 || f.Entry >= len(s.Entries) || s.Entries[f.Entry].Obstacle != f.Obstacle {
		return ""
	}
	e := s.Entries[f.Entry]
	ns := s.Course.Numbers(f.Obstacle)
	for _, n := range ns {
		if s.Course.Order[n-1].Takes(e) {
			return ""
		}
	}
	switch {
	case len(ns) == 0:
		return ""
	case e.Kind.Jumped():
		return " from behind"
	}
	return " by its exit"
}

// list joins numbers: "4", "4 and 12", "4, 9 and 12".
func list(ns []int) string {
	var b strings.Builder
	for i, n := range ns {
		switch {
		case i == 0:
		case i == len(ns)-1:
			b.WriteString(" and ")
		default:
			b.WriteString(", ")
		}
		b.WriteString(strconv.Itoa(n))
	}
	return b.String()
}
