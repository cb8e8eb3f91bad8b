package sim

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Where nothing varies but the dog's own choices, seeded runs and the integrated
// chances are two ways to the same figures. The integration stands in for the dogs
// that commit early and late by a few of them and drops what is rarer than one in a
// few hundred: on 95 legs in 100 the two lie within five points, beside three standard
// errors of the counting.
func TestRunsAgreeWithIntegration(t *testing.T) {
	n := 1000
	if testing.Short() {
		n = 400
	}
	legs, apart := 0, 0
	for seed := range uint64(layouts(40)) {
		l := trapped(seed)
		l.lead()
		s := l.setup()
		want := s.Rehearse()
		got, err := s.runMany(context.Background(), seed, n, 2, false, nil)
		require.NoError(t, err)
		for i := range want.Legs {
			legs++
			in, leg := &want.Legs[i], &got.Legs[i]
			wrong := 0
			for _, k := range leg.Wrong {
				wrong += k
			}
			agree := func(want float64, k int) bool {
				return math.Abs(want-float64(k)/float64(n)) <= 0.05+3*math.Sqrt(want*(1-want)/float64(n))
			}
			if !agree(in.Clean, leg.Clean) || !agree(in.chance(Refusal), leg.Refused) || !agree(in.chance(KnockedBar), leg.Knocked) ||
				!agree(in.chance(OffCourse)+in.chance(WrongSide), wrong) {
				apart++
				t.Logf("seed %d leg %d: clean %.3f by integration, %d of %d runs", seed, in.Number, in.Clean, leg.Clean, n)
			}
		}
	}
	require.LessOrEqual(t, float64(apart), 0.05*float64(legs), "%d of %d legs lie apart", apart, legs)
}
