package eye

import (
	"math"

	"cuewalk/course/geom"
	"cuewalk/tui/canvas"
)

// eyeHeight is how high the dog's eyes are taken to be, metres. One figure for all dogs: the
// strip must not look different for the same place.
const eyeHeight = 0.4

// nearest is the least distance things are drawn at, metres.
const nearest = 0.7

// bow is how much more room the middle gets than the sides: bearings are laid out by the
// sine of this share of them. About 1.3 times the even share ahead, 0.4 at 120 degrees.
const bow = 0.6

// lens maps the world before the dog's eyes onto the strip: bearings on a fixed scale from
// left to right, heights by distance.
type lens struct {
	eye     geom.Pose
	half    geom.Angle // half the field of view
	w       float64    // columns
	horizon float64    // row of what is as high as the eyes
	focal   float64    // rows to a metre at one metre
}

// newLens looks through w columns and rows rows below the row top.
func newLens(eye geom.Pose, field geom.Angle, w, top, rows int) lens {
	p := float64(rows)
	return lens{
		eye: eye, half: min(field/2, geom.Deg(178)), w: float64(w),
		horizon: float64(top) + 0.62*p, focal: 2.65 * p,
	}
}

// column is where a bearing lies, in columns with fractions.
func (l lens) column(b geom.Angle) float64 {
	k := min(bow, float64(math.Pi/2/l.half)) // beyond a quarter turn the sine would fold back
	return l.w / 2 * (1 + math.Sin(k*float64(b))/math.Sin(k*float64(l.half)))
}

// see is where a place z metres above the ground appears. ok is false where it lies
// outside the field of view.
func (l lens) see(p geom.Point, z float64) (at canvas.Pt, ok bool) {
	d := max(p.Dist(l.eye.At), nearest)
	b := l.eye.At.Towards(p).Off(l.eye.Heading)
	at = canvas.Pt{X: l.column(b.Clamp(l.half)), Y: l.horizon - l.focal*(z-eyeHeight)/d}
	return at, b.Abs() <= l.half
}
