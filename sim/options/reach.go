package options

import (
	"cuewalk/plan"
	"cuewalk/sim"
	"cuewalk/sim/score"
)

// Reachable returns the plan with every stand that the handler misses on the likely run
// moved to where he in fact is when its moment comes, and by cue whether that was done. Where
// he cannot be in time, he handles from where he can be.
func Reachable(base *sim.Setup, p plan.Plan) (plan.Plan, []bool) {
	moved := make([]bool, len(p.Cues))
	for range 6 {
		r := base.WithPlan(&p).Rehearse()
		changed := false
		flaws := len(p.Check(base.Course, base.Team))
		for _, c := range r.Cues[1:] {
			k := c.Action - 1
			if c.Sample < 0 || c.Late <= score.LateAllowed || !p.Cues[k].HasStand {
				continue
			}
			q := p.WithCue(k, p.Cues[k].PutAt(base.Course.Units.Tenths(c.Where)))
			if len(q.Check(base.Course, base.Team)) > flaws {
				q = without(p, k)
				if len(q.Check(base.Course, base.Team)) > flaws {
					continue
				}
			}
			p, changed, moved[k] = q, true, true
		}
		if !changed {
			break
		}
	}
	return p, moved
}

// without returns the plan with cue k given wherever the handler is.
func without(p plan.Plan, k int) plan.Plan {
	cue := p.Cues[k]
	cue.HasStand = false
	cue.Stand.X, cue.Stand.Y = 0, 0
	return p.WithCue(k, cue)
}

// latest returns how late the handler is at the stand he misses by most, seconds.
func latest(r *sim.Rehearsal) float64 {
	late := 0.0
	for i := range r.Cues {
		if r.Cues[i].Sample >= 0 {
			late = max(late, r.Cues[i].Late)
		}
	}
	return late
}
