// Package score says what a plan is worth to a team: roughly by its likely run, surely by
// seeded runs. Legs count by the logarithm of the chance that they are clean, so that legs
// can be bettered one by one. It is pure.
package score

import (
	"context"
	"math"
	"runtime"
	"sync"

	"cuewalk/plan"
	"cuewalk/sim"
	"cuewalk/sim/search"
)

// LateAllowed is how late a handler may be at a stand, seconds, before it counts against
// the plan: about a reaction (C).
const LateAllowed = 0.3

// What being late costs, in logarithms of chances for each second over that (C): what is
// planned where nobody can be is no plan.
const lateness = 0.5

// Likely is what the likely run r is worth: the logarithm of the chance that every leg is
// clean, no leg counting for less than one in a thousand, and less where handler and dog
// meet or where he comes too late to his stands.
func Likely(r *sim.Rehearsal) float64 {
	sum := 0.0
	for i := range r.Legs {
		sum += math.Log(max(r.Legs[i].Clean, 0.001))
		for _, f := range r.Legs[i].Faults {
			if f.Kind == sim.Collision {
				sum -= f.Chance
			}
		}
	}
	for i := range r.Cues {
		if c := &r.Cues[i]; c.Sample >= 0 && c.Late > LateAllowed {
			sum -= lateness * (c.Late - LateAllowed)
		}
	}
	return sum
}

// Counted is what the legs up to number to are worth in many runs, and less where handler
// and dog meet.
func Counted(t *sim.Tally, to int) float64 {
	sum, n := 0.0, float64(t.Runs)
	for i := range to {
		l := &t.Legs[i]
		sum += math.Log((float64(l.Clean)+0.5)/(n+1)) - float64(l.Collided)/n
	}
	return sum
}

// Each rehearses plans for the course and team of base up to course number to, over all
// cores, and calls use with each as it is done, from several goroutines. It stops early
// when ctx ends.
func Each(ctx context.Context, base *sim.Setup, to int, plans []plan.Plan, use func(i int, r *sim.Rehearsal)) {
	var wg sync.WaitGroup
	next := make(chan int)
	for range min(runtime.GOMAXPROCS(0), len(plans)) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := range next {
				use(i, base.WithPlan(&plans[i]).RehearseTo(to))
			}
		}()
	}
	for i := range plans {
		if ctx.Err() != nil {
			break
		}
		next <- i
	}
	close(next)
	wg.Wait()
}

// Priority is what makes a plan better.
type Priority uint8

// The priorities.
const (
	Cleaner Priority = iota // cleaner legs
	Faster                  // a faster run, with legs as clean as they are
)

// Rough returns the score by likely runs up to course number to.
func Rough(base *sim.Setup, to int, first Priority) search.Score {
	return func(ctx context.Context, plans []plan.Plan) []float64 {
		out := make([]float64, len(plans))
		for i := range out {
			out[i] = math.Inf(-1)
		}
		Each(ctx, base, to, plans, func(i int, r *sim.Rehearsal) {
			if out[i] = Likely(r); first == Faster {
				out[i] = timed(out[i], r.Time)
			}
		})
		return out
	}
}

// Sure returns the score by runs with the luck of the seed, legs up to number to.
func Sure(base *sim.Setup, to int, seed uint64, runs int, first Priority) search.Score {
	return func(ctx context.Context, plans []plan.Plan) []float64 {
		out := make([]float64, len(plans))
		for i := range plans {
			out[i] = math.Inf(-1)
			t, err := base.WithPlan(&plans[i]).RunMany(ctx, seed, runs, nil)
			if err != nil {
				continue
			}
			if out[i] = Counted(t, to); first == Faster && len(t.Times) > 0 {
				out[i] = timed(out[i], t.Times[len(t.Times)/2])
			}
		}
		return out
	}
}

// timed is worth, and a fifth for each second less: a tenth of a second gained may cost two
// in a hundred, no more (C).
func timed(worth, seconds float64) float64 { return worth - seconds/5 }
