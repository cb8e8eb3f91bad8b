package options

import (
	"context"
	"math"
	"slices"

	"cuewalk/plan"
	"cuewalk/sim/score"
	"cuewalk/sim/search"
)

// worthTaking is by how much more often another plan must be clean on a leg for its handling
// of that leg to be tried (C).
const worthTaking = 0.1

// afterTries is how many legs may be rehearsed to better what was put together (C).
const afterTries = 3000

// mostExchanging is how many plans are bettered so, best first: it takes time (C).
const mostExchanging = 3

// exchanged lets the better plans take over the handling of their bad legs from the
// others, as far as that goes well with the rest; what was changed, and the best in any case, is bettered
// once more and counted again. A plan that is no better for it stays as it was.
func (p *proposer) exchanged(ctx context.Context, all []Proposal) []Proposal {
	out := slices.Clone(all)
	for i := range min(len(all), mostExchanging) {
		at, ok := p.taking(ctx, &all[i], all)
		if !ok && i > 0 || ctx.Err() != nil {
			continue
		}
		better, moved := p.worked(ctx, at, afterTries)
		one, ok := p.judged(context.WithoutCancel(ctx), better, moved, finalRuns)
		if ok && one.Late <= score.LateAllowed && one.Searched > all[i].Searched {
			out[i] = one
		}
	}
	return ranked(out)
}

// taking returns the plan of one with legs of the others in it, and whether there are any.
func (p *proposer) taking(ctx context.Context, one *Proposal, all []Proposal) (plan.Plan, bool) {
	numbers := len(one.Likely.Legs)
	sure := score.Sure(p.base, numbers, p.seed, runsEach, score.Cleaner)
	at, taken := one.Plan, false
	worth := sure(ctx, []plan.Plan{at})[0]
	for n := 1; n <= numbers; n++ {
		best := math.Inf(-1)
		var found plan.Plan
		for j := range all {
			if all[j].Likely.Legs[n-1].Clean < one.Likely.Legs[n-1].Clean+worthTaking {
				continue
			}
			for _, q := range p.legFrom(&at, &all[j].Plan, n) {
				if w := sure(ctx, []plan.Plan{q})[0]; w > best {
					best, found = w, q
				}
			}
		}
		if best > worth+worthwhile {
			at, worth, taken = found, best, true
		}
	}
	return at, taken
}

// legFrom returns one plan with the handling of the leg to number n from another, taken over
// one and two numbers before it, and left again at that number and the next.
func (p *proposer) legFrom(one, other *plan.Plan, n int) []plan.Plan {
	c, t := p.base.Course, p.base.Team
	var out []plan.Plan
	for _, from := range []int{n - 1, n - 2} {
		for _, to := range []int{n, n + 1} {
			q := *other
			if from >= 1 {
				q = search.Splice(c, t, one, other, from)
			}
			if len(q.Check(c, t)) > 0 {
				continue
			}
			if to <= len(c.Order) {
				q = search.Splice(c, t, &q, one, to)
			}
			if len(q.Check(c, t)) == 0 {
				out = append(out, q)
			}
		}
	}
	return out
}

// otherCrosses returns a plan made the same way as one but with another kind of cross at one
// place, the best of these; none where the plan has no cross or he could not be in time.
func (p *proposer) otherCrosses(ctx context.Context, one *Proposal) []Proposal {
	sure := score.Sure(p.base, len(one.Likely.Legs), p.seed, runsEach, score.Cleaner)
	best, worth := plan.Plan{}, math.Inf(-1)
	var moved []bool
	for k := range one.Plan.Cues {
		for _, cross := range []plan.Cross{plan.FrontCross, plan.BlindCross, plan.RearCross} {
			cue := one.Plan.Cues[k]
			if cue.Cross == plan.NoCross || cue.Cross == cross {
				continue
			}
			cue.Cross = cross
			q, by := Reachable(p.base, one.Plan.WithCue(k, cue))
			if len(q.Check(p.base.Course, p.base.Team)) > 0 || latest(p.base.WithPlan(&q).Rehearse()) > score.LateAllowed {
				continue
			}
			if w := sure(ctx, []plan.Plan{q})[0]; w > worth {
				best, worth, moved = q, w, by
			}
		}
	}
	if moved == nil || ctx.Err() != nil {
		return nil
	}
	for k := range moved {
		moved[k] = moved[k] || one.Moved[k]
	}
	other, ok := p.judged(context.WithoutCancel(ctx), best, moved, finalRuns)
	if !ok {
		return nil
	}
	return []Proposal{other}
}
