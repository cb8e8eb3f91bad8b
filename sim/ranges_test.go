package sim

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/team"
)

// Every figure of dog and handler at either end of its range, one by one, goes through the
// simulation: all that comes out is finite, chances lie between 0 and 1, and what becomes of
// a leg sums to 1.
func TestEveryFigureAtTheEndsOfItsRange(t *testing.T) {
	c, err := course.Parse("course.toml", []byte(loopOfAll))
	require.NoError(t, err)
	likes := map[string][]string{"dog": {"large", "small"}, "handler": {"average"}}
	taken := 0
	for _, f := range team.Figures() {
		for _, like := range likes[f.Table] {
			for _, end := range []float64{f.Least, f.Most} {
				src := fmt.Sprintf("team = \"Ends\"\n[%s]\nlike = %q\n%s = %g\n", f.Table, like, f.Key, end)
				who, err := team.Parse("team.toml", []byte(src))
				if err != nil {
					continue // it contradicts another figure of this team, and the check says so
				}
				taken++
				p, err := plan.Parse("plan.toml", []byte(loopPlan), c, who)
				require.NoError(t, err)
				sound(t, New(c, p, who), fmt.Sprintf("%s %s = %g", like, f.Key, end))
			}
		}
	}
	assert.Greater(t, taken, 2*len(team.Figures()), "most ends are taken")
}

// sound runs a plan and checks that its figures are figures.
func sound(t *testing.T, s *Setup, what string) {
	t.Helper()
	tally, err := s.RunMany(context.Background(), 1, 8, nil)
	require.NoError(t, err, what)
	for _, r := range []*Rehearsal{s.Rehearse(), s.Rehearse().With(tally)} {
		for _, x := range []float64{r.Length, r.Time, r.Clean, r.Low, r.High, r.Time10, r.Time90} {
			require.False(t, math.IsNaN(x) || math.IsInf(x, 0), what)
		}
		for _, l := range r.Legs {
			sum := l.Clean
			for _, f := range l.Faults {
				require.False(t, math.IsNaN(f.Chance) || f.Chance < -1e-9 || f.Chance > 1+1e-9, "%s: leg %d", what, l.Number)
				if f.Kind != Collision {
					sum += f.Chance
				}
			}
			require.InDelta(t, 1, sum, 0.02, "%s: leg %d", what, l.Number)
			require.False(t, math.IsNaN(l.Speed) || math.IsNaN(l.Time) || math.IsNaN(l.Landing) || math.IsNaN(l.TakeOff), what)
		}
	}
}

const loopOfAll = `
course = "All kinds"
ring = [40, 40]
start = [5, 3]
order = "a weave b frame c tube d walk e"
[obstacles]
a     = { kind = "jump", at = [5, 8], facing = 0 }
weave = { kind = "weaves", at = [5, 17], facing = 0 }
b     = { kind = "jump", at = [5, 26], facing = 0 }
frame = { kind = "A-frame", at = [12, 34], facing = 90 }
c     = { kind = "jump", at = [20, 34], facing = 90 }
tube  = { kind = "tunnel", through = [[26, 33], [29, 31], [29, 27]] }
d     = { kind = "jump", at = [29, 21], facing = 180 }
walk  = { kind = "dog walk", at = [24, 12], facing = 225 }
e     = { kind = "jump", at = [14, 6], facing = 250 }
`

const loopPlan = `
plan = "Along"
lead-out = [8, 8]
[[cue]]
when = "release"
pace = "run"
[[cue]]
when = "3 take-off"
stand = [9, 27]
[[cue]]
when = "5 take-off"
stand = [20, 30]
[[cue]]
when = "7 take-off"
stand = [25, 22]
[[cue]]
when = "9 take-off"
stand = [16, 9]
`
