package reading

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// By hand: an opening 1.2 m broad, 6 m ahead of the eye, spans 2 atan(0.6/6) = 11.42
// degrees. A body of radius 0.2 m, 2 m ahead, covers 2 asin(0.2/2) = 11.48 degrees:
// all of it. At 4 m it covers 2 asin(0.2/4) = 5.73 degrees, which is 0.502 of it.
func TestHidesByHand(t *testing.T) {
	eye, mid, side := geom.Point{}, geom.Point{Y: 6}, geom.Point{X: 0.6}
	assert.InDelta(t, 1, hides(eye, geom.Point{Y: 2}, 0.2, mid, side), 1e-9)
	assert.InDelta(t, 0.502, hides(eye, geom.Point{Y: 4}, 0.2, mid, side), 0.001)
	assert.Zero(t, hides(eye, geom.Point{Y: 7}, 0.2, mid, side), "behind the opening")
	assert.Zero(t, hides(eye, geom.Point{Y: -1}, 0.2, mid, side), "behind the dog")
	assert.Zero(t, hides(eye, geom.Point{X: 2, Y: 4}, 0.2, mid, side), "beside the line of sight")
}

// Every place of a cover hides what it says and leaves the dog's way free.
func TestCover(t *testing.T) {
	c := set(geom.Point{X: 20, Y: 10}, 3, jump("a", 20, 16, 0), jump("b", 20, 22, 0), jump("c", 26, 25, 90), jump("trap", 21, 30, 0))
	r := Read(c, large(t), nil)
	require.NotEmpty(t, r.Traps)
	found := false
	for _, trap := range r.Traps {
		for _, p := range trap.Cover.Places {
			found = true
			assert.GreaterOrEqual(t, p.Trap, coverLeast)
			assert.LessOrEqual(t, p.Right, coverRight)
			for i := r.Legs[trap.Leg-1].First; i <= r.Legs[trap.Leg-1].Last; i++ {
				assert.GreaterOrEqual(t, r.Line.Samples[i].At.Dist(p.At), coverAway)
			}
		}
	}
	assert.True(t, found, "some trap can be hidden")
}

// From standing, 5 m/s and 4 m/s2 make 2 m in 1 s (4/2) and, once at speed after
// 1.25 s, 5 t - 3.125: 6.875 m in 2 s.
func TestStarted(t *testing.T) {
	assert.InDelta(t, 2, started(5, 4, 1), 1e-9)
	assert.InDelta(t, 6.875, started(5, 4, 2), 1e-9)
}

// A faster handler can be wherever a slower one can, and more; nobody gets farther
// than his legs carry him from where he may lead out to.
func TestReach(t *testing.T) {
	c := long(20)
	slow, fast := large(t), large(t)
	slow.Handler.Speed, fast.Handler.Speed = 3, 6.5
	a, b := Read(c, slow, nil), Read(c, fast, nil)
	more := 0
	for i := range a.Reach.Legs {
		x, y := &a.Reach.Legs[i], &b.Reach.Legs[i]
		require.Len(t, y.Cells, len(x.Cells))
		for k := range x.Cells {
			if x.Cells[k] && !x.unhandled() {
				assert.True(t, y.Cells[k] || !y.Handling, "leg %d, cell %d", i+1, k)
			}
			if y.Cells[k] && !x.Cells[k] {
				more++
			}
			if x.Cells[k] {
				far := leadOut + slow.Handler.Speed*a.Legs[i].Time*1.083 + float64(i+2)*a.Reach.Cell
				assert.LessOrEqual(t, a.Reach.At(k).Dist(c.Start), far)
			}
		}
	}
	assert.Positive(t, more)
}

func (l *ReachLeg) unhandled() bool { return !l.Handling }

// A handler of walking pace cannot be ahead of the dog at the end of a long straight.
func TestSlowHandlerIsLeftBehind(t *testing.T) {
	var obs []course.Obstacle
	for i := range 9 {
		obs = append(obs, jump(string(rune('a'+i)), 20, 8+6*float64(i), 0))
	}
	c := set(geom.Point{X: 20, Y: 3}, 9, obs...)
	tm := large(t)
	tm.Handler.Speed = 1
	r := Read(c, tm, nil)
	assert.True(t, r.Reach.Legs[0].Ahead)
	assert.False(t, r.Reach.Legs[8].Ahead)
	assert.Greater(t, r.Reach.Legs[8].Nearest, 10.0)
	tm.Handler.Speed = 10
	assert.True(t, Read(c, tm, nil).Reach.Legs[8].Ahead)
}

// The dog turns right toward its next jump; of two equal traps the one on that side
// comes before its eyes, the other does not.
func TestViewInOrder(t *testing.T) {
	c := set(geom.Point{X: 20, Y: 14}, 2, jump("a", 20, 20, 0), jump("b", 26, 21, 110),
		jump("swept", 24.5, 26, 40), jump("other", 15.5, 26, -40))
	r := Read(c, large(t), nil)
	views := r.Legs[1].Views
	var order []int
	for _, v := range views {
		order = append(order, r.Entries[v.Entry].Obstacle)
	}
	require.Contains(t, order, 2)
	require.Contains(t, order, 1)
	for i := 1; i < len(views); i++ {
		assert.LessOrEqual(t, views[i-1].First, views[i].First)
	}
	assert.Less(t, index(order, 2), index(order, 1), "the turn sweeps over it first")
	pull := map[int]float64{}
	for _, trap := range r.Traps {
		if trap.Leg == 2 {
			pull[r.Entries[trap.Entry].Obstacle] += trap.Pull
		}
	}
	assert.Greater(t, pull[2], pull[3])
}

func index(all []int, x int) int {
	for i, v := range all {
		if v == x {
			return i
		}
	}
	return math.MaxInt
}

// Both mouths of a tunnel are told apart: the wrong end is a trap of its own.
func TestWrongEndIsATrap(t *testing.T) {
	tube := tunnel("t", geom.Point{X: 24, Y: 24}, geom.Point{X: 22, Y: 28}, geom.Point{X: 18, Y: 28}, geom.Point{X: 16, Y: 24})
	c := set(geom.Point{X: 18, Y: 12}, 2, jump("a", 18, 17, 0), tube)
	r := Read(c, large(t), nil)
	found := false
	for _, trap := range r.Traps {
		if r.Label(trap.Entry) == "-t" && trap.Leg == 2 {
			found = true
			assert.True(t, trap.Wrong)
			assert.Contains(t, trap.Why, "wrong end")
		}
	}
	assert.True(t, found)
}

// A draft has a cue for each leg and passes every check of plans.
func TestDraft(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, tm := loose(t), large(t)
		r := Read(c, tm, nil)
		p := r.Draft(r.Sides(SwapCost, nil, 0))
		assert.Len(t, p.Cues, len(c.Order))
		assert.Empty(t, p.Validate(c, tm))
	})
}

// Sides that are shunned are left where that costs less, and a price on changes keeps them few.
func TestSides(t *testing.T) {
	r := Read(long(20), large(t), nil)
	changes := func(sides []Side) int {
		n := 0
		for i := 1; i < len(sides); i++ {
			if sides[i] != sides[i-1] {
				n++
			}
		}
		return n
	}
	inside := r.Sides(SwapCost, nil, 0)
	assert.LessOrEqual(t, changes(r.Sides(20, nil, 0)), changes(inside))
	assert.LessOrEqual(t, changes(inside), changes(r.Sides(0, nil, 0)))
	for i, s := range r.Sides(0, inside, 100) {
		assert.NotEqual(t, inside[i], s)
	}
}

// A tunnel mouth 3 m beside a straight line of jumps, nobody to be seen: the
// simulator was fitted so that it gets 25 to 30 dogs in 100 in all (common practice,
// no source). Reading goes by the dog's best line instead of a run, so the figure
// need only be of that size.
func TestTunnelBesideALine(t *testing.T) {
	c := set(geom.Point{X: 30, Y: 5}, 4, jump("a", 30, 9, 0), jump("b", 30, 15, 0), jump("c", 30, 21, 0), jump("d", 30, 27, 0),
		tunnel("tube", geom.Point{X: 33, Y: 20}, geom.Point{X: 33, Y: 25}))
	r := Read(c, large(t), nil)
	left := 1.0
	for _, trap := range r.Traps {
		if r.Label(trap.Entry) == "tube" {
			left *= 1 - trap.Pull
		}
	}
	assert.InDelta(t, 0.28, 1-left, 0.12)
}

// The same course again gives the same reading: nothing hangs on chance or map order.
func TestReadingIsPure(t *testing.T) {
	c := long(12)
	assert.Equal(t, Read(c, large(t), nil), Read(c, large(t), nil))
}

// In feet the same ring gives the same figures: units are for showing only.
func TestFeet(t *testing.T) {
	c := long(12)
	a := Read(c, large(t), nil)
	feet := *c
	feet.Units = course.Feet
	b := Read(&feet, large(t), nil)
	assert.Equal(t, a.Length, b.Length)
	require.Len(t, b.Traps, len(a.Traps))
	for i := range a.Traps {
		assert.Equal(t, a.Traps[i].Pull, b.Traps[i].Pull)
		assert.Contains(t, b.Traps[i].Why, " ft")
	}
}
