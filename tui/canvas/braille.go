package canvas

import "math"

// braille is the Plane of 2 by 4 dots per cell. A cell has one role only: the last line's.
type braille struct {
	v     View
	lines []patch
	shade []patch
}

// patch is the dots of one cell, as braille counts them (Unicode block 2800).
type patch struct {
	bits uint8
	role Role
}

// dotBit[y][x] is the bit of a dot in its cell.
var dotBit = [4][2]uint8{{0x01, 0x08}, {0x02, 0x10}, {0x04, 0x20}, {0x40, 0x80}}

func (b *braille) reset(v View) {
	b.v = v
	n := v.w * v.h
	if cap(b.lines) < n {
		b.lines, b.shade = make([]patch, n), make([]patch, n)
	}
	b.lines, b.shade = b.lines[:n], b.shade[:n]
	clear(b.lines)
	clear(b.shade)
}

// Flush draws lines over what is there and shade where nothing is.
func (b *braille) Flush() {
	for k := range b.lines {
		i, j := k%b.v.w, k/b.v.w
		if l := b.lines[k]; l.bits != 0 {
			b.v.put(i, j, 1, 0x2800+rune(l.bits), l.role)
		} else if s := b.shade[k]; s.bits != 0 && b.v.bare(i, j) {
			b.v.put(i, j, 1, 0x2800+rune(s.bits), s.role)
		}
	}
	clear(b.lines)
	clear(b.shade)
}

// set sets the dot in column i and row j of dots.
func (b *braille) set(on []patch, i, j int, role Role) {
	if i < 0 || j < 0 || i >= 2*b.v.w || j >= 4*b.v.h {
		return
	}
	p := &on[j/4*b.v.w+i/2]
	p.bits |= dotBit[j%4][i%2]
	p.role = role
}

func (b *braille) Dot(p Pt, role Role) {
	if p.X >= 0 && p.Y >= 0 && p.X < float64(b.v.w) && p.Y < float64(b.v.h) {
		b.set(b.lines, int(2*p.X), int(4*p.Y), role)
	}
}

func (b *braille) Line(p, q Pt, stroke Stroke, role Role) {
	b.Path([]Pt{p, q}, stroke, role)
}

func (b *braille) Path(points []Pt, stroke Stroke, role Role) {
	done := 0.0
	for i := 1; i < len(points); i++ {
		p, q := points[i-1], points[i]
		if !sane(p, q) {
			continue
		}
		if stroke == Dotted {
			dots(b, b.v, p, q, done, brailleStep, role)
		} else {
			b.solid(p, q, role)
		}
		done += length(p, q)
	}
}

// brailleStep is the distance of the dots of a dotted line in columns: every third dot.
const brailleStep = 1.5

func (b *braille) solid(p, q Pt, role Role) {
	p, q = ordered(p, q)
	t0, t1, ok := clip(p, q, float64(b.v.w), float64(b.v.h))
	if !ok {
		return
	}
	from, to := along(p, q, t0), along(p, q, t1)
	// From here in dots: one for each column, or row where the line is steeper, at its middle.
	from, to = Pt{2 * from.X, 4 * from.Y}, Pt{2 * to.X, 4 * to.Y}
	dx, dy := to.X-from.X, to.Y-from.Y
	if math.Abs(dx) >= math.Abs(dy) {
		for i, end := span(from.X, to.X); i <= end; i++ {
			x := min(max(float64(i)+.5, from.X), to.X)
			b.set(b.lines, i, int(math.Floor(from.Y+(x-from.X)*slope(dy, dx))), role)
		}
		return
	}
	for j, end := span(min(from.Y, to.Y), max(from.Y, to.Y)); j <= end; j++ {
		y := min(max(float64(j)+.5, min(from.Y, to.Y)), max(from.Y, to.Y))
		b.set(b.lines, int(math.Floor(from.X+(y-from.Y)*slope(dx, dy))), j, role)
	}
}

// slope is rise over run, 0 where there is no run.
func slope(rise, run float64) float64 {
	if run == 0 {
		return 0
	}
	return rise / run
}

func (b *braille) Disc(centre Pt, r float64, role Role) {
	if saneCircle(centre, r) {
		b.Dot(centre, role)
	}
	disc(centre, r, 2, 4, 2*b.v.w, 4*b.v.h, func(i, j int) { b.set(b.lines, i, j, role) })
}

func (b *braille) Ring(centre Pt, r float64, stroke Stroke, role Role) {
	if saneCircle(centre, r) {
		b.Path(ring(centre, r), stroke, role)
	}
}

func (b *braille) Shade(polygon []Pt, texture Texture, role Role) {
	scan(polygon, 2, 4, 2*b.v.w, 4*b.v.h, func(i, j int) {
		switch texture {
		case Sparse: // one dot of eight, in quincunx over two cells
			if j%4 != 1+i/2%2*2 || i%2 != 0 {
				return
			}
		case Dense: // a chequer of two dots in eight
			if j%2 != 0 || (i+j/2)%2 != 0 {
				return
			}
		}
		b.set(b.shade, i, j, role)
	})
}
