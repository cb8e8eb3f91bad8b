package sim

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Where nothing varies but the dog's own choices, seeded runs and the integrated
// chances are two ways to the same figures. The integration stands in for the dogs
// that commit early and late by three of them and drops what is rarer than one in a
// few hundred: allowed are one and a half points beside four standard errors.
func TestRunsAgreeWithIntegration(t *testing.T) {
	n := 1000
	if testing.Short() {
		n = 400
	}
	for seed := range uint64(layouts(15)) {
		l := trapped(seed)
		l.lead()
		s := l.setup()
		in := s.Rehearse().Legs[2]
		got, err := s.runMany(context.Background(), seed, n, 1, false, nil)
		require.NoError(t, err)
		leg := got.Legs[2]
		agree := func(what string, want float64, k int) {
			t.Helper()
			p := float64(k) / float64(n)
			tol := 0.015 + 4*math.Sqrt(want*(1-want)/float64(n))
			require.InDelta(t, want, p, tol, "seed %d: %s", seed, what)
		}
		agree("clean", in.Clean, leg.Clean)
		agree("refused", in.chance(Refusal), leg.Refused)
		trapped := 0
		for e, k := range leg.Wrong {
			if s.Entries[e].Obstacle == l.trap {
				trapped += k
			}
		}
		agree("trap", in.ends(l.trap), trapped)
	}
}
