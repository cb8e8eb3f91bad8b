package dog

import (
	"math"

	"cuewalk/course/geom"
)

// open returns which part of an entry's opening the dog has open before it, 0..1,
// the angular width of all of it, and whether the handler's body hides some of it.
func (s *Scene) open(v *Sight, i int, rng float64) (visible float64, width geom.Angle, byBody bool) {
	e, eye := &s.Entries[i], v.Body.At
	side := geom.Point{X: s.way[i].Y, Y: -s.way[i].X}.Mul(e.Half)
	a, b := e.At.Sub(side), e.At.Add(side)
	line := e.At.Sub(eye).Mul(1 / max(rng, 1e-6))
	w := window{eye: eye, line: line, spread: e.Half / max(rng, 0.1)}
	w.lo, w.hi = w.angle(a), w.angle(b)
	if w.lo > w.hi {
		w.lo, w.hi = w.hi, w.lo
	}
	if w.hi-w.lo < 1e-6 {
		return 0, 0, false
	}
	byBody = w.body(v.Handler, v.Girth, rng)
	over := v.Body.Mode == Air
	for _, k := range s.before[i] {
		if k.least > rng {
			break // all the rest is farther from the entry than the dog is
		}
		if over && s.covers[k.cover].obstacle == v.Last {
			continue // it is on its way over that one
		}
		w.cover(&s.covers[k.cover], a, b, rng)
	}
	return 1 - w.covered()/(w.hi-w.lo), geom.Angle(w.hi - w.lo), byBody
}

// window is an opening as an interval of angles off the line to its middle, and
// the parts of it that are hidden.
type window struct {
	eye, line geom.Point
	lo, hi    float64
	spread    float64 // half the opening for each metre of range
	part      [8][2]float64
	n         int
}

func (w *window) angle(p geom.Point) float64 {
	q := p.Sub(w.eye)
	return math.Atan2(-w.line.Cross(q), w.line.Dot(q))
}

// body hides what a disc of radius r at p covers, if it stands nearer than rng.
func (w *window) body(p geom.Point, r, rng float64) bool {
	q := p.Sub(w.eye)
	dist := q.Norm()
	if dist >= rng || dist < 1e-9 || w.line.Dot(q) < 0 && dist > r {
		return false
	}
	if dist <= r {
		return w.hide(w.lo, w.hi)
	}
	mid, half := w.angle(p), math.Asin(r/dist)
	return w.hide(mid-half, mid+half)
}

// cover hides what lies behind the part of k that stands before the opening a-b.
func (w *window) cover(k *cover, a, b geom.Point, rng float64) {
	m := k.mid.Sub(w.eye)
	along, across := w.line.Dot(m), math.Abs(w.line.Cross(m))
	// Cheap: wholly behind the eye or the opening, or well off the line.
	if along < -k.half || along > rng+k.half+1 || across > k.half+w.spread*(along+k.half)+0.05 {
		return
	}
	p, q, ok := before(k.A, k.B, a, b, w.eye)
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
