// Package options works with several plans for one course: it sets them against each
// other, mixes them, betters one, and proposes some from nothing. Every figure it gives
// comes from seeded runs; it is pure.
//
// Lengths are metres, times seconds. A constant marked C is chosen here and has no source.
package options

import (
	"context"

	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/sim/compare"
	"cuewalk/sim/search"
)

// Against is what came of plans that were run on the same luck by one team.
type Against struct {
	Team   *team.Team
	Plans  []*plan.Plan
	Likely []*sim.Rehearsal
	Result *compare.Result
	Mix    *Mix // nil where no mix of them does better
}

// Mix is a plan made of stretches of several.
type Mix struct {
	Plan  plan.Plan
	Parts []search.Part
	Clean int // clean runs in the worlds that the options met
}

// Compare runs plans of one course, all checked for the team, on the same luck until one
// is shown to be the best or each has run most times. It returns ctx's error when cancelled.
func Compare(ctx context.Context, c *course.Course, t *team.Team, plans []*plan.Plan, seed uint64, most int) (*Against, error) {
	a := &Against{Team: t, Plans: plans}
	setups := make([]*sim.Setup, len(plans))
	for i, p := range plans {
		if setups[i] = sim.New(c, p, t); i > 0 {
			setups[i] = setups[0].WithPlan(p)
		}
		a.Likely = append(a.Likely, setups[i].Rehearse())
	}
	var err error
	if a.Result, err = compare.Plans(ctx, setups, seed, most, nil); err != nil {
		return nil, err
	}
	return a, a.mix(ctx, setups[0], seed)
}

// A join fits where the handlers of both plans are as near to each other as this, on the
// same side of their dogs (C).
const joint = 1.5

// worthMixing is how much more often a mix must be clean than the best plan (C).
const worthMixing = 0.02

// mix looks for a mix that does better than every plan alone: with the cues for the leg
// where one goes over into another from the one, or from the other.
func (a *Against) mix(ctx context.Context, base *sim.Setup, seed uint64) error {
	parts := search.Mix(a.shares(), a.joins)
	if len(parts) == 1 {
		return nil
	}
	for sooner := range 2 {
		mixed := a.spliced(base, parts, sooner)
		if len(mixed.Check(base.Course, a.Team)) > 0 {
			continue
		}
		r, err := compare.Plans(ctx, []*sim.Setup{base.WithPlan(&mixed)}, seed, a.Result.Worlds, nil)
		if err != nil {
			return err
		}
		if clean := r.Options[0].Clean; a.betters(clean, r.Worlds) && (a.Mix == nil || clean > a.Mix.Clean) {
			a.Mix = &Mix{Plan: mixed, Parts: parts, Clean: clean}
		}
	}
	return nil
}

// spliced joins the parts, each from so many numbers sooner on.
func (a *Against) spliced(base *sim.Setup, parts []search.Part, sooner int) plan.Plan {
	mixed := *a.Plans[parts[0].Option]
	for _, part := range parts[1:] {
		mixed = search.Splice(base.Course, a.Team, &mixed, a.Plans[part.Option], max(1, part.First-1-sooner))
	}
	mixed.Name, mixed.File = "Mix", ""
	return mixed
}

// betters reports whether a mix that was clean in so many of the worlds is worth its while.
func (a *Against) betters(clean, worlds int) bool {
	for i := range a.Result.Options {
		if float64(clean)/float64(worlds) < a.Result.Options[i].Share()+worthMixing {
			return false
		}
	}
	return true
}

// shares returns by plan and leg how often the leg was clean.
func (a *Against) shares() [][]float64 {
	out := make([][]float64, len(a.Plans))
	for i := range out {
		o := &a.Result.Options[i]
		for _, clean := range o.Legs {
			out[i] = append(out[i], (float64(clean)+0.5)/(float64(o.Worlds)+1))
		}
	}
	return out
}

// joins reports whether a handler who has run plan x up to number n can go on with plan y.
func (a *Against) joins(x, y, n int) bool {
	at := func(i int) *sim.Sample { return &a.Likely[i].Trace.Samples[a.Likely[i].Legs[n-1].Last] }
	one, other := at(x), at(y)
	return one.Hand.At.Dist(other.Hand.At) <= joint && one.Hand.Arm == other.Hand.Arm
}
