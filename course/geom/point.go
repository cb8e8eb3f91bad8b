// Package geom holds the plane geometry of the ring: points, headings, segments
// and paths of bounded curvature.
//
// Lengths are metres. x runs to the right and y up the map. A heading is read
// clockwise from "up the map", so 0 points up and 90 degrees points right.
package geom

import "math"

// Point is a place on the map, or a displacement, in metres.
type Point struct{ X, Y float64 }

// Add returns p shifted by q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns the displacement from q to p.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Mul returns p scaled by k.
func (p Point) Mul(k float64) Point { return Point{p.X * k, p.Y * k} }

// Dot returns the scalar product of p and q.
func (p Point) Dot(q Point) float64 { return float64(p.X*q.X) + float64(p.Y*q.Y) }

// Cross returns the signed area spanned by p and q: positive where q lies
// anticlockwise (to the left) of p.
func (p Point) Cross(q Point) float64 { return float64(p.X*q.Y) - float64(p.Y*q.X) }

// Norm returns the length of p.
func (p Point) Norm() float64 { return math.Sqrt(p.Dot(p)) }

// Dist returns the distance between p and q.
func (p Point) Dist(q Point) float64 { return p.Sub(q).Norm() }

// Towards returns the heading from p to q; 0 where they coincide.
func (p Point) Towards(q Point) Angle {
	d := q.Sub(p)
	if d.X == 0 && d.Y == 0 {
		return 0
	}
	return Angle(math.Atan2(d.X, d.Y))
}

// Lerp returns the point a fraction t of the way from p to q.
func (p Point) Lerp(q Point, t float64) Point { return p.Add(q.Sub(p).Mul(t)) }

// Finite reports whether both coordinates are ordinary numbers.
func (p Point) Finite() bool {
	return !math.IsNaN(p.X+p.Y) && !math.IsInf(p.X, 0) && !math.IsInf(p.Y, 0)
}

// Pose is a place and the heading faced there.
type Pose struct {
	At      Point
	Heading Angle
}

// Ahead returns the point d metres ahead of the pose.
func (p Pose) Ahead(d float64) Point { return p.At.Add(p.Heading.Unit().Mul(d)) }

// Beside returns the point d metres to the right of the pose (left where d < 0).
func (p Pose) Beside(d float64) Point { return p.At.Add(p.Heading.Right().Mul(d)) }

// Local returns q as the pose sees it: X metres to the right, Y metres ahead.
func (p Pose) Local(q Point) Point {
	d, u := q.Sub(p.At), p.Heading.Unit()
	return Point{float64(d.X*u.Y) - float64(d.Y*u.X), d.Dot(u)}
}
