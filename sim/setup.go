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
	"cuewalk/sim/handler"
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
	correct []int      // entry that is correct at each number; index 0 is number 1
	spare   *sync.Pool // of *integrator: their memory, used again
	known   []handler.Mark
	hand    *handler.Handler
	arrived struct { // see arrivals
		once   sync.Once
		states [][]State
	}
	usual float64 // m/s, what the handler reckons with for his dog ahead of time (C)
	apart float64 // s between the moments of the handler's motion that are kept for the dog
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
	s.apart = (max(t.Dog.Latency, t.Dog.WordLatency) + 0.15) / (pastSlots - 2)
	s.number()
	s.known = s.marks()
	return s.WithPlan(p)
}

// WithPlan makes another checked plan ready to run, for the same course and team: what
// does not hang on the plan is not worked out again.
func (s *Setup) WithPlan(p *plan.Plan) *Setup {
	n := &Setup{
		Course: s.Course, Plan: p, Team: s.Team, Entries: s.Entries, Actions: p.Resolve(s.Course, s.Team),
		dog: s.dog, scene: s.scene, walls: s.walls, correct: s.correct, spare: s.spare, known: s.known, usual: s.usual, apart: s.apart,
	}
	n.hand = handler.New(s.Team.Handler, n.Actions, n.known, n.usual, dog.StrideLength(s.dog.Withers, n.usual), n.walls)
	return n
}

// number finds, for the judge and the handler, the correct entry at each number.
func (s *Setup) number() {
	for _, step := range s.Course.Order {
		for i := range s.Entries {
			if step.Takes(s.Entries[i]) {
				s.correct = append(s.correct, i)
				break
			}
		}
	}
}

// Right returns the index in Entries of the correct entry at number n, from 1.
func (s *Setup) Right(n int) int { return s.correct[n-1] }

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
	sight.All, sight.Seeking = true, at.Seeking
	n := len(dst)
	dst = s.scene.Look(s.dog, &sight, dst).Seen
	for i := n + 1; i < len(dst); i++ { // few: insertion keeps equal bearings in order
		for k := i; k > n && dst[k].Bearing < dst[k-1].Bearing; k-- {
			dst[k], dst[k-1] = dst[k-1], dst[k]
		}
	}
	return dst
}

// Finer returns the same setup with every step divided by n, at least 1: the way to see
// that no figure hangs on the time step.
func (s *Setup) Finer(n float64) *Setup {
	scene := *s.scene
	scene.Fine = max(1, n)
	out := s.WithPlan(s.Plan)
	out.scene, out.spare = &scene, &sync.Pool{}
	return out
}
