package eye

import (
	"slices"
	"testing"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/sim"
	"cuewalk/sim/dog"
)

func at(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

func stand(id string, k course.Kind, x, y, deg float64, wings bool) course.Obstacle {
	o := course.Obstacle{ID: id, Kind: k, At: at(x, y), Facing: geom.Deg(deg), Wings: wings}
	o.Defaults(0.6)
	return o
}

// clearing is a ring with one of every kind around a dog at 12, 12: 1 just taken, the trap
// straight on behind it, the tunnel 2 to the right.
func clearing() *course.Course {
	tube := course.Obstacle{ID: "tube", Kind: course.Tunnel, At: at(18, 17), Through: []geom.Point{at(16, 15), at(18, 17.5), at(20, 18)}}
	tube.Defaults(0.6)
	c := &course.Course{Name: "Alder Clearing", Ring: at(30, 30), Start: at(12, 5), Obstacles: []course.Obstacle{
		stand("gate", course.Jump, 12, 9, 0, true), stand("trap", course.Jump, 12, 17, 0, true), tube,
		stand("poles", course.Weaves, 6, 17, 330, false), stand("frame", course.AFrame, 22, 13, 60, false),
		stand("wall", course.Wall, 8, 19, 345, false), stand("hoop", course.Tyre, 15, 22, 10, false),
		stand("brook", course.LongJump, 20, 9, 100, false), stand("plank", course.DogWalk, 3, 10, 340, false),
		stand("board", course.Table, 16, 10, 90, false), stand("tip", course.Seesaw, 9, 24, 0, false),
		stand("oak", course.Spread, 18, 23, 30, true), stand("ash", course.Jump, 7, 13, 280, false),
	}}
	for _, i := range []int{0, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12} {
		c.Order = append(c.Order, course.Step{Obstacle: i})
	}
	return c
}

// entryOf is the entry of an obstacle by its id, as it is drawn.
func entryOf(c *course.Course, id string) int {
	for i, e := range c.Entries() {
		if e.Obstacle == c.Find(id) && !e.Reverse {
			return i
		}
	}
	return -1
}

// look is the dog at 12, 12 that has turned by so many degrees. What it sees is worked out
// here from bearing and range alone; pulls are made up by bearing.
func look(deg float64) Strip {
	c := clearing()
	s := Strip{Course: c, Entries: c.Entries(), Dog: dog.Body{At: at(12, 12), Heading: geom.Deg(deg), Mode: dog.Ground, Entry: -1},
		Right: entryOf(c, "tube"), Told: -1, Commit: -1, Labels: Labels(c, 2), Handler: true, Body: .22,
		Hand: sim.Hand{At: at(14.5, 15.5), Chest: geom.Deg(40), Arm: plan.LeftArm}, Lead: geom.Deg(40), Strength: 1.4}
	for i, e := range s.Entries {
		b := s.Dog.At.Towards(e.At).Off(s.Dog.Heading)
		if b.Abs() > geom.Deg(120) || e.Heading.Unit().Dot(e.At.Sub(s.Dog.At)) <= 0 {
			continue
		}
		seen := dog.Seen{Entry: i, Bearing: b, Range: e.At.Dist(s.Dog.At), Visible: 1}
		if b.Abs() < geom.Deg(60) {
			seen.Pull = 6 / (seen.Range * (1 + 4*float64(b*b)))
		}
		if e.Obstacle == c.Find("hoop") || e.Obstacle == c.Find("oak") {
			seen.Visible, seen.ByBody, seen.Pull = .1, true, 0
		}
		s.Seen = append(s.Seen, seen)
	}
	slices.SortFunc(s.Seen, func(a, b dog.Seen) int {
		if a.Bearing < b.Bearing {
			return -1
		}
		return 1
	})
	return s
}

// seen is the look at an obstacle in a strip.
func seen(t *testing.T, s *Strip, id string) *dog.Seen {
	t.Helper()
	for i := range s.Seen {
		if s.Entries[s.Seen[i].Entry].Obstacle == s.Course.Find(id) {
			return &s.Seen[i]
		}
	}
	t.Fatalf("%s is not in view", id)
	return nil
}
