package options

import (
	"context"
	"slices"

	"cuewalk/plan"
	"cuewalk/sim"
	"cuewalk/sim/score"
)

// stretch is where two plans differ: cues a to b of the one stand for cues c to d of the
// other, the ends not counted.
type stretch struct{ a, b, c, d int }

// stretches returns where two plans differ, in the order of running.
func stretches(one, other []plan.Cue) []stretch {
	same := common(one, other)
	var out []stretch
	i, j := 0, 0
	for i < len(one) || j < len(other) {
		if i < len(one) && j < len(other) && alikeCues(one[i], other[j]) {
			i, j = i+1, j+1
			continue
		}
		s := stretch{a: i, c: j}
		for i < len(one) && (j >= len(other) || same[i+1][j] >= same[i][j+1]) && !(j < len(other) && alikeCues(one[i], other[j])) {
			i++
		}
		for j < len(other) && (i >= len(one) || same[i][j+1] >= same[i+1][j]) && !(i < len(one) && alikeCues(one[i], other[j])) {
			j++
		}
		s.b, s.d = i, j
		if n := len(out); n > 0 && out[n-1].b == s.a && out[n-1].d == s.c {
			out[n-1].b, out[n-1].d = s.b, s.d
			continue
		}
		out = append(out, s)
	}
	return out
}

// common returns how many cues from i and j on the two have in common, in order.
func common(one, other []plan.Cue) [][]int {
	n := make([][]int, len(one)+2)
	for i := range n {
		n[i] = make([]int, len(other)+2)
	}
	for i := len(one) - 1; i >= 0; i-- {
		for j := len(other) - 1; j >= 0; j-- {
			n[i][j] = max(n[i+1][j], n[i][j+1])
			if alikeCues(one[i], other[j]) {
				n[i][j] = n[i+1][j+1] + 1
			}
		}
	}
	return n
}

func alikeCues(a, b plan.Cue) bool {
	a.Line, b.Line = 0, 0
	return a == b
}

// without returns plan p with the stretch as it is in the plan before.
func (s stretch) without(p, before *plan.Plan) plan.Plan {
	out := *p
	out.Cues = slices.Concat(p.Cues[:s.c], before.Cues[s.a:s.b], p.Cues[s.d:])
	return out
}

// worthKeeping is by how much more seldom a run must be clean without a stretch for it to
// be kept: a plan stays as near to what it was as its gain allows (C).
const worthKeeping = 0.01

// pruned takes back in after, one by one, what is not worth its while, as long as he still
// gets to his stands in time.
func pruned(ctx context.Context, base *sim.Setup, before, after plan.Plan, seed uint64) plan.Plan {
	clean := func(p *plan.Plan) float64 {
		got, err := share(ctx, base.WithPlan(p), seed, finalRuns)
		if err != nil {
			return -1
		}
		return got
	}
	now := clean(&after)
	for again := true; again && ctx.Err() == nil; {
		again = false
		for _, s := range stretches(before.Cues, after.Cues) {
			q := s.without(&after, &before)
			if len(q.Check(base.Course, base.Team)) > 0 || latest(base.WithPlan(&q).Rehearse()) > score.LateAllowed {
				continue
			}
			if is := clean(&q); is > now-worthKeeping {
				after, now, again = q, max(is, now-worthKeeping/2), true
				break
			}
		}
	}
	return after
}
