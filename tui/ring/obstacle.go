package ring

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/tui/canvas"
)

// rect is the cells that something took: x0 <= x < x1.
type rect struct{ x0, y0, x1, y1 int }

func (r rect) empty() bool { return r.x0 >= r.x1 }

func (r rect) with(x, y int) rect {
	if r.empty() {
		return rect{x, y, x + 1, y + 1}
	}
	return rect{min(r.x0, x), min(r.y0, y), max(r.x1, x+1), max(r.y1, y+1)}
}

// openBelow is the share of its opening below which an obstacle counts as hidden.
const openBelow = 0.35

// hiddenWithin is how near an obstacle must be for it to matter that it is hidden, metres.
const hiddenWithin = 16

// hidden reports whether the dog cannot see obstacle i though it lies in its view.
func (d *pen) hidden(i int) bool {
	seen, open := false, 0.0
	if d.now == nil || !d.Layers.Has(Shadow) || d.of(i).At.Dist(d.now.Dog.At) > hiddenWithin {
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
	case i == d.right:
		r = canvas.Right | canvas.Strong
	case d.isWrong(i):
		r = canvas.Wrong
	case d.hidden(i):
		r = canvas.Hidden
	case d.dummy(i):
		r = canvas.Quiet
	default:
		r = canvas.Obstacle
	}
	if d.isChosen(i) {
		r |= canvas.Chosen
	}
	return r
}

func (d *pen) isChosen(i int) bool { return d.Chosen.Obstacle == i && d.Chosen.Stand < 0 }

// dummy reports whether obstacle i has no number.
func (d *pen) dummy(i int) bool {
	for _, s := range d.Setup.Course.Order {
		if s.Obstacle == i {
			return false
		}
	}
	return true
}

// obstacles draws all of them.
func (d *pen) obstacles() {
	if d.Bare || !d.Layers.Has(Course) {
		return
	}
	for i := range d.Setup.Course.Obstacles {
		o := d.of(i)
		s := stamp{pen: d, o: o, i: i, role: d.role(i), pose: geom.Pose{At: o.At, Heading: o.Facing}}
		if d.fine {
			s.engrave(d.hidden(i))
			continue
		}
		s.press()
	}
}

// stamp draws one obstacle in cells.
type stamp struct {
	*pen
	o    *course.Obstacle
	i    int
	role canvas.Role
	pose geom.Pose
}

// ink puts one sign of the obstacle.
func (s *stamp) ink(x, y int, r rune, m mark, k rank) {
	if x < 0 || y < 0 || x >= s.w || y >= s.h || s.cell(x, y).rank == ruler {
		return
	}
	s.boxes[s.i] = s.boxes[s.i].with(x, y) // also where another obstacle lies over it
	s.put(x, y, ink{sign: r, owner: int16(s.i + 1), role: s.role, mark: m, rank: k})
}

// view is a place in cells: x metres to the obstacle's right, y metres ahead.
func (s *stamp) view(x, y float64) canvas.Pt {
	return s.at(s.pose.At.Add(s.pose.Heading.Right().Mul(x)).Add(s.pose.Heading.Unit().Mul(y)))
}

func (s *stamp) press() {
	o := s.o
	switch o.Kind {
	case course.Tunnel:
		s.tunnel()
	case course.Weaves:
		for i := range o.Poles {
			x, y := cellOf(s.view(0, -o.Length/2+float64(i)*course.Spacing))
			s.ink(x, y, ':', poleMark, obstacleInk)
		}
	case course.AFrame, course.DogWalk, course.Seesaw:
		s.ramp()
	case course.Table:
		s.block(-o.Length/2, o.Length/2, '#', wingMark)
	default:
		s.bars()
	}
}

// wallsFrom is the breadth in columns from which both sides of a pipe are drawn.
const wallsFrom = 4.0

// tunnel draws a pipe: a bent line, or both its walls, between its mouths.
func (s *stamp) tunnel() {
	pts := s.o.Through
	n := len(pts)
	if s.o.Width*s.Camera.Scale >= wallsFrom {
		s.walls()
		return
	}
	for i := 1; i < n; i++ {
		cells(s.at(pts[i-1]), s.at(pts[i]), func(x, y int) { s.ink(x, y, ')', pipeMark, obstacleInk) })
	}
	for _, end := range [2]geom.Point{pts[0], pts[n-1]} {
		x, y := cellOf(s.at(end))
		s.ink(x, y, '@', mouthMark, obstacleKey)
	}
}

func (s *stamp) walls() {
	left, right := s.sides()
	n := len(left)
	for i := 1; i < n; i++ {
		quad := [4]canvas.Pt{left[i-1], left[i], right[i], right[i-1]}
		canvas.Inside(quad[:], s.w, s.h, func(x, y int) { s.ink(x, y, ')', pipeMark, obstacleInk) })
	}
	for i := 1; i < n; i++ {
		s.line(left[i-1], left[i])
		s.line(right[i-1], right[i])
	}
	s.solid(left[0], right[0], '@', mouthMark)
	s.solid(left[n-1], right[n-1], '@', mouthMark)
}

// sides are both walls of a pipe in cells.
func (s *stamp) sides() (left, right []canvas.Pt) {
	pts := s.o.Through
	left, right = make([]canvas.Pt, len(pts)), make([]canvas.Pt, len(pts))
	for i, p := range pts {
		pose := geom.Pose{At: p, Heading: bend(pts, i)}
		left[i], right[i] = s.at(pose.Beside(-s.o.Width/2)), s.at(pose.Beside(s.o.Width/2))
	}
	return left, right
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

// ramp draws a plank or an A-frame as a filled stroke, its contact zones where they show.
func (s *stamp) ramp() {
	y := s.o.Length / 2
	s.block(-y, y, '=', rampMark)
	z := min(contactZone, y/2)
	a, b := s.view(0, 0), s.view(0, z)
	if math.Max(math.Abs(a.X-b.X), math.Abs(a.Y-b.Y)) < .8 {
		return
	}
	s.block(-y, -y+z, '&', zoneMark)
	s.block(y-z, y, '&', zoneMark)
}

// block fills the obstacle's breadth from depth y0 to y1.
func (s *stamp) block(y0, y1 float64, r rune, m mark) {
	half := s.o.Width / 2
	if a, b := s.view(0, y0), s.view(0, y1); math.Abs(a.X-b.X)+math.Abs(a.Y-b.Y) >= .5 {
		s.solid(a, b, r, m)
	}
	if s.o.Width*s.Camera.Scale < 2 {
		return
	}
	quad := [4]canvas.Pt{s.view(-half, y0), s.view(half, y0), s.view(half, y1), s.view(-half, y1)}
	canvas.Inside(quad[:], s.w, s.h, func(x, y int) { s.ink(x, y, r, m, obstacleKey) })
}
