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

// Change is a stretch of cues in which the better plan differs.
type Change struct {
	From, To plan.Plan // the better plan without this change, and with it
	Reach    bool      // without it he cannot be at his stands in time
	Cues     []int     // indexes in To of the cues that are new or different; none where cues were left out
	Gain     float64   // by how much more often the run is clean with it
}

// Improve betters a checked plan by changes of up to three neighbouring cues. What cannot
// be reached is made reachable first. Each change has to be worth it in the search; their
// gains and the figures at the end come from other luck. What is not worth its while is
// taken back: the plan stays as near to what it was as the gain allows. The same plan and
// seed give the same answer on any number of cores. When ctx ends it returns the best so far.
func Improve(ctx context.Context, c *course.Course, p *plan.Plan, t *team.Team, seed uint64, first score.Priority) (*Improved, error) {
	base := sim.New(c, p, t)
	at, _ := Reachable(base, *p)
	tune := newTuner(base, at, seed, mostTries)
	tune.worth = first
	tune.tune(ctx)
	end, _ := Reachable(base, tune.plan)
	if first == score.Cleaner {
		end = pruned(ctx, base, *p, end, seed)
	}
	im := &Improved{Before: base}
	for _, s := range stretches(p.Cues, end.Cues) {
		change := Change{From: s.without(&end, p), To: end}
		for k := s.c; k < s.d; k++ {
			change.Cues = append(change.Cues, k)
		}
		change.Reach = latest(base.WithPlan(&change.From).Rehearse()) > score.LateAllowed
		im.Changes = append(im.Changes, change)
	}
	return im, im.judge(context.WithoutCancel(ctx), end, seed)
}

// judge counts all changes on luck that the search never saw, and puts them in order.
func (im *Improved) judge(ctx context.Context, end plan.Plan, seed uint64) error {
	im.After = im.Before.WithPlan(&end)
	unseen := compare.Luck(seed, fresh)
	var err error
	if im.Against, err = compare.Plans(ctx, []*sim.Setup{im.Before, im.After}, unseen, 2000, nil); err != nil {
		return err
	}
	is, err := share(ctx, im.After, unseen, finalRuns)
	for i := range im.Changes {
		if err != nil {
			return err
		}
		var was float64
		was, err = share(ctx, im.Before.WithPlan(&im.Changes[i].From), unseen, finalRuns)
		im.Changes[i].Gain = is - was
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
