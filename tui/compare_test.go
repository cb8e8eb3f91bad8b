package tui

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// wald is the 95 % interval of p from n runs; for the sizes used here it is the same as any
// better one to a tenth of a point.
func wald(p float64, n int) (low, high float64) {
	h := 1.96 * math.Sqrt(p*(1-p)/float64(n))
	return p - h, p + h
}

// The normal test on two proportions (a textbook's): with 2,000 runs each a difference of 50
// and 54 % is z = 2.53, of 50 and 52 % z = 1.27; with 200 runs 50 and 54 % is z = 0.80.
func TestDiffers(t *testing.T) {
	for _, c := range []struct {
		a, b float64
		n    int
		want bool
	}{{.5, .54, 2000, true}, {.5, .52, 2000, false}, {.5, .54, 200, false}, {.9, .9, 2000, false}} {
		al, ah := wald(c.a, c.n)
		bl, bh := wald(c.b, c.n)
		assert.Equal(t, c.want, differs(c.a, al, ah, c.b, bl, bh), "%v against %v from %d runs", c.a, c.b, c.n)
	}
	assert.True(t, differs(.5, .5, .5, .53, .53, .53), "without runs there is no luck in the figures")
	assert.False(t, differs(.5, .5, .5, .51, .51, .51))
}

func TestCompareKeepsTheNumber(t *testing.T) {
	o, _ := practice(t)
	s := open(t, o, 120, 40)
	s.keys("5", "enter", "c", "tab")
	r := s.run()
	assert.Equal(t, 1, s.lit)
	assert.Equal(t, 5, r.Legs[legIndex(r, s.at)].Number)
	s.keys("down", "tab")
	assert.Equal(t, 6, s.run().Legs[legIndex(s.run(), s.at)].Number)
	s.keys("tab", "esc")
	assert.Equal(t, "Outside, further back", s.question(0).Plan.Name, "the lit plan is gone on with")
	assert.Equal(t, rehearsing, s.mode)
}

func TestCompareWithWhatIsSaved(t *testing.T) {
	o, _ := practice(t)
	o.Plans, o.Teams = o.Plans[:1], o.Teams[:1]
	s := open(t, o, 120, 40)
	s.keys("c")
	assert.Equal(t, rehearsing, s.mode)
	assert.Contains(t, s.View(), "nothing to compare with")
	s.keys("5", "enter", "a", "left", "esc", "c")
	assert.Equal(t, comparing, s.mode)
	assert.Contains(t, s.View(), "(as saved)")
	assert.NotEqual(t, s.question(0).Plan, s.question(1).Plan)
}

func TestAnyTwoPlans(t *testing.T) {
	o, _ := practice(t)
	third := *o.Plans[0].Plan
	third.Name, third.File = "Third", ""
	o.Plans = append(o.Plans, PlanFile{Plan: &third})
	s := open(t, o, 120, 40)
	s.keys("c", "tab", "p")
	assert.Equal(t, [2]int{0, 2}, [2]int{s.sides[0].Doc, s.sides[1].Doc})
	s.keys("t")
	assert.Equal(t, 1, s.sides[1].Team)
	assert.Contains(t, s.View(), "Third | Moth and Ilse")
}

// Both rings show the same part of the map at the same scale, so that the eye compares lines
// and not pictures; what moves one view moves the other.
func TestBothRingsLookAlike(t *testing.T) {
	o, _ := practice(t)
	s := open(t, o, 200, 60)
	s.keys("c")
	alike := func() float64 {
		s.View()
		a, b := s.camera.last[0], s.camera.last[1]
		assert.Equal(t, a.Scale, b.Scale)
		assert.InDelta(t, 0, a.Centre.Dist(b.Centre), 1/a.Scale, "to a cell")
		return a.Scale
	}
	for range o.Course.Order {
		alike()
		s.keys("down")
	}
	before := alike()
	s.keys("+")
	assert.Greater(t, alike(), before)
	s.keys("L", "J")
	alike()
	s.keys("esc")
	assert.Equal(t, comparing, s.mode, "first the view goes back")
	assert.Equal(t, before, alike())
	s.keys("esc")
	assert.Equal(t, rehearsing, s.mode)
}

func TestCompareSaysWhatTheHandlerDoes(t *testing.T) {
	o, _ := practice(t)
	s := open(t, o, 200, 60)
	s.keys("c", "5", "enter")
	for i := range 2 {
		r := s.runOf(i)
		at := joined(s.run(), r, s.at)
		assert.Contains(t, s.View(), `"`+r.Setup.Actions[cueAt(r, at)].When.String()+`"`, "plan %s", letters[i])
	}
}
