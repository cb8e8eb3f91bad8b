package ring

import (
	"math"

	"cuewalk/course/geom"
	"cuewalk/tui/canvas"
)

// How far the shadow and the edges of attention are drawn, metres.
const (
	shadowReach = 14
	sightReach  = 9
)

// bodyRadius is the handler's where the team does not say, metres.
const bodyRadius = 0.2

// underfoot draws what lies on the ground beneath everything else.
func (d *pen) underfoot() {
	if d.Bare {
		return
	}
	d.ground()
	d.shadow()
	d.attention()
}

// shadow shades what the handler's body covers, away from the dog behind him.
func (d *pen) shadow() {
	if !d.Layers.Has(Shadow) || d.now == nil {
		return
	}
	r := bodyRadius
	if d.Setup.Team != nil && d.Setup.Team.Handler.Body > 0 {
		r = d.Setup.Team.Handler.Body
	}
	eye, body := d.now.Dog.At, d.now.Hand.At
	away := body.Dist(eye)
	if !(away > r && away < farOff) {
		return
	}
	to := eye.Towards(body)
	half := geom.Angle(math.Asin(r / away))
	near, far := away+r, away+shadowReach
	var poly [4]canvas.Pt
	for i, ray := range [4]struct {
		by   geom.Angle
		dist float64
	}{{-half, near}, {-half, far}, {half, far}, {half, near}} {
		poly[i] = d.at(eye.Add((to + ray.by).Unit().Mul(ray.dist)))
	}
	d.shaded(poly[:], ';', shadowMark)
}

// shaded fills a polygon beneath everything.
func (d *pen) shaded(poly []canvas.Pt, sign rune, m mark) {
	if d.fine {
		sign = 0
		d.p.Shade(poly, canvas.Dense, table[m].Role)
	}
	canvas.Inside(poly, d.w, d.h, func(x, y int) { d.sign(x, y, sign, m, shade) })
}

// attention draws the edges of what the dog attends to: signs far apart, no one's track.
func (d *pen) attention() {
	if !d.Layers.Has(Sight) || d.now == nil {
		return
	}
	half := geom.Deg(26)
	if d.Setup.Team != nil && d.Setup.Team.Dog.Attention > 0 {
		half = d.Setup.Team.Dog.Attention
	}
	eye := d.at(d.now.Dog.At)
	for _, side := range [2]geom.Angle{-half, half} {
		end := d.at(d.now.Dog.At.Add((d.now.Dog.Heading + side).Unit().Mul(sightReach)))
		for way, l := 3.0, span(eye, end); way < l; way += 3 {
			x, y := cellOf(lerp(eye, end, way/l))
			d.sign(x, y, '`', sightMark, sight)
		}
	}
}
