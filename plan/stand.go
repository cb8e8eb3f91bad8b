package plan

import (
	"fmt"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/course/tomlfile"
)

// beyondRing is how far outside the ring, in metres, a handler may still stand.
const beyondRing = 5

// barBreadth is half the breadth in metres of what is only a line on the map: a
// bar, a wing, a row of poles.
const barBreadth = 0.1

// outside returns how many metres p is outside the ring of c.
func outside(c *course.Course, p geom.Point) float64 {
	in := geom.Point{X: max(0, min(c.Ring.X, p.X)), Y: max(0, min(c.Ring.Y, p.Y))}
	return p.Dist(in)
}

// standsIn returns the index of the obstacle that p is inside of, or -1.
func standsIn(c *course.Course, p geom.Point) int {
	for i := range c.Obstacles {
		if covers(&c.Obstacles[i], p) {
			return i
		}
	}
	return -1
}

// covers reports whether the obstacle takes up the place p.
func covers(o *course.Obstacle, p geom.Point) bool {
	switch o.Kind {
	case course.Spread, course.LongJump, course.AFrame, course.Table:
		at := geom.Pose{At: o.At, Heading: o.Facing}.Local(p)
		half := o.Width/2 + o.Wing
		return at.X >= -half && at.X <= half && at.Y >= -o.Length/2 && at.Y <= o.Length/2
	}
	breadth := barBreadth
	switch o.Kind {
	case course.Tunnel, course.DogWalk, course.Seesaw:
		breadth = o.Width / 2
	}
	for _, s := range o.Footprint() {
		if s.Dist(p) <= breadth {
			return true
		}
	}
	return false
}

// walls returns everything on the course that nobody walks through.
func walls(c *course.Course) []geom.Segment {
	var all []geom.Segment
	for i := range c.Obstacles {
		all = append(all, c.Obstacles[i].Footprint()...)
	}
	return all
}

// show writes a length in metres in the course's units, to a tenth.
func show(c *course.Course, metres float64) string {
	return fmt.Sprintf("%.1f %s", metres/c.Units.Factor(), c.Units)
}

// place says where p is in the trade's way: by the obstacle.
func place(c *course.Course, i int) string {
	return c.Obstacles[i].Kind.String() + " " + tomlfile.Show(c.Obstacles[i].ID)
}
