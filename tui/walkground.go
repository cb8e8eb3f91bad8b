package tui

import (
	"cuewalk/course/geom"
	"cuewalk/sim/reading"
	"cuewalk/tui/ring"
)

// naturalReach is how far the natural exit line is drawn where it meets nothing, metres.
const naturalReach = 10.0

// groundOf is what the ring of a course that is read shows on the ground: where the handler
// can be when the dog takes the obstacle, where his body hides the chosen trap, and the line on
// which a dog goes that nobody turns, to what it meets first.
func groundOf(r *reading.Reading, l *reading.Leg, t *reading.Trap) *ring.Ground {
	g := &ring.Ground{Cell: r.Reach.Cell}
	if l.Number >= 1 && l.Number <= len(r.Reach.Legs) && r.Reach.W > 0 {
		for i, can := range r.Reach.Legs[l.Number-1].Cells {
			if can {
				g.Reach = append(g.Reach, r.Reach.At(i))
			}
		}
	}
	if t != nil {
		g.Square = t.Cover.Cell
		for _, p := range t.Cover.Places {
			g.Hides = append(g.Hides, p.At)
		}
		if p, ok := bestCover(&t.Cover); ok {
			g.Best, g.HasBest = p.At, true
		}
	}
	if l.Number >= 2 {
		far := naturalReach
		if len(l.Meets) > 0 {
			far = min(far, l.Meets[0].Range)
		}
		g.Natural = [2]geom.Point{l.Natural.At, l.Natural.Ahead(far)}
	}
	return g
}

// bestCover is the place that hides most; ok is false where there is none.
func bestCover(c *reading.Cover) (best reading.CoverPlace, ok bool) {
	for _, p := range c.Places {
		if !ok || p.Trap > best.Trap {
			best, ok = p, true
		}
	}
	return best, ok
}
