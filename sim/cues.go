package sim

import (
	"math"

	"cuewalk/plan"
)

// cues works out what became of every action on the likely run.
func (r *Rehearsal) cues() {
	s := r.Setup
	r.Cues = make([]CueTiming, len(s.Actions))
	for k := range r.Cues {
		r.Cues[k] = CueTiming{Action: k, Sample: -1, Obstacle: readBefore(s.Actions[k].When)}
	}
	given := 0 // cues are given in order
	for i := range r.Trace.Samples {
		for ; given <= r.Trace.Samples[i].Cue; given++ {
			r.given(&r.Cues[given], i)
		}
	}
}

// given fills in a cue that came into force at sample i.
func (r *Rehearsal) given(c *CueTiming, i int) {
	s, at := r.Setup, &r.Trace.Samples[i]
	a := &s.Actions[c.Action]
	c.Sample, c.Given, c.Where = i, at.Time, at.Hand.At
	if a.HasStand {
		if off := at.Hand.At.Dist(a.Stand); off > there {
			c.Off, c.Late, c.Short = off, r.arrives(c, i), r.short(c)
		}
	}
	n := min(c.Obstacle, len(r.Legs))
	if n < 1 {
		n = 1
	}
	took := r.Trace.Samples[r.Legs[n-1].Last].Time
	if n == len(r.Legs) { // the last leg runs on to the landing
		took -= r.Legs[n-1].Flight
	}
	c.ReadInTime = c.Given+s.Team.Dog.Latency <= took+1e-9
}

// there is how near a stand he is at it, metres: about a stride of his.
const there = 0.4

// arrives returns how many seconds after sample i the handler is at the stand of the cue, as
// he runs; where he goes on to another before, what he lacks when he is nearest is reckoned
// at his top speed.
func (r *Rehearsal) arrives(c *CueTiming, i int) float64 {
	stand, top := r.Setup.Actions[c.Action].Stand, r.Setup.Team.Handler.Speed
	best := math.Inf(1)
	for _, x := range r.Trace.Samples[i:] {
		off := x.Hand.At.Dist(stand)
		if best = min(best, x.Time-c.Given+max(0, off-there)/top); off <= there {
			break
		}
	}
	return best
}

// short returns how many seconds he lacks to be at the stand of the cue in time, had he set
// off at the stand before at once and at top speed; 0 where that is enough.
func (r *Rehearsal) short(c *CueTiming) float64 {
	from, since := r.Setup.Actions[0].Stand, 0.0
	for k := c.Action - 1; k >= 0; k-- {
		if r.Setup.Actions[k].HasStand && r.Cues[k].Sample >= 0 {
			from, since = r.Cues[k].Where, r.Cues[k].Given
			break
		}
	}
	way := from.Dist(r.Setup.Actions[c.Action].Stand) - there
	return max(0, way/r.Setup.Team.Handler.Speed-(c.Given-since))
}

// readBefore returns the course number whose take-off or entry a cue given at m is
// meant to come before: its own, or the next one's once that is over.
func readBefore(m plan.Moment) int {
	switch {
	case m.Event == plan.Release:
		return 1
	case m.Event.After() && m.Strides >= 0, m.Strides > 0:
		return m.Number + 1
	}
	return m.Number
}
