package ring

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim"
)

// box is a piece of the map with its sides along the axes.
type box struct{ lo, hi geom.Point }

func emptyBox() box {
	far := math.Inf(1)
	return box{geom.Point{X: far, Y: far}, geom.Point{X: -far, Y: -far}}
}

func (b box) empty() bool { return b.lo.X > b.hi.X }

// farOff is farther than anything of a ring lies; a place beyond it stands for nowhere.
const farOff = 1e4

func (b box) with(p geom.Point) box {
	if !p.Finite() || math.Abs(p.X) > farOff || math.Abs(p.Y) > farOff {
		return b
	}
	b.lo = geom.Point{X: min(b.lo.X, p.X), Y: min(b.lo.Y, p.Y)}
	b.hi = geom.Point{X: max(b.hi.X, p.X), Y: max(b.hi.Y, p.Y)}
	return b
}

// obstacle takes in the one with course number n; 0 is the start.
func (b box) obstacle(c *course.Course, n int) box {
	if n == 0 {
		return b.with(c.Start)
	}
	if n < 0 || n > len(c.Order) {
		return b
	}
	for _, s := range c.Obstacles[c.Order[n-1].Obstacle].Footprint() {
		b = b.with(s.A).with(s.B)
	}
	return b
}

// leg takes in the dog's line, the handler, his stands and what is told of a leg.
func (b box) leg(r *sim.Rehearsal, l *sim.Leg) box {
	for i := max(l.First, 0); i <= l.Last && i < len(r.Trace.Samples); i++ {
		b = b.with(r.Trace.Samples[i].Dog.At).with(r.Trace.Samples[i].Hand.At)
	}
	for i := range r.Setup.Actions {
		if a := &r.Setup.Actions[i]; a.HasStand && ofLeg(a.When.Number, l.Number) {
			b = b.with(a.Stand)
		}
	}
	for _, i := range Named(l) {
		f := &l.Faults[i]
		for _, p := range f.Path {
			b = b.with(p)
		}
		if f.Entry >= 0 && f.Entry < len(r.Setup.Entries) {
			b = b.with(r.Setup.Entries[f.Entry].At)
		}
	}
	return b
}

// ofLeg reports whether a cue at course number n matters on the way to number leg.
func ofLeg(n, leg int) bool { return n == leg-1 || n == leg }

// least widens the box to size metres where it is smaller.
func (b box) least(size float64) box {
	if d := size - (b.hi.X - b.lo.X); d > 0 {
		b.lo.X, b.hi.X = b.lo.X-d/2, b.hi.X+d/2
	}
	if d := size - (b.hi.Y - b.lo.Y); d > 0 {
		b.lo.Y, b.hi.Y = b.lo.Y-d/2, b.hi.Y+d/2
	}
	return b
}
