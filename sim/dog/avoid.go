package dog

import (
	"math"

	"cuewalk/course/geom"
)

// avoid returns the curvature that takes the dog round what stands in its way, and
// whether anything does. Nobody gallops through a wing, a pipe or a plank.
func (s *Scene) avoid(d *Dog, st *State, mid *Body, want float64) (float64, bool) {
	look := max(1.2, 0.45*mid.Speed)
	own := -1
	if st.Commit >= 0 {
		own = s.Entries[st.Commit].Obstacle
		look = min(look, max(0, mid.At.Dist(s.Entries[st.Commit].At)-0.3))
	}
	bend := max(-d.tightest(mid.Speed), min(d.tightest(mid.Speed), want))
	ahead := geom.Segment{A: mid.At, B: mid.Pose().Arc(look, bend).At}
	nearest, found := 2.0, geom.Segment{}
	for _, i := range s.grid.at(st.At).walls {
		w := &s.walls[i]
		if w.obstacle == own || w.obstacle == st.Last && st.SinceLast < 0.6 {
			continue
		}
		if t, ok := ahead.Meets(w.Segment); ok && t < nearest && !w.jumpable(ahead, t) {
			nearest, found = t, w.Segment
		}
	}
	if nearest > 1 {
		return 0, false
	}
	return round(mid, found), true
}

// jumpable reports whether a dog on line ahead, meeting the wall a share t along
// it, comes at the bar straight enough and clear enough of the uprights to jump it.
func (w *wall) jumpable(ahead geom.Segment, t float64) bool {
	if w.opening == 0 || ahead.A.Lerp(ahead.B, t).Dist(w.Mid()) > w.opening-0.15 {
		return false
	}
	along, line := w.B.Sub(w.A), ahead.B.Sub(ahead.A)
	return math.Abs(along.Dot(line)) < 0.6*along.Norm()*line.Norm()
}

// round returns the curvature to the nearer end of a wall, with room to pass it.
func round(b *Body, w geom.Segment) float64 {
	const room = 0.45
	u := w.B.Sub(w.A)
	u = u.Mul(1 / max(u.Norm(), 1e-9))
	best := math.Inf(1)
	for _, end := range [2]geom.Point{w.A.Sub(u.Mul(room)), w.B.Add(u.Mul(room))} {
		bearing := float64(b.At.Towards(end).Off(b.Heading))
		if math.Abs(bearing) < math.Abs(best) {
			best = bearing
		}
	}
	if math.Abs(best) > math.Pi/2 {
		best = math.Copysign(math.Pi/2, best)
	}
	return 2 * math.Sin(best) / 1.2
}
