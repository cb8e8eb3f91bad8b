package slack

import (
	"context"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/sim/search"
)

// wrap is a jump with another one straight on behind it; the right one lies back beside
// the line the dog came on. The front cross for it has to be shown before the take-off
// (common practice, no source).
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

const crossing = `
plan = "Front cross"
lead-out = [16.4, 10.2]
[[cue]]
when = "release"
pace = "run"
[[cue]]
when = "2 take-off -1.5"
stand = [16.4, 14]
cross = "front"
pace = "stop"
[[cue]]
when = "3 take-off"
stand = [13.9, 11.5]
`

func rehearsed(t testing.TB) *sim.Rehearsal {
	t.Helper()
	tm, err := team.Parse("team.toml", []byte("team = \"Fast\"\n[dog]\nlike = \"large\"\n"))
	require.NoError(t, err)
	c, err := course.Parse("course.toml", []byte(wrap))
	require.NoError(t, err)
	p, err := plan.Parse("plan.toml", []byte(crossing), c, tm)
	require.NoError(t, err)
	return sim.New(c, p, tm).Rehearse()
}

// What is said of the cross is so in whole runs: within its slack it costs little, half a
// stride later it costs more than that.
func TestSlackHoldsInRuns(t *testing.T) {
	r := rehearsed(t)
	s, err := Of(context.Background(), r)
	require.NoError(t, err)
	require.Len(t, s.Cues, 3)
	assert.False(t, s.Cues[0].Timed, "the release comes when it comes")
	assert.False(t, s.Cues[0].Placed)
	cross := s.Cues[1]
	require.True(t, cross.Timed)
	require.False(t, cross.LateMore, "a cross that may come at any time later is none")
	t.Logf("%+v", cross)
	d := search.NewDraft(r.Setup.Course, r.Setup.Plan, r.Setup.Team)
	clean := func(strides float64) float64 {
		p := d.Shifted(1, strides)
		tally, err := r.Setup.WithPlan(&p).RunMany(context.Background(), 3, 500, nil)
		require.NoError(t, err)
		return float64(tally.Clean) / 500
	}
	best := 0.0
	for by := -2.0; by <= 2; by += 0.5 {
		best = max(best, clean(by))
	}
	assert.Greater(t, clean(cross.LateStep), best-Allowed-0.05, "the likely run speaks for the runs, near enough")
	assert.Less(t, clean(cross.LateStep+1), clean(cross.LateStep)-0.02)
}

// The tightest cue is the one with the least room either way.
func TestTheTightest(t *testing.T) {
	s, err := Of(context.Background(), rehearsed(t))
	require.NoError(t, err)
	require.GreaterOrEqual(t, s.Tightest, 0)
	for _, c := range s.Cues {
		if c.Timed {
			assert.False(t, c.tighter(&s.Cues[s.Tightest]))
		}
		if c.Placed {
			assert.LessOrEqual(t, c.Off, mostOff)
			assert.GreaterOrEqual(t, c.Off, -mostOff)
		}
	}
}

func TestTheSameOnAnyNumberOfCores(t *testing.T) {
	r := rehearsed(t)
	all, err := Of(context.Background(), r)
	require.NoError(t, err)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	single, err := Of(context.Background(), r)
	require.NoError(t, err)
	assert.Equal(t, all, single)
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := Of(ctx, rehearsed(t))
	assert.ErrorIs(t, err, context.Canceled)
}
