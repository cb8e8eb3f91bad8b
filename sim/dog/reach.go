package dog

import (
	"math"

	"cuewalk/course/geom"
)

// reach is 1 where an arc within the dog's limits gets it to the entry, which lies
// along line, inside its approach angle, falling smoothly to 0.
func (d *Dog) reach(g *gaze, m *mouth, line geom.Point, rng float64) float64 {
	fit := m.fit(g.fwd, line, swingMost*(1-geom.Smooth(swingRoom, swingNone, 1/(rng*d.tightest(d.slowed(g.Body.Speed, rng))))))
	if fit == 0 {
		return 0
	}
	return fit * (1 - geom.Smooth(1, 1.12, bend(g.fwd, line, rng, m.half)/d.tightest(d.slowed(g.Body.Speed, rng))))
}

// fit is 1 where a dog that heads along fwd can come to the entry along line inside
// its approach angle, falling smoothly to 0: straight, on one arc, or on anything between;
// beyond, the less the more it has to swing out for it, up to swing radians.
func (m *mouth) fit(fwd, line geom.Point, swing float64) float64 {
	arc := line.Mul(2 * line.Dot(fwd)).Sub(fwd) // the way an arc from fwd arrives
	cos, side := line.Dot(m.way), -m.way.Cross(line)
	arcCos, arcSide := arc.Dot(m.way), -m.way.Cross(arc)
	const far = -0.8 // cosine of 2.5: beyond, left and right of the way through mean nothing
	switch {
	case cos > far && arcCos > far && (side > 0) != (arcSide > 0):
		return 1 // something between the two arrives straight through
	case arcCos > cos:
		cos, side = arcCos, arcSide
	}
	limit := &m.right
	if side > 0 {
		limit = &m.left
	}
	if cos >= limit.easy {
		return 1
	}
	return 1 - geom.Smooth(limit.angle-slack, limit.angle+swing, math.Acos(max(-1, cos)))
}

// bend returns the curvature of the arc to the nearer part of an opening along line.
func bend(fwd, line geom.Point, rng, half float64) float64 {
	// The angle to the middle, less the angle the near part lies inside it.
	cos, sin := line.Dot(fwd), math.Abs(fwd.Cross(line))
	wide := 0.6 * half
	edge := math.Sqrt(rng*rng + wide*wide)
	sin, cos = (sin*rng-cos*wide)/edge, (cos*rng+sin*wide)/edge
	switch {
	case sin <= 0 && cos > 0:
		return 0
	case cos <= 0:
		return 2 / rng
	}
	return 2 * sin / rng
}

// slowed returns the speed the dog can brake to on half the way to range rng.
func (d *Dog) slowed(v, rng float64) float64 {
	return max(d.Collected, math.Sqrt(max(0, v*v-d.Braking*0.8*rng)))
}
