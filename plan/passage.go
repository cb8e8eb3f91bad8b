package plan

import (
	"cuewalk/course/geom"
)

// side is a side of the dog's line, seen along it.
type side int

const (
	left    side = -1
	neither side = 0
	right   side = 1
)

func (s side) String() string {
	return map[side]string{left: "left", right: "right", neither: "line itself"}[s]
}

// sideOf returns the side of w that p is on.
func sideOf(w way, p geom.Point) side {
	switch at := w.Local(p); {
	case over(-besideEnds, at.Y) || over(at.Y, w.length+besideEnds):
		return neither
	case over(at.X, offLine):
		return right
	case over(-offLine, at.X):
		return left
	}
	return neither
}

// grain is by how much, in metres, seconds or radians, something must be over a limit
// to count as over it: exactly on the limit the last bit would decide, and that of a
// mirrored plan is another.
const grain = 1e-6

// over reports whether x is greater than limit by more than a grain.
func over[T ~float64](x, limit T) bool { return x > limit+grain }

// stretched is s with a grain more at either end, so that ends that touch meet.
func stretched(s geom.Segment) geom.Segment {
	n := s.Length()
	if n == 0 {
		return s
	}
	return geom.Segment{A: s.B.Lerp(s.A, 1+grain/n), B: s.A.Lerp(s.B, 1+grain/n)}
}

// passage is a cue with the dog's ways and the handler's stands around it.
type passage struct {
	in, out         []way      // the dog's ways before and after; the first is nearest the cue
	afterP, beforeN []way      // its ways after the moment of P and before that of N
	dog             geom.Pose  // where it is on its nominal line at the cue
	next            way        // into the obstacle it takes next
	hasNext         bool       //
	p, s, n         geom.Point // the handler's stands
	hasS, hasN      bool
	pace            Pace
}

// passage returns what lies round cue i of p.
func (l *line) passage(p *Plan, i int) passage {
	cue := &p.Cues[i]
	done := l.gone(cue.When)
	var g passage
	g.in, g.out = l.inAndOut(cue.When)
	g.dog = geom.Pose{At: l.at(l.distance(cue.When))}
	if len(g.in) > 0 {
		g.dog.Heading = g.in[0].Heading
	}
	g.next, g.hasNext = l.through(done + 1)
	g.s, g.hasS = cue.Stand, cue.HasStand
	g.p = p.LeadOut
	before, after := around(p.Cues, i)
	var m Moment
	if before >= 0 {
		g.p, m = p.Cues[before].Stand, p.Cues[before].When
	}
	_, g.afterP = l.inAndOut(m)
	if after < len(p.Cues) {
		g.n, g.hasN = p.Cues[after].Stand, true
		g.beforeN, _ = l.inAndOut(p.Cues[after].When)
	}
	for _, c := range p.Cues[:i+1] {
		if c.Pace != SamePace {
			g.pace = c.Pace
		}
	}
	return g
}

// inAndOut returns the dog's ways up to a moment and after it. A cue in front of
// an obstacle has it between the two; a cue on the way to one has the way itself
// on both sides.
func (l *line) inAndOut(m Moment) (in, out []way) {
	done := l.gone(m)
	add := func(list *[]way, w way, ok bool) {
		if ok {
			*list = append(*list, w)
		}
	}
	atObstacle := m.Event != Release && done+1 == m.Number
	leg, ok := l.leg(done)
	add(&in, leg, ok)
	if atObstacle {
		w, ok := l.through(m.Number)
		add(&in, w, ok)
		w, ok = l.leg(m.Number)
		add(&out, w, ok)
		w, ok = l.through(m.Number + 1)
		add(&out, w, ok)
		return in, out
	}
	w, has := l.through(done)
	add(&in, w, has)
	add(&out, leg, ok)
	w, ok = l.through(done + 1)
	add(&out, w, ok)
	w, ok = l.leg(done + 1)
	add(&out, w, ok)
	return in, out
}

// around returns the cues with the stands before and after cue i's: -1 for the
// lead-out, the number of cues where none comes after.
func around(cues []Cue, i int) (before, after int) {
	before, after = i-1, i+1
	for before >= 0 && !cues[before].HasStand {
		before--
	}
	for after < len(cues) && !cues[after].HasStand {
		after++
	}
	return before, after
}

// unsure reports whether something from the stand before cue i to the one after it
// cannot be used, so that the positions of a cross cannot be judged.
func (k *checker) unsure(i int) bool {
	before, after := around(k.p.Cues, i)
	if before < 0 && (k.unread[-1]["lead-out"] || !k.p.LeadOut.Finite()) {
		return true
	}
	for j := max(0, before); j <= min(len(k.p.Cues)-1, after); j++ {
		cue := &k.p.Cues[j]
		if k.bad[j] || k.unread[j]["stand"] || cue.HasStand && !k.free(cue.Stand) {
			return true
		}
	}
	return false
}
