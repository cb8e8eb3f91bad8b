package reading

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/plan/team"
)

// How the first plan places the handler (C).
const (
	besideLine = 2.2 // metres from the dog's line
	halfway    = 0.5 // along the leg; earlier and later stands went worse in rehearsals of three courses
	swapCost   = 1.2 // what a change of sides is worth in metres of outside running
	leastTurn  = 25  // degrees from which a leg has an inside
	sideSteps  = 8   // places tried for a stand
)

// FirstPlan returns a plan to start from: one cue for each leg, given a stride
// before the dog takes the obstacle the leg comes from, with the handler beside
// the dog's best line, on the inside of its turns as far as that needs no needless
// change of sides, and then bettered in rehearsals as far as some hundred of them go. It
// is a beginning to be altered, not advice.
func FirstPlan(c *course.Course, t *team.Team) *plan.Plan {
	return Read(c, t, nil).FirstPlan()
}

// FirstPlan is the same for a course that has been read.
func (r *Reading) FirstPlan() *plan.Plan { return r.tried(r.untried()) }

// untried returns the first plan as it is before any rehearsal.
func (r *Reading) untried() *plan.Plan {
	p := &plan.Plan{Name: "A first plan", For: r.Course.Name, LeadOut: r.Course.Start}
	if len(r.Legs) == 0 {
		return p
	}
	sides := r.handlerSides()
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
		if a := armFor(sides[i]); a != arm {
			cue.Arm, arm = a, a
		}
		p.Cues = append(p.Cues, cue)
	}
	return p
}

// armFor returns the arm on which the dog works for a handler on that side of its line.
func armFor(s Side) plan.Arm {
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

// handlerSides chooses a side for each leg: the inside of its turn, with a price on changes.
func (r *Reading) handlerSides() []Side {
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
			cost[i][k] = own
			if i == 0 {
				continue
			}
			from[i][k] = k
			if o := 1 - k; cost[i-1][o]+swapCost < cost[i-1][k] {
				from[i][k] = o
				own += swapCost
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
