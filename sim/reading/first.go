package reading

import (
	"math"

	"cuewalk/course/geom"
	"cuewalk/plan"
)

// SwapCost is what a change of sides is worth in metres of outside running (C).
const SwapCost = 1.2

// How the first plan places the handler (C).
const (
	besideLine = 2.2 // metres from the dog's line
	halfway    = 0.5 // along the leg; earlier and later stands went worse in rehearsals of three courses
	leastTurn  = 25  // degrees from which a leg has an inside
	sideSteps  = 8   // places tried for a stand
)

// Draft returns a plan to start from: one cue for each leg, given a stride before the dog
// takes the obstacle the leg comes from, with the handler beside the dog's best line on the
// side given for each leg. It is a beginning to be tried out, not advice.
func (r *Reading) Draft(sides []Side) *plan.Plan {
	p := &plan.Plan{Name: "A first plan", For: r.Course.Name, LeadOut: r.Course.Start}
	if len(r.Legs) == 0 {
		return p
	}
	s := stander{r: r, at: r.Course.Start}
	for i := range r.Course.Obstacles {
		s.walls = append(s.walls, r.Course.Obstacles[i].Footprint()...)
	}
	p.LeadOut = s.stand(halfway, 0, sides[0])
	arm := plan.SameArm
	for i := range r.Legs {
		cue := plan.Cue{When: r.moment(i), Pace: plan.Run, HasStand: true}
		if i == 0 {
			cue.HasStand = false
		} else {
			cue.Stand = s.stand(halfway, i, sides[i])
		}
		if a := ArmFor(sides[i]); a != arm {
			cue.Arm, arm = a, a
		}
		p.Cues = append(p.Cues, cue)
	}
	return p
}

// ArmFor returns the arm on which the dog works for a handler on that side of its line.
func ArmFor(s Side) plan.Arm {
	if s == Right {
		return plan.LeftArm
	}
	return plan.RightArm
}

// moment returns when the cue for leg i is given.
func (r *Reading) moment(i int) plan.Moment {
	if i == 0 {
		return plan.Moment{Event: plan.Release}
	}
	before, after := plan.EventsOf(r.Entries[r.right[i-1]].Kind)
	if before == plan.Enter {
		return plan.Moment{Number: i, Event: after}
	}
	return plan.Moment{Number: i, Event: before, Strides: -1}
}

// Sides chooses a side for each leg: the inside of its turn, with a price of swap metres on
// each change. Where shunned is not nil, its side of a leg costs more by shun metres.
func (r *Reading) Sides(swap float64, shunned []Side, shun float64) []Side {
	if len(r.Legs) == 0 {
		return nil
	}
	both := [2]Side{Left, Right}
	cost := make([][2]float64, len(r.Legs))
	from := make([][2]int, len(r.Legs))
	for i := range r.Legs {
		for k, s := range both {
			own := 0.0
			turn := r.Legs[i].Shape.Turn
			if within(turn, leastTurn, 720) && side(turn, 0) != s {
				own = min(3, float64(turn.Abs())*besideLine)
			}
			if shunned != nil && shunned[i] == s {
				own += shun
			}
			cost[i][k] = own
			if i == 0 {
				continue
			}
			from[i][k] = k
			if o := 1 - k; cost[i-1][o]+swap < cost[i-1][k] {
				from[i][k] = o
				own += swap
			}
			cost[i][k] = own + cost[i-1][from[i][k]]
		}
	}
	sides := make([]Side, len(r.Legs))
	k := 0
	if last := cost[len(cost)-1]; last[1] < last[0] {
		k = 1
	}
	for i := len(sides) - 1; i >= 0; i-- {
		sides[i] = both[k]
		k = from[i][k]
	}
	return sides
}

// stander finds places to stand, each to be reached from the one before.
type stander struct {
	r     *Reading
	walls []geom.Segment
	at    geom.Point
	way   []geom.Point
}

// stand returns a place beside leg i, a share of the way along it, on the side s.
// Where something stands there it goes on along the leg, then farther or nearer.
func (s *stander) stand(share float64, i int, on Side) geom.Point {
	l := &s.r.Legs[i]
	for _, apart := range []float64{besideLine, 1.5, 3, 4, 1} {
		for k := range sideSteps {
			f := math.Mod(share+float64(k)/sideSteps, 1)
			n := l.First + int(f*float64(l.Last-l.First))
			m := &s.r.Line.Samples[n]
			p := s.r.Course.Units.Tenths(geom.Pose{At: m.At, Heading: m.Heading}.Beside(apart * float64(on)))
			if s.good(p) {
				s.at = p
				return p
			}
		}
	}
	return s.at
}

// good reports whether somebody can stand at p and go there from where he was.
func (s *stander) good(p geom.Point) bool {
	ring, body := s.r.Course.Ring, s.r.Team.Handler.Body
	if p.X < 0 || p.Y < 0 || p.X > ring.X || p.Y > ring.Y || !free(s.r.Course.Obstacles, p, body+0.15) {
		return false
	}
	if s.at == s.r.Course.Start {
		return true
	}
	_, ok := geom.Way(s.at, p, s.walls, body, s.way[:0])
	return ok
}
