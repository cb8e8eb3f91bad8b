package words

import (
	"fmt"
	"math"

	"cuewalk/sim"
	"cuewalk/sim/dog"
)

// Instant says what dog and handler do at sample at of r: where in the run that is, how the
// dog goes, where its next obstacle lies, and what the handler does.
func Instant(r *sim.Rehearsal, at int) string {
	ss := r.Trace.Samples
	if at < 0 || at >= len(ss) {
		return "The run has no such moment."
	}
	s := ss[at]
	text := Seconds(s.Time) + ", " + Leg(s.Leg) + ": the dog " + gait(r, s) + "."
	if n := s.Leg; n >= 1 && n <= len(r.Setup.Course.Order) {
		e := r.Setup.Course.Entry(n)
		text += fmt.Sprintf(" Number %d is %s off, %s.", n, Length(r.Setup.Course.Units, s.Dog.At.Dist(e.At)),
			Bearing(s.Dog.At.Towards(e.At).Off(s.Dog.Heading)))
	}
	return text + " " + handler(r, s)
}

func gait(r *sim.Rehearsal, s sim.Sample) string {
	u := r.Setup.Course.Units
	switch s.Dog.Mode {
	case dog.Ground:
		t := "gallops at " + Speed(s.Dog.Speed) + ", stride " + Length(u, s.Dog.Stride)
		if k := math.Abs(s.Dog.Turn); k > 0.05 {
			side := "right"
			if s.Dog.Turn < 0 {
				side = "left"
			}
			t += ", turning " + side + " on a radius of " + Length(u, 1/k)
		}
		return t
	case dog.Waiting:
		return "waits at the start"
	case dog.Air:
		return "is in the air at " + Speed(s.Dog.Speed)
	case dog.Inside:
		if e := s.Dog.Entry; e >= 0 && e < len(r.Setup.Entries) {
			return "is on or in " + Short(r.Setup.Course, r.Setup.Entries[e].Obstacle)
		}
		return "is on an obstacle"
	}
	return "stands"
}

func handler(r *sim.Rehearsal, s sim.Sample) string {
	d := s.Dog.At.Towards(s.Hand.At).Off(s.Dog.Heading)
	text := fmt.Sprintf("The handler is %s from it, %s of its nose, at %s, %s arm",
		Length(r.Setup.Course.Units, s.Dog.At.Dist(s.Hand.At)), Bearing(d), Speed(s.Hand.Speed()), s.Hand.Arm)
	if s.Cue >= 0 && s.Cue < len(r.Setup.Actions) {
		text += "; " + CueName(s.Cue) + " is on"
	}
	return text + "."
}

// Sees says what the dog has before its eyes at a sample, from left to right, one sentence
// for each thing that pulls it at all or is the one it should take.
func Sees(s *sim.Setup, at sim.Sample) []string {
	var out []string
	for _, seen := range s.See(at, nil) {
		if seen.Entry < 0 || seen.Entry >= len(s.Entries) {
			continue
		}
		e := s.Entries[seen.Entry]
		right := at.Leg >= 1 && at.Leg <= len(s.Course.Order) && s.Course.Order[at.Leg-1].Takes(e)
		if seen.Pull < 0.01 && !right {
			continue
		}
		text := upper(Bearing(seen.Bearing)) + ", " + Length(s.Course.Units, seen.Range) + " off: " + Short(s.Course, e.Obstacle)
		if right {
			text += ", the right one"
		} else if e.Reverse || e.WrongWay {
			text += " from behind"
		}
		out = append(out, text+", "+pull(seen)+hiding(seen)+".")
	}
	return out
}

// pull says how strongly a thing pulls, in chances a second.
func pull(seen dog.Seen) string {
	switch {
	case seen.Pull < 0.01:
		return "hardly pulling"
	case seen.Pull < 0.2:
		return "pulling a little"
	case seen.Pull < 1:
		return "pulling"
	}
	return "pulling hard"
}

func hiding(seen dog.Seen) string {
	switch {
	case seen.Visible <= 0 && seen.ByBody:
		return ", hidden by the handler"
	case seen.Visible <= 0:
		return ", hidden"
	case seen.Visible < 0.95 && seen.ByBody:
		return ", " + Percent(1-seen.Visible) + " of it hidden by the handler"
	case seen.Visible < 0.95:
		return ", " + Percent(1-seen.Visible) + " of it hidden"
	}
	return ""
}
