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

// chosen notes what the dog goes for that it saw in the last step.
func (r *run) chosen(seen *dog.Seen) {
	bearing := seen.Off(r.mid.Heading)
	r.lure = lure{
		bearing: float32(bearing), rng: float32(seen.Range), off: float32(r.lead.Heading.Off(r.mid.Heading + bearing)),
		strength: float32(r.lead.Strength), entry: int16(seen.Entry),
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

// lureSum sums up how several runs went wrong alike, those to the left and those to the right
// apart: between the two lies nothing that happened.
type lureSum struct {
	went, passed [2]sideSum
	idle         sideSum // took nothing: rng is how near the dog came
}

// sideSum sums up runs that went wrong on one side.
type sideSum struct {
	n                           int
	bearing, rng, off, strength float64
}

func (s *sideSum) add(bearing, rng, off, strength float32) {
	s.n++
	s.bearing += float64(bearing)
	s.rng += float64(rng)
	s.off += float64(geom.Angle(off).Abs())
	s.strength += float64(strength)
}

// sideOf is 0 for the left, 1 for the right.
func sideOf(x float32) int {
	if x < 0 {
		return 0
	}
	return 1
}

func (l *lureSum) add(x *lure) {
	switch {
	case x.wide != 0:
		l.passed[sideOf(x.wide)].add(0, x.wide, 0, 0)
	case x.near > 0:
		l.idle.add(0, x.near, 0, 0)
	case x.entry >= 0:
		l.went[sideOf(x.bearing)].add(x.bearing, x.rng, x.off, x.strength)
	}
}

// oftener is the side on which more runs went wrong.
func oftener(s *[2]sideSum) *sideSum {
	if s[0].n > s[1].n {
		return &s[0]
	}
	return &s[1]
}

// explain fills in where a fault lay that the likely run says nothing of: on average over
// the runs in which it came up on the side where it did so most.
func (l *lureSum) explain(f *Fault) {
	if l == nil || f.Range > 0 || f.InView > 0 {
		return
	}
	went, passed := oftener(&l.went), oftener(&l.passed)
	switch {
	case f.Kind != Refusal && went.n > 0:
		k := 1 / float64(went.n)
		f.Stray, f.Range = true, went.rng*k
		f.Bearing, f.Off, f.Strength = geom.Angle(went.bearing*k), geom.Angle(went.off*k), went.strength*k
	case f.Kind == Refusal && l.idle.n > passed.n:
		f.Stray, f.Range = true, l.idle.rng/float64(l.idle.n)
	case f.Kind == Refusal && passed.n > 0:
		f.Stray, f.Wide = true, passed.rng/float64(passed.n)
	}
}
