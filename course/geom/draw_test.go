package geom

import (
	"math"

	"pgregory.net/rapid"
)

// Generators shared by the tests of the package.

func drawPoint(t *rapid.T, name string, span float64) Point {
	return Point{
		rapid.Float64Range(-span, span).Draw(t, name+".x"),
		rapid.Float64Range(-span, span).Draw(t, name+".y"),
	}
}

func drawPose(t *rapid.T, name string, span float64) Pose {
	return Pose{drawPoint(t, name, span), Angle(rapid.Float64Range(-math.Pi, math.Pi).Draw(t, name+".heading"))}
}

func drawSegment(t *rapid.T, name string, span float64) Segment {
	return Segment{drawPoint(t, name+".A", span), drawPoint(t, name+".B", span)}
}

// anticlockwise is the pose that textbooks write as (x, y, theta): theta from the
// x axis, anticlockwise.
func anticlockwise(x, y, theta float64) Pose {
	return Pose{Point{x, y}, Angle(math.Pi/2 - theta)}
}
