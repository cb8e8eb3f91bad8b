// Package sim runs a plan: a dog steered only by what it sees and what the handler
// does, a handler with a person's legs, and a judge who knows the numbers. It is
// pure: values in, values out; no clock, no files, no global source of luck.
//
// Lengths are metres, times seconds, angles radians.
package sim

import (
	"sync"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim/dog"
)

// Setup is a course, a plan and a team made ready to run. It is not changed by
// runs and may be used by many at once.
type Setup struct {
	Course  *course.Course
	Plan    *plan.Plan
	Team    *team.Team
	Entries []course.Entry // every way to take every obstacle
	Actions []plan.Action  // the plan with everything filled in; 0 is the lead-out

	dog     *dog.Dog
	scene   *dog.Scene
	walls   []geom.Segment
	right   []int      // entry that is right at each number; index 0 is number 1
	spare   *sync.Pool // of *integrator: their memory, used again
	along   []float64  // metres, or what they are worth in time, from number 1's entry to each one's
	clear   []bool     // by action: the first steps from its stand to the next are free
	arrived struct {   // see arrivals
		once   sync.Once
		states []State
	}
	usual float64 // m/s, what the handler reckons with for his dog ahead of time (C)
}

// New makes a checked course, plan and team ready to run.
func New(c *course.Course, p *plan.Plan, t *team.Team) *Setup {
	s := &Setup{Course: c, Team: t, spare: &sync.Pool{}}
	s.scene = dog.NewScene(c.Obstacles)
	s.Entries = s.scene.Entries
	s.dog = dog.New(t.Dog, c.Surface)
	s.usual = 0.5 * (t.Dog.Collected + t.Dog.Extended)
	for i := range c.Obstacles {
		s.walls = append(s.walls, c.Obstacles[i].Footprint()...)
	}
	s.number()
	return s.WithPlan(p)
}

// WithPlan makes another checked plan ready to run, for the same course and team: what
// does not hang on the plan is not worked out anew.
func (s *Setup) WithPlan(p *plan.Plan) *Setup {
	n := &Setup{
		Course: s.Course, Plan: p, Team: s.Team, Entries: s.Entries, Actions: p.Resolve(s.Course, s.Team),
		dog: s.dog, scene: s.scene, walls: s.walls, right: s.right, spare: s.spare, along: s.along, usual: s.usual,
	}
	n.clearings()
	return n
}

// number works out, for the judge and the handler, the right entry at each number
// and how far each is along the course.
func (s *Setup) number() {
	sum := 0.0
	for n, step := range s.Course.Order {
		for i := range s.Entries {
			if step.Takes(s.Entries[i]) {
				s.right = append(s.right, i)
				break
			}
		}
		if n > 0 {
			before := &s.Entries[s.right[n-1]]
			sum += s.worth(before) + before.Exit.At.Dist(s.Entries[s.right[n]].At)
		}
		s.along = append(s.along, sum)
	}
}

// worth returns the length of an obstacle in metres that take as long at a gallop
// of the dog's usual pace, for telling how soon it will be past it.
func (s *Setup) worth(e *course.Entry) float64 {
	if e.Kind.Jumped() {
		return e.Length
	}
	return s.dog.Through(e, s.usual) * s.usual
}

// Right returns the index in Entries of the right entry at number n, from 1.
func (s *Setup) Right(n int) int { return s.right[n-1] }

// Dog returns the dog's figures made ready for the ring's surface.
func (s *Setup) Dog() *dog.Dog { return s.dog }

// Scene returns what stands in the ring as a dog meets it.
func (s *Setup) Scene() *dog.Scene { return s.scene }

// sight returns what a dog with body b looks at: in the air, what it is over counts
// as just taken; else that is the obstacle last, since seconds ago.
func (s *Setup) sight(b dog.Body, lead dog.Lead, handler geom.Point, last int, since float64) dog.Sight {
	if b.Mode == dog.Air && b.Entry >= 0 {
		last, since = s.Entries[b.Entry].Obstacle, 0
	}
	return dog.Sight{Body: b, Lead: lead, Handler: handler, Girth: s.Team.Handler.Body, Last: last, Since: since}
}

// See appends to dst what the dog has before its eyes at a sample, from left to
// right, and returns it. Nothing is seen from inside an obstacle.
func (s *Setup) See(at Sample, dst []dog.Seen) []dog.Seen {
	sight := s.sight(at.Dog, at.Lead, at.Hand.At, at.Last, at.Since)
	sight.All = true
	n := len(dst)
	dst, _ = s.scene.Look(s.dog, &sight, dst)
	for i := n + 1; i < len(dst); i++ { // few: insertion keeps equal bearings in order
		for k := i; k > n && dst[k].Bearing < dst[k-1].Bearing; k-- {
			dst[k], dst[k-1] = dst[k-1], dst[k]
		}
	}
	return dst
}
