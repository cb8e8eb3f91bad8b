package eye

import (
	"math"

	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/sim"
	"cuewalk/tui/canvas"
)

// figureHeight is the handler's height, metres.
const figureHeight = 1.7

// handler is the part for the handler's figure.
func (s *Strip) handler() part {
	return part{
		shape: figure, corner: [4]corner{{s.Hand.At, 0}}, role: canvas.Handler | canvas.Strong,
		far: s.Hand.At.Dist(s.Dog.At), obstacle: -1,
	}
}

// person is what of the handler the figure needs beside his place.
type person struct {
	body float64 // radius, metres
	arm  float64 // -1 the arm shows to the left of the strip, 1 to the right, 0 none
	out  bool    // it is held out
}

func (s *Strip) person() person {
	p := person{body: s.Body, out: s.Hand.Signal != plan.Pull}
	if p.body <= 0 {
		p.body = 0.2
	}
	p.arm = armSide(s.Hand, s.Dog.At)
	return p
}

// armSide is the side of his figure on which the dog sees the arm: 1 right, -1 left.
func armSide(h sim.Hand, eye geom.Point) float64 {
	facing := h.Chest.Off(h.At.Towards(eye))
	if facing.Abs() < geom.Deg(90) {
		return -h.Arm.Sign() // he faces the dog: his right is on its left
	}
	return h.Arm.Sign()
}

// figure draws a person: head, body as broad as it covers, legs, the arm that shows.
func (b *brush) figure(p *part) {
	d := max(p.far, nearest)
	mid, ok := b.lens.see(p.corner[0].at, 0)
	if !ok {
		return
	}
	bearing := b.lens.eye.At.Towards(p.corner[0].at).Off(b.lens.eye.Heading)
	half := geom.Angle(math.Asin(min(b.person.body/d, 1)))
	x0, x1 := span(b.lens.column((bearing - half).Clamp(b.lens.half)), b.lens.column((bearing + half).Clamp(b.lens.half)))
	head, _ := b.lens.see(p.corner[0].at, figureHeight)
	r0, r1 := rows(head.Y, mid.Y)
	r0, r1 = max(r0, b.top), min(r1, b.floor-1)
	n := r1 - r0 + 1
	if n < 1 {
		return
	}
	neck := r0 + max(1, n/5)
	legs := r1 + 1 - n/3
	for y := r0; y <= r1; y++ {
		switch {
		case y < neck:
			b.head(p, x0, x1, y)
		case y < legs || n < 4:
			b.row(p, x0, x1, y, b.pick('H', '█'))
		default:
			b.legs(p, x0, x1, y)
		}
	}
	b.arm(p, x0, x1, min(neck, r1), n)
}

func (b *brush) row(p *part, x0, x1, y int, r rune) {
	for x := x0; x <= x1; x++ {
		b.set(p, x, y, r)
	}
}

// head is narrower than the body, in its middle.
func (b *brush) head(p *part, x0, x1, y int) {
	switch w := x1 - x0 + 1; {
	case w == 1:
		b.set(p, x0, y, b.pick('H', '▄'))
	case w == 2 && b.fine:
		b.set(p, x0, y, '▐')
		b.set(p, x1, y, '▌')
	case w == 2:
		b.row(p, x0, x1, y, 'H')
	default:
		in := max(1, w/3)
		b.row(p, x0+in, x1-in, y, b.pick('H', '█'))
	}
}

// legs leave a gap between them where there is room.
func (b *brush) legs(p *part, x0, x1, y int) {
	w := x1 - x0 + 1
	for x := x0; x <= x1; x++ {
		sign := b.pick('H', '█')
		if gap := max(1, w/5); w > 2 && 2*(x-x0) >= w-gap && 2*(x-x0) < w+gap {
			sign = ' '
		}
		b.set(p, x, y, sign)
	}
}

// arm is held out at the shoulder on the side that shows, or drawn in.
func (b *brush) arm(p *part, x0, x1, y, rows int) {
	length := max(1, (x1-x0+1)*2/3)
	if !b.person.out {
		length = max(1, length/2)
	}
	for i := 1; i <= length; i++ {
		switch {
		case b.person.arm < 0:
			b.set(p, x0-i, y, b.pick('a', '━'))
		case b.person.arm > 0:
			b.set(p, x1+i, y, b.pick('a', '━'))
		}
	}
}
