package ring

import (
	"math"
	"sync"

	"cuewalk/tui/canvas"
)

// rank is the hierarchy of ink: where two things want a cell, the higher has it.
type rank uint8

const (
	blank rank = iota
	shade
	sight
	edge
	ground // what reading a course shows on the ground
	before
	handlerWay
	wrongWay
	dogLine
	dogArrow
	leader // joins a label and what it names
	obstacleInk
	obstacleKey // the cells that tell an obstacle from others: wings, mouths
	figure      // single signs: dog, handler, his stand
	label
	ruler
)

// ink is what stands in one cell. A sign of 0 is drawn finer by the plane below.
type ink struct {
	sign  rune
	owner int16 // obstacle it belongs to, counted from 1; 0 for none
	role  canvas.Role
	mark  mark
	rank  rank
}

// sheet is the cells of a frame while it is drawn.
type sheet struct {
	w, h  int
	cells []ink
}

// kept are the cells of sheets that are done with.
var kept = sync.Pool{New: func() any { return new([]ink) }}

func newSheet(w, h int) sheet {
	cells := *kept.Get().(*[]ink)
	if cap(cells) < w*h {
		cells = make([]ink, w*h)
	}
	cells = cells[:w*h]
	clear(cells)
	return sheet{w, h, cells}
}

// done gives the cells back; the sheet must not be used any more.
func (s *sheet) done() {
	kept.Put(&s.cells)
}

// put draws a sign if nothing higher stands in its cell, and reports whether it did.
func (s *sheet) put(x, y int, i ink) bool {
	if x < 0 || y < 0 || x >= s.w || y >= s.h {
		return false
	}
	c := &s.cells[y*s.w+x]
	if c.rank > i.rank {
		return false
	}
	*c = i
	return true
}

// cell is what stands in a cell; a blank outside.
func (s *sheet) cell(x, y int) ink {
	if x < 0 || y < 0 || x >= s.w || y >= s.h {
		return ink{}
	}
	return s.cells[y*s.w+x]
}

// onto brings the signs onto a view and says which they are.
func (s *sheet) onto(v canvas.View) Used {
	var u Used
	for i := range s.cells {
		c := &s.cells[i]
		if c.rank == blank {
			continue
		}
		u = u.with(c.mark)
		if c.sign != 0 {
			v.Set(i%s.w, i/s.w, c.sign, c.role)
		}
	}
	return u &^ 1
}

// cells calls do for each cell of the line from a to b: one for each column of a flat line,
// one for each row of a steep one.
func cells(a, b canvas.Pt, do func(x, y int)) {
	lowCells(a, b, func(x, y int, _ bool) { do(x, y) })
}

// lowCells is cells that also tells where a flat line runs through the lower half of one.
func lowCells(a, b canvas.Pt, do func(x, y int, low bool)) {
	dx, dy := b.X-a.X, b.Y-a.Y
	if math.IsNaN(dx+dy) || math.Abs(a.X)+math.Abs(a.Y)+math.Abs(b.X)+math.Abs(b.Y) > 1e5 {
		return
	}
	if math.Abs(dx) >= math.Abs(dy) {
		if dx < 0 {
			a, b = b, a
		}
		first, last := int(math.Floor(a.X)), max(int(math.Ceil(b.X))-1, int(math.Floor(a.X)))
		for i := first; i <= last; i++ {
			y := a.Y
			if dx != 0 {
				y += (min(max(float64(i)+.5, a.X), b.X) - a.X) * dy / dx
			}
			do(i, int(math.Floor(y)), y-math.Floor(y) >= .5)
		}
		return
	}
	if dy < 0 {
		a, b = b, a
	}
	first, last := int(math.Floor(a.Y)), max(int(math.Ceil(b.Y))-1, int(math.Floor(a.Y)))
	for j := first; j <= last; j++ {
		y := min(max(float64(j)+.5, a.Y), b.Y)
		do(int(math.Floor(a.X+(y-a.Y)*dx/dy)), j, false)
	}
}

func cellOf(p canvas.Pt) (x, y int) { return int(math.Floor(p.X)), int(math.Floor(p.Y)) }

// slant is how a line lies on the screen.
type slant uint8

const (
	level slant = iota
	steep
	rising  // '/'
	falling // '\'
)

// strokeSigns are the signs of a line by its slant.
var strokeSigns = [4]rune{'-', '|', '/', '\\'}

// slantOf judges the direction dx, dy in cells as the eye sees it, by eighths of a turn.
func slantOf(dx, dy float64) slant {
	dy *= canvas.Aspect
	switch {
	case math.Abs(dy) <= 0.42*math.Abs(dx):
		return level
	case math.Abs(dx) <= 0.42*math.Abs(dy):
		return steep
	case (dx > 0) == (dy > 0):
		return falling
	}
	return rising
}

// arrow is the sign that points along dx, dy in cells.
func arrow(dx, dy float64) rune {
	dy *= canvas.Aspect
	switch {
	case math.Abs(dx) >= math.Abs(dy) && dx >= 0:
		return '>'
	case math.Abs(dx) >= math.Abs(dy):
		return '<'
	case dy > 0:
		return 'v'
	}
	return '^'
}

// span is how long the way from a to b is in columns, as the eye measures it.
func span(a, b canvas.Pt) float64 { return math.Hypot(b.X-a.X, canvas.Aspect*(b.Y-a.Y)) }

func lerp(a, b canvas.Pt, t float64) canvas.Pt {
	return canvas.Pt{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)}
}
