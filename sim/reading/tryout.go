package reading

import (
	"context"
	"math"

	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/sim"
)

// How a first plan is tried out (C).
const (
	good       = 0.95 // a leg that is clean so often is left alone
	poor       = 0.6  // one that is clean more seldom may get a second cue
	worthwhile = 0.02 // how much better, in logarithms of chances, a change must be to be kept
	rounds     = 2
	mostTries  = 6000 // legs rehearsed, all tries together
	runsEach   = 48   // seeded runs that a change must stand up to: one likely run alone is too easily pleased
)

// tryout betters a plan by rehearsing it.
type tryout struct {
	r     *Reading
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
	t := &tryout{r: r, plan: *p, left: mostTries}
	if len(r.Legs) == 0 || len(p.Check(r.Course, r.Team)) > 0 {
		return p
	}
	t.runs = t.many(sim.New(r.Course, p, r.Team))
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
	t.likes = worth(t.rehearse(sim.New(t.r.Course, &t.plan, t.r.Team)))
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

func (t *tryout) rehearse(s *sim.Setup) *sim.Rehearsal {
	t.left -= t.to
	return s.RehearseTo(t.to)
}

func (t *tryout) many(s *sim.Setup) *sim.Tally {
	tally, _ := s.RunMany(context.Background(), 1, runsEach, nil) // never cancelled: no error
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

// try keeps a plan that somebody can run if it goes better: the likely run, and many runs
// as well.
func (t *tryout) try(p plan.Plan) {
	if t.left <= 0 || len(p.Check(t.r.Course, t.r.Team)) > 0 {
		return
	}
	setup := sim.New(t.r.Course, &p, t.r.Team)
	likes := worth(t.rehearse(setup))
	if likes < t.likes+worthwhile {
		return
	}
	if runs := t.many(setup); t.worth(runs) > t.worth(t.runs)+worthwhile {
		t.plan, t.runs, t.likes = p, runs, likes
	}
}

// worth is the logarithm of the chance that every leg of a likely run is clean, no leg
// counting for less than one in a thousand, and less where handler and dog meet.
func worth(run *sim.Rehearsal) float64 {
	sum := 0.0
	for i := range run.Legs {
		sum += math.Log(max(run.Legs[i].Clean, 0.001))
		for _, f := range run.Legs[i].Faults {
			if f.Kind == sim.Collision {
				sum -= f.Chance
			}
		}
	}
	return sum
}

// worth is the same of many runs, up to the number that is looked at.
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
	for _, show := range shown {
		t.try(t.showing(t.plan, k, show))
	}
	if t.plan.Cues[k].HasStand {
		for _, step := range []float64{2, 1} {
			for deg := 0; deg < 360; deg += 45 {
				cue := t.plan.Cues[k]
				cue.Stand = t.round(cue.Stand.Add(geom.Deg(float64(deg)).Unit().Mul(step)))
				t.try(t.plan.WithCue(k, cue))
			}
		}
	}
	if t.plan.Cues[k].When.Event == plan.Release {
		return
	}
	for _, strides := range []float64{-1, -0.5, 0.5, 1} {
		cue := t.plan.Cues[k]
		if cue.When.Strides += strides; math.Abs(cue.When.Strides) <= 3 {
			t.try(t.plan.WithCue(k, cue))
		}
	}
}

func (t *tryout) round(p geom.Point) geom.Point { return round(p, t.r.Course.Units) }

// Ways to handle a leg, in what the handler shows and says.
var (
	drawsIn = plan.Cue{Signal: plan.Pull, Word: "come", Shoulders: plan.Shoulders{Facing: plan.FaceDog}, Pace: plan.Walk}
	opens   = plan.Cue{Shoulders: plan.Shoulders{Facing: plan.FaceNumber}}
	sends   = plan.Cue{Shoulders: plan.Shoulders{Facing: plan.FaceNumber}, Signal: plan.Push, Word: "out"}
	shown   = []plan.Cue{
		drawsIn, opens, sends,
		{Signal: plan.Pull, Word: "come"},
		{Shoulders: plan.Shoulders{Facing: plan.FaceWay}},
		{Word: "go"},
		{Pace: plan.Walk},
		{Pace: plan.Jog},
	}
)

// showing is p with cue k showing something else. Pace and shoulders last: so the next
// cue takes them back.
func (t *tryout) showing(p plan.Plan, k int, show plan.Cue) plan.Plan {
	cue := p.Cues[k]
	cue.Signal, cue.Word, cue.Shoulders, cue.Pace = show.Signal, show.Word, show.Shoulders, show.Pace
	if cue.Shoulders.Facing == plan.FaceNumber {
		cue.Shoulders.Number = leadsTo(&cue)
	}
	if cue.Pace == plan.SamePace {
		cue.Pace = plan.Run
	}
	p = p.WithCue(k, cue)
	if k+1 < len(p.Cues) && cue.Shoulders.Facing != plan.SameFacing && p.Cues[k+1].Shoulders.Facing == plan.SameFacing {
		next := p.Cues[k+1]
		next.Shoulders.Facing = plan.FaceWay
		p = p.WithCue(k+1, next)
	}
	return p
}

// twoCues tries to draw the dog in before it lands, and to open out again a stride or two
// after: what a threadle and a jump from its far side ask for.
func (t *tryout) twoCues() {
	base, first := t.plan, -1
	for k := range base.Cues {
		if first < 0 && leadsTo(&base.Cues[k]) == t.leg {
			first = k
		}
	}
	if first < 0 {
		return
	}
	_, after := plan.EventsOf(t.r.Entries[t.r.right[t.leg-2]].Kind)
	l := &t.r.Legs[t.leg-1]
	for _, strides := range []float64{1, 2} {
		for _, share := range []float64{0.4, 0.8} {
			m := &t.r.Line.Samples[l.First+int(share*float64(l.Last-l.First))]
			for _, side := range []Side{Left, Right} {
				second := plan.Cue{
					When:  plan.Moment{Number: t.leg - 1, Event: after, Strides: strides},
					Stand: t.round(geom.Pose{At: m.At, Heading: m.Heading}.Beside(1.5 * float64(side))), HasStand: true, Arm: armFor(side),
				}
				p, at := t.showing(base, first, drawsIn).Insert(second)
				t.try(t.showing(p, at, opens))
			}
		}
	}
}
