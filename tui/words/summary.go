package words

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"cuewalk/plan/team"
	"cuewalk/sim"
)

// Outcome says how a leg is likely to end: "3 to 4: clean 62 % (58 to 66 %); off course into
// the dummy tunnel (tube) 30 %". Faults under one in a hundred are left out.
func Outcome(r *sim.Rehearsal, leg sim.Leg) string { return outcome(r, leg, len(leg.Faults)) }

// outcome is Outcome with the most likely faults only, at most so many.
func outcome(r *sim.Rehearsal, leg sim.Leg, most int) string {
	var b strings.Builder
	b.WriteString(Leg(leg.Number) + ": clean " + Chance(leg.Clean, leg.Low, leg.High))
	for i, f := range ByWeight(leg.Faults) {
		if f.Chance < 0.01 {
			break
		}
		if i == most {
			b.WriteString("; less likely other things")
			break
		}
		b.WriteString("; " + Fault(r.Setup, f) + " " + Percent(f.Chance))
	}
	return b.String()
}

// ByWeight returns faults likeliest first, of whatever kind they are.
func ByWeight(faults []sim.Fault) []sim.Fault {
	sorted := slices.Clone(faults)
	slices.SortStableFunc(sorted, func(a, b sim.Fault) int { return cmp.Compare(b.Chance, a.Chance) })
	return sorted
}

// Overall says how the whole run is likely to go.
func Overall(r *sim.Rehearsal) string {
	s := "A clean run: " + Chance(r.Clean, r.Low, r.High)
	switch {
	case r.Runs == 1:
		s += " from 1 run"
	case r.Runs > 1:
		s += fmt.Sprintf(" from %d runs", r.Runs)
	}
	return s + ". " + Pace(r)
}

// Pace says how long the run is and how fast: "Likely time 31.4 s (30.2 to 33.0 s) over
// 162.3 m, 5.2 m/s."
func Pace(r *sim.Rehearsal) string {
	s := "Likely time " + Seconds(r.Time)
	if r.Time10 != r.Time90 {
		s += " (" + tenth(r.Time10) + " to " + Seconds(r.Time90) + ")"
	}
	s += " over " + Length(r.Setup.Course.Units, r.Length)
	if r.Time > 0 {
		s += ", " + Speed(r.Length/r.Time)
	}
	return s + "."
}

// LegByNumber is the leg to number n, and whether r has one.
func LegByNumber(r *sim.Rehearsal, n int) (sim.Leg, bool) {
	for _, l := range r.Legs {
		if l.Number == n {
			return l, true
		}
	}
	return sim.Leg{}, false
}

// headlines is how many faults of a leg are named where legs stand side by side.
const headlines = 3

// Worst names the worst n legs in words, worst first; a sentence for none.
func Worst(r *sim.Rehearsal, n int) []string {
	var out []string
	for _, number := range r.Worst(n) {
		l, ok := LegByNumber(r, number)
		if !ok {
			continue
		}
		s := outcome(r, l, headlines) + "."
		if len(l.Faults) > 0 {
			s += " " + Why(r, l, l.Faults[0])
		}
		out = append(out, s)
	}
	if out == nil {
		return []string{"No leg stands out: each is clean more than 98 times in 100."}
	}
	return out
}

// wide is the radius in metres from which a line is as good as straight: a large dog's stride
// of 2 m turns it by less than 5 degrees.
const wide = 25.0

// Measures says how the dog takes the target of a leg: speed, stride, take-off, landing, flight,
// tightest radius.
func Measures(r *sim.Rehearsal, leg sim.Leg) string {
	u := r.Setup.Course.Units
	s := Speed(leg.Speed) + ", stride " + Length(u, leg.Stride)
	if leg.TakeOff > 0 || leg.Landing > 0 {
		s += ", take-off " + Length(u, leg.TakeOff) + ", landing " + Length(u, leg.Landing) +
			", " + Seconds(leg.Flight) + " in the air"
	}
	if leg.Radius > 0 && leg.Radius < wide {
		s += ", tightest radius " + Length(u, leg.Radius)
	}
	return s + ", " + Seconds(leg.Time)
}

// Covered says what the handler's body hid on a leg and how long; empty for nothing.
func Covered(r *sim.Rehearsal, leg sim.Leg) string {
	var parts []string
	for _, h := range leg.Hidden {
		if h.Seconds >= 0.05 {
			what := Short(r.Setup.Course, h.Obstacle)
			if len(r.Setup.Course.Numbers(h.Obstacle)) == 0 {
				what = "the " + what
			}
			parts = append(parts, what+" for "+Seconds(h.Seconds))
		}
	}
	if parts == nil {
		return ""
	}
	return "The handler's body hides " + strings.Join(parts, ", ") + "."
}

// Assumed says what the figures take for granted about a team.
func Assumed(t *team.Team) string {
	u := func(x float64) string { return strconv.FormatFloat(x, 'f', 2, 64) }
	return fmt.Sprintf("Assumed of %s: withers %s m, strides from %s to %s, focus %s (0 watches the handler, 1 the obstacles); "+
		"handler up to %s.", Safe(t.Name), u(t.Dog.Withers), Speed(t.Dog.Collected), Speed(t.Dog.Extended), tenth(t.Dog.Focus), Speed(t.Handler.Speed))
}
