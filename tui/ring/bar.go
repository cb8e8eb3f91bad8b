package ring

import (
	"math"

	"cuewalk/course"
	"cuewalk/tui/canvas"
)

// shortStroke is the length in columns below which a jump is one stroke in its direction.
const shortStroke = 5.0

// bars draws what is jumped: one line or two, each between its wings.
func (s *stamp) bars() {
	o := s.o
	a, b := s.view(0, -o.Length/2), s.view(0, o.Length/2)
	if math.Max(math.Abs(a.X-b.X), math.Abs(a.Y-b.Y)) < 1 || !(o.Kind == course.Spread || o.Kind == course.LongJump) {
		s.bar(0)
		return
	}
	s.bar(-o.Length / 2)
	s.bar(o.Length / 2)
}

// bar draws the line at depth y.
func (s *stamp) bar(y float64) {
	o := s.o
	half, far := o.Width/2, o.Width/2+o.Wing
	if 2*far*s.Camera.Scale < shortStroke {
		s.short(y, far)
		return
	}
	a, b := s.view(-half, y), s.view(half, y)
	if o.Kind == course.Wall {
		s.solid(s.view(-far, y), s.view(far, y), '#', wingMark)
		return
	}
	s.line(a, b)
	if o.Kind == course.Tyre {
		s.solid(a, b, '@', mouthMark)
	}
	s.solid(s.view(-far, y), a, '#', wingMark)
	s.solid(b, s.view(far, y), '#', wingMark)
}

// line draws a bar: signs of one kind from end to end, with "_/" where it climbs half a row a
// column.
func (s *stamp) line(a, b canvas.Pt) {
	lies := slantOf(b.X-a.X, b.Y-a.Y)
	lowCells(a, b, func(x, y int, low bool) {
		r := strokeSigns[lies]
		if low && (lies == rising || lies == falling) {
			r = '_'
		}
		s.ink(x, y, r, barMark, obstacleInk)
	})
}

// solid draws one sign all along a line.
func (s *stamp) solid(a, b canvas.Pt, r rune, m mark) {
	cells(a, b, func(x, y int) { s.ink(x, y, r, m, obstacleKey) })
}

// short draws a line too short for its parts: a run of one sign about its middle.
func (s *stamp) short(y, far float64) {
	a, b, mid := s.view(-far, y), s.view(far, y), s.view(0, y)
	lies := slantOf(b.X-a.X, b.Y-a.Y)
	r, m := strokeSigns[lies], barMark
	switch s.o.Kind {
	case course.Wall:
		r, m = '#', wingMark
	case course.Tyre:
		r, m = '@', mouthMark
	}
	n := max(1, int(math.Round(math.Abs(b.Y-a.Y))))
	lean := 0.0
	switch lies {
	case level:
		n = max(2, int(math.Round(math.Abs(b.X-a.X))))
		x0 := int(math.Round(mid.X - float64(n)/2))
		for i := range n {
			s.ink(x0+i, int(math.Floor(mid.Y)), r, m, obstacleInk)
		}
		return
	case rising, falling:
		lean = (b.X - a.X) / (b.Y - a.Y)
	}
	y0 := int(math.Round(mid.Y - float64(n)/2))
	for i := range n {
		s.ink(int(math.Floor(mid.X+lean*(float64(i)-float64(n-1)/2))), y0+i, r, m, obstacleInk)
	}
}
