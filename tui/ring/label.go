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

// place finds room for a text beside an entry on the side it is taken from.
func (d *pen) place(e course.Entry, s string, role canvas.Role) bool {
	o := d.of(e.Obstacle)
	side := e.Half + o.Wing
	w := len(s)
	at := geom.Pose{At: e.At, Heading: e.Heading}
	cellHigh := canvas.Aspect / d.Camera.Scale
	for _, back := range [5]float64{0.9, 1.5, 2.2, 3, 4} {
		for _, off := range [5]float64{side, -side, 0, side + 1, -side - 1} {
			p := at.Ahead(-back * max(cellHigh, .5)).Add(e.Heading.Right().Mul(off))
			x, y := cell(d.at(p))
			x -= w / 2
			if d.free(x, y, w) {
				d.v.Text(x, y, s, role)
				for i := range w {
					d.take(x+i, y)
				}
				return true
			}
		}
	}
	return false
}
