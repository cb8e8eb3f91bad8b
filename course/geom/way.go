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
// it was. Whoever stands nearer to a wall at either end may go away from it; only
// between two walls at once that all but touch may a way out be missed. The
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
	u      Point // direction, of length 1
	length float64
	lo, hi Point // nothing outside comes within the clearance
}

func (w walk) leg(p, q Point) leg {
	d := q.Sub(p)
	l := leg{Segment: Segment{p, q}, walk: w, u: Point{0, 1}, length: d.Norm()}
	if l.length > 0 {
		l.u = d.Mul(1 / l.length)
	}
	room := Point{w.clearance + 1e-9, w.clearance + 1e-9} // the sum may have been rounded
	l.lo = Point{min(p.X, q.X), min(p.Y, q.Y)}.Sub(room)
	l.hi = Point{max(p.X, q.X), max(p.Y, q.Y)}.Add(room)
	return l
}

// blocked reports whether the wall is too near to the leg.
func (l *leg) blocked(wall Segment) bool {
	if max(wall.A.X, wall.B.X) < l.lo.X || min(wall.A.X, wall.B.X) > l.hi.X || max(wall.A.Y, wall.B.Y) < l.lo.Y || min(wall.A.Y, wall.B.Y) > l.hi.Y {
		return false // most walls of a ring are far off
	}
	c := l.clearance
	// The ends of the wall as the leg sees them: x to its left, y ahead of its start.
	d, e := wall.A.Sub(l.A), wall.B.Sub(l.A)
	p, q := Point{l.u.Cross(d), l.u.Dot(d)}, Point{l.u.Cross(e), l.u.Dot(e)}
	if p.X > c && q.X > c || p.X < -c && q.X < -c {
		return false
	}
	if end := l.length + c; p.Y > end && q.Y > end || p.Y < -c && q.Y < -c {
		return false
	}
	gap := squareGap(l.length, p, q)
	if gap >= c*c {
		return false
	}
	need := l.need(wall)
	return gap < need*need
}

// squareGap returns the square of the shortest distance between the segment p to q
// and the one from the origin straight up to the given length; 0 where they meet.
func squareGap(length float64, p, q Point) float64 {
	if p.X*q.X <= 0 && p.X != q.X {
		if y := p.Y + (q.Y-p.Y)*p.X/(p.X-q.X); y >= 0 && y <= length {
			return 0
		}
	}
	wall := Segment{p, q}
	low, high := wall.Nearest(Point{}), wall.Nearest(Point{0, length}).Sub(Point{0, length})
	p.Y -= max(0, min(length, p.Y))
	q.Y -= max(0, min(length, q.Y))
	return min(p.Dot(p), q.Dot(q), low.Dot(low), high.Dot(high))
}

// need is the distance the leg must keep from a wall: less than the clearance at
// the ends of the way where the walker stands nearer from the outset.
func (l *leg) need(wall Segment) float64 {
	const rounding = 1e-9
	need := l.clearance
	if l.A == l.a {
		need = min(need, wall.Dist(l.a)*(1-rounding)-rounding)
	}
	if l.B == l.b {
		need = min(need, wall.Dist(l.b)*(1-rounding)-rounding)
	}
	return max(0, need)
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
	for {
		known := len(s.walls)
		if !s.run() {
			if s.crowd(all); len(s.walls) == known {
				return dst, false
			}
			continue
		}
		for to := int32(1); to != 0; to = s.corners[to].from {
			s.takeIn(all, s.leg(s.corners[s.corners[to].from].at, s.corners[to].at))
		}
		if len(s.walls) == known {
			return s.trace(dst), true
		}
	}
}

// crowd takes in the walls that stand so near to a known one, or to either end of
// the way, that nobody passes between: where corners of one lie too near to the
// other, those of the other may still lead round both.
func (s *search) crowd(all []Segment) {
	near := 2.2 * s.clearance
	known := s.walls
	for _, w := range all {
		if s.knows(w) {
			continue
		}
		crowded := w.Dist(s.a) < near || w.Dist(s.b) < near
		for i := 0; i < len(known) && !crowded; i++ {
			crowded = known[i].Gap(w) < near
		}
		if crowded {
			s.add(w)
		}
	}
}

// takeIn adds the walls that block the leg and are not known yet.
func (s *search) takeIn(all []Segment, l leg) {
	for _, w := range all {
		if l.blocked(w) && !s.knows(w) {
			s.add(w)
		}
	}
}

func (s *search) add(w Segment) {
	s.walls = append(s.walls, w)
	along := w.A.Towards(w.B)
	s.addCorners(w.A, along+math.Pi)
	s.addCorners(w.B, along)
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
		if cost >= c.cost || cost+c.at.Dist(s.b) > s.corners[1].cost {
			continue // no better than what is known
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
