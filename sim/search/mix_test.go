package search

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// worthOf is the plain meaning of a choice of options leg by leg.
func worthOf(legs [][]float64, choice []int) float64 {
	sum := 0.0
	for i, o := range choice {
		sum += math.Log(max(legs[o][i], 0.001))
		if i > 0 && choice[i-1] != o {
			sum -= change
		}
	}
	return sum
}

// Against every choice there is, one by one.
func TestMixIsTheBestOfAll(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	for range 60 {
		const n, k = 6, 3
		legs := make([][]float64, k)
		for o := range legs {
			for range n {
				legs[o] = append(legs[o], 0.5+0.5*r.Float64())
			}
		}
		open := r.Uint64()
		joins := func(a, b, n int) bool { return open>>(9*uint(n)%60+uint(3*a+b))&1 == 1 }
		best := math.Inf(-1)
		choice := make([]int, n)
		for code := range 729 {
			fits := true
			for i := range choice {
				choice[i] = code % k
				code /= k
				fits = fits && (i == 0 || choice[i] == choice[i-1] || joins(choice[i-1], choice[i], i))
			}
			if fits {
				best = max(best, worthOf(legs, choice))
			}
		}
		var got []int
		for _, p := range Mix(legs, joins) {
			assert.Equal(t, len(got)+1, p.First)
			for len(got) < p.Last {
				got = append(got, p.Option)
			}
		}
		assert.Len(t, got, n)
		assert.InDelta(t, best, worthOf(legs, got), 1e-9)
		for i := 1; i < n; i++ {
			assert.True(t, got[i] == got[i-1] || joins(got[i-1], got[i], i))
		}
	}
}
