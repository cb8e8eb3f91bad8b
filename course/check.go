package course

import (
	"fmt"
	"math"

	"cuewalk/course/geom"
	"cuewalk/course/tomlfile"
)

// leastGap is how near two obstacles may stand, metres: room for a leg between
// them (our choice, no source).
const leastGap = 0.3

// ringSlack is how far an obstacle may reach over the ring's edge, metres.
const ringSlack = 0.01

// checkPlaces reports obstacles outside the ring and those that overlap.
func (r *reader) checkPlaces() {
	bodies := make([]body, len(r.course.Obstacles))
	for i, o := range r.course.Obstacles {
		bodies[i] = newBody(o)
		if text, hint := r.outside(bodies[i].lines); text != "" {
			r.tables[i].Problem(placeKey(o), tomlfile.Show(o.ID)+" "+text, hint)
		}
	}
	r.clearStart(bodies)
	for i := range bodies {
		for k := range i {
			if gap, near := bodies[i].overlaps(bodies[k]); near {
				r.overlap(i, k, gap)
				break
			}
		}
	}
}

// clearStart reports a start that lies in or on an obstacle.
func (r *reader) clearStart(bodies []body) {
	if !r.startOK {
		return
	}
	at := r.course.Start
	dog := body{lines: []geom.Segment{{A: at, B: at}}, low: at, high: at}
	for i, o := range r.course.Obstacles {
		if gap, near := bodies[i].overlaps(dog); near && gap < leastGap {
			r.top.Problem("start", "the start is in or beside "+tomlfile.Show(o.ID)+" in line "+fmt.Sprint(o.Line), "write where the dog waits, some metres before number 1")
			return
		}
	}
}

// overlap notes that obstacles i and k are too near to each other.
func (r *reader) overlap(i, k int, gap float64) {
	o, p := r.course.Obstacles[i], r.course.Obstacles[k]
	text := fmt.Sprintf("%s is only %s from %s in line %d", tomlfile.Show(o.ID), r.show(gap), tomlfile.Show(p.ID), p.Line)
	if gap < 0.005 {
		text = fmt.Sprintf("%s overlaps %s in line %d", tomlfile.Show(o.ID), tomlfile.Show(p.ID), p.Line)
	}
	r.tables[i].Problem(placeKey(o), text, "move one of them: they need "+r.show(leastGap)+" between them, wings counted")
}

// placeKey is the key that says where an obstacle stands.
func placeKey(o Obstacle) string {
	if o.Kind == Tunnel {
		return "through"
	}
	return "at"
}

// outside says where lines leave the ring and how to move them in; empty where
// they lie inside or no ring is known.
func (r *reader) outside(lines []geom.Segment) (text, hint string) {
	if !r.ringOK {
		return "", ""
	}
	low, high := box(lines)
	ring := r.course.Ring
	left, right := max(0, high.X-ring.X), max(0, -low.X) // how far to move
	down, up := max(0, high.Y-ring.Y), max(0, -low.Y)
	if max(left, right, down, up) <= ringSlack {
		return "", ""
	}
	edge := geom.Point{X: low.X, Y: low.Y}
	if left > right {
		edge.X = high.X
	}
	if down > up {
		edge.Y = high.Y
	}
	text = fmt.Sprintf("is outside the ring: it reaches to %s", r.place(edge))
	if low == high {
		text = fmt.Sprintf("is outside the ring: %s", r.place(edge))
	}
	hint = fmt.Sprintf("the ring is %s: move it", r.place(ring))
	joint := " "
	for _, m := range []struct {
		by  float64
		way string
	}{{left, "left"}, {right, "right"}, {down, "down"}, {up, "up"}} {
		if m.by > ringSlack {
			hint += fmt.Sprintf("%s%s %s %s", joint, tomlfile.Number(roundUp(m.by/r.units.Factor())), r.units, m.way)
			joint = " and "
		}
	}
	return text, hint
}

// box returns the lowest and highest coordinates of lines.
func box(lines []geom.Segment) (low, high geom.Point) {
	low, high = lines[0].A, lines[0].A
	for _, s := range lines {
		for _, p := range [2]geom.Point{s.A, s.B} {
			low = geom.Point{X: min(low.X, p.X), Y: min(low.Y, p.Y)}
			high = geom.Point{X: max(high.X, p.X), Y: max(high.Y, p.Y)}
		}
	}
	return low, high
}

// body is the room an obstacle takes up: its lines, and how far it reaches to
// either side of them.
type body struct {
	kind      Kind
	lines     []geom.Segment
	closed    bool // the lines run round it
	reach     float64
	low, high geom.Point
}

func newBody(o Obstacle) body {
	b := body{kind: o.Kind, lines: o.Footprint()}
	switch o.Kind {
	case Tunnel, DogWalk, Seesaw:
		b.reach = o.Width / 2
	case AFrame, Table:
		b.closed = true
	case Spread, LongJump:
		near, far := b.lines[0], b.lines[1] // from left to right, both
		b.lines = append(b.lines, geom.Segment{A: near.A, B: far.A}, geom.Segment{A: near.B, B: far.B})
		b.closed = true
	}
	b.low, b.high = box(b.lines)
	return b
}

// under reports whether b is a tunnel lying under c.
func (b body) under(c body) bool {
	return b.kind == Tunnel && (c.kind == AFrame || c.kind == DogWalk)
}

// overlaps returns the gap between two bodies in metres, 0 where they overlap,
// and whether it is too narrow.
func (b body) overlaps(c body) (gap float64, near bool) {
	if b.under(c) || c.under(b) {
		return 0, false
	}
	need := leastGap + b.reach + c.reach
	if b.low.X > c.high.X+need || c.low.X > b.high.X+need || b.low.Y > c.high.Y+need || c.low.Y > b.high.Y+need {
		return 0, false
	}
	if b.holds(c) || c.holds(b) {
		return 0, true
	}
	gap = math.Inf(1)
	for _, s := range b.lines {
		for _, t := range c.lines {
			gap = min(gap, s.Gap(t))
		}
	}
	return max(0, gap-b.reach-c.reach), gap < need-tiny
}

// holds reports whether the middle of c lies within the lines round b.
func (b body) holds(c body) bool {
	if !b.closed {
		return false
	}
	p := c.lines[0].Mid()
	cuts := 0 // of the line from p to far away, which leaves the body once
	for _, s := range b.lines {
		if (s.A.Y > p.Y) != (s.B.Y > p.Y) && p.X < s.A.X+(p.Y-s.A.Y)/(s.B.Y-s.A.Y)*(s.B.X-s.A.X) {
			cuts++
		}
	}
	return cuts%2 == 1
}
