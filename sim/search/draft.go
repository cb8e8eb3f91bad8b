package search

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/plan/team"
)

// Draft is a plan to be changed in one cue. Each of its methods returns plans that
// differ from it in cue k, counted from 0, and in nothing that comes after: what used
// to stay from before the change, the next cue says. They are not checked.
type Draft struct {
	course *course.Course
	team   *team.Team
	plan   *plan.Plan
	acts   []plan.Action // of the plan; cue k is action k + 1
}

// NewDraft returns the draft of a checked plan.
func NewDraft(c *course.Course, p *plan.Plan, t *team.Team) Draft {
	return Draft{c, t, p, p.Resolve(c, t)}
}

// Ways to handle a leg, in what the handler shows and says (common practice, no source).
var (
	DrawsIn  = plan.Cue{Signal: plan.Pull, Word: "come", Shoulders: plan.Shoulders{Facing: plan.FaceDog}, Pace: plan.Walk}
	Opens    = plan.Cue{Shoulders: plan.Shoulders{Facing: plan.FaceNumber}}
	SendsOut = plan.Cue{Signal: plan.Push, Word: "out"}
	Turns    = plan.Cue{Word: "turn", Pace: plan.Walk}
	ways     = []plan.Cue{
		DrawsIn, Opens, SendsOut, Turns,
		{Shoulders: plan.Shoulders{Facing: plan.FaceNumber}, Signal: plan.Push, Word: "out"},
		{Signal: plan.Pull, Word: "come"},
		{Shoulders: plan.Shoulders{Facing: plan.FaceWay}},
		{Word: "go"},
		{Pace: plan.Walk},
		{Pace: plan.Jog},
		{Pace: plan.Run},
	}
)

// Ways returns the plan with cue k showing and saying something else on the way to
// number n, the name of its obstacle among it.
func (d Draft) Ways(k, n int) []plan.Plan {
	var out []plan.Plan
	for _, w := range ways {
		out = append(out, d.Showing(k, n, w))
	}
	if n <= len(d.course.Order) {
		name := d.course.Obstacles[d.course.Order[n-1].Obstacle].Kind.String()
		out = append(out, d.Showing(k, n, plan.Cue{Word: name}))
	}
	return out
}

// Showing returns the plan with the pace, signal, shoulders and word of cue k those of
// w; shoulders to a number are those to number n. What w does not set is as before the
// cue.
func (d Draft) Showing(k, n int, w plan.Cue) plan.Plan {
	cue := d.plan.Cues[k]
	cue.Signal, cue.Word = w.Signal, w.Word
	if w.Pace != plan.SamePace {
		cue.Pace = w.Pace
	}
	if w.Shoulders.Facing != plan.SameFacing {
		cue.Shoulders = w.Shoulders
	}
	if cue.Shoulders.Facing == plan.FaceNumber && w.Shoulders.Facing == plan.FaceNumber {
		cue.Shoulders.Number = n
	}
	return d.with(k, cue)
}

// Stands returns the plan with the stand of cue k moved by one and by two metres in
// eight directions; nothing where it has none.
func (d Draft) Stands(k int) []plan.Plan {
	if !d.plan.Cues[k].HasStand {
		return nil
	}
	var out []plan.Plan
	for _, step := range []float64{2, 1} {
		for deg := 0; deg < 360; deg += 45 {
			cue := d.plan.Cues[k]
			cue.Stand = d.course.Units.Tenths(cue.Stand.Add(geom.Deg(float64(deg)).Unit().Mul(step)))
			out = append(out, d.with(k, cue))
		}
	}
	return out
}

// mostStrides is how far from its event a moment is shifted at most (C).
const mostStrides = 3

// Shifts returns the plan with cue k given half a stride and a whole one sooner and
// later; nothing for the release.
func (d Draft) Shifts(k int) []plan.Plan {
	if d.plan.Cues[k].When.Event == plan.Release {
		return nil
	}
	var out []plan.Plan
	for _, strides := range []float64{-1, -0.5, 0.5, 1} {
		cue := d.plan.Cues[k]
		if cue.When.Strides += strides; math.Abs(cue.When.Strides) <= mostStrides {
			out = append(out, d.with(k, cue))
		}
	}
	return out
}

// Shifted returns the plan with cue k given so many strides later, sooner where negative.
func (d Draft) Shifted(k int, strides float64) plan.Plan {
	cue := d.plan.Cues[k]
	cue.When.Strides += strides
	return d.with(k, cue)
}

// Put returns the plan with cue k given from another stand.
func (d Draft) Put(k int, at geom.Point) plan.Plan { return d.with(k, d.plan.Cues[k].PutAt(at)) }

// with returns the plan with another cue k; the next cue takes back what would last.
func (d Draft) with(k int, cue plan.Cue) plan.Plan {
	was := d.plan.Cues[k]
	p := d.plan.WithCue(k, cue)
	if k+1 >= len(p.Cues) {
		return p
	}
	next, then := p.Cues[k+1], &d.acts[k+2]
	changed := false
	if cue.Pace != was.Pace && next.Pace == plan.SamePace {
		next.Pace, changed = then.Pace, true
	}
	if cue.Shoulders != was.Shoulders && next.Shoulders.Facing == plan.SameFacing && next.Cross == plan.NoCross {
		next.Shoulders, changed = then.Shoulders, true
	}
	if changed {
		p = p.WithCue(k+1, next)
	}
	return p
}
