package course

import (
	"fmt"

	"cuewalk/course/geom"
	"cuewalk/course/tomlfile"
)

// What a tunnel's line may be. The limits are wide (common makes are 3 to 6 m long).
const (
	mostTunnelPoints  = 50
	leastTunnelPiece  = 0.2 // metres between one point and the next
	leastTunnelLength = 1.0
	mostTunnelLength  = 20.0
)

// sharpestBend is the largest turn from one piece of a tunnel to the next; beyond
// it the pipe would double back on itself.
var sharpestBend = geom.Deg(120)

// pipe reads the line of a tunnel and where it then stands, and reports whether it is right.
func (r *reader) pipe(t *tomlfile.Table, o *Obstacle) bool {
	t.Missing("through", "write the points it lies along, from mouth to mouth: through = [[10, 18], [13, 20]]")
	pairs, ok := t.Points("through")
	if !ok {
		return false
	}
	if n := len(pairs); n < 2 || n > mostTunnelPoints {
		t.Problem("through", fmt.Sprintf("a tunnel lies along 2 to %d points, not %d", mostTunnelPoints, n),
			"write both mouths and, for a curve, points between them")
		return false
	}
	for _, p := range pairs {
		m, ok := r.metres(t, "through", p)
		if !ok {
			return false
		}
		o.Through = append(o.Through, m)
	}
	if !r.bends(t, o.Through) {
		return false
	}
	o.At = middle(o.Through)
	o.Facing = o.Through[0].Towards(o.Through[1])
	return true
}

// bends checks the shape of a tunnel's line.
func (r *reader) bends(t *tomlfile.Table, pts []geom.Point) bool {
	for i := 1; i < len(pts); i++ {
		if d := pts[i].Dist(pts[i-1]); d < leastTunnelPiece {
			t.ElementProblem("through", i, fmt.Sprintf("point %d of through is only %s from the one before", i+1, r.show(d)), "leave it out, or move it along the pipe")
			return false
		}
	}
	if n := geom.PathLength(pts); n < leastTunnelLength || n > mostTunnelLength {
		t.Problem("through", "the tunnel is "+r.show(n)+" long", "make it "+r.between(leastTunnelLength, mostTunnelLength)+" long")
		return false
	}
	for i := 2; i < len(pts); i++ {
		turn := pts[i-1].Towards(pts[i]).Off(pts[i-2].Towards(pts[i-1])).Abs()
		if turn > sharpestBend {
			t.ElementProblem("through", i-1, fmt.Sprintf("the tunnel doubles back at point %d: it bends by %.0f degrees", i, turn.Degrees()),
				"put the points in the order the dog runs, with more points in a curve")
			return false
		}
	}
	return r.uncrossed(t, pts)
}

// uncrossed checks that a tunnel's line does not cross itself.
func (r *reader) uncrossed(t *tomlfile.Table, pts []geom.Point) bool {
	for i := 1; i < len(pts); i++ {
		for k := 1; k < i-1; k++ {
			if (geom.Segment{A: pts[i-1], B: pts[i]}).Gap(geom.Segment{A: pts[k-1], B: pts[k]}) < tiny {
				t.ElementProblem("through", i, fmt.Sprintf("the tunnel crosses itself before point %d", i+1), "put the points in the order the dog runs")
				return false
			}
		}
	}
	return true
}

// middle returns the point half-way along a line of points.
func middle(pts []geom.Point) geom.Point {
	rest := geom.PathLength(pts) / 2
	for i := 1; i < len(pts); i++ {
		d := pts[i].Dist(pts[i-1])
		if rest <= d {
			return pts[i-1].Lerp(pts[i], rest/d)
		}
		rest -= d
	}
	return pts[len(pts)-1]
}
