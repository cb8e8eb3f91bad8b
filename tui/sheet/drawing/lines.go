package drawing

import (
	"fmt"
	"math"

	"cuewalk/course/geom"
)

// The inks beside black. Each sign also has a shape of its own; in grey they stay apart.
const (
	handlerInk = "#0b4f9e"
	wrongInk   = "#c23b00"
)

var (
	dogMark     = &nib{0.3, dogs}
	handlerMark = &nib{0.25, others}
	wrongMark   = &nib{0.5, others}
	bodyMark    = &nib{0.2, things}
)

// slack is how far in metres a drawn line may lie off the one it stands for.
const slack = 0.02

// points brings a way onto the picture, those left out that change nothing to see.
func (p *Picture) points(way []geom.Point) []point {
	out := make([]point, 0, len(way))
	for _, q := range thinned(way) {
		out = append(out, p.at(q))
	}
	return out
}

// thinned leaves out the points of a way that lie within slack of the rest (Douglas and
// Peucker 1973).
func thinned(way []geom.Point) []geom.Point {
	if len(way) < 3 {
		return way
	}
	far, at := 0.0, 0
	chord := geom.Segment{A: way[0], B: way[len(way)-1]}
	for i := 1; i < len(way)-1; i++ {
		if d := chord.Dist(way[i]); d > far {
			far, at = d, i
		}
	}
	if far <= slack {
		return []geom.Point{way[0], way[len(way)-1]}
	}
	head := thinned(way[:at+1])
	return append(append([]geom.Point(nil), head...), thinned(way[at:])[1:]...)
}

// dogLine draws the dog's line: thick on the ground, thin in the air and in obstacles, with
// a tick across it where the feet come down.
func (p *Picture) dogLine() {
	p.open(`fill="none" stroke="#000"`)
	for _, s := range p.scene.Dog {
		breadth := "0.2"
		if s.Ground {
			breadth = "0.5"
		}
		p.styled(dogMark, `stroke-width="`+breadth+`"`, false, p.points(s.Way)...)
	}
	p.shut()
	p.open(`fill="none" stroke="#000" stroke-width="0.25"`)
	for _, s := range p.scene.Strides {
		at, u := p.at(s.At), s.Heading.Right()
		const tick = 0.75
		p.path(nil, false, point{at.x - tick*u.X, at.y + tick*u.Y}, point{at.x + tick*u.X, at.y - tick*u.Y})
	}
	p.shut()
	p.disc(thing, `fill="#fff" stroke="#000" stroke-width="0.4"`, p.at(p.scene.Course.Start), 0.9)
}

// handlerWay draws his way, dashed.
func (p *Picture) handlerWay() {
	if len(p.scene.Handler) < 2 {
		return
	}
	p.styled(handlerMark, `fill="none" stroke="`+handlerInk+`" stroke-width="0.4" stroke-linecap="butt" stroke-dasharray="1.5 0.9"`,
		false, p.points(p.scene.Handler)...)
}

// stand draws the handler from above where he gives a cue: shoulders, nose, the arm shown.
func (p *Picture) stand(s Stand) {
	at := p.at(s.At)
	if s.Short {
		was := p.at(s.Where)
		p.styled(handlerMark, `fill="none" stroke="`+handlerInk+`" stroke-width="0.25" stroke-dasharray="0.2 0.7"`, false, at, was)
		const arm = 0.7
		p.styled(bodyMark, `stroke="`+handlerInk+`" stroke-width="0.35"`, false, point{was.x - arm, was.y - arm}, point{was.x + arm, was.y + arm})
		p.styled(bodyMark, `stroke="`+handlerInk+`" stroke-width="0.35"`, false, point{was.x - arm, was.y + arm}, point{was.x + arm, was.y - arm})
	}
	f, r := s.Chest.Unit(), s.Chest.Right()
	spot := func(ahead, right float64) point {
		return point{at.x + f.X*ahead + r.X*right, at.y - f.Y*ahead - r.Y*right}
	}
	p.open(`fill="` + handlerInk + `" stroke="` + handlerInk + `" stroke-width="0.2"`)
	fmt.Fprintf(&p.svg, `<ellipse cx="%s" cy="%s" rx="1.35" ry="0.7" transform="rotate(%s %s %s)"/>`+"\n",
		num(at.x), num(at.y), num(s.Chest.Compass().Degrees()), num(at.x), num(at.y))
	p.ink.spot(at, 1.3, things)
	p.path(bodyMark, true, spot(0.5, -0.6), spot(1.75, 0), spot(0.5, 0.6))
	if s.Arm != 0 {
		p.styled(bodyMark, `fill="none" stroke-width="0.5"`, false, spot(0, 1.2*s.Arm), spot(1.1, 2.6*s.Arm))
	}
	p.shut()
}

// wrongWay draws a way off the course as a row of dots that ends in an arrow.
func (p *Picture) wrongWay(w Wrong) {
	pts := p.points(w.Way)
	end := p.at(w.At)
	if n := len(pts); n >= 2 {
		p.styled(wrongMark, `fill="none" stroke="`+wrongInk+`" stroke-width="0.8" stroke-dasharray="0 1.5"`, false, pts...)
		a, b := pts[n-2], pts[n-1]
		if d := math.Hypot(b.x-a.x, b.y-a.y); d > 0 {
			ux, uy := (b.x-a.x)/d, (b.y-a.y)/d
			const long, broad = 2.0, 1.0
			tail := point{b.x - long*ux, b.y - long*uy}
			p.styled(wrongMark, `fill="`+wrongInk+`" stroke="none"`, true, b,
				point{tail.x - broad*uy, tail.y + broad*ux}, point{tail.x + broad*uy, tail.y - broad*ux})
		}
		end = b
	}
	p.ink.spot(end, 0.8, things)
}

// shadow hatches what a body hides from the dog's eye.
func (p *Picture) shadow(h Shadow) {
	away := h.Eye.Dist(h.Body)
	if away <= h.Radius || h.Reach <= away {
		return
	}
	to, half := h.Eye.Towards(h.Body), geom.Angle(math.Asin(h.Radius/away))
	ray := func(off geom.Angle, far float64) point { return p.at(h.Eye.Add((to + off).Unit().Mul(far))) }
	p.styled(nil, `fill="#ececec" stroke="#555" stroke-width="0.15" stroke-dasharray="0.6 0.6"`, true,
		ray(-half, away), ray(-half, h.Reach), ray(half, h.Reach), ray(half, away))
	p.open(`stroke="#777" stroke-width="0.12"`)
	for far := away + 0.3; far < h.Reach; far += 0.4 {
		p.path(nil, false, ray(-half, far), ray(half, min(far+0.3, h.Reach)))
	}
	p.shut()
	p.styled(nil, `fill="none" stroke="#555" stroke-width="0.15" stroke-dasharray="0.3 0.6"`, false, p.at(h.Eye), p.at(h.Body))
}
