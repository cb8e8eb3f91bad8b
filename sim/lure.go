package sim

import (
	"math"

	"cuewalk/course/geom"
	"cuewalk/sim/dog"
)

// lure is how a run went wrong on a leg: how the wrong entry lay when the dog went for it,
// or how wide of the right one it ran past.
type lure struct {
	bearing, rng  float32 // of the wrong entry off the heading, radians, right positive; metres
	off, strength float32 // the lead off it, and how loud
	wide          float32 // metres to the right of the right entry's middle; 0 where it was not run past
	near          float32 // metres it came to the right entry at its nearest, where it took nothing; 0 where it took something
	entry         int16   // the wrong entry; -1 for none
}

// chosen notes what a dog in state st goes for.
func (r *run) chosen(st *State, seen *dog.Seen) {
	line := st.Dog.Heading + seen.Bearing
	r.lure = lure{
		bearing: float32(seen.Bearing), rng: float32(seen.Range), off: float32(st.Lead.Heading.Off(line)),
		strength: float32(st.Lead.Strength), entry: int16(seen.Entry),
	}
}

// lured returns how the leg that has just ended went wrong; its entry is -1 where that is
// not known: the dog was carried over the wrong one by its own momentum.
func (r *run) lured() lure {
	l := r.lure
	switch {
	case r.verdict == refused:
		l = lure{wide: float32(r.wide), entry: -1}
		if r.idle {
			l.near = float32(math.Sqrt(r.near))
		}
		return l
	case int(l.entry) != r.entry:
		return lure{entry: -1}
	}
	return l
}

// lureSum sums up how several runs went wrong alike.
type lureSum struct {
	n                           int
	bearing, rng, off, strength float64
	passed, idle                int // of refusals: ran past, took nothing
	wide, near                  float64
}

func (l *lureSum) add(x *lure) {
	if x.wide != 0 {
		l.passed++
		l.wide += float64(x.wide)
	}
	if x.near > 0 {
		l.idle++
		l.near += float64(x.near)
	}
	if x.entry >= 0 {
		l.n++
		l.bearing += float64(x.bearing)
		l.rng += float64(x.rng)
		l.off += float64(geom.Angle(x.off).Abs())
		l.strength += float64(x.strength)
	}
}

// explain fills in where a fault lay that the likely run says nothing of: on average over
// the runs in which it came up.
func (l *lureSum) explain(f *Fault) {
	switch {
	case l == nil || f.Range > 0 || f.InView > 0:
	case f.Kind == Refusal && l.idle > l.passed:
		f.Stray, f.Range = true, l.near/float64(l.idle)
	case f.Kind == Refusal && l.passed > 0:
		f.Stray, f.Wide = true, l.wide/float64(l.passed)
	case f.Kind != Refusal && l.n > 0:
		k := 1 / float64(l.n)
		f.Stray, f.Range = true, l.rng*k
		f.Bearing, f.Off, f.Strength = geom.Angle(l.bearing*k), geom.Angle(l.off*k), l.strength*k
	}
}
