// Package ring draws the ring from above as it lies on the paper: the obstacles in their true
// place, size and direction, the dog's line, where it goes wrong, the handler with his stands,
// and what the dog cannot see. It also says what lies under a place on the screen.
package ring

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim"
	"cuewalk/tui/canvas"
)

// Turn is how the picture is turned: quarter turns clockwise. 0 is the paper's way up.
type Turn uint8

// Next is a quarter further.
func (t Turn) Next() Turn { return (t + 1) % 4 }

// String says where the top of the paper is on a turned picture: "right", "below", "left"; it is
// empty for the paper's way up.
func (t Turn) String() string { return [4]string{"", "right", "below", "left"}[t%4] }

// sideways reports whether x of the map runs up or down the screen.
func (t Turn) sideways() bool { return t%2 == 1 }

// turned is a step on the map, y up, as a step on the turned picture, y up.
func (t Turn) turned(d geom.Point) geom.Point {
	switch t % 4 {
	case 1:
		return geom.Point{X: d.Y, Y: -d.X}
	case 2:
		return geom.Point{X: -d.X, Y: -d.Y}
	case 3:
		return geom.Point{X: -d.Y, Y: d.X}
	}
	return d
}

// Camera is how the map lies in a view. It is a value that its owner keeps: place and zoom
// stay as they are while a plan is altered. Each method returns another.
type Camera struct {
	Centre geom.Point // the place in the middle of the view
	Scale  float64    // columns to a metre; a row holds canvas.Aspect times as many metres as a column
	Turn   Turn
	W, H   int // the view in cells
}

// Scales that a zoom keeps to, columns to a metre: from a ring of 500 m in 40 columns to
// a wing as broad as a word.
const (
	leastScale = 0.05
	mostScale  = 24
)

// margin is the room around the ring at its edge, in metres.
const margin = 0.6

// Whole shows all of the ring, as large as its shape allows in w by h cells beside the rulers.
func Whole(c *course.Course, turn Turn, w, h int) Camera {
	return fit(box{geom.Point{}, c.Ring}, turn, w, h, margin, rulerRoom(c, turn, w, h))
}

// legRoom is the least length of map that a leg is shown with, metres each way; nearer
// than that one loses where one is.
const legRoom = 8.0

// Leg shows the way to course number n (from 1) with what its verdict tells of in any of the
// runs, which are all of course c: the obstacle before, the right one, those wrongly taken
// with the ways to them, the handler where he is and where he was meant to be.
func Leg(c *course.Course, n int, turn Turn, w, h int, runs ...*sim.Rehearsal) Camera {
	b := emptyBox()
	for k := n - 1; k <= n; k++ {
		b = b.obstacle(c, k)
	}
	for _, r := range runs {
		for i := range r.Legs {
			if r.Legs[i].Number == n {
				b = b.leg(r, &r.Legs[i])
			}
		}
	}
	whole := Whole(c, turn, w, h)
	if b.empty() {
		return whole
	}
	return fit(b.least(legRoom), turn, w, h, 1, rulerRoom(c, turn, w, h)).atLeast(whole.Scale)
}

// Follow shows the dog's surroundings, reach metres across the shorter way of the view, with
// more room ahead of the dog than behind it.
func Follow(at sim.Sample, reach float64, turn Turn, w, h int) Camera {
	cam := Camera{Turn: turn, W: w, H: h}
	cam.Scale = min(float64(w), float64(h)*canvas.Aspect) / max(reach, 1)
	cam.Centre = at.Dog.At.Add(at.Dog.Heading.Unit().Mul(reach * 0.15))
	return cam.limited().snapped()
}

// room is what the rulers take of a view: columns at its left, rows at its foot.
type room struct{ left, foot int }

// fit shows box b with around metres about it in w by h cells less the rulers.
func fit(b box, turn Turn, w, h int, around float64, r room) Camera {
	c := Camera{Centre: b.lo.Lerp(b.hi, 0.5), Turn: turn, W: w, H: h}
	x, y := b.hi.X-b.lo.X+2*around, b.hi.Y-b.lo.Y+2*around
	if turn.sideways() {
		x, y = y, x
	}
	c.Scale = min(float64(max(w-r.left, 1))/x, float64(max(h-r.foot, 1))*canvas.Aspect/y)
	c = c.limited()
	// The box belongs into the middle of what the rulers leave.
	off := c.toMap(canvas.Pt{X: float64(w-r.left) / 2, Y: float64(h+r.foot) / 2})
	c.Centre = c.Centre.Add(off.Sub(c.Centre))
	return c.snapped()
}

// Pan moves the view over the map by whole cells, right and down positive.
func (c Camera) Pan(columns, rows int) Camera {
	from := c.toMap(canvas.Pt{})
	to := c.toMap(canvas.Pt{X: float64(columns), Y: float64(rows)})
	c.Centre = c.Centre.Add(to.Sub(from))
	return c
}

// Zoom enlarges by factor and leaves the map under cell x, y where it is.
func (c Camera) Zoom(factor float64, x, y int) Camera {
	p := canvas.Pt{X: float64(x) + .5, Y: float64(y) + .5}
	before := c.toMap(p)
	c.Scale *= factor
	c = c.limited()
	c.Centre = c.Centre.Add(before.Sub(c.toMap(p)))
	return c.snapped()
}

// Sized is the same look in a view of w by h cells: same middle, same scale.
func (c Camera) Sized(w, h int) Camera {
	c.W, c.H = w, h
	return c.snapped()
}

// Turned is the same place and scale, turned to t.
func (c Camera) Turned(t Turn) Camera {
	c.Turn = t
	return c.snapped()
}

// ToMap returns the place on the map in the middle of cell x, y.
func (c Camera) ToMap(x, y int) geom.Point {
	return c.toMap(canvas.Pt{X: float64(x) + .5, Y: float64(y) + .5})
}

func (c Camera) toMap(p canvas.Pt) geom.Point {
	d := geom.Point{X: (p.X - float64(c.W)/2) / c.Scale, Y: -(p.Y - float64(c.H)/2) * canvas.Aspect / c.Scale}
	return c.Centre.Add(((4 - c.Turn%4) % 4).turned(d))
}

// ToView returns where a place on the map lies in the view, in cells with fractions.
func (c Camera) ToView(p geom.Point) canvas.Pt {
	d := c.Turn.turned(p.Sub(c.Centre))
	return canvas.Pt{
		X: float64(c.W)/2 + d.X*c.Scale,
		Y: float64(c.H)/2 - d.Y*c.Scale/canvas.Aspect,
	}
}

// towards is a heading on the map as a step on the screen, y down, as the eye sees it.
func (c Camera) towards(a geom.Angle) geom.Point {
	u := c.Turn.turned(a.Unit())
	return geom.Point{X: u.X, Y: -u.Y}
}

func (c Camera) limited() Camera {
	c.Scale = max(leastScale, min(mostScale, c.Scale))
	return c
}

func (c Camera) atLeast(scale float64) Camera {
	if c.Scale < scale {
		c.Scale = scale
	}
	return c.limited().snapped()
}

// snapped moves the middle by less than a cell so that the map's origin falls on the corner
// of one: an obstacle is then drawn alike wherever the view has moved.
func (c Camera) snapped() Camera {
	o := c.ToView(geom.Point{})
	shift := c.toMap(canvas.Pt{X: o.X - math.Round(o.X), Y: o.Y - math.Round(o.Y)}).Sub(c.toMap(canvas.Pt{}))
	c.Centre = c.Centre.Add(shift)
	return c
}
