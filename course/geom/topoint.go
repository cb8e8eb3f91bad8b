package geom

import "math"

// ToPoint returns the shortest path from a pose to a point, whatever the heading
// there, that nowhere bends tighter than radius, which must be positive: an arc
// and then straight on or, for a point inside the turning circle, an arc away
// from it and an arc back. (Boissonnat and Bui, Accessibility region for a car
// that only moves forwards along optimal paths, 1994.)
func ToPoint(from Pose, to Point, radius float64) Path {
	var words [6]word
	q := from.Local(to).Mul(1 / radius) // X to the right, Y ahead
	n := toRight(words[:0], q, RightTurn)
	n = toRight(n, Point{-q.X, q.Y}, LeftTurn)
	return shortest(n).path(from, radius)
}

// toRight appends the words that begin with a turn to the right or end with one
// to the right after one to the left, to the point q in units of the radius. To
// have the mirrored words, mirror q and say LeftTurn.
func toRight(words []word, q Point, side Turn) []word {
	centre := Point{1, 0}
	if d := q.Dist(centre); d >= 1 {
		// The tangent from the circle to q leaves it where the straight begins.
		straight := root(d*d - 1)
		turn := turnOf(float64(centre.Towards(q)) + math.Pi/2 - math.Atan(straight))
		words = append(words, word{name(side, "RS", "LS"), [3]Turn{side, Straight, Straight}, [3]float64{turn, straight, 0}})
	}
	away := Point{-1, 0}
	d := q.Dist(away)
	if d < 1 || d > 3 {
		return words
	}
	// The second circle touches the first (centres 2 apart) and passes through q.
	spread := math.Acos(max(-1, min(1, (d*d+3)/(4*d))))
	for _, sign := range [2]float64{-1, 1} {
		out := away.Towards(q) + Angle(sign*spread) // from the first centre to the second
		first := turnOf(math.Pi/2 - float64(out))
		second := away.Add(out.Unit().Mul(2))
		in := second.Towards(away)
		back := turnOf(float64(second.Towards(q) - in))
		words = append(words, word{name(side, "LR", "RL"), [3]Turn{-side, side, Straight}, [3]float64{first, back, 0}})
	}
	return words
}

func name(side Turn, right, left string) string {
	if side == RightTurn {
		return right
	}
	return left
}
