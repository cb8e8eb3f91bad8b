package options

import (
	"cmp"
	"context"
	"slices"

	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/sim/compare"
	"cuewalk/sim/score"
)

// Improved is a plan bettered.
type Improved struct {
	Before, After *sim.Setup
	Against       *compare.Result // before is option 0, after option 1, on luck the search never saw
	Changes       []Change        // most gain for each cue touched first
	Searched      float64         // share of clean runs of After on the luck it was searched with
	Late          float64         // seconds by which the handler misses the stand he misses by most
}

// Change is one step from the plan to the better one.
type Change struct {
	From, To plan.Plan
	Reach    bool    // stands that could not be reached were moved to where he can be
	Cues     []int   // indexes in To of the cues that are new or different; none where one was left out
	Gain     float64 // by how much more often the run is clean than without this step and those after it
}

// Improve betters a checked plan by changes of up to three neighbouring cues. What cannot
// be reached is made reachable first. Each change has to be worth it in the search; their
// gains and the figures at the end come from other luck. The same plan and seed give the
// same answer on any number of cores. When ctx ends it returns the best so far.
func Improve(ctx context.Context, c *course.Course, p *plan.Plan, t *team.Team, seed uint64, first score.Priority) (*Improved, error) {
	base := sim.New(c, p, t)
	at, moved := Reachable(base, *p)
	tune := newTuner(base, at, seed, mostTries)
	tune.worth = first
	tune.tune(ctx)
	end, again := Reachable(base, tune.plan)
	im := &Improved{Before: base}
	from := *p
	if slices.Contains(moved, true) {
		im.step(from, at, true)
		from = at
	}
	for _, s := range tune.gains {
		im.step(from, s.Plan, false)
		from = s.Plan
	}
	if slices.Contains(again, true) {
		im.step(from, end, true)
	}
	return im, im.judge(context.WithoutCancel(ctx), end, seed)
}

func (im *Improved) step(from, to plan.Plan, reach bool) {
	im.Changes = append(im.Changes, Change{From: from, To: to, Reach: reach, Cues: touched(&from, &to)})
}

// touched returns the indexes in to of the cues that from does not have.
func touched(from, to *plan.Plan) []int {
	had := map[plan.Cue]bool{}
	for _, k := range from.Cues {
		k.Line = 0
		had[k] = true
	}
	var out []int
	for i, k := range to.Cues {
		if k.Line = 0; !had[k] {
			out = append(out, i)
		}
	}
	return out
}

// judge counts all steps on luck that the search never saw, and puts the changes in order.
func (im *Improved) judge(ctx context.Context, end plan.Plan, seed uint64) error {
	im.After = im.Before.WithPlan(&end)
	unseen := compare.Luck(seed, fresh)
	var err error
	if im.Against, err = compare.Plans(ctx, []*sim.Setup{im.Before, im.After}, unseen, 2000, nil); err != nil {
		return err
	}
	was, err := share(ctx, im.Before, unseen, finalRuns)
	for i := range im.Changes {
		if err != nil {
			return err
		}
		var is float64
		is, err = share(ctx, im.Before.WithPlan(&im.Changes[i].To), unseen, finalRuns)
		im.Changes[i].Gain, was = is-was, is
	}
	if err != nil {
		return err
	}
	slices.SortStableFunc(im.Changes, func(a, b Change) int {
		return cmp.Compare(b.Gain/float64(max(1, len(b.Cues))), a.Gain/float64(max(1, len(a.Cues))))
	})
	im.Late = latest(im.After.Rehearse())
	im.Searched, err = share(ctx, im.After, seed, runsEach)
	return err
}

// share returns how often a plan is clean.
func share(ctx context.Context, s *sim.Setup, seed uint64, runs int) (float64, error) {
	t, err := s.RunMany(ctx, seed, runs, nil)
	if err != nil {
		return 0, err
	}
	return float64(t.Clean) / float64(runs), nil
}
