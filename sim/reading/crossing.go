package reading

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim/dog"
)

// crossing is one way to run an obstacle: over which part of its opening and at
// which angle. From in to out nothing turns the dog.
type crossing struct {
	entry   int
	in, out geom.Pose  // where it leaves the ground or goes in, and where it is back
	at      geom.Point // where it crosses the bar or goes in
	angle   geom.Angle // off the way through the entry, right positive
	offset  float64    // metres right of the middle of the opening
	before  float64    // metres from in to the bar
	behind  float64    // metres from the far bar or end to out
}

// widest is how far off straight the best line crosses each kind (C: a jump is
// sliced by at most 45 degrees; what must be taken straight, by 10 to 15).
var widest = [course.KindCount]geom.Angle{
	course.Jump: geom.Deg(45), course.Wall: geom.Deg(45), course.Tyre: geom.Deg(15), course.Spread: geom.Deg(15),
	course.LongJump: geom.Deg(15), course.Tunnel: geom.Deg(60), course.Weaves: geom.Deg(45),
	course.AFrame: geom.Deg(10), course.DogWalk: geom.Deg(10), course.Seesaw: geom.Deg(10), course.Table: geom.Deg(45),
}

// choice is where in the ranges of angle and offset crossings are tried: middle
// and step of each, in shares of the range.
type choice struct {
	entry               int // only this one; -1 for every right one
	angle, angleStep    float64
	offset, offsetStep  float64
	speedIn, speedOut   float64 // over the obstacle
	angles, offsetsEach int     // tried to either side of the middle
}

// crossings appends the ways to take step that ch tries.
func (r *runner) crossings(step course.Step, ch choice, dst []crossing) []crossing {
	for i := range r.scene.Entries {
		e := &r.scene.Entries[i]
		if e.Obstacle != step.Obstacle || !step.Takes(*e) || ch.entry >= 0 && ch.entry != i {
			continue
		}
		for a := -ch.angles; a <= ch.angles; a++ {
			share := max(-1, min(1, ch.angle+float64(a)*ch.angleStep))
			angle := limited(e, share)
			for o := -ch.offsetsEach; o <= ch.offsetsEach; o++ {
				off := max(-1, min(1, ch.offset+float64(o)*ch.offsetStep)) * room(e)
				dst = r.cross(i, angle, off, ch, dst)
				if room(e) == 0 {
					break
				}
			}
		}
	}
	return dst
}

// limited returns a share (-1..1) of the widest angle for e on that side.
func limited(e *course.Entry, share float64) geom.Angle {
	limit := min(widest[e.Kind], e.Left) // heading to the right: it comes from the left
	if share < 0 {
		limit = min(widest[e.Kind], e.Right)
	}
	return limit * geom.Angle(share)
}

// room returns how far off the middle a jump is crossed, metres: 0 where the dog
// has to go in at the middle.
func room(e *course.Entry) float64 {
	switch e.Kind {
	case course.Jump, course.Wall, course.Spread, course.LongJump:
		return max(0, e.Half-0.25) // room for the dog's own breadth (C)
	}
	return 0
}

// cross appends one crossing; of a table, one for each way off it.
func (r *runner) cross(i int, angle geom.Angle, off float64, ch choice, dst []crossing) []crossing {
	e := &r.scene.Entries[i]
	c := crossing{entry: i, angle: angle, offset: off, at: geom.Pose{At: e.At, Heading: e.Heading}.Beside(off)}
	way := geom.Pose{At: c.at, Heading: (e.Heading + angle).Wrap()}
	c.in, c.out = way, geom.Pose{At: e.Exit.Ahead(outside), Heading: e.Exit.Heading}
	c.behind = outside
	switch {
	case e.Kind.Jumped():
		c.before, _ = r.dog.Trunk(ch.speedIn, e.Height, r.scene.Room(i))
		_, c.behind = r.dog.Trunk(ch.speedOut, e.Height, r.scene.Room(i))
		c.in.At = way.Ahead(-c.before)
		c.out = geom.Pose{At: way.Ahead(over(e, angle) + c.behind), Heading: way.Heading}
	case e.Kind == course.Table:
		middle := e.At.Lerp(e.Exit.At, 0.5)
		for k := range 8 {
			c.out = geom.Pose{At: middle, Heading: (e.Heading + geom.Deg(45*float64(k))).Wrap()}
			c.behind = 0
			dst = append(dst, c)
		}
		return dst
	}
	return append(dst, c)
}

// outside is how far in front of an exit the dog is its own master again, metres;
// as in the simulator.
const outside = 0.3

// over returns the metres of way over an obstacle of some depth.
func over(e *course.Entry, angle geom.Angle) float64 {
	return e.Length / max(0.5, math.Cos(float64(angle)))
}

// through returns the metres of the dog's way from bar to bar or end to end.
func (c *crossing) through(e *course.Entry) float64 {
	if e.Kind.Jumped() {
		return over(e, c.angle)
	}
	if e.Kind == course.Table {
		return e.Length / 2
	}
	return e.Length
}

// runner finds the dog's best line.
type runner struct {
	course *course.Course
	scene  *dog.Scene
	dog    *dog.Dog
	levels []float64 // speeds a turn is tried at
	walls  []geom.Segment
	near   []geom.Segment // those near the leg being tried
}
