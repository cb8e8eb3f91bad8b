package ring

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/tui/canvas"
)

// marks are what each nib is in the table of signs.
var marks = [nibs]mark{bar: barMark, thin: barMark, wing: wingMark, plank: rampMark, ridge: rampMark, zone: zoneMark,
	post: wingMark, pivot: barMark, tower: wingMark, hoop: mouthMark, tube: pipeMark}

// engrave draws the obstacle through the plane, as fine as it can: the same geometry.
func (s *stamp) engrave(hidden bool) {
	how := canvas.Solid
	if hidden {
		how = canvas.Dotted
	}
	if s.o.Kind == course.Tunnel {
		s.pipe(how)
		return
	}
	var room [40]stroke
	for _, k := range strokes(s.o, room[:0]) {
		a, b := s.at(k.a), s.at(k.b)
		if k.nib == ridge {
			continue
		}
		m := marks[k.nib]
		if s.o.Kind == course.Weaves {
			m = poleMark
		}
		cells(a, b, func(x, y int) { s.ink(x, y, 0, m, obstacleInk) })
		s.nib(k, how)
	}
}

// nib draws one stroke as what it stands for.
func (s *stamp) nib(k stroke, how canvas.Stroke) {
	across := s.o.Facing
	a, b := s.at(k.a), s.at(k.b)
	switch k.nib {
	case wing, tower:
		s.slab(k, across, 0.16, how)
	case zone:
		s.slab(k, across+math.Pi/2, max(s.o.Width/2-0.1, 0.12), canvas.Dotted)
	case plank:
		s.slab(k, across+math.Pi/2, s.o.Width/2, how)
	case post:
		s.p.Disc(a, 0.07*s.Camera.Scale, s.role)
	case hoop:
		s.p.Ring(s.at(k.a.Lerp(k.b, .5)), s.o.Width/2*s.Camera.Scale, how, s.role)
	default:
		s.p.Line(a, b, how, s.role)
	}
}

// slab draws a stroke as an outline reaching half metres to both sides along a heading.
func (s *stamp) slab(k stroke, along geom.Angle, half float64, how canvas.Stroke) {
	u := along.Unit().Mul(half)
	path := [5]canvas.Pt{s.at(k.a.Sub(u)), s.at(k.a.Add(u)), s.at(k.b.Add(u)), s.at(k.b.Sub(u)), s.at(k.a.Sub(u))}
	s.p.Path(path[:], how, s.role)
}

// pipe draws both walls of a tunnel, shaded between, open at its mouths.
func (s *stamp) pipe(how canvas.Stroke) {
	left, right := s.sides()
	n := len(left)
	if how == canvas.Solid {
		area := append([]canvas.Pt(nil), left...)
		for i := range right {
			area = append(area, right[n-1-i])
		}
		s.p.Shade(area, canvas.Dense, s.role)
	}
	s.p.Path(left, how, s.role)
	s.p.Path(right, how, s.role)
	for i := 1; i < n; i++ {
		for _, side := range [2][]canvas.Pt{left, right} {
			cells(side[i-1], side[i], func(x, y int) { s.ink(x, y, 0, pipeMark, obstacleInk) })
		}
	}
	for _, end := range [2]int{0, n - 1} {
		s.p.Line(left[end], right[end], canvas.Dotted, s.role)
		cells(left[end], right[end], func(x, y int) { s.ink(x, y, 0, mouthMark, obstacleKey) })
	}
}
