// Package course holds a course as it is set in the ring: the obstacles, the ways
// to take each of them, and the numbered order. It knows nothing of dogs,
// handlers or chance.
package course

import (
	"math"

	"cuewalk/course/geom"
)

// Course is a set course. Lengths are metres whatever units the file used.
type Course struct {
	Name      string
	Rules     string     // published rulebook that checks it, such as "FCI 2023"; empty for none
	Units     Units      // the file's units, for showing lengths and for plans
	Ring      geom.Point // width and length
	Surface   string     // grass, turf, sand, carpet; empty where not said
	Start     geom.Point // where the dog waits
	Obstacles []Obstacle
	Order     []Step // the numbered course: Order[0] is number 1
	File      string // the file it came from; empty for none
}

// Step is one number of the course.
type Step struct {
	Obstacle int  // index in Obstacles
	Reverse  bool // against the way the obstacle is drawn
}

// Units are the units lengths are written in.
type Units uint8

// Metres and feet.
const (
	Metres Units = iota
	Feet
)

// FootLength is one international foot in metres, exactly.
const FootLength = 0.3048

// Factor returns the metres in one unit.
func (u Units) Factor() float64 {
	if u == Feet {
		return FootLength
	}
	return 1
}

// Tenths returns p brought to tenths of the unit, as a handler paces it out and writes it.
func (u Units) Tenths(p geom.Point) geom.Point {
	f := u.Factor()
	return geom.Point{X: math.Round(p.X/f*10) / 10 * f, Y: math.Round(p.Y/f*10) / 10 * f}
}

// String returns the unit as it is written in files.
func (u Units) String() string {
	if u == Feet {
		return "ft"
	}
	return "m"
}

// Entries returns every way to take every obstacle, in the order of Obstacles.
func (c *Course) Entries() []Entry {
	var all []Entry
	for i, o := range c.Obstacles {
		all = append(all, o.Entries(i)...)
	}
	return all
}

// Takes reports whether a dog that takes e does what step asks. A table may be
// taken from any side.
func (s Step) Takes(e Entry) bool {
	return e.Obstacle == s.Obstacle && !e.WrongWay && (e.Kind == Table || e.Reverse == s.Reverse)
}

// Entry returns the right way to take number n (from 1). n must be on the course.
func (c *Course) Entry(n int) Entry {
	s := c.Order[n-1]
	for _, e := range c.Obstacles[s.Obstacle].Entries(s.Obstacle) {
		if s.Takes(e) {
			return e
		}
	}
	return c.Obstacles[s.Obstacle].Entries(s.Obstacle)[0] // unreachable for a checked course
}

// Label returns the id of number n with "-" before it where it is taken against
// the way it is drawn; number 0 is "start".
func (c *Course) Label(n int) string {
	if n < 1 || n > len(c.Order) {
		return "start"
	}
	s := c.Order[n-1]
	if s.Reverse {
		return "-" + c.Obstacles[s.Obstacle].ID
	}
	return c.Obstacles[s.Obstacle].ID
}

// Find returns the index of the obstacle with this id, or -1.
func (c *Course) Find(id string) int {
	for i, o := range c.Obstacles {
		if o.ID == id {
			return i
		}
	}
	return -1
}

// Numbers returns the course numbers (from 1) at which obstacle i is taken; none
// for a dummy.
func (c *Course) Numbers(i int) []int {
	var ns []int
	for n, s := range c.Order {
		if s.Obstacle == i {
			ns = append(ns, n+1)
		}
	}
	return ns
}
