package options

import (
	"context"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/sim/reading"
	"cuewalk/sim/score"
)

// turns goes up the ring and back down beside itself.
const turns = `
course = "Up and down"
ring = [25, 35]
start = [6, 3]
order = "a b c d e f"
[obstacles]
a = { kind = "jump", at = [6, 8], facing = 0 }
b = { kind = "jump", at = [6, 14], facing = 0 }
c = { kind = "jump", at = [9, 19.5], facing = 50 }
d = { kind = "jump", at = [14.5, 19.5], facing = 130 }
e = { kind = "jump", at = [17, 14], facing = 180 }
f = { kind = "jump", at = [17, 8], facing = 180 }
`

func setting(t testing.TB) (*course.Course, *team.Team) {
	t.Helper()
	c, err := course.Parse("course.toml", []byte(turns))
	require.NoError(t, err)
	tm, err := team.Preset("small", "average")
	require.NoError(t, err)
	return c, &tm
}

func parsed(t testing.TB, src string) (*course.Course, *team.Team, *plan.Plan) {
	t.Helper()
	c, tm := setting(t)
	p, err := plan.Parse("plan.toml", []byte(src), c, tm)
	require.NoError(t, err)
	return c, tm, p
}

// Proposals can be run, differ in what they are told as, hold on luck they were not chosen
// by, and come back as they are from their files.
func TestProposals(t *testing.T) {
	if testing.Short() {
		t.Skip("searches for a plan")
	}
	c, tm := setting(t)
	r := reading.Read(c, tm, nil)
	calls := 0
	all := Propose(context.Background(), r, 1, func(so []Proposal) {
		calls++
		require.NotEmpty(t, so)
	})
	require.NotEmpty(t, all)
	require.LessOrEqual(t, len(all), MostProposals)
	assert.Greater(t, calls, 1, "it says what it has on the way")
	told := map[string]bool{}
	for i := range all {
		o := &all[i]
		assert.Empty(t, o.Plan.Check(c, tm))
		assert.LessOrEqual(t, o.Late, score.LateAllowed)
		assert.False(t, told[o.Told], o.Told)
		told[o.Told] = true
		tally, err := sim.New(c, &o.Plan, tm).RunMany(context.Background(), 4242, 400, nil)
		require.NoError(t, err)
		assert.InDelta(t, o.Result.Share(), float64(tally.Clean)/400, 0.12, "figures hold on other luck")
		data := o.Written(r)
		back, err := plan.Parse("written.toml", data, c, tm)
		require.NoError(t, err)
		back.File = ""
		assert.True(t, back.Equal(o.Plan))
		assert.Equal(t, len(o.Plan.Cues), strings.Count(string(data), "\n# For "), "every cue says what it is for")
	}
	t.Logf("%d proposals, best clean %.2f: %s", len(all), all[0].Result.Share(), all[0].Told)
	assert.Greater(t, all[0].Result.Share(), 0.6, "six open jumps are no hard course")
}

func TestProposalsAreTheSameOnAnyNumberOfCores(t *testing.T) {
	if testing.Short() {
		t.Skip("some seconds")
	}
	c, tm := setting(t)
	r := reading.Read(c, tm, nil)
	figures := func() (out []string) {
		for _, o := range Propose(context.Background(), r, 7, nil) {
			out = append(out, string(o.Written(r)))
		}
		return out
	}
	all := figures()
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	assert.Equal(t, all, figures())
}

// Stopped at once, there is still a plan that can be run.
func TestProposalsStopped(t *testing.T) {
	c, tm := setting(t)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	all := Propose(ctx, reading.Read(c, tm, nil), 1, nil)
	require.Len(t, all, 1)
	assert.Empty(t, all[0].Plan.Check(c, tm))
	assert.Nil(t, Propose(context.Background(), reading.Read(&course.Course{Ring: geom.Point{X: 20, Y: 20}}, tm, nil), 1, nil))
}

// A first plan goes better than the draft it was made from.
func TestFirst(t *testing.T) {
	if testing.Short() {
		t.Skip("searches for a plan")
	}
	c, tm := setting(t)
	r := reading.Read(c, tm, nil)
	p := First(c, tm)
	require.Empty(t, p.Check(c, tm))
	clean := func(p *plan.Plan) int {
		tally, err := sim.New(c, p, tm).RunMany(context.Background(), 99, 400, nil)
		require.NoError(t, err)
		return tally.Clean
	}
	assert.GreaterOrEqual(t, clean(p), clean(r.Draft(r.Sides(reading.SwapCost, nil, 0)))-12)
}

// unreachable asks for a stand across the ring.
const unreachable = `
plan = "Too far"
lead-out = [8, 6]
[[cue]]
when = "release"
pace = "run"
[[cue]]
when = "2 take-off -1"
stand = [22, 30]
[[cue]]
when = "4 take-off -1"
stand = [14, 14]
`

func TestWhatCannotBeReachedIsMadeReachable(t *testing.T) {
	c, tm, p := parsed(t, unreachable)
	base := sim.New(c, p, tm)
	require.Greater(t, latest(base.Rehearse()), 1.0)
	q, moved := Reachable(base, *p)
	assert.Equal(t, []bool{false, true, moved[2]}, moved)
	assert.Empty(t, q.Check(c, tm))
	assert.LessOrEqual(t, latest(base.WithPlan(&q).Rehearse()), score.LateAllowed)
}

func TestImprove(t *testing.T) {
	c, tm, p := parsed(t, unreachable)
	im, err := Improve(context.Background(), c, p, tm, 1, score.Cleaner)
	require.NoError(t, err)
	assert.LessOrEqual(t, im.Late, score.LateAllowed)
	assert.False(t, im.Against.Pairs[1][0].Worse)
	require.NotEmpty(t, im.Changes)
	reach := false
	for _, x := range im.Changes {
		reach = reach || x.Reach
		assert.Empty(t, x.To.Check(c, tm))
	}
	assert.True(t, reach, "the stand across the ring was moved first")
	again, err := Improve(context.Background(), c, p, tm, 1, score.Cleaner)
	require.NoError(t, err)
	assert.Equal(t, im.After.Plan, again.After.Plan)
	assert.Equal(t, im.Changes, again.Changes)
	t.Logf("clean %.2f, then %.2f", im.Against.Options[0].Share(), im.Against.Options[1].Share())
}

// Two plans, each spoilt in another place by calling the dog off, mix to one that is spoilt in
// neither.
func TestMix(t *testing.T) {
	c, tm := setting(t)
	good := First(c, tm)
	spoil := func(k int) *plan.Plan {
		cue := good.Cues[k]
		cue.Shoulders, cue.Signal = plan.Shoulders{Facing: plan.FaceDog}, plan.Pull
		p := good.WithCue(k, cue)
		if next := p.Cues[k+1]; next.Shoulders.Facing == plan.SameFacing {
			next.Shoulders.Facing = plan.FaceNext
			p = p.WithCue(k+1, next)
		}
		require.Empty(t, p.Check(c, tm))
		return &p
	}
	a, b := spoil(1), spoil(4)
	x, err := Compare(context.Background(), c, tm, []*plan.Plan{a, b}, 1, 400)
	require.NoError(t, err)
	require.NotNil(t, x.Mix)
	require.Len(t, x.Mix.Parts, 2)
	assert.Equal(t, 1, x.Mix.Parts[0].Option, "the beginning of the one that is spoilt at its end")
	assert.Empty(t, x.Mix.Plan.Check(c, tm))
	for i := range x.Plans {
		assert.Greater(t, float64(x.Mix.Clean)/float64(x.Result.Worlds), x.Result.Options[i].Share())
	}
}

func TestWhere(t *testing.T) {
	for want, m := range map[string]plan.Moment{
		"at the release":  {},
		"between 2 and 3": {Number: 2, Event: plan.Landing},
		"between 4 and 5": {Number: 5, Event: plan.TakeOff, Strides: -4},
		"at 5":            {Number: 5, Event: plan.TakeOff, Strides: -1},
		"at 6":            {Number: 6, Event: plan.Landing},
	} {
		assert.Equal(t, want, Where(m, 6))
	}
}

func TestStretches(t *testing.T) {
	cue := func(n int) plan.Cue { return plan.Cue{When: plan.Moment{Number: n, Event: plan.TakeOff}} }
	cues := func(ns ...int) (out []plan.Cue) {
		for _, n := range ns {
			out = append(out, cue(n))
		}
		return out
	}
	before := plan.Plan{Cues: cues(1, 2, 3, 5, 6)}
	after := plan.Plan{Cues: cues(1, 12, 3, 4, 5)}
	got := stretches(before.Cues, after.Cues)
	assert.Equal(t, []stretch{{1, 2, 1, 2}, {3, 3, 3, 4}, {4, 5, 5, 5}}, got)
	assert.Empty(t, stretches(before.Cues, before.Cues))
	for i, want := range [][]plan.Cue{cues(1, 2, 3, 4, 5), cues(1, 12, 3, 5), cues(1, 12, 3, 4, 5, 6)} {
		assert.Equal(t, want, got[i].without(&after, &before).Cues)
	}
}

// What is left out costs next to nothing.
func TestPlainer(t *testing.T) {
	c, tm := setting(t)
	first := First(c, tm)
	base := sim.New(c, first, tm)
	k := len(first.Cues) - 1
	cue := first.Cues[k]
	cue.Word = "go"
	wordy := first.WithCue(k, cue)
	require.Empty(t, wordy.Check(c, tm))
	for _, p := range []plan.Plan{*first, wordy} {
		q := plainer(context.Background(), base, p, 1)
		assert.Empty(t, q.Check(c, tm))
		assert.Len(t, q.Cues, len(p.Cues))
		sure := score.Sure(base, len(c.Order), 1, runsEach, score.Cleaner)
		worth := sure(context.Background(), []plan.Plan{p, q})
		assert.GreaterOrEqual(t, worth[1], worth[0]-plainness)
	}
}

func TestSimpler(t *testing.T) {
	p := plan.Plan{Cues: []plan.Cue{{}, {Cross: plan.FrontCross, Word: "come"}, {}, {Cross: plan.RearCross}, {}}}
	got := simpler(&p, 1)
	require.Len(t, got, 2)
	assert.Equal(t, []plan.Cue{{}, {Word: "come"}, {}, {}, {}}, got[0].Cues, "no cross there and none back")
	assert.Equal(t, []plan.Cue{{}, {Cross: plan.FrontCross}, {}, {Cross: plan.RearCross}, {}}, got[1].Cues)
	assert.Empty(t, simpler(&p, 0))
	assert.Empty(t, simpler(&p, 3), "it would leave him on the other side")
}
