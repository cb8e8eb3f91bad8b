package ring

import (
	"strconv"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/tui/canvas"
)

// labels puts each number on the side its obstacle is taken from.
func (d *pen) labels() {
	c := d.Setup.Course
	for k := range c.Order {
		// From the leg's own number on first: they get the best places.
		n := (k+max(d.Leg, 1)-1)%len(c.Order) + 1
		d.number(n)
	}
}

// number draws course number n, its trap mark with it.
func (d *pen) number(n int) {
	c := d.Setup.Course
	e := c.Entry(n)
	s, role := strconv.Itoa(n), canvas.Plain
	switch {
	case n == d.Leg:
		s, role = "["+s+"]", canvas.Right|canvas.Strong
	case e.Obstacle == d.wrong:
		role = canvas.Wrong
	case d.Leg > 0 && n < d.Leg:
		role = canvas.Quiet
	}
	d.place(e, s, role)
}

// roomBeside finds n free cells beside an entry on the side it is taken from, the nearest
// first.
func (d *pen) roomBeside(e course.Entry, n int) (x, y int, ok bool) {
	side := e.Half + d.of(e.Obstacle).Wing
	at := geom.Pose{At: e.At, Heading: e.Heading}
	row := max(canvas.Aspect/d.Camera.Scale, .5) // metres
	for _, back := range [5]float64{0.9, 1.5, 2.2, 3, 4} {
		for _, off := range [5]float64{side, -side, 0, side + 1, -side - 1} {
			x, y = cell(d.at(at.Ahead(-back * row).Add(e.Heading.Right().Mul(off))))
			x -= n / 2
			if d.free(x, y, n) {
				return x, y, true
			}
		}
	}
	return 0, 0, false
}
