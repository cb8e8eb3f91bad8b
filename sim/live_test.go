package sim

import (
	"context"
	"math"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/team"
)

// demoSetup is the demonstration's agility round with a timing of its handler.
func demoSetup(t *testing.T, timing float64) *Setup {
	t.Helper()
	read := func(name string) []byte {
		data, err := os.ReadFile("../testdata/demo/" + name)
		require.NoError(t, err)
		return data
	}
	c, err := course.Parse("c", read("meadow-agility.toml"))
	require.NoError(t, err)
	tm, err := team.Parse("t", read("rook.toml"))
	require.NoError(t, err)
	p, err := plan.Parse("p", read("meadow-agility-b.toml"), c, tm)
	require.NoError(t, err)
	tm.Handler.Timing = timing
	return New(c, p, tm)
}

// press is a cue given at a time, on one way of a run: ways begin at the release and
// where the dog is taken on after a fault.
type press struct {
	way, action int
	at          float64
}

// free is run i left to the plan, and when it gave its cues.
func free(s *Setup, seed uint64, i int) (*Live, []press) {
	l := s.Live(seed, i)
	l.r.hunch.given = nil
	var presses []press
	for way := 0; ; way++ {
		first := len(l.states) - 1
		l.To(math.Inf(1))
		for n := first; n+1 < len(l.states); n++ {
			for k := l.states[n].Hand.Action + 1; k <= l.states[n+1].Hand.Action; k++ {
				presses = append(presses, press{way, k, l.states[n].Time})
			}
		}
		if !l.Stopped() || !l.GoOn() {
			return l, presses
		}
	}
}

// played is the same run with its cues given by key, late after the fact by delay, at a
// screen's pace.
func played(s *Setup, seed uint64, i int, presses []press, delay float64) *Live {
	l := s.Live(seed, i)
	for way := 0; ; way++ {
		for len(presses) > 0 && presses[0].way == way {
			l.To(presses[0].at + delay)
			l.Give(presses[0].at)
			presses = presses[1:]
		}
		l.To(math.Inf(1))
		if !l.Stopped() || !l.GoOn() {
			return l
		}
	}
}

// A run looked at as it goes is the seeded run of that number. With the cues given when that
// gave them it is so again, but for a few; and how long after the fact a cue comes in does
// not matter at all.
func TestLiveIsTheSeededRun(t *testing.T) {
	s := demoSetup(t, 0.07)
	const n = 40
	tally, err := s.RunMany(context.Background(), 5, n, nil)
	require.NoError(t, err)
	faults, alike := 0, 0
	for i := range n {
		l, presses := free(s, 5, i)
		for leg, clean := range tally.Each[i].Legs {
			_, _, ok, over := l.Leg(leg + 1)
			require.True(t, over || l.Stopped())
			require.Equal(t, clean, ok, "run %d leg %d", i, leg+1)
			if !ok {
				faults++
			}
		}
		again := played(s, 5, i, presses, 0)
		if slices.Equal(l.ends, again.ends) {
			alike++
		}
		for _, delay := range []float64{0.033, 0.4} {
			after := played(s, 5, i, presses, delay)
			require.Equal(t, again.ends, after.ends, "run %d, %g s after the fact", i, delay)
			require.Len(t, after.trace.Samples, len(again.trace.Samples))
			for n := range again.trace.Samples {
				require.Equal(t, again.trace.Samples[n], after.trace.Samples[n], "run %d, %g s after the fact, sample %d", i, delay, n)
			}
		}
	}
	assert.NotZero(t, faults, "some run goes wrong, or nothing was tried")
	t.Logf("%d of %d runs end alike by plan and by key", alike, n)
	assert.GreaterOrEqual(t, alike, n*9/10, "all but those where a cue falls into the step in which the dog decides")
}

// timed gives each cue so many seconds late, by its index, and returns the share of runs in
// which leg n, or with 0 the whole run, is clean.
func timed(s *Setup, runs, n int, late func(action int) float64) float64 {
	clean := 0
	for i := range runs {
		l := s.Live(9, i)
		for !l.Over() {
			l.step()
			if k, ok := l.Next(); ok {
				if at, come := l.Came(k); come && l.Time() >= at+late(k) {
					l.Give(at + late(k))
				}
			}
			if l.Stopped() && !l.GoOn() {
				break
			}
		}
		all := true
		for leg := range l.ends {
			if _, _, ok, _ := l.Leg(leg + 1); n == 0 || n == leg+1 {
				all = all && ok
			}
		}
		if all {
			clean++
		}
	}
	return float64(clean) / float64(runs)
}

func never(int) float64 { return 0 }

// A handler who gives each cue at its moment gets the chance the plan has with a handler
// whose timing does not vary.
func TestPerfectTimerGetsThePlansChance(t *testing.T) {
	s := demoSetup(t, 0)
	const n = 300
	tally, err := s.RunMany(context.Background(), 9, n, nil)
	require.NoError(t, err)
	own := float64(tally.Clean) / n
	got := timed(s, n, 0, never)
	t.Logf("clean: the plan's own %.3f, a perfect timer %.3f", own, got)
	assert.InDelta(t, own, got, 0.05)
}

// A handler who gives the turning cue late gets what the report says of a plan that gives
// it so much later.
func TestLateTimerGetsTheLatePlansChance(t *testing.T) {
	c, err := course.Parse("c", []byte(wrapCourse))
	require.NoError(t, err)
	tm := largeTeam()
	tm.Handler.Timing = 0
	setup := func(shift float64) *Setup {
		p, err := plan.Parse("p", []byte(wrapPlan(-2)), c, tm)
		require.NoError(t, err)
		later := *p
		later.Cues = append([]plan.Cue(nil), p.Cues...)
		later.Cues[1].When.Strides += shift
		return New(c, &later, tm)
	}
	const n = 200
	own := func(s *Setup) float64 {
		tally, err := s.RunMany(context.Background(), 9, n, nil)
		require.NoError(t, err)
		return float64(tally.Legs[2].Clean) / n
	}
	s := setup(0)
	// Seconds of that many strides where the cue comes.
	r := s.Rehearse()
	at := r.Trace.Samples[r.Cues[2].Sample].Dog
	second := at.Stride / at.Speed
	inTime, late := own(s), own(setup(3))
	gotInTime := timed(s, n, 3, never)
	gotLate := timed(s, n, 3, func(k int) float64 {
		if k == 2 {
			return 3 * second
		}
		return 0
	})
	t.Logf("leg 3 clean: in time %.3f by plan, %.3f by key; three strides late %.3f by plan, %.3f by key", inTime, gotInTime, late, gotLate)
	assert.Greater(t, inTime-late, 0.15, "or the cue does not matter and nothing is tried")
	assert.InDelta(t, inTime, gotInTime, 0.08)
	assert.InDelta(t, late, gotLate, 0.12)
}

// What is given is told to the thousandth of a second.
func TestLiveLate(t *testing.T) {
	s := demoSetup(t, 0)
	l := s.Live(1, 0)
	l.To(0.5)
	k, ok := l.Give(0.123)
	require.True(t, ok)
	assert.Equal(t, 1, k)
	late, ok := l.Late(1)
	require.True(t, ok)
	assert.InDelta(t, 0.123, late, 0.0005)
	assert.InDelta(t, 0.5, l.Time(), 0.05, "it has run on to where it was")
	k, ok = l.Next()
	assert.True(t, ok)
	assert.Equal(t, 2, k)
}
