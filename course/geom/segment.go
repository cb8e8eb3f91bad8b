package geom

import "math"

// Segment is the straight line from A to B.
type Segment struct{ A, B Point }

// Length returns the length of s in metres.
func (s Segment) Length() float64 { return s.A.Dist(s.B) }

// Mid returns the middle of s.
func (s Segment) Mid() Point { return s.A.Lerp(s.B, 0.5) }

// Nearest returns the point of s nearest to p.
func (s Segment) Nearest(p Point) Point {
	d := s.B.Sub(s.A)
	n := d.Dot(d)
	if n == 0 {
		return s.A
	}
	return s.A.Lerp(s.B, max(0, min(1, p.Sub(s.A).Dot(d)/n)))
}

// Dist returns the distance from p to the nearest point of s.
func (s Segment) Dist(p Point) float64 { return p.Dist(s.Nearest(p)) }

// Side reports on which side of the line through s the point p lies: +1 left of
// A to B, -1 right, 0 within tol metres of it. A and B must differ.
func (s Segment) Side(p Point, tol float64) int {
	d := s.B.Sub(s.A)
	c := d.Cross(p.Sub(s.A)) / d.Norm()
	switch {
	case c > tol:
		return 1
	case c < -tol:
		return -1
	}
	return 0
}

// Meets returns how far along s (0..1) it meets t, and whether it does; touching
// ends count. Parallel segments are taken not to meet.
func (s Segment) Meets(t Segment) (float64, bool) {
	d, e := s.B.Sub(s.A), t.B.Sub(t.A)
	den := d.Cross(e)
	if den == 0 {
		return 0, false
	}
	o := t.A.Sub(s.A)
	u, v := o.Cross(e)/den, o.Cross(d)/den
	return u, u >= 0 && u <= 1 && v >= 0 && v <= 1
}

// Gap returns the shortest distance between s and t: 0 where they meet.
func (s Segment) Gap(t Segment) float64 {
	if _, ok := s.Meets(t); ok {
		return 0
	}
	return math.Min(math.Min(s.Dist(t.A), s.Dist(t.B)), math.Min(t.Dist(s.A), t.Dist(s.B)))
}

// PathLength returns the length of the chain of segments through pts.
func PathLength(pts []Point) float64 {
	sum := 0.0
	for i := 1; i < len(pts); i++ {
		sum += pts[i].Dist(pts[i-1])
	}
	return sum
}
