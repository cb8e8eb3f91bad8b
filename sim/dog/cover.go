package dog

import (
	"math"

	"cuewalk/course/geom"
)

// open returns which part of an entry's opening the dog has open before it, 0..1,
// the angular width of all of it, and whether the handler's body hides some of it.
// The entry lies rng metres off along line.
func (s *Scene) open(v *Sight, i int, line geom.Point, rng float64) (visible float64, width geom.Angle, byBody bool) {
	m, eye := &s.mouths[i], v.Body.At
	side := geom.Point{X: m.way.Y, Y: -m.way.X}.Mul(m.half)
	w := window{eye: eye, line: line, a: m.at.Sub(side), b: m.at.Add(side)}
	if math.Abs(line.Dot(m.way)) < 1e-6 {
		return 0, 0, false // edge on
	}
	w.spread = max(w.slope(w.a), w.slope(w.b))
	byBody = w.body(v.Handler, v.Girth, rng)
	over := v.Body.Mode == Air || v.Bound
	for _, k := range s.before[i] {
		if k.least > rng {
			break // all the rest is farther from the entry than the dog is
		}
		if over && s.covers[k.cover].obstacle == v.Last {
			continue // it is on its way over that one
		}
		w.cover(&s.covers[k.cover], rng)
	}
	if v.All || w.n > 0 {
		w.edges()
	}
	if w.n == 0 {
		return 1, geom.Angle(w.hi - w.lo), false
	}
	return 1 - w.covered()/(w.hi-w.lo), geom.Angle(w.hi - w.lo), byBody
}

// window is an opening a-b as an interval of angles off the line to its middle, and
// the parts of it that are hidden. The angles are worked out when first asked for:
// most openings have nothing before them.
type window struct {
	eye, line geom.Point
	a, b      geom.Point
	lo, hi    float64
	known     bool
	spread    float64 // how far its farther-off end lies to the side for each metre along the line
	part      [8][2]float64
	n         int
}

func (w *window) angle(p geom.Point) float64 {
	q := p.Sub(w.eye)
	return math.Atan2(-w.line.Cross(q), w.line.Dot(q))
}

// slope returns how far p lies to the side of the line for each metre along it.
func (w *window) slope(p geom.Point) float64 {
	q := p.Sub(w.eye)
	along := w.line.Dot(q)
	if along <= 0 {
		return math.Inf(1)
	}
	return math.Abs(w.line.Cross(q)) / along
}

func (w *window) edges() {
	if w.known {
		return
	}
	w.known = true
	w.lo, w.hi = w.angle(w.a), w.angle(w.b)
	if w.lo > w.hi {
		w.lo, w.hi = w.hi, w.lo
	}
}

// beside reports whether a thing of the given half breadth at q from the eye lies
// wholly behind the eye, beyond the opening or off to its side.
func (w *window) beside(q geom.Point, half, rng float64) bool {
	along := w.line.Dot(q)
	return along < -half || along > rng+half+1 || math.Abs(w.line.Cross(q)) > half+w.spread*(along+half)
}

// body hides what a disc of radius r at p covers, if it stands nearer than rng.
func (w *window) body(p geom.Point, r, rng float64) bool {
	q := p.Sub(w.eye)
	dist := q.Norm()
	if dist >= rng || dist < 1e-9 || w.line.Dot(q) < 0 && dist > r || w.beside(q, r, rng) {
		return false
	}
	if dist <= r {
		return w.hide(math.Inf(-1), math.Inf(1))
	}
	mid, half := w.angle(p), math.Asin(r/dist)
	return w.hide(mid-half, mid+half)
}

// cover hides what lies behind the part of k that stands before the opening.
func (w *window) cover(k *cover, rng float64) {
	if w.beside(k.mid.Sub(w.eye), k.half, rng) {
		return
	}
	p, q, ok := before(k.A, k.B, w.a, w.b, w.eye)
	if !ok {
		return
	}
	lo, hi := w.angle(p), w.angle(q)
	if lo > hi {
		lo, hi = hi, lo
	}
	if hi-lo < math.Pi {
		w.hide(lo, hi)
	}
}

// before returns the part of segment p-q on the eye's side of the line a-b.
func before(p, q, a, b, eye geom.Point) (geom.Point, geom.Point, bool) {
	d := b.Sub(a)
	side := d.Cross(eye.Sub(a))
	if side == 0 {
		return p, q, false
	}
	sp, sq := d.Cross(p.Sub(a))/side, d.Cross(q.Sub(a))/side
	switch {
	case sp <= 0 && sq <= 0:
		return p, q, false
	case sp < 0:
		p = p.Lerp(q, -sp/(sq-sp))
	case sq < 0:
		q = q.Lerp(p, -sq/(sp-sq))
	}
	return p, q, true
}

// hide notes that lo..hi is hidden and reports whether that takes anything away.
func (w *window) hide(lo, hi float64) bool {
	w.edges()
	lo, hi = max(lo, w.lo), min(hi, w.hi)
	if lo >= hi {
		return false
	}
	if w.n == len(w.part) { // more than eight covers at once: widen the last
		w.part[w.n-1][0], w.part[w.n-1][1] = min(lo, w.part[w.n-1][0]), max(hi, w.part[w.n-1][1])
		return true
	}
	i := w.n
	for ; i > 0 && w.part[i-1][0] > lo; i-- {
		w.part[i] = w.part[i-1]
	}
	w.part[i] = [2]float64{lo, hi}
	w.n++
	return true
}

// covered returns the angle hidden in all.
func (w *window) covered() float64 {
	sum, end := 0.0, math.Inf(-1)
	for _, p := range w.part[:w.n] {
		if p[1] > end {
			sum += p[1] - max(p[0], end)
			end = p[1]
		}
	}
	return sum
}
