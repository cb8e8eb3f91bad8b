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
			b.line(p, q, done, 1.5, role)
		} else {
			b.line(p, q, 0, 0, role)
		}
		done += length(p, q)
	}
}

// line sets dots from p to q: all, or one every step columns of way where step is not 0; done
// is the way before p.
func (b *braille) line(p, q Pt, done, step float64, role Role) {
	t0, t1, ok := clip(p, q, float64(b.v.w), float64(b.v.h))
	l := length(p, q)
	if !ok {
		return
	}
	if step > 0 {
		for k := math.Ceil((done + t0*l) / step); l > 0 && k*step < done+t1*l; k++ {
			b.Dot(along(p, q, (k*step-done)/l), role)
		}
		return
	}
	from, to := along(p, q, t0), along(p, q, t1)
	if to.X < from.X || to.X == from.X && to.Y < from.Y {
		from, to = to, from // the same dots either way
	}
	n := math.Ceil(max(2*math.Abs(to.X-from.X), 4*math.Abs(to.Y-from.Y)))
	for k := 0.0; k <= n; k++ {
		b.Dot(along(from, to, k/max(n, 1)), role)
	}
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
