package search

import (
	"context"
	"slices"

	"cuewalk/plan"
)

// Score says what plans are worth, in their order; more is better. It may stop early, with
// anything for the rest, when ctx ends.
type Score func(ctx context.Context, plans []plan.Plan) []float64

// Climb is a search from plan to better plan.
type Climb struct {
	Moves  func(p *plan.Plan) []func(p *plan.Plan) []plan.Plan // groups of changes to try on p, one group after another
	Fits   func(p *plan.Plan) bool                             // a plan that does not is not tried
	Quick  Score                                               // rough, of many plans
	Sure   Score                                               // of the few that Quick likes best
	Least  float64                                             // by how much a change must be better, by both
	Closer int                                                 // plans of a group that Sure looks at
	Passes int                                                 // most times all groups are gone through
}

// Step is a change that was kept, with what the plan is worth with it by Sure.
type Step struct {
	Plan  plan.Plan
	Worth float64
}

// From climbs from p: of each group of changes the best that helps is kept. It ends when a
// whole pass helps no more, or when ctx ends, and returns the changes kept, in order.
func (c Climb) From(ctx context.Context, p plan.Plan) []Step {
	var steps []Step
	at := Step{Plan: p, Worth: c.Sure(ctx, []plan.Plan{p})[0]}
	likes := c.Quick(ctx, []plan.Plan{p})[0]
	for range c.Passes {
		kept := false
		for _, group := range c.Moves(&at.Plan) {
			better, quick, ok := c.best(ctx, &at, likes, group(&at.Plan))
			if ctx.Err() != nil {
				return steps
			}
			if ok {
				at, likes, kept = better, quick, true
				steps = append(steps, at)
			}
		}
		if !kept {
			break
		}
	}
	return steps
}

// best returns the best of some plans where that is better than where the search stands.
func (c Climb) best(ctx context.Context, at *Step, likes float64, plans []plan.Plan) (Step, float64, bool) {
	plans = slices.DeleteFunc(plans, func(p plan.Plan) bool { return p.Equal(at.Plan) || !c.Fits(&p) })
	if len(plans) == 0 {
		return Step{}, 0, false
	}
	quick := c.Quick(ctx, plans)
	order := make([]int, 0, len(plans))
	for i := range plans {
		if quick[i] >= likes+c.Least {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case quick[a] > quick[b]:
			return -1
		case quick[a] < quick[b]:
			return 1
		}
		return 0
	})
	for _, i := range order[:min(len(order), c.Closer)] {
		if sure := c.Sure(ctx, plans[i:i+1])[0]; sure >= at.Worth+c.Least {
			return Step{plans[i], sure}, quick[i], true
		}
	}
	return Step{}, 0, false
}
