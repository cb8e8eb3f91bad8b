package geom

import "math"

// Angle is an angle in radians. As a heading it is read clockwise from "up the
// map"; as a bearing or a turn, right is positive.
type Angle float64

// Deg returns d degrees as an Angle.
func Deg(d float64) Angle { return Angle(d * math.Pi / 180) }

// Degrees returns a in degrees.
func (a Angle) Degrees() float64 { return float64(a) * 180 / math.Pi }

// Wrap returns a brought into (-180, 180] degrees.
func (a Angle) Wrap() Angle {
	if a > -math.Pi && a <= math.Pi {
		return a
	}
	w := math.Mod(float64(a), 2*math.Pi)
	switch {
	case w > math.Pi:
		w -= 2 * math.Pi
	case w <= -math.Pi:
		w += 2 * math.Pi
	}
	return Angle(w)
}

// Compass returns a brought into [0, 360) degrees, as headings are written.
func (a Angle) Compass() Angle {
	w := math.Mod(float64(a), 2*math.Pi)
	if w < 0 {
		w += 2 * math.Pi
	}
	return Angle(w)
}

// Lerp returns the heading a share t of the smallest turn from a to b.
func (a Angle) Lerp(b Angle, t float64) Angle { return (a + b.Off(a)*Angle(t)).Wrap() }

// Off returns the smallest turn from b to a, in (-180, 180] degrees, right positive.
func (a Angle) Off(b Angle) Angle { return (a - b).Wrap() }

// Abs returns the size of a.
func (a Angle) Abs() Angle { return Angle(math.Abs(float64(a))) }

// Unit returns the displacement of one metre along heading a.
func (a Angle) Unit() Point {
	s, c := math.Sincos(float64(a))
	return Point{s, c}
}

// Right returns the displacement of one metre to the right of heading a.
func (a Angle) Right() Point {
	s, c := math.Sincos(float64(a))
	return Point{c, -s}
}

// Clamp returns a limited to at most limit either way; limit must not be negative.
func (a Angle) Clamp(limit Angle) Angle { return max(-limit, min(limit, a)) }
