package geom

import (
	"math"
	"sync"
)

// Clear reports whether somebody walking straight from a to b keeps the clearance
// from every wall. Of a wall that a or b is already nearer to, it asks only not
// to come any nearer than that, and never to cross it.
func Clear(a, b Point, walls []Segment, clearance float64) bool {
	w := walk{a: a, b: b, clearance: max(clearance, leastClearance)}
	l := w.leg(a, b)
	for i := range walls {
		if l.blocked(walls[i]) {
			return false
		}
	}
	return true
}

// leastClearance in metres keeps a walker off the walls where none is asked for.
const leastClearance = 1e-6

// Way appends to dst the points to walk to one after another from a to b, b
// being the last, on straight pieces that keep the clearance in metres from
// every wall, and reports whether there is such a way; if not, dst comes back as
// it was. Whoever stands nearer to a wall at either end may go away from it. The
// way is the shortest one but for the bends round walls' ends, which keep up to a
// twelfth more than the clearance there. It hardly ever allocates where dst has room.
func Way(a, b Point, walls []Segment, clearance float64, dst []Point) ([]Point, bool) {
	if !a.Finite() || !b.Finite() {
		return dst, false
	}
	if Clear(a, b, walls, clearance) {
		return append(dst, b), true
	}
	s := searches.Get().(*search)
	defer searches.Put(s)
	s.begin(walk{a, b, max(clearance, leastClearance)})
	return s.detour(walls, dst)
}

// walk is what stays the same while a way is looked for.
type walk struct {
	a, b      Point
	clearance float64
}

// leg is one straight piece of a way, made ready for many walls.
type leg struct {
	Segment
	walk
	u      Point // direction, of length 1; 0 for a leg without length
	length float64
}

func (w walk) leg(p, q Point) leg {
	d := q.Sub(p)
	l := leg{Segment: Segment{p, q}, walk: w, length: d.Norm()}
	if l.length > 0 {
		l.u = d.Mul(1 / l.length)
	}
	return l
}

// blocked reports whether the wall is too near to the leg.
func (l *leg) blocked(wall Segment) bool {
	c := l.clearance
	p, q := wall.A.Sub(l.A), wall.B.Sub(l.A)
	// Both ends of the wall well to one side, or before or beyond the leg: clear.
	if x, y := l.u.Cross(p), l.u.Cross(q); x > c && y > c || x < -c && y < -c {
		return false
	}
	if x, y := l.u.Dot(p), l.u.Dot(q); x > l.length+c && y > l.length+c || x < -c && y < -c {
		return false
	}
	gap := l.Gap(wall)
	return gap < c && gap < l.need(wall)
}

// need is the distance the leg must keep from a wall: less than the clearance at
// the ends of the way where the walker stands nearer from the outset.
func (l *leg) need(wall Segment) float64 {
	const rounding = 1 - 1e-9
	need := l.clearance
	if l.A == l.a {
		need = min(need, wall.Dist(l.a)*rounding)
	}
	if l.B == l.b {
		need = min(need, wall.Dist(l.b)*rounding)
	}
	return need
}

// corner is a point beside the end of a wall where a way may bend.
type corner struct {
	at     Point
	cost   float64 // shortest way found to it
	from   int32   // the corner before it on that way
	closed bool
}

// search looks for the shortest way by corners (A* with the straight line to b as
// the least that is still to go). It knows only those walls that were in the way
// so far: most of a ring never is.
type search struct {
	walk
	walls   []Segment // in the way so far
	corners []corner  // a, b, then eight for each wall
}

// searches keeps the memory of searches that are over.
var searches = sync.Pool{New: func() any { return new(search) }}

func (s *search) begin(w walk) {
	s.walk = w
	s.walls = s.walls[:0]
	s.corners = append(s.corners[:0], corner{at: w.a}, corner{at: w.b})
}

// detour looks for a way round few walls, and takes in those that block the way found
// until none does.
func (s *search) detour(all []Segment, dst []Point) ([]Point, bool) {
	s.takeIn(all, s.leg(s.a, s.b))
	for range len(all) {
		if !s.run() {
			return dst, false
		}
		known := len(s.walls)
		for to := int32(1); to != 0; to = s.corners[to].from {
			s.takeIn(all, s.leg(s.corners[s.corners[to].from].at, s.corners[to].at))
		}
		if len(s.walls) == known {
			return s.trace(dst), true
		}
	}
	return dst, false
}

// takeIn adds the walls that block the leg and are not known yet.
func (s *search) takeIn(all []Segment, l leg) {
	for _, w := range all {
		if l.blocked(w) && !s.knows(w) {
			s.walls = append(s.walls, w)
			along := w.A.Towards(w.B)
			s.addCorners(w.A, along+math.Pi)
			s.addCorners(w.B, along)
		}
	}
}

func (s *search) knows(w Segment) bool {
	for _, k := range s.walls {
		if k == w {
			return true
		}
	}
	return false
}

// addCorners adds half an octagon round the end of a wall that points along out;
// its sides keep a hair more than the clearance.
func (s *search) addCorners(end Point, out Angle) {
	r := s.clearance * 1.001 / math.Cos(math.Pi/8)
	for _, deg := range [4]float64{-67.5, -22.5, 22.5, 67.5} {
		s.corners = append(s.corners, corner{at: end.Add((out + Deg(deg)).Unit().Mul(r))})
	}
}

// run finds the shortest way among the known walls and reports whether there is one.
func (s *search) run() bool {
	for i := range s.corners {
		s.corners[i].cost, s.corners[i].closed = math.Inf(1), false
	}
	s.corners[0].cost = 0
	for {
		i := s.nearest()
		if i < 0 {
			return false
		}
		if i == 1 {
			return true
		}
		s.corners[i].closed = true
		s.reach(i)
	}
}

// nearest returns the open corner with the least way by it, -1 where none is left.
func (s *search) nearest() int {
	best, least := -1, math.Inf(1)
	for i := range s.corners {
		c := &s.corners[i]
		if c.closed || math.IsInf(c.cost, 1) {
			continue
		}
		if by := c.cost + c.at.Dist(s.b); by < least {
			best, least = i, by
		}
	}
	return best
}

// reach goes from corner i to all that can be reached from it in a straight line.
func (s *search) reach(i int) {
	from := &s.corners[i]
next:
	for j := range s.corners {
		c := &s.corners[j]
		if c.closed {
			continue
		}
		cost := from.cost + from.at.Dist(c.at)
		if cost >= c.cost {
			continue
		}
		l := s.leg(from.at, c.at)
		for _, w := range s.walls {
			if l.blocked(w) {
				continue next
			}
		}
		c.cost, c.from = cost, int32(i)
	}
}

// trace appends the way found to dst.
func (s *search) trace(dst []Point) []Point {
	start := len(dst)
	for at := int32(1); at != 0; at = s.corners[at].from {
		dst = append(dst, s.corners[at].at)
	}
	for i, j := start, len(dst)-1; i < j; i, j = i+1, j-1 {
		dst[i], dst[j] = dst[j], dst[i]
	}
	return dst
}
