package options

import (
	"context"

	"cuewalk/plan"
	"cuewalk/sim"
	"cuewalk/sim/score"
)

// plainness is what all that is left out of a plan together may cost it, in logarithms of
// chances (C): a plan has to be remembered.
const plainness = 0.02

// plainer returns the plan without the words and signals, and without the crosses there and
// back, that do nothing for it.
func plainer(ctx context.Context, base *sim.Setup, p plan.Plan, seed uint64) plan.Plan {
	sure := score.Sure(base, len(base.Course.Order), seed, runsEach, score.Cleaner)
	least := sure(ctx, []plan.Plan{p})[0] - plainness
	for k := range p.Cues {
		for _, q := range simpler(&p, k) {
			if ctx.Err() != nil {
				return p
			}
			if len(q.Check(base.Course, base.Team)) > 0 || latest(base.WithPlan(&q).Rehearse()) > score.LateAllowed {
				continue
			}
			if sure(ctx, []plan.Plan{q})[0] >= least {
				p = q
				break
			}
		}
	}
	return p
}

// simpler returns the plan with less at cue k: no cross there and none back at the next of
// the following three cues that has one; no word and no signal.
func simpler(p *plan.Plan, k int) []plan.Plan {
	var out []plan.Plan
	cue := p.Cues[k]
	if cue.Cross != plan.NoCross {
		for j := k + 1; j < min(k+4, len(p.Cues)); j++ {
			if back := p.Cues[j]; back.Cross != plan.NoCross {
				there := cue
				there.Cross, back.Cross = plan.NoCross, plan.NoCross
				out = append(out, p.WithCue(k, there).WithCue(j, back))
				break
			}
		}
	}
	if cue.Word != "" || cue.Signal != plan.Along {
		cue.Word, cue.Signal = "", plan.Along
		out = append(out, p.WithCue(k, cue))
	}
	return out
}
