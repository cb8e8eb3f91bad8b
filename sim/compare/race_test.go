package compare

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// play lets options meet the same worlds until one is best or the budget ends. In every
// world all share a draw of how hard it is; chance[i] is option i's clean runs in the long run.
func play(r *rand.Rand, most int, chance ...float64) *Race {
	race := NewRace(len(chance), Alpha)
	clean := make([]bool, len(chance))
	for race.Worlds() < most && len(race.Living()) > 1 {
		shared := r.Float64()
		for i, p := range chance {
			u := shared
			if r.Float64() < 0.4 { // luck that is its own
				u = r.Float64()
			}
			clean[i] = u < p
		}
		race.Add(clean)
	}
	return race
}

// Whoever looks after every world calls equal plans different in 30 of 100 comparisons with
// an ordinary test at 5 % (measured for looks every 50 worlds to 2,000); this rule must not.
func TestEqualPlansAreSeldomCalledDifferent(t *testing.T) {
	for name, chance := range map[string][]float64{
		"even": {0.5, 0.5}, "mostly clean": {0.9, 0.9}, "hardly ever": {0.05, 0.05}, "four": {0.6, 0.6, 0.6, 0.6},
	} {
		r, wrong := rand.New(rand.NewPCG(12, 1)), 0
		for range 500 {
			if len(play(r, 2000, chance...).Living()) < len(chance) {
				wrong++
			}
		}
		t.Logf("%s: %d of 500", name, wrong)
		assert.LessOrEqual(t, wrong, 25, name)
	}
}

// How many worlds a difference takes: with 10 points one comparison in ten may take more
// than 800 (the pairs decided 20:10, 15:10 of the literature's table take 424 and 1,596).
func TestADifferenceIsFound(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 2))
	for _, x := range []struct{ a, b, found float64 }{{0.6, 0.5, 0.9}, {0.8, 0.6, 0.99}, {0.95, 0.85, 0.9}} {
		found, worlds := 0, 0
		for range 200 {
			race := play(r, 1000, x.a, x.b)
			if best, ok := race.Best(); ok && best == 0 {
				found++
			}
			worlds += race.Worlds()
			assert.False(t, race.Beats(1, 0) && race.Beats(0, 1))
		}
		t.Logf("%.2f and %.2f: found in %d of 200, mean %d worlds", x.a, x.b, found, worlds/200)
		assert.GreaterOrEqual(t, float64(found)/200, x.found, "%v", x)
	}
}

// Of several options the best is hardly ever dropped, and what is shown to be worse is.
func TestTheBestOfSeveralStays(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 3))
	lost, decided := 0, 0
	for range 100 {
		race := play(r, 5000, 0.5, 0.7, 0.6, 0.65)
		if !contains(race.Living(), 1) {
			lost++
		}
		if best, ok := race.Best(); ok && best == 1 {
			decided++
		}
	}
	assert.LessOrEqual(t, lost, 5)
	assert.GreaterOrEqual(t, decided, 80)
}

func contains(all []int, x int) bool {
	for _, i := range all {
		if i == x {
			return true
		}
	}
	return false
}

// The capital is a fair game's: over all ways that n fair worlds can fall its mean is 1.
func TestEvidenceIsAFairGame(t *testing.T) {
	for _, n := range []int{1, 5, 12} {
		mean := 0.0
		for w := 0; w <= n; w++ {
			ways := math.Exp(lgamma(n+1) - lgamma(w+1) - lgamma(n-w+1))
			mean += ways / math.Pow(2, float64(n)) * Evidence(w, n-w)
		}
		assert.InDelta(t, 1, mean, 1e-9)
	}
	assert.Equal(t, 1.0, Evidence(0, 0))
	assert.Less(t, Evidence(10, 100), 0.01)
}

func lgamma(n int) float64 {
	x, _ := math.Lgamma(float64(n))
	return x
}

// The interval holds at every number of worlds at once, not only at one chosen beforehand.
func TestTheIntervalHoldsWhereverOneStops(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 4))
	for name, draw := range map[string]struct {
		mean float64
		a, b func() float64
	}{ // which comes first makes no odds: each starts the luck anew
		"clean runs":  {0.1, func() float64 { return one(r.Float64() < 0.6) }, func() float64 { return one(r.Float64() < 0.5) }},
		"rare faults": {0.02, func() float64 { return one(r.Float64() < 0.99) }, func() float64 { return one(r.Float64() < 0.97) }},
		"seconds":     {-0.5, func() float64 { return 35 + r.NormFloat64() }, func() float64 { return 35.5 + r.NormFloat64() }},
	} {
		missed := 0
		*r = *rand.New(rand.NewPCG(12, 4))
		for range 300 {
			var d Difference
			for d.Worlds() < 1000 {
				d.Add(draw.a(), draw.b())
				if low, high := d.Interval(Alpha); low > draw.mean || high < draw.mean {
					missed++
					break
				}
			}
		}
		t.Logf("%s: missed in %d of 300", name, missed)
		assert.LessOrEqual(t, missed, 18, name)
	}
}

func TestNoIntervalOfFewWorlds(t *testing.T) {
	var d Difference
	assert.Zero(t, d.Mean())
	for range fewest - 1 {
		d.AddClean(true, false)
	}
	low, high := d.Interval(Alpha)
	assert.True(t, math.IsInf(low, -1) && math.IsInf(high, 1))
	d.AddClean(true, false)
	low, high = d.Interval(Alpha)
	assert.Less(t, low, 1.0)
	assert.Greater(t, high, low)
	assert.Equal(t, 1.0, d.Mean())
}

// A difference that is known to be nothing is told from one that is not known.
func TestNoMatter(t *testing.T) {
	var d Difference
	for range 100 {
		d.AddClean(true, true)
	}
	assert.False(t, d.NoMatter(), "a hundred worlds do not show it")
	for range 4000 {
		d.AddClean(true, true)
	}
	assert.True(t, d.NoMatter())
}

func BenchmarkRace(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 1))
	for b.Loop() {
		play(r, 2000, 0.6, 0.5)
	}
}
