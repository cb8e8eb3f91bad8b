// Package ring draws the ring from above: the obstacles from their real geometry, the
// dog's line stride by stride, the handler with his stands, what the dog cannot see,
// and where it would leave the course. It also says what lies under a place on the screen.
package ring

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim"
	"cuewalk/tui/canvas"
)

// Camera is how the map lies in a view: what is in its middle, how large, and whether it
// is turned. It is a value; each method returns another.
type Camera struct {
	Centre geom.Point // the place in the middle of the view
	Scale  float64    // columns to a metre; a row holds canvas.Aspect times as many metres as a column
	Turned bool       // "up the map" points to the right of the screen instead of up
	W, H   int        // the view in cells
}

// Scales that a zoom keeps to, columns to a metre: from a ring of 500 m in 40 columns to
// a wing as broad as a word.
const (
	leastScale = 0.05
	mostScale  = 24
)

// margin is the room around the ring at its edge, where the grid ticks stand, in metres.
const margin = 0.6

// Whole shows all of the ring, turned the way that fills a view of w by h cells best.
func Whole(c *course.Course, w, h int) Camera {
	upright := fit(box{geom.Point{}, c.Ring}, false, w, h, margin)
	turned := fit(box{geom.Point{}, c.Ring}, true, w, h, margin)
	if turned.Scale > upright.Scale*1.05 {
		return turned
	}
	return upright
}

// legRoom is the least length of map that a leg is shown with, metres each way; nearer
// than that one loses where one is.
const legRoom = 8.0

// Leg shows the way to course number n (from 1) with what matters on it in any of the runs,
// which are all of course c: both obstacles, the dog's line, the handler, and the traps with
// the ways to them. It is turned as Whole is.
func Leg(c *course.Course, n, w, h int, runs ...*sim.Rehearsal) Camera {
	whole := Whole(c, w, h)
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
	if b.empty() {
		return whole
	}
	return fit(b.least(legRoom), whole.Turned, w, h, 1).atLeast(whole.Scale)
}

// Follow shows the dog's surroundings, span metres across the shorter way of the view, with
// more room ahead of the dog than behind it. It is turned as Whole is.
func Follow(c *course.Course, at sim.Sample, span float64, w, h int) Camera {
	whole := Whole(c, w, h)
	cam := whole
	cam.Scale = min(float64(w), float64(h)*canvas.Aspect) / max(span, 1)
	cam.Centre = at.Dog.At.Add(at.Dog.Heading.Unit().Mul(span * 0.15))
	return cam.limited().snapped()
}

// fit shows box b with room metres around it in w by h cells.
func fit(b box, turned bool, w, h int, room float64) Camera {
	c := Camera{Centre: b.lo.Lerp(b.hi, 0.5), Turned: turned, W: w, H: h}
	x, y := b.hi.X-b.lo.X+2*room, b.hi.Y-b.lo.Y+2*room
	if turned {
		x, y = y, x
	}
	c.Scale = min(float64(max(w, 1))/x, float64(max(h, 1))*canvas.Aspect/y)
	return c.limited().snapped()
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

// ToMap returns the place on the map in the middle of cell x, y.
func (c Camera) ToMap(x, y int) geom.Point {
	return c.toMap(canvas.Pt{X: float64(x) + .5, Y: float64(y) + .5})
}

func (c Camera) toMap(p canvas.Pt) geom.Point {
	dx := (p.X - float64(c.W)/2) / c.Scale
	dy := (p.Y - float64(c.H)/2) * canvas.Aspect / c.Scale
	if c.Turned {
		return c.Centre.Add(geom.Point{X: dy, Y: dx})
	}
	return c.Centre.Add(geom.Point{X: dx, Y: -dy})
}

// ToView returns where a place on the map lies in the view, in cells with fractions.
func (c Camera) ToView(p geom.Point) canvas.Pt {
	d := p.Sub(c.Centre)
	if c.Turned {
		d = geom.Point{X: d.Y, Y: -d.X}
	}
	return canvas.Pt{
		X: float64(c.W)/2 + d.X*c.Scale,
		Y: float64(c.H)/2 - d.Y*c.Scale/canvas.Aspect,
	}
}

// Turn returns a heading on the map as it points on the screen.
func (c Camera) Turn(a geom.Angle) geom.Angle {
	if c.Turned {
		return (a + math.Pi/2).Wrap()
	}
	return a
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
