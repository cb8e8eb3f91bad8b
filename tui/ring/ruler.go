package ring

import (
	"math"
	"strconv"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/tui/canvas"
)

// The smallest view that has room for rulers.
const (
	rulersFrom  = 24 // columns
	rulersFromH = 8  // rows
)

// rulerRoom is what the rulers of a course take of a view.
func rulerRoom(c *course.Course, turn Turn, w, h int) room {
	if w < rulersFrom || h < rulersFromH {
		return room{}
	}
	up := c.Ring.Y
	if turn.sideways() {
		up = c.Ring.X
	}
	return room{left: len(strconv.Itoa(int(up/c.Units.Factor()))) + 1, foot: 1}
}

// rulerStep is the distance of two ticks in the file's unit: 5 m or 10 ft, or so many of them
// that each has room columns or rows at perUnit of them to a unit.
func rulerStep(u course.Units, perUnit, room float64) float64 {
	step := 5.0
	if u == course.Feet {
		step = 10
	}
	for _, times := range [...]float64{1, 2, 4, 10, 20} {
		if step*times*perUnit >= room {
			return step * times
		}
	}
	return step * 40
}

// rulers writes the axis across along the foot of the ring and the other along its left side, or
// along the edges of the view where those of the ring lie outside, and marks the ring's edge.
func (d *pen) rulers() {
	if !d.Layers.Has(Rulers) {
		return
	}
	if !d.tiny() {
		d.edges()
	}
	r := rulerRoom(d.Setup.Course, d.Camera.Turn, d.w, d.h)
	if r.left == 0 {
		return
	}
	a, b := d.at(geom.Point{}), d.at(d.Setup.Course.Ring)
	x := min(max(int(math.Floor(min(a.X, b.X)))-r.left, 0), d.w-r.left)
	y := min(max(int(math.Ceil(max(a.Y, b.Y)-1e-6)), 1), d.h-1)
	for j := range d.h {
		for i := range r.left {
			d.cells[j*d.w+x+i] = ink{sign: ' ', rank: ruler}
		}
	}
	for i := range d.w {
		d.cells[y*d.w+i] = ink{sign: ' ', rank: ruler}
	}
	d.across(x+r.left, y, max(a.X, b.X))
	d.upright(x+r.left-1, y)
}

// axes are the directions on the map that run across the screen and up it, their names, and
// how long the ring is in them.
func (d *pen) axes() (across, up geom.Point, names [2]string, most [2]float64) {
	x, y := geom.Point{X: 1}, geom.Point{Y: 1}
	ring := d.Setup.Course.Ring
	if d.Camera.Turn.sideways() {
		return y, x, [2]string{"y", "x"}, [2]float64{ring.Y, ring.X}
	}
	return x, y, [2]string{"x", "y"}, [2]float64{ring.X, ring.Y}
}

// across is the ruler in row y from column from on: its name and unit behind the ring's edge.
func (d *pen) across(from, y int, edge float64) {
	axis, _, names, most := d.axes()
	u := d.Setup.Course.Units
	name := names[0] + " " + u.String()
	f := u.Factor()
	step := rulerStep(u, d.Camera.Scale*f, 4)
	end := d.w - 1 - len(name) // the last cell of a screen stays empty
	if at := int(edge) + 3; at < end && at > from {
		end = at
	}
	for n := 0.0; n*step*f <= most[0]+1e-6; n++ {
		x, _ := cellOf(d.at(axis.Mul(n * step * f)))
		s := strconv.Itoa(int(n * step))
		x -= len(s) / 2
		if x >= from-1 && x+len(s) < end {
			d.word(x, y, s, rulerMark, ruler)
		}
	}
	d.word(end, y, name, rulerMark, ruler)
}

// upright is the ruler that ends in column end, above row foot; its name at the top.
func (d *pen) upright(end, foot int) {
	_, axis, names, most := d.axes()
	u := d.Setup.Course.Units
	f := u.Factor()
	step := rulerStep(u, d.Camera.Scale/2*f, 2)
	d.word(end-1, 0, names[1], rulerMark, ruler)
	for n := 0.0; n*step*f <= most[1]+1e-6; n++ {
		y := int(math.Floor(d.at(axis.Mul(n*step*f)).Y - 1e-6))
		s := strconv.Itoa(int(n * step))
		if y >= 1 && y < foot {
			d.word(end-len(s), y, s, rulerMark, ruler)
		}
	}
}

// edges marks the edge of the ring at every tick of the rulers.
func (d *pen) edges() {
	c := d.Setup.Course
	step := rulerStep(c.Units, d.Camera.Scale/2*c.Units.Factor(), 1) * c.Units.Factor()
	put := func(p geom.Point) {
		at := d.at(p)
		x, y := cellOf(at)
		if at.X == float64(d.w) { // an edge that falls on the last column's right side
			x--
		}
		if at.Y == float64(d.h) {
			y--
		}
		d.sign(x, y, '+', edgeMark, edge)
	}
	for x := 0.0; x <= c.Ring.X+1e-9; x += step {
		put(geom.Point{X: x})
		put(geom.Point{X: x, Y: c.Ring.Y})
	}
	for y := step; y <= c.Ring.Y+1e-9; y += step {
		put(geom.Point{Y: y})
		put(geom.Point{X: c.Ring.X, Y: y})
	}
}

// wayUp says where the top of the paper is, on a picture that is turned.
func (d *pen) wayUp() {
	side := d.Camera.Turn.String()
	if side == "" {
		return
	}
	for _, s := range [...]string{"turned: top of the paper is " + side, "paper's top: " + side, side} {
		if len(s) <= d.w {
			for i, r := range s {
				d.put(d.w-len(s)+i, 0, ink{sign: r, role: canvas.Caution, mark: rulerMark, rank: ruler})
			}
			return
		}
	}
}
