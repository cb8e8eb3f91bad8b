package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"cuewalk/course"
	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/tui/words"
)

// assumed writes what was taken for granted of the dog and the handler.
func assumed(p *page, r *sim.Rehearsal) {
	d, h, u := r.Setup.Team.Dog, r.Setup.Team.Handler, r.Setup.Course.Units
	length := func(v float64) string { return words.Length(u, v) }
	row := func(label, format string, args ...any) { p.hang("  "+label, 16, fmt.Sprintf(format, args...)) }
	p.heading("What was assumed")
	row("Dog", "%s cm at the withers; focus %s (0 watches the handler, 1 the obstacles)", digits(d.Withers*100), digits(d.Focus))
	row("Pace", "%s collected to %s on an open line; gains %s m/s a second and brakes by %s",
		words.Speed(d.Collected), words.Speed(d.Extended), digits(d.Acceleration), digits(d.Braking))
	row("Turning", "%s m/s2 sideways on good ground, never a radius under %s", digits(d.Grip), length(d.Radius))
	row("Jumping", "take-off %s to %s, landing %s to %s, turned in the landing by up to %.0f degrees",
		length(d.TakeOffCollected), length(d.TakeOffExtended), length(d.LandingCollected), length(d.LandingExtended),
		d.LandingTurn.Degrees())
	row("Reading", "the handler's body after %s s, a word after %s s; knows %s", digits(d.Latency), digits(d.WordLatency), knows(d))
	row("Draw", "%s", draw(d))
	row("Sure of", "contacts %s, weave entry %s, bars %s", words.Percent(d.Contact), words.Percent(d.Entry), words.Percent(d.Bars))
	row("Handler", "up to %s; gains %s m/s a second and brakes by %s; answers after %s s; cues come %s s, stands %s m "+
		"round what is meant (standard deviation)",
		words.Speed(h.Speed), digits(h.Acceleration), digits(h.Braking), digits(h.Reaction), digits(h.Timing), digits(h.Placing))
}

// knows lists how well the dog knows its words.
func knows(d team.Dog) string {
	var parts []string
	for s := team.Come; s < team.SenseCount; s++ {
		name := s.String()
		if s == team.Name {
			name = "obstacle names"
		}
		parts = append(parts, name+" "+words.Percent(d.Knows[s]))
	}
	return strings.Join(parts, ", ")
}

// draw lists the kinds that pull more or less than a jump.
func draw(d team.Dog) string {
	var parts []string
	for k := range course.KindCount {
		if d.Draw[k] != 1 {
			parts = append(parts, k.String()+" "+digits(d.Draw[k]))
		}
	}
	if parts == nil {
		return "every kind pulls like a jump"
	}
	return strings.Join(parts, ", ") + " times a jump"
}

// digits is a figure with at most two digits after the point.
func digits(v float64) string {
	return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64)
}
