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

// rulers writes the axis across the view along its foot and the other along its left edge, and
// marks the edge of the ring.
func (d *pen) rulers() {
	if !d.Layers.Has(Rulers) {
		return
	}
	d.edges()
	r := rulerRoom(d.Setup.Course, d.Camera.Turn, d.w, d.h)
	if r.left == 0 {
		return
	}
	for y := range d.h {
		for x := range r.left {
			d.cells[y*d.w+x] = ink{sign: ' ', rank: ruler}
		}
	}
	for x := range d.w {
		d.cells[(d.h-1)*d.w+x] = ink{sign: ' ', rank: ruler}
	}
	d.across(r)
	d.upright(r)
}

// axes are the directions on the map that run across the screen and up it, and their names.
func (d *pen) axes() (across, up geom.Point, names [2]string, most [2]float64) {
	x, y := geom.Point{X: 1}, geom.Point{Y: 1}
	ring := d.Setup.Course.Ring
	if d.Camera.Turn.sideways() {
		return y, x, [2]string{"y", "x"}, [2]float64{ring.Y, ring.X}
	}
	return x, y, [2]string{"x", "y"}, [2]float64{ring.X, ring.Y}
}

// across is the ruler along the foot: its name and unit at the end.
func (d *pen) across(r room) {
	axis, _, names, most := d.axes()
	u := d.Setup.Course.Units
	name := names[0] + " " + u.String()
	f := u.Factor()
	step := rulerStep(u, d.Camera.Scale*f, 4)
	end := d.w - 1 // the last cell of a screen stays empty
	for n := 0.0; n*step*f <= most[0]+1e-6; n++ {
		x, _ := cellOf(d.at(axis.Mul(n * step * f)))
		s := strconv.Itoa(int(n * step))
		x -= len(s) / 2
		if x > r.left-1 && x+len(s) < end-len(name)-1 {
			d.word(x, d.h-1, s, rulerMark, ruler)
		}
	}
	d.word(end-len(name), d.h-1, name, rulerMark, ruler)
}

// upright is the ruler along the left edge, its name at the top.
func (d *pen) upright(r room) {
	_, axis, names, most := d.axes()
	u := d.Setup.Course.Units
	f := u.Factor()
	step := rulerStep(u, d.Camera.Scale/2*f, 2)
	d.word(0, 0, names[1], rulerMark, ruler)
	for n := 0.0; n*step*f <= most[1]+1e-6; n++ {
		y := int(math.Floor(d.at(axis.Mul(n*step*f)).Y - 1e-6))
		s := strconv.Itoa(int(n * step))
		if y >= 1 && y < d.h-1 {
			d.word(r.left-1-len(s), y, s, rulerMark, ruler)
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
