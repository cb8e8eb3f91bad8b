// Package place finds places for labels beside what they name: each by a search over a few
// places around it, so that no two labels touch and as little as can be is covered. It knows
// rectangles only, in any unit, x to the right and y down; what a place costs the caller says.
//
// Greedy in the order given and then each label once more against all others is enough for the
// two dozen numbers of a course; annealing does better on crowded maps of hundreds (Christensen,
// Marks, Shieber 1995, ACM TOG 14:203).
package place

import "math"

// Point is a place, or a direction.
type Point struct{ X, Y float64 }

// Rect is a rectangle with its upper left corner at X, Y.
type Rect struct{ X, Y, W, H float64 }

// Label is a text that names something.
type Label struct {
	W, H   float64 // its size
	Anchor Rect    // what it names; the label is put outside of it
	Toward Point   // the side of the anchor that it belongs to; zero where all are alike
	// Owner is what of the thing named a leader may end at; the anchor where it is empty.
	Owner Rect
}

// Placed is where a label went.
type Placed struct {
	Rect
	OK       bool  // false: there was no room at all
	Leader   bool  // it lies so far off that a line from From to To should join the two
	From, To Point // on the edges of the label and of its anchor
}

// Options are how labels are placed.
type Options struct {
	Bounds Rect    // where labels may stand
	Step   Point   // a place is tried every so far off; both above 0
	Most   int     // how many steps off at most; 0 for 5
	Near   int     // how many steps off need no leader
	Gap    Point   // least room between two labels
	Snap   bool    // corners fall on whole numbers, as in a grid of cells
	Side   float64 // what the side opposite to Toward costs; beside it half of that
	Far    float64 // what each step off costs
	Cross  float64 // what a leader through another label costs
	Turn   float64 // what each place costs more than the one tried before it; see sides
	// Cost is what it costs to cover r with label i, Never to forbid it.
	Cost func(i int, r Rect) float64
}

// Never is the cost of a place that may not be taken.
var Never = math.Inf(1)

// sides are the places around a thing in the order in which they are tried: above, right,
// left, below, then the corners (readers like labels above best: Bobák, Čmolík, Čadík 2024;
// right and above: Imhof 1975). X and Y are where the label lies off its anchor: -1 before
// it, 0 in its middle, 1 after it.
var sides = [8]Point{{0, -1}, {1, 0}, {-1, 0}, {0, 1}, {1, -1}, {-1, -1}, {1, 1}, {-1, 1}}

// Labels places labels, the first ones first; the result has one place for each.
func Labels(labels []Label, o Options) []Placed {
	if o.Most == 0 {
		o.Most = 5
	}
	s := search{Options: o, labels: labels, placed: make([]Placed, len(labels)), cost: make([]float64, len(labels))}
	for range 2 { // the second time each knows of all others
		for i := range labels {
			s.settle(i)
		}
	}
	s.makeRoom()
	for i := range labels {
		s.join(i)
	}
	return s.placed
}

type search struct {
	Options
	labels []Label
	placed []Placed
	cost   []float64
}

// try is a place for a label and what it costs before anything is covered.
type try struct {
	at        Rect
	side, off int
	cost      float64
}

// settle gives label i its best place beside all others as they lie now.
func (s *search) settle(i int) {
	s.placed[i].OK = false
	best, most := try{}, Never
	for q := s.around(i); q.next() && q.now.cost < most; { // the rest costs more even where nothing is covered
		t := q.now
		t.at = s.beside(&s.labels[i], sides[t.side], t.off)
		if !s.inside(t.at) || s.touches(t.at, i) {
			continue
		}
		c := t.cost + s.Cost(i, t.at)
		if c < most && t.off > s.Near && s.crosses(t.at, i) {
			c += s.Cross
		}
		if c < most {
			best, most = t, c
		}
	}
	s.cost[i] = most
	if most < Never {
		s.placed[i] = Placed{Rect: best.at, OK: true, Leader: best.off > s.Near}
	}
}

// makeRoom moves one label for each that found no place, where that gives both one.
func (s *search) makeRoom() {
	for i := range s.placed {
		for k := 0; k < len(s.placed) && !s.placed[i].OK; k++ {
			if k == i || !s.placed[k].OK {
				continue
			}
			was, cost := s.placed[k], s.cost[k]
			s.placed[k].OK = false
			s.settle(i)
			s.settle(k)
			if !s.placed[i].OK || !s.placed[k].OK {
				s.placed[i].OK = false
				s.placed[k], s.cost[k] = was, cost
			}
		}
	}
}

// queue gives the places around a label, the cheapest first.
type queue struct {
	now  try
	base [len(sides)]float64 // cost of each side before it is moved off
	offs [len(sides)]int     // how far off each comes next
	far  float64
	most int
}

// around is the queue of places for label i.
func (s *search) around(i int) queue {
	q := queue{far: s.Far, most: s.Most}
	for k, side := range sides {
		q.base[k] = s.Turn*float64(k) + s.Side*s.labels[i].against(side)
	}
	return q
}

func (q *queue) next() bool {
	best, least := -1, Never
	for k, off := range q.offs {
		if c := q.base[k] + q.far*float64(off); off <= q.most && c < least {
			best, least = k, c
		}
	}
	if best < 0 {
		return false
	}
	q.now = try{side: best, off: q.offs[best], cost: least}
	q.offs[best]++
	return true
}

// beside is label l on a side of its anchor, off steps away.
func (s *search) beside(l *Label, side Point, off int) Rect {
	a, d := l.Anchor, float64(off)
	r := Rect{
		X: a.X + a.W/2 - l.W/2 + side.X*((a.W+l.W)/2+d*s.Step.X), W: l.W,
		Y: a.Y + a.H/2 - l.H/2 + side.Y*((a.H+l.H)/2+d*s.Step.Y), H: l.H,
	}
	if s.Snap {
		r.X, r.Y = snapped(r.X, side.X), snapped(r.Y, side.Y)
	}
	return r
}

// snapped is a whole number on the far side of x.
func snapped(x, side float64) float64 {
	switch {
	case side > 0:
		return math.Ceil(x - 1e-9)
	case side < 0:
		return math.Floor(x + 1e-9)
	}
	return math.Round(x)
}

// against is how far a side lies off the one preferred: 0 that side, 1 the opposite one.
func (l *Label) against(side Point) float64 {
	n := math.Hypot(l.Toward.X, l.Toward.Y) * math.Hypot(side.X, side.Y)
	if n == 0 {
		return 0
	}
	return (1 - (l.Toward.X*side.X+l.Toward.Y*side.Y)/n) / 2
}

func (s *search) inside(r Rect) bool {
	b := s.Bounds
	return r.X >= b.X && r.Y >= b.Y && r.X+r.W <= b.X+b.W && r.Y+r.H <= b.Y+b.H
}

// touches reports whether a label but i lies in r or nearer to it than the gap.
func (s *search) touches(r Rect, i int) bool {
	for k := range s.placed {
		if k != i && s.placed[k].OK && s.placed[k].grown(s.Gap).Meets(r) {
			return true
		}
	}
	return false
}

// crosses reports whether a leader from r to what label i names would run through another label.
func (s *search) crosses(r Rect, i int) bool {
	a := s.labels[i].Anchor
	from, to := Point{r.X + r.W/2, r.Y + r.H/2}, Point{a.X + a.W/2, a.Y + a.H/2}
	for k := range s.placed {
		if k == i || !s.placed[k].OK {
			continue
		}
		for step := 1; step < leaderSteps; step++ {
			t := float64(step) / leaderSteps
			if s.placed[k].holds(Point{from.X + t*(to.X-from.X), from.Y + t*(to.Y-from.Y)}) {
				return true
			}
		}
	}
	return false
}

// leaderSteps is how many pieces a leader is looked at in.
const leaderSteps = 12

func (r Rect) holds(p Point) bool {
	return p.X >= r.X && p.X < r.X+r.W && p.Y >= r.Y && p.Y < r.Y+r.H
}

func (r Rect) grown(by Point) Rect { return Rect{r.X - by.X, r.Y - by.Y, r.W + 2*by.X, r.H + 2*by.Y} }

// Meets reports whether two rectangles share more than an edge.
func (r Rect) Meets(q Rect) bool {
	return r.X < q.X+q.W && q.X < r.X+r.W && r.Y < q.Y+q.H && q.Y < r.Y+r.H
}

// join works out the leader of label i.
func (s *search) join(i int) {
	p := &s.placed[i]
	if !p.OK || !p.Leader {
		return
	}
	to := s.labels[i].Owner
	if to.W <= 0 && to.H <= 0 {
		to = s.labels[i].Anchor
	}
	p.To = to.nearest(Point{p.X + p.W/2, p.Y + p.H/2})
	p.From = p.nearest(p.To)
}

// nearest is the place in r nearest to p.
func (r Rect) nearest(p Point) Point {
	return Point{min(max(p.X, r.X), r.X+r.W), min(max(p.Y, r.Y), r.Y+r.H)}
}
