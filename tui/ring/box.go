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

func (b box) with(p geom.Point) box {
	if !p.Finite() {
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

// mayTrap is the chance from which a trap must be in the picture.
const mayTrap = 0.02

// leg takes in the dog's line, the handler and the traps of a leg.
func (b box) leg(r *sim.Rehearsal, l *sim.Leg) box {
	for i := max(l.First, 0); i <= l.Last && i < len(r.Trace.Samples); i++ {
		b = b.with(r.Trace.Samples[i].Dog.At).with(r.Trace.Samples[i].Hand.At)
	}
	for _, f := range l.Faults {
		if f.Chance < mayTrap {
			continue
		}
		for _, p := range f.Path {
			b = b.with(p)
		}
		if f.Entry >= 0 && f.Entry < len(r.Setup.Entries) {
			b = b.with(r.Setup.Entries[f.Entry].At)
		}
	}
	return b
}

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
