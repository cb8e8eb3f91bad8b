// Package advice says which changes of a plan would help on a leg. It is pure: the same
// plan and seed give the same advice. A constant marked C is chosen here and has no source.
package advice

import (
	"cmp"
	"context"
	"slices"

	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/sim/score"
	"cuewalk/sim/search"
)

// Kind is what a change is about.
type Kind uint8

// The kinds of change.
const (
	Way   Kind = iota // what he shows and says, and his pace
	Stand             // where he is
	Shift             // when
)

// Advice is a change of one cue that helps on a leg.
type Advice struct {
	Cue  int       // index in the plan's cues of the one that is changed
	Kind Kind      // what about it
	Plan plan.Plan // the plan with the change
	Leg  float64   // chance that the leg is clean with it
	Run  float64   // chance of a clean run with it
}

// Found is what was found for a leg.
type Found struct {
	Number   int     // the leg's
	Leg, Run float64 // chances of a clean leg and a clean run as the plan is
	Advice   []Advice
}

// Runs is how many seeded runs advice is best counted on: enough to tell a few points, few
// enough to wait for (C).
const Runs = 200

// How advice is chosen (C).
const (
	most     = 3    // pieces of advice for a leg
	closer   = 6    // changes that are looked at closer, in many runs
	least    = 0.03 // by how much the leg must be cleaner
	spoiling = 0.01 // by how much the whole run may be less clean
)

// ForLeg tries changes of the cues that act on the leg to number n and returns those
// that make it cleaner and spoil nothing else, best for the whole run first. Chances are
// counted on runs seeded runs, the same luck for all. It returns ctx's error when
// cancelled. n must be a number of the course, p a checked plan, runs at least 1.
func ForLeg(ctx context.Context, c *course.Course, p *plan.Plan, t *team.Team, n int, seed uint64, runs int) (Found, error) {
	base := sim.New(c, p, t)
	likely := base.Rehearse()
	tally, err := base.RunMany(ctx, seed, runs, nil)
	if err != nil {
		return Found{}, err
	}
	found := Found{Number: n, Leg: share(tally.Legs[n-1].Clean, runs), Run: share(tally.Clean, runs)}
	was := score.Likely(likely)
	all := changes(c, p, t, likely, n)
	plans := make([]plan.Plan, len(all))
	for i := range all {
		plans[i] = all[i].Plan
	}
	score.Each(ctx, base, len(c.Order), plans, func(i int, r *sim.Rehearsal) {
		all[i].ok, all[i].leg, all[i].worth = true, r.Legs[n-1].Clean, score.Likely(r)
	})
	all = slices.DeleteFunc(all, func(x tried) bool { return !x.ok || x.leg < likely.Legs[n-1].Clean+least || x.worth < was })
	slices.SortStableFunc(all, func(a, b tried) int { return cmp.Compare(b.worth, a.worth) })
	all = firstOfEach(all)
	for i := range all[:min(len(all), closer)] {
		a := &all[i].Advice
		tally, err := base.WithPlan(&a.Plan).RunMany(ctx, seed, runs, nil)
		if err != nil {
			return Found{}, err
		}
		a.Leg, a.Run = share(tally.Legs[n-1].Clean, runs), share(tally.Clean, runs)
		if a.Leg >= found.Leg+least && a.Run >= found.Run-spoiling {
			found.Advice = append(found.Advice, *a)
		}
	}
	slices.SortStableFunc(found.Advice, func(a, b Advice) int {
		return cmp.Or(cmp.Compare(b.Run, a.Run), cmp.Compare(b.Leg, a.Leg))
	})
	found.Advice = found.Advice[:min(len(found.Advice), most)]
	return found, ctx.Err()
}

func share(k, n int) float64 { return float64(k) / float64(max(n, 1)) }

// tried is a change that was rehearsed.
type tried struct {
	Advice
	ok         bool
	leg, worth float64 // by the likely run
}

// changes lists what may be tried on the cues that act on the leg to number n: those
// given on it or on the leg before.
func changes(c *course.Course, p *plan.Plan, t *team.Team, likely *sim.Rehearsal, n int) []tried {
	d := search.NewDraft(c, p, t)
	first, last := likely.Legs[max(n-2, 0)].First, likely.Legs[n-1].Last
	faults := len(p.Check(c, t))
	var out []tried
	for k := range p.Cues {
		at := likely.Cues[k+1].Sample
		if at < first || at >= last {
			continue
		}
		for kind, plans := range [][]plan.Plan{Way: d.Ways(k, n), Stand: d.Stands(k), Shift: d.Shifts(k)} {
			for _, q := range plans {
				if len(q.Check(c, t)) <= faults && !q.Equal(*p) {
					out = append(out, tried{Advice: Advice{Cue: k, Kind: Kind(kind), Plan: q}})
				}
			}
		}
	}
	return out
}

// firstOfEach keeps the first change of each kind of each cue, so that not all advice is
// the same in a little more and a little less.
func firstOfEach(all []tried) []tried {
	type what struct {
		cue  int
		kind Kind
	}
	seen := map[what]bool{}
	return slices.DeleteFunc(all, func(x tried) bool {
		w := what{x.Cue, x.Kind}
		again := seen[w]
		seen[w] = true
		return again
	})
}
