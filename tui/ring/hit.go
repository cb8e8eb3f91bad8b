package ring

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// At reports what lies under cell x, y: an obstacle (index in the course), a stand (index in
// Setup.Actions), or nothing. The one not found is -1; a stand that is drawn wins over an
// obstacle. Camera must be the one it was drawn with.
func (s Scene) At(x, y int) (obstacle, stand int, ok bool) {
	if s.Setup == nil || s.Setup.Course == nil || s.Camera.Scale <= 0 {
		return -1, -1, false
	}
	d := pen{Scene: s}
	d.lookUp()
	p := s.Camera.ToMap(x, y)
	reach := max(0.3, 1.2/s.Camera.Scale)
	obstacle, stand = -1, -1
	best := reach
	if s.Layers.Has(Stands) {
		for i := range s.Setup.Actions {
			if a := &s.Setup.Actions[i]; a.HasStand && d.standNear(i) && a.Stand.Dist(p) <= best {
				best, stand = a.Stand.Dist(p), i
			}
		}
	}
	if stand >= 0 {
		return -1, stand, true
	}
	best = reach
	for i := range s.Setup.Course.Obstacles {
		if g := gap(&s.Setup.Course.Obstacles[i], p); g <= best {
			best, obstacle = g, i
		}
	}
	return obstacle, -1, obstacle >= 0
}

// gap is how far p is from an obstacle, metres; 0 on it.
func gap(o *course.Obstacle, p geom.Point) float64 {
	best := math.Inf(1)
	for _, f := range o.Footprint() {
		best = min(best, f.Dist(p))
	}
	return max(0, best-o.Width/4)
}
