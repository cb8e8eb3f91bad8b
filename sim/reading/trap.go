package reading

import (
	"fmt"
	"strings"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// Trap is a wrong entry that pulls an unhandled dog off its best line.
type Trap struct {
	Leg     int     // number the dog is on its way to
	Entry   int     // the wrong entry
	Pull    float64 // chance that it gets a dog that nobody handles, by the simulator's pulls
	Bearing geom.Angle
	Range   float64    // with Bearing, where it lay when it pulled most
	Angle   geom.Angle // between it and the right one then
	Farther float64    // metres farther off than the right one then; negative: nearer
	InView  float64    // seconds
	First   bool       // it comes before the dog's eyes before the right one does
	Ahead   bool       // it lies on the landing line extended
	Turned  bool       // it lies on the side the dog turns to
	Wrong   bool       // wrong side or wrong end of the right obstacle
	Why     string     // the reason in words
	Cover   Cover      // where a handler's body hides it

	critical []flux // samples that hold most of its pull
}

// trap describes wrong entry i of the leg.
func (k *looker) trap(l *Leg, i int) Trap {
	right := k.r.right[l.Number-1]
	v := &k.views[i]
	t := Trap{Leg: l.Number, Entry: i, Pull: v.Pull, InView: v.InView}
	t.Wrong = k.r.Entries[i].Obstacle == k.r.Entries[right].Obstacle
	most := -1
	for j := range k.flux {
		if f := &k.flux[j]; f.entry == i {
			t.critical = append(t.critical, *f)
			if most < 0 || f.p > k.flux[most].p {
				most = j
			}
		}
	}
	if most >= 0 {
		s := &k.r.Line.Samples[k.flux[most].sample]
		at, to := k.r.Entries[i].At, k.r.Entries[right].At
		t.Bearing, t.Range = s.At.Towards(at).Off(s.Heading), s.At.Dist(at)
		t.Angle, t.Farther = s.At.Towards(at).Off(s.At.Towards(to)).Abs(), t.Range-s.At.Dist(to)
	}
	t.critical = strongest(t.critical)
	t.First = v.Entry >= 0 && (k.views[right].Entry < 0 || v.First < k.views[right].First)
	for _, m := range l.Meets {
		t.Ahead = t.Ahead || m.Entry == i
	}
	t.Turned = l.Turn.Abs() > geom.Deg(30) && side(t.Bearing, 0) == side(l.Turn, 0) && t.Bearing.Abs() > geom.Deg(3)
	t.Why = k.r.why(&t, l)
	return t
}

// strongest returns the unbroken stretch of looks from the first to the last that
// pulls at least a quarter of the strongest one: the critical strides.
func strongest(all []flux) []flux {
	top := 0.0
	for _, f := range all {
		top = max(top, f.p)
	}
	first, last := -1, -1
	for i, f := range all {
		if f.p >= top/4 {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	if first < 0 {
		return nil
	}
	return append([]flux(nil), all[first:last+1]...)
}

// why says in words why the trap pulls.
func (r *Reading) why(t *Trap, l *Leg) string {
	e := &r.Entries[t.Entry]
	var parts []string
	add := func(format string, args ...any) { parts = append(parts, fmt.Sprintf(format, args...)) }
	switch {
	case t.Wrong && e.Kind == course.Tunnel:
		add("the wrong end of the right tunnel")
	case t.Wrong:
		add("the wrong side of the right obstacle")
	}
	add("%s off, %s", r.show(t.Range), bearing(t.Bearing))
	if t.Ahead {
		add("straight on the landing line")
	}
	if t.First && t.Turned {
		add("the turn sweeps over it before the right one")
	} else if t.First {
		add("before the dog's eyes sooner than the right one")
	}
	if !t.Wrong {
		add("%.0f degrees from the right one", t.Angle.Degrees())
	}
	if t.Farther < -0.5 {
		add("%s nearer than the right one", r.show(-t.Farther))
	}
	if draw := r.Team.Dog.Draw[e.Kind]; draw >= 1.5 {
		add("this dog is drawn to %s", e.Kind.One())
	}
	if t.InView > 0 {
		add("in view for %.1f s", t.InView)
	}
	return strings.Join(parts, ", ")
}

// show writes a length in the course's units.
func (r *Reading) show(m float64) string {
	return fmt.Sprintf("%.1f %s", m/r.Course.Units.Factor(), r.Course.Units)
}

func bearing(a geom.Angle) string {
	d := a.Degrees()
	switch {
	case d > 2.5:
		return fmt.Sprintf("%.0f degrees right", d)
	case d < -2.5:
		return fmt.Sprintf("%.0f degrees left", -d)
	}
	return "dead ahead"
}
