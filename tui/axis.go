package tui

import (
	"math"
	"slices"

	"cuewalk/sim"
	"cuewalk/sim/dog"
)

// Time on the screen is one axis: the samples of the likely run. These functions move along
// it; all of them take a rehearsal without samples, too.

func last(r *sim.Rehearsal) int { return max(len(r.Trace.Samples)-1, 0) }

// within brings a place on the axis back into the run.
func within(r *sim.Rehearsal, at int) int { return min(max(at, 0), last(r)) }

// beside is the mark next to at in the wanted direction, or the end of the axis.
func beside(marks []int, at, dir, end int) int {
	if dir > 0 {
		for _, m := range marks {
			if m > at {
				return m
			}
		}
		return end
	}
	for i := len(marks) - 1; i >= 0; i-- {
		if marks[i] < at {
			return marks[i]
		}
	}
	return 0
}

func stride(r *sim.Rehearsal, at, dir int) int {
	return within(r, beside(r.Trace.Strides, at, dir, last(r)))
}

func cueStep(r *sim.Rehearsal, at, dir int) int {
	var marks []int
	for _, c := range r.Cues {
		if c.Sample >= 0 {
			marks = append(marks, c.Sample)
		}
	}
	slices.Sort(marks)
	to := beside(marks, at, dir, at)
	if dir < 0 && (len(marks) == 0 || marks[0] >= at) {
		to = at
	}
	return within(r, to)
}

// legIndex is the place in r.Legs of the leg that at lies in; -1 without legs.
func legIndex(r *sim.Rehearsal, at int) int {
	for i := len(r.Legs) - 1; i >= 0; i-- {
		if at >= r.Legs[i].First {
			return i
		}
	}
	if len(r.Legs) > 0 {
		return 0
	}
	return -1
}

func legStep(r *sim.Rehearsal, at, dir int) int {
	i := legIndex(r, at)
	if i < 0 {
		return at
	}
	if dir < 0 && at > r.Legs[i].First {
		return within(r, r.Legs[i].First)
	}
	i = min(max(i+dir, 0), len(r.Legs)-1)
	return within(r, r.Legs[i].First)
}

// atNumber is where the leg to number n begins; ok is false if there is none.
func atNumber(r *sim.Rehearsal, n int) (at int, ok bool) {
	for i := range r.Legs {
		if r.Legs[i].Number == n {
			return within(r, r.Legs[i].First), true
		}
	}
	return 0, false
}

// crisis is the moment of the leg to number n at which its likeliest fault leaves the line, or
// of which its sentence tells; never one at which the dog sees nothing, if there is another.
func (m *Model) crisis(r *sim.Rehearsal, n int) int {
	at, _ := atNumber(r, n)
	i := legIndex(r, at)
	if i < 0 || len(r.Legs[i].Faults) == 0 {
		return at
	}
	l := &r.Legs[i]
	f := &l.Faults[0]
	switch {
	case f.Leaves >= l.First && f.Leaves <= l.Last:
		at = f.Leaves
	case f.Entry >= 0 && f.Entry < len(r.Setup.Entries) && f.Range > 0:
		at = told(r, l, f)
	}
	return within(r, outside(r, at, l.Last))
}

// told is the sample of a leg at which the obstacle of a fault lies most nearly where its
// sentence says.
func told(r *sim.Rehearsal, l *sim.Leg, f *sim.Fault) int {
	to := r.Setup.Entries[f.Entry].At
	best, least := l.First, math.Inf(1)
	for i := l.First; i <= l.Last && i < len(r.Trace.Samples); i++ {
		d := r.Trace.Samples[i].Dog
		aside := float64(d.At.Towards(to).Off(d.Heading+f.Bearing)) * f.Range
		if miss := math.Hypot(d.At.Dist(to)-f.Range, aside); miss < least {
			best, least = i, miss
		}
	}
	return best
}

// outside is the first sample from at to end at which the dog is not inside an obstacle; at
// itself where it is all the time.
func outside(r *sim.Rehearsal, at, end int) int {
	for i := at; i <= end && i < len(r.Trace.Samples); i++ {
		if r.Trace.Samples[i].Dog.Mode != dog.Inside {
			return i
		}
	}
	return at
}

// joined is the place in b that stands for at in a: the same course number, and as
// far on the way to it.
func joined(a, b *sim.Rehearsal, at int) int {
	i := legIndex(a, at)
	if i < 0 || i >= len(b.Legs) {
		return within(b, at)
	}
	la := a.Legs[i]
	for _, lb := range b.Legs {
		if lb.Number == la.Number {
			f := float64(at-la.First) / float64(max(la.Last-la.First, 1))
			return within(b, lb.First+int(f*float64(lb.Last-lb.First)+.5))
		}
	}
	return within(b, at)
}

// cueAt is the action in force at a sample: the last whose moment has come.
func cueAt(r *sim.Rehearsal, at int) int {
	if ss := r.Trace.Samples; at >= 0 && at < len(ss) {
		return min(max(ss[at].Cue, 0), max(len(r.Setup.Actions)-1, 0))
	}
	return 0
}

// timingOf is what became of an action.
func timingOf(r *sim.Rehearsal, action int) (sim.CueTiming, bool) {
	for _, c := range r.Cues {
		if c.Action == action {
			return c, true
		}
	}
	return sim.CueTiming{Sample: -1}, false
}
