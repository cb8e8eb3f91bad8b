package search

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/plan/team"
)

const line = `
course = "Line"
ring = [20, 40]
start = [10, 2]
order = "a b c d"
[obstacles]
a = { kind = "jump", at = [10, 7], facing = 0 }
b = { kind = "jump", at = [10, 13], facing = 0 }
c = { kind = "jump", at = [10, 19], facing = 0 }
d = { kind = "jump", at = [10, 25], facing = 0 }
`

const beside = `
plan = "Beside"
lead-out = [12, 4]
[[cue]]
when = "release"
pace = "run"
[[cue]]
when = "1 take-off -1"
stand = [12, 6]
[[cue]]
when = "2 take-off -1"
stand = [12, 12]
[[cue]]
when = "3 take-off -1"
stand = [12, 18]
`

func files(t testing.TB) (*course.Course, *plan.Plan, *team.Team) {
	t.Helper()
	tm, err := team.Preset("large", "average")
	require.NoError(t, err)
	c, err := course.Parse("course.toml", []byte(line))
	require.NoError(t, err)
	p, err := plan.Parse("plan.toml", []byte(beside), c, &tm)
	require.NoError(t, err)
	return c, p, &tm
}

// toy is a score whose best plan is known: cue 1 stands at aim, cue 2 is given a stride and
// a half before its jump, and cue 3 pulls.
func toy(aim geom.Point) Score {
	return func(_ context.Context, plans []plan.Plan) []float64 {
		out := make([]float64, len(plans))
		for i, p := range plans {
			out[i] = -p.Cues[1].Stand.Dist(aim) - math.Abs(p.Cues[2].When.Strides+1.5)
			if p.Cues[3].Signal == plan.Pull {
				out[i]++
			}
		}
		return out
	}
}

func climb(c *course.Course, t *team.Team, quick, sure Score) Climb {
	return Climb{
		Moves: func(p *plan.Plan) []func(p *plan.Plan) []plan.Plan {
			var out []func(p *plan.Plan) []plan.Plan
			for k := range p.Cues {
				out = append(out,
					func(p *plan.Plan) []plan.Plan { return NewDraft(c, p, t).Ways(k, k+1) },
					func(p *plan.Plan) []plan.Plan { return NewDraft(c, p, t).Stands(k) },
					func(p *plan.Plan) []plan.Plan { return NewDraft(c, p, t).Shifts(k) })
			}
			return out
		},
		Fits:  func(p *plan.Plan) bool { return len(p.Check(c, t)) == 0 },
		Quick: quick, Sure: sure, Least: 0.05, Closer: 2, Passes: 10,
	}
}

func TestTheBestPlanIsFound(t *testing.T) {
	c, p, tm := files(t)
	aim := geom.Point{X: 14, Y: 9}
	steps := climb(c, tm, toy(aim), toy(aim)).From(context.Background(), *p)
	require.NotEmpty(t, steps)
	best := steps[len(steps)-1].Plan
	assert.Less(t, best.Cues[1].Stand.Dist(aim), 0.6, "as near as steps of a metre come")
	assert.Equal(t, -1.5, best.Cues[2].When.Strides)
	assert.Equal(t, plan.Pull, best.Cues[3].Signal)
	for i := range steps {
		assert.Empty(t, steps[i].Plan.Check(c, tm))
		assert.InDelta(t, toy(aim)(context.Background(), []plan.Plan{steps[i].Plan})[0], steps[i].Worth, 1e-12)
		if i > 0 {
			assert.GreaterOrEqual(t, steps[i].Worth, steps[i-1].Worth+0.05)
		}
	}
}

// What only the rough score likes is not kept.
func TestTheSureScoreDecides(t *testing.T) {
	c, p, tm := files(t)
	flat := func(_ context.Context, plans []plan.Plan) []float64 { return make([]float64, len(plans)) }
	assert.Empty(t, climb(c, tm, toy(geom.Point{X: 14, Y: 9}), flat).From(context.Background(), *p))
}

func TestACancelledSearch(t *testing.T) {
	c, p, tm := files(t)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	assert.Empty(t, climb(c, tm, toy(geom.Point{}), toy(geom.Point{})).From(ctx, *p))
}

// Cues given from the other side: as far from the line, the other arm, and behind them as before.
func TestTheOtherSide(t *testing.T) {
	c, p, tm := files(t)
	var dog []geom.Pose
	for y := 2.0; y < 30; y += 0.5 {
		dog = append(dog, geom.Pose{At: geom.Point{X: 10, Y: y}})
	}
	plans := NewDraft(c, p, tm).OtherSide(1, 2, dog)
	require.NotEmpty(t, plans)
	was := p.Resolve(c, tm)
	for _, q := range plans {
		is := q.Resolve(c, tm)
		for i := range is {
			switch i {
			case 2, 3:
				assert.Equal(t, was[i].Arm.Other(), is[i].Arm)
				assert.InDelta(t, 20-was[i].Stand.X, is[i].Stand.X, 0.051)
				assert.InDelta(t, was[i].Stand.Y, is[i].Stand.Y, 0.3)
			default:
				assert.Equal(t, was[i].Arm, is[i].Arm)
				assert.Equal(t, was[i].Stand, is[i].Stand)
			}
		}
	}
}

func TestNeighboursTogether(t *testing.T) {
	c, p, tm := files(t)
	d := NewDraft(c, p, tm)
	assert.Empty(t, d.Together(2, 3), "there are not so many")
	for _, q := range d.Together(1, 3) {
		by, shift := q.Cues[1].Stand.Sub(p.Cues[1].Stand), q.Cues[1].When.Strides-p.Cues[1].When.Strides
		for k := 1; k <= 3; k++ {
			assert.InDelta(t, 0, q.Cues[k].Stand.Sub(p.Cues[k].Stand).Sub(by).Norm(), 0.11)
			assert.Equal(t, shift, q.Cues[k].When.Strides-p.Cues[k].When.Strides)
		}
	}
}

// A plan spliced with itself is itself, wherever it is cut; one cue less leaves the rest
// doing what it did.
func TestSpliceAndFewer(t *testing.T) {
	c, p, tm := files(t)
	for n := 1; n <= 4; n++ {
		q := Splice(c, tm, p, p, n)
		assert.Equal(t, p.Resolve(c, tm), q.Resolve(c, tm), "cut at %d", n)
	}
	was := p.Resolve(c, tm)
	for _, q := range NewDraft(c, p, tm).Fewer(1) {
		is := q.Resolve(c, tm)
		require.Len(t, is, len(was)-1)
		assert.Equal(t, was[3].Pace, is[2].Pace)
		assert.Equal(t, was[3].Arm, is[2].Arm)
		assert.Equal(t, was[3].Shoulders, is[2].Shoulders)
	}
}

// One cue more, whatever it shows, leaves the cues behind it doing what they did; with a cue
// changed before it, too.
func TestOneCueMoreLastsToTheNext(t *testing.T) {
	c, p, tm := files(t)
	was := p.Resolve(c, tm)
	when, stand := plan.Moment{Number: 1, Event: plan.Landing, Strides: 1}, geom.Point{X: 12, Y: 9}
	d := NewDraft(c, p, tm)
	more := d.More(when, stand, 2)
	require.Len(t, more, 3)
	pairs := d.Pairs(1, when, stand, 2)
	require.Len(t, pairs, 8)
	crossed := 0
	for _, q := range append(more, pairs...) {
		if q.Cues[2].Cross != plan.NoCross {
			crossed++
			continue
		}
		require.Empty(t, q.Check(c, tm))
		is := q.Resolve(c, tm)
		require.Len(t, is, len(was)+1)
		assert.Equal(t, when, is[3].When)
		assert.Equal(t, stand, is[3].Stand)
		for i := 4; i < len(is); i++ {
			assert.Equal(t, was[i-1].Pace, is[i].Pace)
			assert.Equal(t, was[i-1].Arm, is[i].Arm)
			assert.Equal(t, was[i-1].Shoulders, is[i].Shoulders)
		}
	}
	assert.Equal(t, 4, crossed)
	assert.Equal(t, plan.Push, pairs[0].Cues[1].Signal)
	assert.Equal(t, plan.Push, pairs[0].Cues[2].Signal)
}
