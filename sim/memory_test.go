package sim

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"cuewalk/plan"
)

// altered returns a plan with cue k changed as a person may change it.
func altered(r *rand.Rand, p *plan.Plan, k int) *plan.Plan {
	q := *p
	q.Cues = slices.Clone(p.Cues)
	k = min(k, len(q.Cues)-1)
	c := &q.Cues[k]
	switch r.IntN(7) {
	case 0:
		c.Stand.X += 0.5
	case 1:
		c.Stand.Y -= 0.5
	case 2:
		c.When.Strides -= 0.5
	case 3:
		c.Pace = plan.Jog
	case 4:
		c.Arm = plan.LeftArm
	case 5:
		c.HasStand = !c.HasStand
	case 6:
		q.Cues = slices.Delete(q.Cues, k, k+1)
	}
	return &q
}

// Whatever is altered one after another, runs that begin where the change does are the runs
// that begin at the release.
func TestRunsOnAreTheRunsFromTheRelease(t *testing.T) {
	saved, all := 0, 0
	for seed := range uint64(layouts(30)) {
		var m Memory
		r := dice(seed)
		s := field(seed).setup()
		plans := []*plan.Plan{s.Plan}
		at := 1
		for i := range 12 {
			n := 20 + 10*r.IntN(3)
			from, _ := m.recall(s, seed)
			same := from.sameArrivals(s.arrivals())
			for k := range n {
				all += len(s.right)
				if mark := from.mark(k, same); mark != nil {
					saved += mark.leg
				}
			}
			got, err := s.RunOn(context.Background(), &m, seed, n, nil)
			require.NoError(t, err)
			want, err := s.RunMany(context.Background(), seed, n, nil)
			require.NoError(t, err)
			require.Equal(t, want, got, "seed %d, alteration %d", seed, i)
			of := len(plans) - 1
			if r.IntN(3) == 0 { // another cue, perhaps after some undoing
				of, at = r.IntN(len(plans)), 1+r.IntN(len(s.Plan.Cues)-1)
			}
			plans = append(plans, altered(r, plans[of], at))
			s = s.WithPlan(plans[len(plans)-1])
		}
	}
	t.Logf("%.0f %% of the legs were not run again", 100*float64(saved)/float64(all))
	require.Greater(t, saved, all/50)
}

// A series that is given up leaves nothing behind.
func TestRunsGivenUpAreNotRemembered(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var m Memory
	_, err := rows(5).RunOn(ctx, &m, 1, 20, nil)
	require.ErrorIs(t, err, context.Canceled)
	require.Empty(t, m.kept)
}
