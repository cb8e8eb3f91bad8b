package eye

import (
	"math"

	"cuewalk/course/geom"
	"cuewalk/tui/canvas"
)

// corner is a place and its height above the ground, metres.
type corner struct {
	at geom.Point
	z  float64
}

// shape is how a part is drawn.
type shape uint8

const (
	panel  shape = iota // four corners, filled: nothing shows through
	rail                // a line from corner 0 to corner 1
	pole                // an upright from corner 0 to corner 1
	mouth               // a filled round between corners 0 and 1 at the ground, corner 2 its top
	hoop                // the same as an outline
	figure              // a person at corner 0
)

// part is one piece of the picture; the farther ones are drawn first.
type part struct {
	shape    shape
	corner   [4]corner
	texture  texture
	role     canvas.Role
	far      float64 // metres from the eye
	obstacle int     // -1 for the handler
}

// texture is what a part is filled with.
type texture uint8

const (
	wing texture = iota
	brick
	dark // the hole of a tunnel
	pipe
	ramp
	edge
	weaves // a weave pole
	veiled // what the dog cannot see
	textures
)

var (
	asciiFill = [textures]rune{wing: '#', brick: '#', dark: '@', pipe: ')', ramp: '=', edge: '#', weaves: ':', veiled: ';'}
	fineFill  = [textures]rune{wing: '▒', brick: '▓', dark: '█', pipe: '░', ramp: '▒', edge: '█', weaves: '┃', veiled: '░'}
)

// brush paints parts onto the picture.
type brush struct {
	v      canvas.View
	lens   lens
	fine   bool
	top    int // first row of the picture, for labels
	floor  int // row below the picture
	extent []extent
	owner  []int16 // whose sign stands in each cell: obstacle+2, 1 the handler's, 0 nobody's
	person person
	texts  []text
}

// extent is what can be seen of an obstacle in the picture.
type extent struct {
	left, right int // columns, both included
	top         int // highest row
	drawn       bool
	named       bool
}

// measure works out from the finished picture what can be seen of each obstacle.
func (b *brush) measure() {
	w := int(b.lens.w)
	for at, o := range b.owner {
		if o < 2 {
			continue
		}
		x, y, e := at%w, at/w, &b.extent[o-2]
		if !e.drawn {
			*e = extent{left: x, right: x, top: y, drawn: true}
		}
		e.left, e.right = min(e.left, x), max(e.right, x)
	}
}

// set puts a sign of a part into the picture.
func (b *brush) set(p *part, x, y int, r rune) {
	if y < b.top || y >= b.floor || x < 0 || x >= int(b.lens.w) {
		return
	}
	b.v.Set(x, y, r, p.role)
	b.owner[y*int(b.lens.w)+x] = int16(p.obstacle + 2)
}

func (b *brush) pick(ascii, fine rune) rune {
	if b.fine {
		return fine
	}
	return ascii
}

func (b *brush) fill(t texture) rune { return b.pick(asciiFill[t], fineFill[t]) }

// paint draws one part. One with all its corners out of view is left out.
func (b *brush) paint(p *part) {
	switch p.shape {
	case panel:
		b.panel(p)
	case rail:
		b.rail(p)
	case pole:
		b.pole(p)
	case mouth, hoop:
		b.round(p)
	case figure:
		b.figure(p)
	}
}

// span is the columns that the stretch from x0 to x1 takes, at least one.
func span(x0, x1 float64) (first, last int) {
	first, last = int(math.Round(x0)), int(math.Round(x1))-1
	if last < first {
		first = int(math.Floor((x0 + x1) / 2))
		last = first
	}
	return first, last
}

// panel fills the four corners column by column.
func (b *brush) panel(p *part) {
	var pt [4]canvas.Pt
	any := false
	for i, c := range p.corner {
		at, ok := b.lens.see(c.at, c.z)
		pt[i], any = at, any || ok
	}
	lo, hi := min(pt[0].X, pt[1].X, pt[2].X, pt[3].X), max(pt[0].X, pt[1].X, pt[2].X, pt[3].X)
	if !any || hi-lo > b.lens.w*.7 {
		return
	}
	sign := b.fill(p.texture)
	first, last := span(lo, hi)
	for x := first; x <= last; x++ {
		y0, y1 := crossing(&pt, min(max(float64(x)+.5, lo+1e-9), hi-1e-9))
		r0, r1 := rows(y0, y1)
		for y := r0; y <= r1; y++ {
			b.set(p, x, y, b.weave(p.texture, sign, grain{x - first, last - x, y - r0, r1 - y}))
		}
	}
}

// grain is where in a panel a cell lies: cells from its left, right, top and foot.
type grain struct{ left, right, top, foot int }

// weave loosens the fill of what would weigh too much: a pipe in ASCII to its ribs, so that
// the mouth stands out, a broad wing to its frame and a lattice.
func (b *brush) weave(t texture, sign rune, g grain) rune {
	switch broad := g.left+g.right >= 5 && min(g.left, g.right, g.top) > 0; {
	case t == wing && broad && b.fine:
		return '░'
	case t == wing && broad:
		return ' '
	case t != pipe || b.fine || g.left%3 == 0:
		return sign
	case g.top == 0:
		return '-'
	}
	return ' '
}

// rows is the rows that the stretch from y0 down to y1 takes, at least one.
func rows(y0, y1 float64) (first, last int) {
	first, last = int(math.Round(y0)), int(math.Round(y1))-1
	if last < first {
		first = int(math.Floor((y0 + y1) / 2))
		last = first
	}
	return first, last
}

// crossing is the highest and lowest place of an outline at column x.
func crossing(pt *[4]canvas.Pt, x float64) (top, foot float64) {
	top, foot = math.Inf(1), math.Inf(-1)
	for i, a := range pt {
		c := pt[(i+1)%4]
		if (a.X <= x) == (c.X <= x) {
			continue
		}
		y := a.Y + (x-a.X)*(c.Y-a.Y)/(c.X-a.X)
		top, foot = min(top, y), max(foot, y)
	}
	if top > foot { // an outline without breadth
		top, foot = min(pt[0].Y, pt[1].Y, pt[2].Y, pt[3].Y), max(pt[0].Y, pt[1].Y, pt[2].Y, pt[3].Y)
	}
	return top, foot
}

// rail draws a line, one sign for each column, higher or lower in its row.
func (b *brush) rail(p *part) {
	a, aok := b.lens.see(p.corner[0].at, p.corner[0].z)
	c, cok := b.lens.see(p.corner[1].at, p.corner[1].z)
	if !aok && !cok {
		return
	}
	if a.X > c.X {
		a, c = c, a
	}
	if c.X-a.X > b.lens.w*.7 {
		return
	}
	if c.X-a.X < math.Abs(c.Y-a.Y) {
		b.steep(p, a, c)
		return
	}
	first, last := span(a.X, c.X)
	for x := first; x <= last; x++ {
		y := a.Y
		if c.X > a.X {
			y += (min(max(float64(x)+.5, a.X), c.X) - a.X) * (c.Y - a.Y) / (c.X - a.X)
		}
		row := int(math.Floor(y))
		b.set(p, x, row, b.lying(p.texture, y-math.Floor(y), (c.Y-a.Y)/(c.X-a.X)))
	}
}

// lying is the sign of a level line at a share of a row from its top.
func (b *brush) lying(t texture, at, lean float64) rune {
	switch {
	case t == veiled:
		return b.pick(';', '┄')
	case lean > .25:
		return b.pick('\\', '╲')
	case lean < -.25:
		return b.pick('/', '╱')
	case b.fine && t == ramp:
		return '═'
	case b.fine:
		return '━'
	case t == ramp:
		return '='
	case at > .75:
		return '_'
	}
	return '-'
}

// steep draws a line that climbs, one sign for each row.
func (b *brush) steep(p *part, a, c canvas.Pt) {
	if a.Y > c.Y {
		a, c = c, a
	}
	sign := b.pick('|', '┃')
	if lean := (c.X - a.X) / (c.Y - a.Y); lean > .5 {
		sign = b.pick('\\', '╲')
	} else if lean < -.5 {
		sign = b.pick('/', '╱')
	}
	r0, r1 := rows(a.Y, c.Y)
	for y := r0; y <= r1; y++ {
		t := (min(max(float64(y)+.5, a.Y), c.Y) - a.Y) / (c.Y - a.Y)
		b.set(p, int(math.Floor(a.X+t*(c.X-a.X))), y, sign)
	}
}

// pole draws an upright, one column wide.
func (b *brush) pole(p *part) {
	foot, ok := b.lens.see(p.corner[0].at, p.corner[0].z)
	head, _ := b.lens.see(p.corner[1].at, p.corner[1].z)
	if !ok {
		return
	}
	sign := b.pick('|', '│')
	switch {
	case p.texture == veiled:
		sign = b.pick(';', '┊')
	case p.texture == weaves:
		sign = b.fill(weaves)
	case p.far < 6:
		sign = b.pick('|', '┃')
	}
	r0, r1 := rows(head.Y, foot.Y)
	for y := r0; y <= r1; y++ {
		b.set(p, int(math.Floor(foot.X)), y, sign)
	}
}

// round draws the mouth of a tunnel or a tyre.
func (b *brush) round(p *part) {
	a, aok := b.lens.see(p.corner[0].at, p.corner[0].z)
	c, cok := b.lens.see(p.corner[1].at, p.corner[1].z)
	head, _ := b.lens.see(p.corner[2].at, p.corner[2].z)
	if !aok && !cok {
		return
	}
	if a.X > c.X {
		a, c = c, a
	}
	foot := (a.Y + c.Y) / 2
	first, last := span(a.X, c.X)
	r0, r1 := rows(head.Y, foot)
	n, m := last-first+1, r1-r0+1
	for y := r0; y <= r1; y++ {
		// Across the middle of this row the round is this wide.
		t := (float64(y-r0)+.5)/float64(m)*2 - 1
		if p.shape == mouth {
			t = min((float64(y-r0)+.5)/float64(m)-1, 0) // an arch: round above, straight below
		}
		in := int(math.Round(float64(n) / 2 * (1 - math.Sqrt(max(0, 1-t*t)))))
		if m < 3 {
			in = 0 // the corner signs are round enough
		}
		b.chord(p, first+in, last-in, y, y == r0, y == r1)
	}
}

// roundSign is the sign of a mouth or a tyre.
func (b *brush) roundSign(p *part) rune {
	if p.texture == veiled {
		return b.fill(veiled)
	}
	return b.fill(dark)
}

// chord draws one row of a round from column x0 to x1.
func (b *brush) chord(p *part, x0, x1, y int, top, foot bool) {
	if !b.fine {
		for x := x0; x <= x1; x++ {
			if p.shape == mouth || top || foot || x == x0 || x == x1 {
				b.set(p, x, y, b.roundSign(p))
			}
		}
		return
	}
	inside := b.fill(p.texture)
	switch {
	case p.shape == hoop && (top || foot), p.shape == mouth && top && x1-x0 > 1:
		inside = '━'
	case p.shape == hoop, x1-x0 > 1 && p.texture != veiled:
		inside = ' '
	}
	for x := x0; x <= x1; x++ {
		switch {
		case x1-x0 < 2 && p.shape == hoop:
			b.set(p, x, y, 'O')
		case x1-x0 < 2:
			b.set(p, x, y, inside)
		case x == x0:
			b.set(p, x, y, side(top, foot && p.shape == hoop, '┃', '╭', '╰'))
		case x == x1:
			b.set(p, x, y, side(top, foot && p.shape == hoop, '┃', '╮', '╯'))
		default:
			b.set(p, x, y, inside)
		}
	}
}

func side(top, foot bool, mid, over, under rune) rune {
	switch {
	case top == foot:
		return mid
	case top:
		return over
	}
	return under
}
