package advice

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
	"cuewalk/sim/search"
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

// turns is a front cross so many strides before the jump: one is late, one and a half is
// in time (common practice, no source: half a stride decides).
func turns(strides float64) string {
	return fmt.Sprintf(`
plan = "Front cross"
lead-out = [16.4, 10.2]
[[cue]]
when = "release"
pace = "run"
[[cue]]
when = "2 take-off %g"
stand = [16.4, 14]
cross = "front"
pace = "stop"
[[cue]]
when = "3 take-off"
stand = [13.9, 11.5]
`, strides)
}

func files(t testing.TB, c, p string) (*course.Course, *plan.Plan, *team.Team) {
	t.Helper()
	tm, err := team.Parse("team.toml", []byte("team = \"Fast\"\n[dog]\nlike = \"large\"\n"))
	require.NoError(t, err)
	cc, err := course.Parse("course.toml", []byte(c))
	require.NoError(t, err)
	pp, err := plan.Parse("plan.toml", []byte(p), cc, tm)
	require.NoError(t, err)
	return cc, pp, tm
}

// For a late cross something is advised, and what is advised does what it says: counted
// again, and on luck that it was not chosen by.
func TestWhatIsAdvisedHelps(t *testing.T) {
	c, p, tm := files(t, wrap, turns(-0.5))
	found, err := ForLeg(context.Background(), c, p, tm, 3, 1, 200)
	require.NoError(t, err)
	require.NotEmpty(t, found.Advice)
	assert.LessOrEqual(t, len(found.Advice), most)
	for _, a := range found.Advice {
		assert.Empty(t, a.Plan.Check(c, tm))
		assert.GreaterOrEqual(t, a.Leg, found.Leg+least)
		assert.GreaterOrEqual(t, a.Run, found.Run-spoiling)
		same, err := sim.New(c, &a.Plan, tm).RunMany(context.Background(), 1, 200, nil)
		require.NoError(t, err)
		assert.InDelta(t, float64(same.Legs[2].Clean)/200, a.Leg, 1e-9)
		other, err := sim.New(c, &a.Plan, tm).RunMany(context.Background(), 77, 400, nil)
		require.NoError(t, err)
		assert.Greater(t, float64(other.Legs[2].Clean)/400, found.Leg, "cue %d, kind %d", a.Cue+1, a.Kind)
	}
	for i := 1; i < len(found.Advice); i++ {
		assert.GreaterOrEqual(t, found.Advice[i-1].Run, found.Advice[i].Run, "best for the whole run first")
	}
}

func TestNoAdviceWhereNothingIsWrong(t *testing.T) {
	c, p, tm := files(t, wrap, turns(-1.5))
	for n := 1; n <= 2; n++ {
		found, err := ForLeg(context.Background(), c, p, tm, n, 1, 100)
		require.NoError(t, err)
		assert.Greater(t, found.Leg, 0.95)
		assert.Empty(t, found.Advice)
	}
}

// The same plan and seed give the same advice, on one core and on all.
func TestAdviceIsPure(t *testing.T) {
	c, p, tm := files(t, wrap, turns(-1))
	all, err := ForLeg(context.Background(), c, p, tm, 3, 5, 60)
	require.NoError(t, err)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	one, err := ForLeg(context.Background(), c, p, tm, 3, 5, 60)
	require.NoError(t, err)
	assert.Equal(t, all, one)
}

func TestCancelled(t *testing.T) {
	c, p, tm := files(t, wrap, turns(-1))
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := ForLeg(ctx, c, p, tm, 3, 1, 50)
	assert.ErrorIs(t, err, context.Canceled)
}

// A change of one cue changes nothing that comes after: later actions stand, face and go
// as they did.
func TestAChangeDoesNotLast(t *testing.T) {
	c, p, tm := files(t, wrap, `
plan = "Much that lasts"
lead-out = [16.4, 10.2]
[[cue]]
when = "release"
pace = "run"
[[cue]]
when = "1 landing"
stand = [16.4, 13]
pace = "walk"
shoulders = "dog"
[[cue]]
when = "2 take-off -1"
[[cue]]
when = "2 landing"
stand = [16, 14]
word = "go"
[[cue]]
when = "3 take-off"
stand = [13.9, 11.5]
pace = "jog"
`)
	d, was := search.NewDraft(c, p, tm), p.Resolve(c, tm)
	n := 0
	for k := range p.Cues {
		for _, plans := range [][]plan.Plan{d.Ways(k, 3), d.Stands(k), d.Shifts(k)} {
			for _, q := range plans {
				is := q.Resolve(c, tm)
				require.Len(t, is, len(was))
				for i := range is {
					if i == k+1 {
						continue
					}
					n++
					a, b := was[i], is[i]
					a.Manoeuvre, b.Manoeuvre = 0, 0 // is read off the positions of several cues
					assert.Equal(t, a, b, "cue %d after a change of cue %d", i, k+1)
				}
			}
		}
	}
	assert.Positive(t, n)
	assert.Empty(t, d.Stands(0), "the release has no stand")
	assert.Empty(t, d.Shifts(0), "and comes when it comes")
	assert.Len(t, d.Stands(1), 16)
}

func BenchmarkForLeg(b *testing.B) {
	c, p, tm := files(b, wrap, turns(-1))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ForLeg(context.Background(), c, p, tm, 3, 1, 200); err != nil {
			b.Fatal(err)
		}
	}
}
