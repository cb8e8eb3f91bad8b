package ring

import (
	"math"

	"cuewalk/tui/canvas"
)

// slant is how a line lies on the screen.
type slant uint8

const (
	level slant = iota
	steep
	rising  // '/'
	falling // '\'
)

// slantOf judges the direction dx, dy in cells as the eye sees it.
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

// inks are the ASCII signs of each nib by slant.
var inks = [nibs][4]rune{
	bar:   {'-', '|', '/', '\\'},
	thin:  {'-', '|', '/', '\\'},
	wing:  {'#', '#', '#', '#'},
	tube:  {'@', '@', '@', '@'},
	plank: {'=', 'H', '%', '%'},
	ridge: {'=', 'H', '%', '%'},
	zone:  {':', ':', ':', ':'},
	post:  {'o', 'o', 'o', 'o'},
	pivot: {'^', '-', '^', '^'},
	tower: {'H', 'H', 'H', 'H'},
	hoop:  {'O', 'O', 'O', 'O'},
}

// faint are the signs of a dummy: thin, so that it is not taken for one of the course.
var faint = [nibs]rune{wing: '=', tower: '=', tube: 'o', plank: 0, zone: '.', post: '.', hoop: 'o'}

// cells calls do for each cell of the line from a to b: one for each column of a flat line,
// one for each row of a steep one. low tells that the line runs through the foot of it.
func cells(a, b canvas.Pt, do func(x, y int, low bool)) {
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
			x := min(max(float64(i)+.5, a.X), b.X)
			y := a.Y
			if dx != 0 {
				y += (x - a.X) * dy / dx
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

// put sets a sign and keeps labels off it.
func (d *pen) put(x, y int, r rune, role canvas.Role) {
	d.v.Set(x, y, r, role)
	d.take(x, y)
}

func (d *pen) take(x, y int) {
	if x >= 0 && y >= 0 && x < d.Camera.W && y < d.Camera.H {
		d.taken[y*d.Camera.W+x] = true
	}
}

// free reports whether n cells from x, y on are inside and nothing stands there.
func (d *pen) free(x, y, n int) bool {
	if x < 0 || y < 0 || y >= d.Camera.H || x+n > d.Camera.W {
		return false
	}
	for _, t := range d.taken[y*d.Camera.W+x : y*d.Camera.W+x+n] {
		if t {
			return false
		}
	}
	return true
}

func cell(p canvas.Pt) (x, y int) { return int(math.Floor(p.X)), int(math.Floor(p.Y)) }
