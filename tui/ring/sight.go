package ring

import (
	"math"

	"cuewalk/course/geom"
	"cuewalk/tui/canvas"
)

// How far the shadow and the wedge of attention are drawn, metres.
const (
	shadowReach = 14
	wedgeReach  = 9
)

// bodyRadius is the handler's where the team does not say, metres.
const bodyRadius = 0.2

// shadow shades what the handler's body covers, away from the dog behind him.
func (d *pen) shadow() {
	if !d.Show.Shadow || d.now == nil {
		return
	}
	r := bodyRadius
	if d.Setup.Team != nil && d.Setup.Team.Handler.Body > 0 {
		r = d.Setup.Team.Handler.Body
	}
	eye, body := d.now.Dog.At, d.now.Hand.At
	away := body.Dist(eye)
	if away <= r {
		return
	}
	to := eye.Towards(body)
	half := geom.Angle(math.Asin(r / away))
	near, far := away+r, away+shadowReach
	poly := [4]canvas.Pt{}
	for i, ray := range [4]struct {
		by   geom.Angle
		dist float64
	}{{-half, near}, {-half, far}, {half, far}, {half, near}} {
		poly[i] = d.at(eye.Add((to + ray.by).Unit().Mul(ray.dist)))
	}
	d.p.Shade(poly[:], canvas.Dense, canvas.Hidden)
}

// attention draws the wedge that the dog attends to.
func (d *pen) attention() {
	if !d.Show.Attention || d.now == nil {
		return
	}
	half := geom.Deg(26)
	if d.Setup.Team != nil && d.Setup.Team.Dog.Attention > 0 {
		half = d.Setup.Team.Dog.Attention
	}
	eye, to := d.now.Dog.At, d.now.Dog.Heading
	var poly [12]canvas.Pt
	poly[0] = d.at(eye)
	for i := range len(poly) - 1 {
		a := to - half + 2*half*geom.Angle(i)/geom.Angle(len(poly)-2)
		poly[i+1] = d.at(eye.Add(a.Unit().Mul(wedgeReach)))
	}
	if d.fine {
		d.p.Shade(poly[:], canvas.Sparse, canvas.Quiet)
		return
	}
	d.ray(poly[0], poly[1])
	d.ray(poly[0], poly[len(poly)-1])
}

// ray draws an edge of the wedge in ASCII: strokes far apart, so that it is no one's track.
func (d *pen) ray(a, b canvas.Pt) {
	sign := inks[thin][slantOf(b.X-a.X, b.Y-a.Y)]
	n := 0
	cells(a, b, func(x, y int, _ bool) {
		if n++; n%3 == 0 {
			d.v.Set(x, y, sign, canvas.Quiet)
		}
	})
}
