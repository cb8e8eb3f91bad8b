package canvas

import (
	"math"
	"slices"
)

// Pt is a place in cells from the upper left corner of a view: cell (i, j) covers i to i+1
// and j to j+1.
type Pt struct{ X, Y float64 }

// Stroke is how a line is drawn.
type Stroke uint8

const (
	Solid  Stroke = iota
	Dotted        // half as dense or less
)

// Texture is how dense an area is filled.
type Texture uint8

const (
	Sparse Texture = iota // '.'
	Dense                 // ':'
	Full                  // '#'
)

// Plane takes geometry in cells with fractions and draws it as finely as it can: with
// ASCII signs, or with braille dots of half a column by a quarter row. Later lines win over
// earlier ones where they share a cell; shade lies beneath all lines and signs. What
// lies outside shows nothing, nor does a piece with an end that is not a number or farther
// away than a million cells. Lengths that go both ways are in columns.
type Plane interface {
	// Dot marks one place.
	Dot(p Pt, role Role)
	// Line joins two places.
	Line(a, b Pt, stroke Stroke, role Role)
	// Path joins places one after the other; dots go on evenly over the corners.
	Path(points []Pt, stroke Stroke, role Role)
	// Disc fills a circle of radius r columns; a small one still shows.
	Disc(centre Pt, r float64, role Role)
	// Ring draws the outline of a circle of radius r columns.
	Ring(centre Pt, r float64, stroke Stroke, role Role)
	// Shade fills a polygon (ends joined, even-odd) beneath lines and signs.
	Shade(polygon []Pt, texture Texture, role Role)
	// Flush brings what is drawn so far onto the view. Text drawn before it may be
	// covered by lines; draw labels after it. Not needed twice; never harmful.
	Flush()
}

// Plane returns a plane over the view, braille on a fine canvas and ASCII otherwise. It
// lives until the canvas is cleared or resized.
func (v View) Plane() Plane {
	if !v.c.Fine {
		return ascii{v}
	}
	c := v.c
	if c.used == len(c.planes) {
		c.planes = append(c.planes, &braille{})
	}
	b := c.planes[c.used]
	c.used++
	b.reset(v)
	return b
}

// farthest is how many cells away something may lie before it counts as broken. It keeps
// sums exact enough and loops short.
const farthest = 1e6

func sane(pts ...Pt) bool {
	for _, p := range pts {
		if !(math.Abs(p.X) <= farthest && math.Abs(p.Y) <= farthest) {
			return false
		}
	}
	return true
}

func saneCircle(centre Pt, r float64) bool { return sane(centre) && r > 0 && r <= farthest }

// length is the distance of two places in columns, as the eye measures it.
func length(a, b Pt) float64 { return math.Hypot(b.X-a.X, Aspect*(b.Y-a.Y)) }

// clip cuts the line a-b to 0 <= x <= w and 0 <= y <= h (Liang and Barsky 1984) and gives the
// share of it where it begins and ends; ok is false if nothing is left.
func clip(a, b Pt, w, h float64) (t0, t1 float64, ok bool) {
	t0, t1 = 0, 1
	dx, dy := b.X-a.X, b.Y-a.Y
	for _, e := range [4][2]float64{{-dx, a.X}, {dx, w - a.X}, {-dy, a.Y}, {dy, h - a.Y}} {
		p, q := e[0], e[1]
		switch {
		case p == 0 && q < 0:
			return 0, 0, false
		case p < 0:
			t0 = max(t0, q/p)
		case p > 0:
			t1 = min(t1, q/p)
		}
	}
	return t0, t1, t0 <= t1
}

// ordered puts the left end first, so that a line is the same from either end.
func ordered(a, b Pt) (Pt, Pt) {
	if b.X < a.X || b.X == a.X && b.Y < a.Y {
		return b, a
	}
	return a, b
}

func along(a, b Pt, t float64) Pt { return Pt{a.X + t*(b.X-a.X), a.Y + t*(b.Y-a.Y)} }

// dots puts a dot of the plane every step columns of way from a to b; done is the way before a.
func dots(on Plane, v View, a, b Pt, done, step float64, role Role) {
	t0, t1, ok := clip(a, b, float64(v.w), float64(v.h))
	l := length(a, b)
	if !ok || l == 0 {
		return
	}
	for k := math.Ceil((done + t0*l) / step); k*step < done+t1*l; k++ {
		on.Dot(along(a, b, (k*step-done)/l), role)
	}
}

// ring is a circle as a closed row of points close enough to look round.
func ring(centre Pt, r float64) []Pt {
	n := min(max(int(4*r)+8, 8), 256)
	pts := make([]Pt, n+1)
	for i := range pts {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		pts[i] = Pt{centre.X + r*c, centre.Y + r*s/Aspect}
	}
	return pts
}

// scan calls do for each square of a grid of nx by ny squares, each 1/sx by 1/sy cells, whose
// centre lies in the polygon.
func scan(poly []Pt, sx, sy, nx, ny int, do func(i, j int)) {
	if len(poly) < 3 || !sane(poly...) {
		return
	}
	top, foot := math.Inf(1), math.Inf(-1)
	for _, p := range poly {
		top, foot = min(top, p.Y), max(foot, p.Y)
	}
	var cross []float64
	for j := max(0, int(math.Floor(top*float64(sy)))); j < min(ny, int(math.Ceil(foot*float64(sy)))+1); j++ {
		y := (float64(j) + .5) / float64(sy)
		cross = cross[:0]
		for k, a := range poly {
			b := poly[(k+1)%len(poly)]
			if (a.Y <= y) != (b.Y <= y) {
				cross = append(cross, a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X))
			}
		}
		slices.Sort(cross)
		for k := 0; k+1 < len(cross); k += 2 {
			from := squares(cross[k], sx, nx)
			to := squares(cross[k+1], sx, nx)
			for i := from; i < to; i++ {
				do(i, j)
			}
		}
	}
}

// squares is how many of n squares have their centre left of x.
func squares(x float64, per, n int) int {
	return int(math.Ceil(min(max(x*float64(per)-.5, 0), float64(n))))
}

// disc calls do for each square whose centre is within r columns of the centre.
func disc(centre Pt, r float64, sx, sy, nx, ny int, do func(i, j int)) {
	if !saneCircle(centre, r) {
		return
	}
	for j := squares(centre.Y-r/Aspect, sy, ny); j < squares(centre.Y+r/Aspect, sy, ny); j++ {
		dy := Aspect * ((float64(j)+.5)/float64(sy) - centre.Y)
		half := math.Sqrt(max(r*r-dy*dy, 0))
		for i := squares(centre.X-half, sx, nx); i < squares(centre.X+half, sx, nx); i++ {
			do(i, j)
		}
	}
}

// Inside calls do for each of w by h cells whose middle lies in a polygon (even-odd).
func Inside(polygon []Pt, w, h int, do func(x, y int)) { scan(polygon, 1, 1, w, h, do) }
