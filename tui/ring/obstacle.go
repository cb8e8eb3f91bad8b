package ring

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/tui/canvas"
)

// openBelow is the share of its opening below which an obstacle counts as hidden.
const openBelow = 0.35

// hiddenWithin is how near an obstacle must be for it to matter that it is hidden, metres.
const hiddenWithin = 16

// hidden reports whether the dog cannot see obstacle i though it lies in its view.
func (d *pen) hidden(i int) bool {
	seen, open := false, 0.0
	if d.now == nil || d.of(i).At.Dist(d.now.Dog.At) > hiddenWithin {
		return false
	}
	for _, s := range d.Seen {
		if s.Entry >= 0 && s.Entry < len(d.Setup.Entries) && d.Setup.Entries[s.Entry].Obstacle == i {
			seen = true
			open = max(open, s.Visible)
		}
	}
	return seen && open < openBelow
}

// role is how obstacle i counts at the instant.
func (d *pen) role(i int) canvas.Role {
	var r canvas.Role
	switch {
	case i == d.wrong && i != d.right:
		r = canvas.Wrong
	case d.hidden(i):
		r = canvas.Hidden
	case i == d.right:
		r = canvas.Right | canvas.Strong
	case len(d.Setup.Course.Numbers(i)) == 0:
		r = canvas.Quiet
	default:
		r = canvas.Obstacle
	}
	if d.Chosen.Obstacle == i && d.Chosen.Stand < 0 {
		r |= canvas.Chosen
	}
	return r
}

func (d *pen) dummy(i int) bool { return len(d.Setup.Course.Numbers(i)) == 0 }

// obstacle draws obstacle i.
func (d *pen) obstacle(i int) {
	o := d.of(i)
	role := d.role(i)
	var room [40]stroke
	all := strokes(o, room[:0])
	if d.fine {
		d.engrave(o, all, role, d.hidden(i))
		return
	}
	shift := d.centring(o)
	if o.Kind == course.Tunnel && d.wide(o.Width) {
		d.pipe(o, canvas.Solid, role)
		return
	}
	for _, s := range all {
		d.stamp(o, s, shift, role, d.dummy(i), d.hidden(i))
	}
}

// wide reports whether a breadth in metres is enough to draw both its sides.
func (d *pen) wide(metres float64) bool { return metres*d.Camera.Scale >= 4 }

// centring is the shift that brings the middle of a small obstacle onto the middle of a
// cell, so that equal ones look equal.
func (d *pen) centring(o *course.Obstacle) canvas.Pt {
	if o.Kind == course.Tunnel || d.Camera.Scale > 5 {
		return canvas.Pt{}
	}
	m := d.at(o.At)
	return canvas.Pt{X: math.Floor(m.X) + .5 - m.X, Y: math.Floor(m.Y) + .5 - m.Y}
}

// stamp draws one stroke in ASCII signs.
func (d *pen) stamp(o *course.Obstacle, s stroke, shift canvas.Pt, role canvas.Role, dummy, hidden bool) {
	a, b := d.at(s.a), d.at(s.b)
	a.X, a.Y, b.X, b.Y = a.X+shift.X, a.Y+shift.Y, b.X+shift.X, b.Y+shift.Y
	lies := slantOf(b.X-a.X, b.Y-a.Y)
	if s.a == s.b {
		lies = level
	}
	if s.nib == ridge && d.wide(o.Width) {
		return
	}
	if s.nib == thin && !d.wide(o.Width) && lies != d.slantAcross(o) {
		return // no room between the edges: the contact zones say enough
	}
	sign := inks[s.nib][lies]
	switch {
	case hidden && s.nib != post:
		sign = ':'
	case dummy && faint[s.nib] != 0:
		sign = faint[s.nib]
	case s.nib == bar && o.Kind == course.Spread && lies == level && o.Length*d.Camera.Scale/canvas.Aspect < 1:
		sign = '='
	}
	cells(a, b, func(x, y int, low bool) {
		if low && s.nib == bar && (lies == rising || lies == falling) && sign != ':' {
			d.put(x, y, '_', role)
			return
		}
		d.put(x, y, sign, role)
	})
}

// slantAcross is how the line across the way of o lies on the screen.
func (d *pen) slantAcross(o *course.Obstacle) slant {
	a, b := d.at(o.At), d.at(geom.Pose{At: o.At, Heading: o.Facing}.Beside(1))
	return slantOf(b.X-a.X, b.Y-a.Y)
}

// pipe draws both walls of a tunnel and its ribs.
func (d *pen) pipe(o *course.Obstacle, stroke canvas.Stroke, role canvas.Role) {
	n := len(o.Through)
	left, right := make([]canvas.Pt, n), make([]canvas.Pt, n)
	for i, p := range o.Through {
		pose := geom.Pose{At: p, Heading: bend(o.Through, i)}
		l, r := pose.Beside(-o.Width/2), pose.Beside(o.Width/2)
		left[i], right[i] = d.at(l), d.at(r)
	}
	if d.fine && stroke == canvas.Solid {
		area := append([]canvas.Pt(nil), left...)
		for i := range right {
			area = append(area, right[n-1-i])
		}
		d.p.Shade(area, canvas.Dense, role)
	}
	d.p.Path(left, stroke, role)
	d.p.Path(right, stroke, role)
	d.p.Line(left[0], right[0], canvas.Dotted, role)
	d.p.Line(left[n-1], right[n-1], canvas.Dotted, role)
	for i := 1; i < n; i++ {
		d.block(left[i-1], left[i])
		d.block(right[i-1], right[i])
	}
}

// block keeps labels off a line drawn through the plane.
func (d *pen) block(a, b canvas.Pt) {
	cells(a, b, func(x, y int, _ bool) { d.take(x, y) })
}

// bend is the heading of a chain of points at point i, halfway between its neighbours'.
func bend(pts []geom.Point, i int) geom.Angle {
	switch {
	case i == 0:
		return pts[0].Towards(pts[1])
	case i == len(pts)-1:
		return pts[i-1].Towards(pts[i])
	}
	in, out := pts[i-1].Towards(pts[i]), pts[i].Towards(pts[i+1])
	return in + out.Off(in)/2
}

// engrave draws strokes through the plane, as fine as it can.
func (d *pen) engrave(o *course.Obstacle, all []stroke, role canvas.Role, hidden bool) {
	how := canvas.Solid
	if hidden {
		how = canvas.Dotted
	}
	if o.Kind == course.Tunnel {
		d.pipe(o, how, role)
		return
	}
	across := o.Facing
	for _, s := range all {
		a, b := d.at(s.a), d.at(s.b)
		if s.nib == ridge {
			continue
		}
		d.block(a, b)
		switch s.nib {
		case wing, tower:
			d.slab(s, across, 0.16, how, role)
		case zone:
			d.slab(s, across+math.Pi/2, max(o.Width/2-0.1, 0.12), canvas.Dotted, role)
		case plank:
			d.slab(s, across+math.Pi/2, o.Width/2, how, role)
		case post:
			d.p.Disc(a, 0.07*d.Camera.Scale, role)
		case hoop:
			d.p.Ring(d.at(s.a.Lerp(s.b, .5)), o.Width/2*d.Camera.Scale, how, role)
		default:
			d.p.Line(a, b, how, role)
		}
	}
}

// slab draws a stroke as an outline reaching half metres to both sides along a heading.
func (d *pen) slab(s stroke, along geom.Angle, half float64, how canvas.Stroke, role canvas.Role) {
	u := along.Unit().Mul(half)
	path := [5]canvas.Pt{d.at(s.a.Sub(u)), d.at(s.a.Add(u)), d.at(s.b.Add(u)), d.at(s.b.Sub(u)), d.at(s.a.Sub(u))}
	d.p.Path(path[:], how, role)
}
