package compare

import (
	"context"
	"fmt"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
)

// wrap is a jump with another one straight on behind it; the right one lies back beside
// the line the dog came on.
const wrap = `
course = "Wrap"
ring = [30, 40]
start = [15, 5]
order = "a b back"
[obstacles]
a    = { kind = "jump", at = [15, 9], facing = 0 }
b    = { kind = "jump", at = [15, 15], facing = 0 }
trap = { kind = "jump", at = [15, 20], facing = 0 }
back = { kind = "jump", at = [12.2, 10.5], facing = 190 }
`

// crosses is a front cross so many strides from the jump: after it is too late (common
// practice, no source).
func crosses(t testing.TB, strides float64, event string) *sim.Setup {
	t.Helper()
	tm, err := team.Parse("team.toml", []byte("team = \"Fast\"\n[dog]\nlike = \"large\"\n"))
	require.NoError(t, err)
	c, err := course.Parse("course.toml", []byte(wrap))
	require.NoError(t, err)
	p, err := plan.Parse("plan.toml", fmt.Appendf(nil, `
plan = "Front cross"
lead-out = [16.4, 10.2]
[[cue]]
when = "release"
pace = "run"
[[cue]]
when = "2 %s %+g"
stand = [16.4, 14]
cross = "front"
pace = "stop"
[[cue]]
when = "3 take-off"
stand = [13.9, 11.5]
`, event, strides), c, tm)
	require.NoError(t, err)
	return sim.New(c, p, tm)
}

func TestAPlanThatIsBetterIsFoundSoon(t *testing.T) {
	late, early := crosses(t, 1, "landing"), crosses(t, -1.5, "take-off")
	r, err := Plans(context.Background(), []*sim.Setup{late, early}, 1, 2000, nil)
	require.NoError(t, err)
	require.Equal(t, 1, r.Best)
	assert.Less(t, r.Worlds, 1000, "it stops when it is clear")
	p := r.Pairs[1][0]
	assert.True(t, p.Better)
	assert.False(t, r.Pairs[0][1].Better)
	assert.InDelta(t, r.Options[1].Share()-r.Options[0].Share(), p.Run.Mean(), 1e-9, "paired, and the same worlds")
	low, high := p.RunInterval()
	assert.Greater(t, high, low)
	assert.GreaterOrEqual(t, low, 0.0, "what is said to be better is not said to be perhaps worse")
	assert.Greater(t, p.Legs[2].Mean(), 0.1, "the leg after the cross is what the cross is for")
}

// A plan cannot be told from itself, and runs with the same luck show no difference at all.
func TestAPlanIsNotToldFromItself(t *testing.T) {
	s := crosses(t, -1.5, "take-off")
	r, err := Plans(context.Background(), []*sim.Setup{s, s}, 3, 150, nil)
	require.NoError(t, err)
	assert.Equal(t, -1, r.Best)
	assert.Equal(t, 150, r.Worlds)
	assert.Equal(t, []int{0, 1}, r.Living)
	assert.Zero(t, r.Pairs[0][1].Run.Mean())
	assert.Zero(t, r.Pairs[0][1].Time.Mean())
}

// The figures are those of the plain count of the same runs.
func TestItCountsWhatTheRunsCount(t *testing.T) {
	s := crosses(t, -1, "take-off")
	r, err := Plans(context.Background(), []*sim.Setup{s}, 7, firstBatch, nil)
	require.NoError(t, err)
	require.Equal(t, firstBatch, r.Worlds)
	tally, err := s.RunMany(context.Background(), 7, r.Worlds, nil)
	require.NoError(t, err)
	assert.Equal(t, tally.Clean, r.Options[0].Clean)
	same := Outcomes([][]sim.Outcome{tally.Each})
	assert.Equal(t, r.Options[0], same.Options[0])
}

func TestTheSameOnAnyNumberOfCores(t *testing.T) {
	options := []*sim.Setup{crosses(t, -1, "take-off"), crosses(t, -1.5, "take-off")}
	all, err := Plans(context.Background(), options, 5, 300, nil)
	require.NoError(t, err)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	single, err := Plans(context.Background(), options, 5, 300, nil)
	require.NoError(t, err)
	assert.Equal(t, all, single)
}

func TestACancelledComparison(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	s := crosses(t, -1, "take-off")
	_, err := Plans(ctx, []*sim.Setup{s, s}, 1, 100, nil)
	assert.ErrorIs(t, err, context.Canceled)
}
