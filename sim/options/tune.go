package options

import (
	"context"
	"slices"

	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/sim"
	"cuewalk/sim/reading"
	"cuewalk/sim/score"
	"cuewalk/sim/search"
)

// How a plan is bettered leg by leg (C).
const (
	good       = 0.97 // a leg that is clean so often is left alone
	poor       = 0.6  // one that is clean more seldom may get a cue more
	worthwhile = 0.02 // how much better, in logarithms of chances, a change must be to be kept
	rounds     = 4
	mostTries  = 6000 // legs rehearsed, all tries together
	runsEach   = 48   // seeded runs that a change must stand up to: one likely run alone is too easily pleased
	closer     = 2    // plans of those tried together that are looked at in runs
	runsCost   = 8    // legs rehearsed that one leg of these runs counts for: they take about as long
)

// tuner betters a plan by trying changes of it, leg by leg.
type tuner struct {
	base   *sim.Setup
	seed   uint64
	plan   plan.Plan
	left   int            // legs that may still be rehearsed
	flaws  int            // faults of the plan it began with: no change may add one
	line   []geom.Pose    // the dog's line
	worth  score.Priority // what a better plan is
	chosen func(n int) []group
}

// group is a number of changes to be tried together.
type group = func(p *plan.Plan) []plan.Plan

func newTuner(base *sim.Setup, p plan.Plan, seed uint64, tries int) *tuner {
	t := &tuner{base: base, seed: seed, plan: p, left: tries, flaws: len(p.Check(base.Course, base.Team))}
	t.chosen = t.groups
	t.look()
	return t
}

// look takes the dog's line from the likely run of the plan.
func (t *tuner) look() {
	r := t.base.WithPlan(&t.plan).Rehearse()
	t.line = t.line[:0]
	for i := range r.Trace.Samples {
		d := &r.Trace.Samples[i].Dog
		t.line = append(t.line, geom.Pose{At: d.At, Heading: d.Heading})
	}
}

// tune betters legs, the worst first, until nothing helps, the tries are spent, or ctx ends.
func (t *tuner) tune(ctx context.Context) {
	for range rounds {
		kept := false
		for _, n := range t.worst(ctx) {
			if ctx.Err() != nil || t.left <= 0 {
				return
			}
			kept = t.leg(ctx, n) || kept
		}
		if !kept {
			return
		}
		t.look()
	}
}

// worst returns the numbers whose legs are not good, worst first.
func (t *tuner) worst(ctx context.Context) []int {
	t.left -= runsCost * len(t.base.Course.Order)
	tally, err := t.base.WithPlan(&t.plan).RunMany(ctx, t.seed, runsEach, nil)
	if err != nil {
		return nil
	}
	likely := t.base.WithPlan(&t.plan).Rehearse()
	chance := make([]float64, len(tally.Legs))
	var out []int
	for i := range tally.Legs {
		chance[i] = min(float64(tally.Legs[i].Clean)/float64(tally.Runs), likely.Legs[i].Clean)
		if chance[i] < good || t.worth == score.Faster {
			out = append(out, i+1)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int {
		switch x, y := chance[a-1], chance[b-1]; {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	return out
}

// leg betters the leg to number n and reports whether a change was kept.
func (t *tuner) leg(ctx context.Context, n int) bool {
	to := min(n+1, len(t.base.Course.Order))
	quick, sure := score.Rough(t.base, to, t.worth), score.Sure(t.base, len(t.base.Course.Order), t.seed, runsEach, t.worth)
	climb := search.Climb{
		Moves: func(*plan.Plan) []group { return t.chosen(n) },
		Fits:  func(p *plan.Plan) bool { return len(p.Check(t.base.Course, t.base.Team)) <= t.flaws },
		Quick: func(ctx context.Context, plans []plan.Plan) []float64 {
			t.left -= len(plans) * to
			return quick(ctx, plans)
		},
		Sure: func(ctx context.Context, plans []plan.Plan) []float64 {
			t.left -= len(plans) * runsCost * len(t.base.Course.Order)
			return sure(ctx, plans)
		},
		Least: worthwhile, Closer: closer, Passes: 1,
	}
	steps := climb.From(ctx, t.plan)
	if len(steps) == 0 {
		return false
	}
	t.plan = steps[len(steps)-1].Plan
	return true
}

// groups lists what is tried for the leg to number n.
func (t *tuner) groups(n int) []group {
	var out []group
	for _, number := range []int{n, n - 1} {
		for k := range t.plan.Cues {
			if LeadsTo(t.plan.Cues[k].When) == number {
				out = append(out, t.changes(k, n, number == n)...)
			}
		}
	}
	return append(out, t.fresh(n), t.pairs(n))
}

// changes lists what is tried on cue k, and on those behind it together with it.
func (t *tuner) changes(k, n int, wholly bool) []group {
	try := func(of func(d search.Draft) []plan.Plan) group {
		return func(p *plan.Plan) []plan.Plan {
			if t.left <= 0 || k >= len(p.Cues) {
				return nil
			}
			return of(search.NewDraft(t.base.Course, p, t.base.Team))
		}
	}
	out := []group{
		try(func(d search.Draft) []plan.Plan { return d.Ways(k, n) }),
		try(func(d search.Draft) []plan.Plan { return d.Stands(k) }),
		try(func(d search.Draft) []plan.Plan { return d.Shifts(k) }),
	}
	if !wholly || k == 0 {
		return out
	}
	return append(out,
		try(func(d search.Draft) []plan.Plan {
			return slices.Concat(d.OtherSide(k, 1, t.line), d.OtherSide(k, 2, t.line), d.OtherSide(k, 3, t.line))
		}),
		try(func(d search.Draft) []plan.Plan { return slices.Concat(d.Together(k-1, 2), d.Together(k-1, 3)) }),
		try(func(d search.Draft) []plan.Plan { return d.Fewer(k) }),
	)
}

// LeadsTo returns the number that a cue given at m is for.
func LeadsTo(m plan.Moment) int {
	if m.Event != plan.Release && m.Strides <= -3 && !m.Event.After() {
		return m.Number
	}
	return m.Number + 1
}

// fresh tries one cue more behind the number before n: on the way, on either side of the
// dog's line, to draw the dog in or to show it the next. A threadle and a jump from its far
// side ask for such.
func (t *tuner) fresh(n int) group {
	return func(p *plan.Plan) []plan.Plan {
		if t.left <= 0 || n < 2 {
			return nil
		}
		c := t.base.Course
		likely := t.base.WithPlan(p).RehearseTo(n)
		if likely.Legs[n-1].Clean >= poor {
			return nil
		}
		_, after := plan.EventsOf(c.Obstacles[c.Order[n-2].Obstacle].Kind)
		l := &likely.Legs[n-1]
		var plans []plan.Plan
		d := search.NewDraft(c, p, t.base.Team)
		for _, strides := range []float64{1, 2} {
			for _, share := range []float64{0.4, 0.8} {
				body := &likely.Trace.Samples[l.First+int(share*float64(l.Last-l.First))].Dog
				for _, apart := range []float64{-1.5, 1.5} {
					stand := geom.Pose{At: body.At, Heading: body.Heading}.Beside(apart)
					plans = append(plans, d.More(plan.Moment{Number: n - 1, Event: after, Strides: strides}, stand, n)...)
				}
			}
		}
		return plans
	}
}

// pairs tries, where the leg to number n goes badly, one cue more beside the obstacle
// together with another way of what comes before it: what a jump from its far side and a
// threadle ask for.
func (t *tuner) pairs(n int) group {
	return func(p *plan.Plan) []plan.Plan {
		if t.left <= 0 || n < 2 {
			return nil
		}
		c := t.base.Course
		likely := t.base.WithPlan(p).RehearseTo(n)
		if likely.Legs[n-1].Clean >= poor {
			return nil
		}
		e := c.Entry(n)
		at := geom.Pose{At: e.At, Heading: e.Heading}
		_, after := plan.EventsOf(c.Obstacles[c.Order[n-2].Obstacle].Kind)
		k := len(p.Cues) - 1
		for k > 0 && (LeadsTo(p.Cues[k].When) != n || p.Cues[k].When.Event.After()) {
			k--
		}
		var plans []plan.Plan
		d := search.NewDraft(c, p, t.base.Team)
		for _, strides := range []float64{0.5, 1.5} {
			when := plan.Moment{Number: n - 1, Event: after, Strides: strides}
			for _, place := range []geom.Point{{X: 2}, {X: -2}, {X: 2, Y: -2.5}, {X: -2, Y: -2.5}, {X: 3, Y: 1.5}, {X: -3, Y: 1.5}} {
				stand := at.Ahead(place.Y).Add(at.Beside(place.X).Sub(at.At))
				plans = append(plans, d.Pairs(k, when, stand, n)...)
			}
		}
		return plans
	}
}

// sides returns by leg of the likely run which side of the dog's line the handler is on.
func sides(r *sim.Rehearsal) []reading.Side {
	out := make([]reading.Side, len(r.Legs))
	for i := range r.Legs {
		s := &r.Trace.Samples[(r.Legs[i].First+r.Legs[i].Last)/2]
		out[i] = reading.Left
		if s.Hand.Arm == plan.LeftArm { // the dog on his left: he is on its right
			out[i] = reading.Right
		}
	}
	return out
}
