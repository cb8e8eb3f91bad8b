package words

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim"
)

// Below quiet the handler's strength is taken as telling the dog nothing; within led
// the lead counts as pointing at a thing; a cue is late from tardy seconds on.
const (
	quiet = 0.3
	tardy = 0.1
)

var led = geom.Deg(20)

// straight is the angle up to which something is said to be straight ahead, as in [Bearing].
var straight = geom.Deg(2.5)

// onward is how far to the side something may lie that a dog comes to straight on.
var onward = geom.Deg(25)

// Why says in one or two sentences, with two or three figures, what makes f happen on leg.
// It is meant to fit two lines of 80 columns.
func Why(r *sim.Rehearsal, leg sim.Leg, f sim.Fault) string {
	switch f.Kind {
	case sim.OffCourse, sim.WrongSide:
		if !Located(f) {
			return "Only where the dog strays from its likely line."
		}
		s := lure(r, leg, f) + " " + reason(r, leg, f)
		if f.Stray {
			s = "Off its likely line: " + strings.ToLower(s[:1]) + s[1:]
		}
		return s
	case sim.Refusal:
		return refusal(r, leg, f)
	case sim.KnockedBar:
		return bar(r, leg)
	case sim.MissedContact:
		return fmt.Sprintf("The dog comes to %s at %s, and it is sure of its contacts to %s.",
			thing(r, leg, f.Obstacle), Speed(leg.Speed), Percent(r.Setup.Team.Dog.Contact))
	case sim.Collision:
		return collision(r, leg)
	}
	return ""
}

// lure says how the wrong entry offered itself.
func lure(r *sim.Rehearsal, leg sim.Leg, f sim.Fault) string {
	what := thing(r, leg, f.Obstacle)
	if f.Kind == sim.WrongSide {
		what = "the wrong side of " + what
	} else if len(r.Setup.Course.Numbers(f.Obstacle)) == 0 {
		what = "the " + what
	}
	return upper(what) + " is " + where(r, f) + "."
}

// Located reports whether it is known where the obstacle of f lay when it happened. Of a
// fault that comes up only in runs that leave the likely line that may not be known.
func Located(f sim.Fault) bool { return f.Range > 0 || f.InView > 0 }

// instant is the time in seconds that Seconds shows as none.
const instant = 0.05

// where says how far off and on which side a thing lay, and how long the dog had it in view.
func where(r *sim.Rehearsal, f sim.Fault) string {
	s := Bearing(f.Bearing)
	if f.Range > 0 && !math.IsInf(f.Range, 1) {
		s = Length(r.Setup.Course.Units, f.Range) + " off, " + s
	}
	if f.Stray { // for how long is not counted there
		return s
	}
	if f.InView < instant {
		return s + ", and hardly in view before the dog decides"
	}
	return s + ", and in view for " + Seconds(f.InView)
}

// reason says what the handler told the dog, or failed to.
func reason(r *sim.Rehearsal, leg sim.Leg, f sim.Fault) string {
	if c, ok := unread(r, leg); ok && f.Ahead {
		if c.Late >= tardy {
			return fmt.Sprintf("Cue %d, %s late, is read only after the dog has left the ground.", c.Action, Seconds(c.Late))
		}
		return fmt.Sprintf("Cue %d is read only after the dog has left the ground.", c.Action)
	}
	switch {
	case f.Ahead && leg.Number > 1 && f.Bearing.Abs() <= onward:
		return fmt.Sprintf("No turn is read before the dog leaves %d, so it lands straight on.", leg.Number-1)
	case f.Strength < quiet:
		return upper(unled(r, leg)) + "."
	case f.Off.Abs() <= straight:
		return "The handler's own lead points straight at it."
	case f.Off.Abs() <= led:
		return fmt.Sprintf("The handler's own lead points at it, %s off.", degrees(f.Off))
	}
	return fmt.Sprintf("The handler leads %s away from it, but too faintly or too late.", degrees(f.Off))
}

func refusal(r *sim.Rehearsal, leg sim.Leg, f sim.Fault) string {
	o := upper(thing(r, leg, f.Obstacle))
	if f.Stray {
		return strayRefusal(r, leg, f)
	}
	if !Located(f) {
		return "Only where the dog strays from its likely line and runs past " + thing(r, leg, f.Obstacle) + "."
	}
	if r.Setup.Course.Obstacles[f.Obstacle].Kind == course.Weaves && f.Off.Abs() <= led {
		return fmt.Sprintf("%s: the first pole is missed. The dog comes to it at %s, and it is sure of the entry to %s.", o,
			Speed(leg.Speed), Percent(r.Setup.Team.Dog.Entry))
	}
	s := o + " is " + where(r, f) + ": "
	if !math.IsInf(leg.Radius, 0) && leg.Radius > 0 && f.Bearing.Abs() > geom.Deg(40) {
		return s + fmt.Sprintf("the tightest turn here has a radius of %s.", Length(r.Setup.Course.Units, leg.Radius))
	}
	return s + saying(r, leg, f)
}

// strayRefusal says how dogs off the likely line came to refuse.
func strayRefusal(r *sim.Rehearsal, leg sim.Leg, f sim.Fault) string {
	what, u := thing(r, leg, f.Obstacle), r.Setup.Course.Units
	side := "right"
	if f.Wide < 0 {
		side = "left"
	}
	switch wide := math.Abs(f.Wide); {
	case wide == 0:
		return fmt.Sprintf("Off its likely line the dog comes no nearer to %s than %s and takes nothing.", what, Length(u, f.Range))
	case wide < r.Setup.Course.Obstacles[f.Obstacle].Width/2:
		return "Off its likely line the dog swings wide and comes along " + what + " too flat to take it."
	default:
		return fmt.Sprintf("Off its likely line the dog runs past %s, %s to the %s of its middle.", what, Length(u, wide), side)
	}
}

// saying tells how the handler's lead lies to the right obstacle.
func saying(r *sim.Rehearsal, leg sim.Leg, f sim.Fault) string {
	switch {
	case f.Strength < quiet:
		return unled(r, leg) + "."
	case f.Off.Abs() > led:
		return fmt.Sprintf("the handler leads %s past it.", degrees(f.Off))
	}
	return "too little way is left to line it up."
}

// unled says why the dog is told nothing.
func unled(r *sim.Rehearsal, leg sim.Leg) string {
	c := r.Setup.Course
	if n := leg.Number - 1; n >= 1 && n <= len(c.Order) {
		if o := c.Order[n-1].Obstacle; c.Obstacles[o].Kind == course.Tunnel {
			return fmt.Sprintf("coming out of tunnel %d it has not read the handler yet", n)
		}
	}
	return "just then the dog reads nothing of its handler"
}

func bar(r *sim.Rehearsal, leg sim.Leg) string {
	u := r.Setup.Course.Units
	s := fmt.Sprintf("The dog takes off %s before the bar at %s", Length(u, leg.TakeOff), Speed(leg.Speed))
	if c, ok := unread(r, sim.Leg{Number: leg.Number + 1}); ok {
		return s + fmt.Sprintf("; cue %d reaches it about then.", c.Action)
	}
	if !math.IsInf(leg.Radius, 0) && leg.Radius > 0 && leg.Radius < 3 {
		return s + fmt.Sprintf(" out of a turn of %s radius.", Length(u, leg.Radius))
	}
	return s + "."
}

// clearOf is how near in metres handler and dog must come on the likely run for a meeting
// to be put down to their ways.
const clearOf = 1.2

// touching is the distance in metres between their middles below which it makes no sense to
// say how near they come.
const touching = 0.3

func collision(r *sim.Rehearsal, leg sim.Leg) string {
	near, at := math.Inf(1), -1
	ss := r.Trace.Samples
	for i := max(leg.First, 0); i <= leg.Last && i < len(ss); i++ {
		if d := ss[i].Dog.At.Dist(ss[i].Hand.At); d < near {
			near, at = d, i
		}
	}
	if at < 0 {
		return "The handler's way crosses the dog's line."
	}
	if near > clearOf {
		return fmt.Sprintf("Only where the dog strays from its likely line; on that they stay %s apart.", Length(r.Setup.Course.Units, near))
	}
	when := Seconds(ss[at].Time) + " after the release"
	if ss[at].Time < instant {
		when = "at the release"
	}
	if near < touching {
		return "The handler's way meets the dog's line: they run into each other " + when + "."
	}
	return fmt.Sprintf("The handler's way meets the dog's line: they come within %s of each other %s.",
		Length(r.Setup.Course.Units, near), when)
}

// unread is the cue that was meant for the take-off or entry before this leg and was not
// read in time.
func unread(r *sim.Rehearsal, leg sim.Leg) (sim.CueTiming, bool) {
	for _, c := range r.Cues {
		if c.Action > 0 && c.Sample >= 0 && c.Obstacle == leg.Number-1 && !c.ReadInTime {
			return c, true
		}
	}
	return sim.CueTiming{}, false
}

// thing names an obstacle in the fewest words; the one the leg leads to by that number alone.
func thing(r *sim.Rehearsal, leg sim.Leg, obstacle int) string {
	c := r.Setup.Course
	if n := leg.Number; n >= 1 && n <= len(c.Order) && c.Order[n-1].Obstacle == obstacle {
		return c.Obstacles[obstacle].Kind.String() + " " + strconv.Itoa(n)
	}
	return Short(c, obstacle)
}

func upper(s string) string {
	if s != "" && s[0] >= 'a' && s[0] <= 'z' {
		return string(s[0]-'a'+'A') + s[1:]
	}
	return s
}
