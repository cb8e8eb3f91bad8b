package sim

import "cuewalk/plan"

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
		if off := at.Hand.At.Dist(a.Stand); off > 0.4 {
			c.Off = off
			c.Late = off / s.Team.Handler.Speed
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
