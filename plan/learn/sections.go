// Package learn is how a plan is learnt by heart: the sections it is cut into, the order
// in which its cues are asked, what counts as right, and what is made of a row of presses
// meant to be in time. It is pure: no clock, no file, no luck.
//
// Ids such as A7 name rows of the table of sources in sim/MODEL.md; C marks common practice or our
// own choice.
package learn

import (
	"math"

	"cuewalk/course"
	"cuewalk/plan"
)

// A section holds as many cues as are kept in mind at once: about 3 to 4 chunks (A8), up
// to 5 where a break is near (C).
const (
	fewest = 3
	most   = 5
	usual  = 4
)

// Section is a part of the plan's cues: those with index From up to, not including, To.
type Section struct{ From, To int }

// Sections cuts the plan's cues into sections of 3 to 5, at natural breaks where it can:
// before a change of sides, and where the dog has been through a tunnel or over a contact
// obstacle since the cue before. A plan of fewer than 3 cues is one section, one without
// cues none. Of cuts with equally many breaks the evenest is taken.
func Sections(c *course.Course, p *plan.Plan) []Section {
	n := len(p.Cues)
	if n == 0 {
		return nil
	}
	if n < fewest {
		return []Section{{0, n}}
	}
	// cost[i] is the least cost of cutting the first i cues, from[i] where the last section
	// of that begins.
	cost, from := make([]float64, n+1), make([]int, n+1)
	for i := 1; i <= n; i++ {
		cost[i] = math.Inf(1)
		for size := fewest; size <= most && size <= i; size++ {
			k := i - size
			x := cost[k] + 0.05*float64((size-usual)*(size-usual))
			if k > 0 && !Break(c, p, k) {
				x++
			}
			if x < cost[i]-1e-9 {
				cost[i], from[i] = x, k
			}
		}
	}
	var out []Section
	for i := n; i > 0; i = from[i] {
		out = append([]Section{{from[i], i}}, out...)
	}
	return out
}

// Break reports whether a natural break comes before cue k, which must not be the first.
func Break(c *course.Course, p *plan.Plan, k int) bool {
	if p.Cues[k].Cross != plan.NoCross {
		return true
	}
	before, now := event(p.Cues[k-1].When), event(p.Cues[k].When)
	for n, step := range c.Order {
		kind := c.Obstacles[step.Obstacle].Kind
		if kind != course.Tunnel && !kind.Contact() {
			continue
		}
		in := plan.Moment{Number: n + 1, Event: plan.Enter}
		out := plan.Moment{Number: n + 1, Event: plan.Exit}
		if !in.Before(before) && !now.Before(out) {
			return true
		}
	}
	return false
}

// event is a moment without its strides.
func event(m plan.Moment) plan.Moment {
	m.Strides = 0
	return m
}
