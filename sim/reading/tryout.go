package reading

import (
	"context"
	"math"
	"slices"

	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/sim"
	"cuewalk/sim/advice"
	"cuewalk/sim/search"
)

// How a first plan is tried out (C).
const (
	good       = 0.95 // a leg that is clean so often is left alone
	poor       = 0.6  // one that is clean more seldom may get a second cue
	worthwhile = 0.02 // how much better, in logarithms of chances, a change must be to be kept
	rounds     = 2
	mostTries  = 8000 // legs rehearsed, all tries together
	runsEach   = 48   // seeded runs that a change must stand up to: one likely run alone is too easily pleased
	closer     = 2    // plans of those tried together that are looked at in runs
	runsCost   = 8    // legs rehearsed that one leg of these runs counts for: they take about as long
)

// tryout betters a plan by rehearsing it.
type tryout struct {
	r     *Reading
	setup *sim.Setup // for the plan it began with
	plan  plan.Plan
	runs  *sim.Tally // of the plan
	leg   int        // number that the leg worked on leads to
	to    int        // number up to which is looked
	likes float64    // what the likely run of the plan is worth up to there
	left  int        // legs that may still be rehearsed
}

// tried betters a first plan in rehearsals. On each leg in turn that goes wrong too often,
// other moments, stands, paces and signals are tried one by one in the cues that lead there
// and to the leg before, at need a second cue, and what makes the run up to the next number
// better is kept.
func (r *Reading) tried(p *plan.Plan) *plan.Plan {
	if len(r.Legs) == 0 || len(p.Check(r.Course, r.Team)) > 0 {
		return p
	}
	t := &tryout{r: r, setup: sim.New(r.Course, p, r.Team), plan: *p, left: mostTries}
	t.runs = t.many(p)
	for range rounds {
		kept := false
		for n := range r.Legs {
			kept = t.better(n+1) || kept
		}
		if !kept {
			break
		}
	}
	return &t.plan
}

// better works on the leg to number n and reports whether a change was kept.
func (t *tryout) better(n int) bool {
	t.leg, t.to = n, min(n+1, len(t.r.Legs))
	if t.left <= 0 || t.clean() >= good {
		return false
	}
	t.likes = advice.Worth(t.setup.WithPlan(&t.plan).RehearseTo(t.to))
	before := t.runs
	t.alterAll(n)
	if n > 1 {
		t.alterAll(n - 1)
	}
	if t.clean() < poor && n > 1 {
		t.twoCues()
		t.alterAll(n)
	}
	return t.runs != before
}

// clean is how often the leg that is worked on was clean.
func (t *tryout) clean() float64 { return float64(t.runs.Legs[t.leg-1].Clean) / float64(t.runs.Runs) }

func (t *tryout) many(p *plan.Plan) *sim.Tally {
	t.left -= runsCost * len(t.r.Legs)
	tally, _ := t.setup.WithPlan(p).RunMany(context.Background(), 1, runsEach, nil) // never cancelled: no error
	return tally
}

// alterAll alters each cue that leads to number n.
func (t *tryout) alterAll(n int) {
	for k := range t.plan.Cues {
		if leadsTo(&t.plan.Cues[k]) == n && t.clean() < good {
			t.alter(k)
		}
	}
}

// leadsTo returns the number that a cue is given for, as first plans have it.
func leadsTo(c *plan.Cue) int { return c.When.Number + 1 }

// try keeps the best of some plans if it goes better: the likely run, and many runs as well.
func (t *tryout) try(plans []plan.Plan) {
	plans = slices.DeleteFunc(plans, func(p plan.Plan) bool { return len(p.Check(t.r.Course, t.r.Team)) > 0 })
	if t.left -= len(plans) * t.to; t.left <= 0 {
		return
	}
	likes := make([]float64, len(plans))
	advice.Each(context.Background(), t.setup, t.to, plans, func(i int, r *sim.Rehearsal) { likes[i] = advice.Worth(r) })
	for range closer {
		best := -1
		for i := range likes {
			if likes[i] >= t.likes+worthwhile && (best < 0 || likes[i] > likes[best]) {
				best = i
			}
		}
		if best < 0 {
			return
		}
		if runs := t.many(&plans[best]); t.worth(runs) > t.worth(t.runs)+worthwhile {
			t.plan, t.runs, t.likes = plans[best], runs, likes[best]
			return
		}
		likes[best] = math.Inf(-1)
	}
}

// worth is the logarithm of the chance that every leg up to the number that is looked at is
// clean in many runs, and less where handler and dog meet.
func (t *tryout) worth(runs *sim.Tally) float64 {
	sum, n := 0.0, float64(runs.Runs)
	for i := range t.to {
		l := &runs.Legs[i]
		sum += math.Log((float64(l.Clean)+0.5)/(n+1)) - float64(l.Collided)/n
	}
	return sum
}

// alter tries everything on cue k: first what he shows and says, then where he is, then
// when.
func (t *tryout) alter(k int) {
	for _, more := range []func(d search.Draft) []plan.Plan{
		func(d search.Draft) []plan.Plan { return d.Ways(k, leadsTo(&t.plan.Cues[k])) },
		func(d search.Draft) []plan.Plan { return d.Stands(k) },
		func(d search.Draft) []plan.Plan { return d.Shifts(k) },
	} {
		t.try(more(t.draft(&t.plan)))
	}
}

func (t *tryout) draft(p *plan.Plan) search.Draft { return search.NewDraft(t.r.Course, p, t.r.Team) }

// twoCues tries to draw the dog in before it lands, and to open out again a stride or two
// after: what a threadle and a jump from its far side ask for.
func (t *tryout) twoCues() {
	first := slices.IndexFunc(t.plan.Cues, func(c plan.Cue) bool { return leadsTo(&c) == t.leg })
	if first < 0 {
		return
	}
	base := t.draft(&t.plan).Showing(first, t.leg, search.DrawsIn)
	_, after := plan.EventsOf(t.r.Entries[t.r.right[t.leg-2]].Kind)
	l := &t.r.Legs[t.leg-1]
	var plans []plan.Plan
	for _, strides := range []float64{1, 2} {
		for _, share := range []float64{0.4, 0.8} {
			m := &t.r.Line.Samples[l.First+int(share*float64(l.Last-l.First))]
			for _, side := range []Side{Left, Right} {
				second := plan.Cue{
					When:  plan.Moment{Number: t.leg - 1, Event: after, Strides: strides},
					Stand: t.r.Course.Units.Tenths(geom.Pose{At: m.At, Heading: m.Heading}.Beside(1.5 * float64(side))), HasStand: true,
					Pace: plan.Run, Arm: armFor(side),
				}
				if p, at := base.Insert(second); len(p.Check(t.r.Course, t.r.Team)) == 0 {
					plans = append(plans, t.draft(&p).Showing(at, t.leg, search.Opens))
				}
			}
		}
	}
	t.try(plans)
}
