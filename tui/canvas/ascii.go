package canvas

import "math"

// ascii is the Plane that draws straight into the cells with signs every terminal has.
type ascii struct{ v View }

func (a ascii) Flush() {}

func (a ascii) Dot(p Pt, role Role) { a.mark(p, '.', '\'', role) }

// mark puts one of two signs into the cell of p, by the half in which it lies.
func (a ascii) mark(p Pt, lower, upper rune, role Role) {
	if !a.inside(p) {
		return
	}
	r := lower
	if p.Y-math.Floor(p.Y) < .5 {
		r = upper
	}
	a.v.Set(int(math.Floor(p.X)), int(math.Floor(p.Y)), r, role)
}

// inside keeps far and broken places from becoming wild integers.
func (a ascii) inside(p Pt) bool {
	return p.X >= 0 && p.Y >= 0 && p.X < float64(a.v.w) && p.Y < float64(a.v.h)
}

func (a ascii) Line(p, q Pt, stroke Stroke, role Role) {
	a.Path([]Pt{p, q}, stroke, role)
}

func (a ascii) Path(points []Pt, stroke Stroke, role Role) {
	done := 0.0
	for i := 1; i < len(points); i++ {
		p, q := points[i-1], points[i]
		if !sane(p, q) {
			continue
		}
		if stroke == Dotted {
			dots(a, a.v, p, q, done, asciiStep, role)
			done += length(p, q)
		} else {
			a.solid(p, q, role)
		}
	}
}

// asciiStep is the distance of the dots of a dotted line in columns: every other one, every row.
const asciiStep = 2.0

func (a ascii) solid(p, q Pt, role Role) {
	if p == q {
		a.Dot(p, role)
		return
	}
	trace(p, q, a.v.w, a.v.h, func(x, y int, r rune) { a.v.Set(x, y, r, role) })
}

// trace calls set with each sign of a straight stroke in ASCII, and its cell, as far as it lies
// in w by h cells: "-" and "_" where it is flat, "|" where it is steep, "/", "\" and "_/" between.
func trace(p, q Pt, w, h int, set func(x, y int, sign rune)) {
	if !sane(p, q) || p == q {
		return
	}
	p, q = ordered(p, q)
	t0, t1, ok := clip(p, q, float64(w), float64(h))
	if !ok {
		return
	}
	from, to := along(p, q, t0), along(p, q, t1)
	dx, dy := q.X-p.X, q.Y-p.Y
	if math.Abs(dy) > math.Abs(dx) {
		traceSteep(from, to, dx/dy, set)
		return
	}
	traceFlat(from, to, dy/dx, set)
}

// traceFlat gives one sign per column; lean is rows per column, -1 to 1.
func traceFlat(p, q Pt, lean float64, set func(x, y int, sign rune)) {
	slash := '\\'
	if lean < 0 {
		slash = '/'
	}
	for i, end := span(p.X, q.X); i <= end; i++ {
		x := min(max(float64(i)+.5, p.X), q.X)
		y := p.Y + (x-p.X)*lean
		switch s := math.Abs(lean); {
		case s <= .3:
			traceLevel(i, y, set)
		case s <= .7 && y-math.Floor(y) >= .5:
			set(i, int(math.Floor(y)), '_') // "_/" climbs half a row per column
		default:
			set(i, int(math.Floor(y)), slash)
		}
	}
}

// traceLevel gives '-' at the middle of a row or '_' at its foot, whichever is nearer to y.
func traceLevel(i int, y float64, set func(x, y int, sign rune)) {
	half := int(math.Round(2 * y)) // half rows: 1 is the middle of row 0, 2 its foot
	if half <= 0 {
		half = 1
	}
	r := '-'
	if half%2 == 0 {
		r = '_'
	}
	set(i, (half-1)/2, r)
}

// traceSteep gives one sign per row; lean is columns per row, less than 1 either way.
func traceSteep(p, q Pt, lean float64, set func(x, y int, sign rune)) {
	if q.Y < p.Y {
		p, q = q, p
	}
	r := '|'
	switch {
	case lean > .45:
		r = '\\'
	case lean < -.45:
		r = '/'
	}
	for j, end := span(p.Y, q.Y); j <= end; j++ {
		y := min(max(float64(j)+.5, p.Y), q.Y)
		set(int(math.Floor(p.X+(y-p.Y)*lean)), j, r)
	}
}

// span is the first and last cell that the stretch from a to b enters.
func span(a, b float64) (first, last int) {
	first = int(math.Floor(a))
	return first, max(int(math.Ceil(b))-1, first)
}

func (a ascii) Disc(centre Pt, r float64, role Role) {
	hit := false
	disc(centre, r, 1, 1, a.v.w, a.v.h, func(i, j int) {
		hit = true
		a.v.Set(i, j, 'o', role)
	})
	if !hit && saneCircle(centre, r) {
		a.mark(centre, 'o', 'o', role)
	}
}

func (a ascii) Ring(centre Pt, r float64, stroke Stroke, role Role) {
	switch {
	case !saneCircle(centre, r):
	case r < 1:
		a.mark(centre, 'o', 'o', role)
	default:
		a.Path(ring(centre, r), stroke, role)
	}
}

func (a ascii) Shade(polygon []Pt, texture Texture, role Role) {
	r := [...]rune{'.', ':', '#'}[min(texture, Full)]
	scan(polygon, 1, 1, a.v.w, a.v.h, func(i, j int) {
		if a.v.bare(i, j) {
			a.v.Set(i, j, r, role)
		}
	})
}

// bare reports whether a cell is inside and blank.
func (v View) bare(i, j int) bool {
	x, y := v.x+i, v.y+j
	if x < v.x0 || x >= v.x1 || y < v.y0 || y >= v.y1 {
		return false
	}
	e := v.c.cells[y*v.c.w+x]
	return e.r == ' ' && e.kind == single
}
