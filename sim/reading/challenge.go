package reading

import (
	"fmt"
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/course/rulebook"
)

// ChallengeKind is what the trade calls a piece of a course.
type ChallengeKind uint8

// The challenges. All but the last are defined by where obstacles stand and face
// alone. No source defines them in degrees: the limits are this program's reading
// of common practice. Depart, Arrive and Turn are those of Shape; "turn" without a
// sign is its size.
const (
	// Straight: the line from exit to entry is at most 20 degrees off both ways.
	Straight ChallengeKind = iota
	// Turn90: the turn is 60 to 120 degrees and both bends go the same way, or one is under 15.
	Turn90
	// Turn180: the turn is 150 to 210 degrees, at least 45 of it at either end.
	Turn180
	// Turn270: the turn is 240 to 300 degrees, at least 90 of it before the line to the next.
	Turn270
	// Wrap: after a jump the next lies back past its wing: departing at 120 degrees or
	// more, turning less than 240.
	Wrap
	// Serpentine: two legs over three obstacles set about along one line (within 35
	// degrees), turning at least 100 degrees each, first one way and then the other.
	Serpentine
	// Threadle: the dog comes back between two obstacles side by side and takes the
	// second the same way as the first: depart and arrive at least 60 degrees each, to
	// opposite sides, at most 8 m apart, ways in within 60 degrees of each other.
	Threadle
	// Pinwheel: three jumps in a row round a centre at most 5 m from each, every leg
	// turning 60 to 120 degrees the same way.
	Pinwheel
	// Backside: the dog comes to the face of a jump and takes it from the far side:
	// arriving at 110 degrees or more, departing under 90.
	Backside
	// Box: both jumps are sides of a box: four jumps whose axes pass within 0.8 m of a
	// centre 1.5 to 4.5 m from each, one on every side.
	Box
	// WideGap: at least 8 m from exit to entry. (FCI sets at most 7 m for large dogs.)
	WideGap
	// WeaveEntry: the next are weave poles; note says the angle of the straight line to
	// them off their row, and the side. Hard is the side from which the first pole has
	// to be rounded: the dog comes from left of the row.
	WeaveEntry
	// ContactOffLine: the next is a contact obstacle and the straight line to it is more
	// than 20 degrees off it.
	ContactOffLine
	// TunnelBeside: a mouth of another tunnel within 3 m of the right entry that a dog
	// coming along can enter (at most 100 degrees off the line to it).
	TunnelBeside
	// Discrimination: another obstacle's entry within 3 m of the right one and within 25
	// degrees of it from the exit before, to be entered within 60 degrees of the same way.
	Discrimination
	// TightFastTrap: straight on before (the leg before turns at most 30 degrees over at
	// least 5 m, or comes out of a tunnel), now at least 75 degrees of turn, and another
	// obstacle's entry first on the natural exit line, within 8 m.
	TightFastTrap
	challengeKinds
)

var challengeNames = [challengeKinds]string{"straight", "90", "180", "270", "wrap", "serpentine", "threadle", "pinwheel",
	"backside", "box", "wide gap", "weave entry", "contact approach off line", "tunnel beside another obstacle",
	"discrimination", "tight and fast into a trap"}

// String returns the challenge in the trade's words.
func (k ChallengeKind) String() string { return challengeNames[k] }

// Challenge is a named piece of a course on the leg that ends it.
type Challenge struct {
	Kind ChallengeKind
	Note string // more of it in words; may be empty
}

// String returns the challenge with its note.
func (c Challenge) String() string {
	if c.Note == "" {
		return c.Kind.String()
	}
	return c.Kind.String() + ": " + c.Note
}

// name names the challenges of every leg. The leg from the start has none of the
// turns: where the dog is set up is the handler's choice.
func (r *Reading) name() {
	for i := range r.Legs {
		n := &namer{r: r, i: i, l: &r.Legs[i], s: r.Legs[i].Shape}
		if i > 0 {
			n.turns()
			n.side()
			n.series()
			n.box()
		}
		n.entry()
		n.others()
	}
}

// namer names the challenges of one leg.
type namer struct {
	r *Reading
	i int // index of the leg
	l *Leg
	s Shape
}

func (n *namer) add(k ChallengeKind, format string, args ...any) {
	n.l.Names = append(n.l.Names, Challenge{k, fmt.Sprintf(format, args...)})
}

func (n *namer) to() *course.Entry   { return &n.r.Entries[n.r.right[n.i]] }
func (n *namer) from() *course.Entry { return &n.r.Entries[n.r.right[n.i-1]] }

func within(a geom.Angle, low, high float64) bool {
	d := a.Abs().Degrees()
	return d >= low-1e-9 && d <= high+1e-9
}

// oneWay reports whether both bends of a leg go the same way, small ones aside.
func (s Shape) oneWay() bool {
	return (s.Depart > 0) == (s.Arrive > 0) || within(s.Depart, 0, 15) || within(s.Arrive, 0, 15)
}

// turns names what the sum of the turning makes.
func (n *namer) turns() {
	s := n.s
	if within(s.Depart, 0, 20) && within(s.Arrive, 0, 20) {
		n.add(Straight, "")
	}
	if within(s.Turn, 60, 120) && s.oneWay() {
		n.add(Turn90, "%s", side(s.Turn, 0))
	}
	if within(s.Turn, 150, 210) && within(s.Depart, 45, 360) && within(s.Arrive, 45, 360) && s.oneWay() {
		n.add(Turn180, "%s", side(s.Turn, 0))
	}
	if within(s.Turn, 240, 300) && within(s.Depart, 90, 180) {
		n.add(Turn270, "%s", side(s.Turn, 0))
	}
	if n.from().Kind.Jumped() && within(s.Depart, 120, 180) && within(s.Turn, 0, 240-1e-6) {
		n.add(Wrap, "%s", side(s.Depart, 0))
	}
	if s.Gap >= 8-1e-9 {
		n.add(WideGap, "%s", n.r.show(s.Gap))
	}
}

// side names what is to be taken from a side that does not face the dog.
func (n *namer) side() {
	s := n.s
	if n.to().Kind.Jumped() && within(s.Arrive, 110, 360) && within(s.Depart, 0, 90-1e-6) {
		n.add(Backside, "")
	}
	beside := within(s.Depart, 60, 120) && within(s.Arrive, 60, 120) && (s.Depart > 0) != (s.Arrive > 0)
	if n.to().Kind.Jumped() && n.from().Kind.Jumped() && beside && s.Gap <= 8 && within(s.Turn, 0, 60) {
		n.add(Threadle, "")
	}
}

// series names what this leg makes together with the one before.
func (n *namer) series() {
	if n.i < 2 {
		return
	}
	a, b := n.r.Legs[n.i-1].Shape, n.s
	e := [3]*course.Entry{&n.r.Entries[n.r.right[n.i-2]], n.from(), n.to()}
	for _, x := range e {
		if !x.Kind.Jumped() {
			return
		}
	}
	same := (a.Turn > 0) == (b.Turn > 0)
	if !same && within(a.Turn, 100, 240) && within(b.Turn, 100, 240) &&
		e[1].At.Towards(e[2].At).Off(e[0].At.Towards(e[1].At)).Abs() <= geom.Deg(35) {
		n.add(Serpentine, "")
	}
	if same && within(a.Turn, 60, 120) && within(b.Turn, 60, 120) && circle(e[0].At, e[1].At, e[2].At) <= 5 {
		n.add(Pinwheel, "%s", side(b.Turn, 0))
	}
}

// circle returns the radius of the circle through three points; +Inf on a line.
func circle(a, b, c geom.Point) float64 {
	area := math.Abs(b.Sub(a).Cross(c.Sub(a)))
	if area < 1e-9 {
		return math.Inf(1)
	}
	return a.Dist(b) * b.Dist(c) * c.Dist(a) / (2 * area)
}

// box names a box that both obstacles of the leg are sides of.
func (n *namer) box() {
	a, b := n.r.Course.Obstacles[n.from().Obstacle], n.r.Course.Obstacles[n.to().Obstacle]
	if n.from().Obstacle == n.to().Obstacle || !a.Kind.Jumped() || !b.Kind.Jumped() {
		return
	}
	for _, centre := range centres(a, b) {
		if n.r.boxed(centre, a) && n.r.boxed(centre, b) && n.r.sides(centre, a) {
			n.add(Box, "")
			return
		}
	}
}

// centres returns where the middle of a box with sides a and b may be.
func centres(a, b course.Obstacle) []geom.Point {
	pa := geom.Pose{At: a.At, Heading: a.Facing}
	if math.Abs(math.Sin(float64(b.Facing.Off(a.Facing)))) < 0.3 { // opposite sides
		return []geom.Point{a.At.Lerp(b.At, 0.5)}
	}
	pb := geom.Pose{At: b.At, Heading: b.Facing}
	line := geom.Segment{A: pa.Ahead(-6), B: pa.Ahead(6)}
	if t, ok := line.Meets(geom.Segment{A: pb.Ahead(-6), B: pb.Ahead(6)}); ok {
		return []geom.Point{line.A.Lerp(line.B, t)}
	}
	return nil
}

// boxed reports whether o can be a side of a box about centre.
func (r *Reading) boxed(centre geom.Point, o course.Obstacle) bool {
	q := geom.Pose{At: o.At, Heading: o.Facing}.Local(centre)
	return o.Kind.Jumped() && math.Abs(q.X) <= 0.8 && math.Abs(q.Y) >= 1.5 && math.Abs(q.Y) <= 4.5
}

// sides reports whether a box about centre has a jump on every side.
func (r *Reading) sides(centre geom.Point, a course.Obstacle) bool {
	var has [4]bool
	first := centre.Towards(a.At)
	for _, o := range r.Course.Obstacles {
		if r.boxed(centre, o) {
			quarter := int(math.Round(float64(centre.Towards(o.At).Off(first))/(math.Pi/2))+4) % 4
			has[quarter] = true
		}
	}
	return has == [4]bool{true, true, true, true}
}

// entry names what the next obstacle's way in makes hard.
func (n *namer) entry() {
	off := -n.s.Arrive.Wrap() // the line off the way in: right positive, coming from the left
	switch kind := n.to().Kind; {
	case kind == course.Weaves:
		what := "straight on"
		if off > geom.Deg(5) {
			what = "from the left, the hard side"
		} else if off < -geom.Deg(5) {
			what = "from the right"
		}
		n.add(WeaveEntry, "%.0f degrees, %s", off.Abs().Degrees(), what)
	case kind.Contact() && off.Abs() > rulebook.SliceOver:
		n.add(ContactOffLine, "%.0f degrees", off.Abs().Degrees())
	}
}

// others names what other obstacles make hard.
func (n *namer) others() {
	right := n.to()
	line := n.s.From.At.Towards(right.At)
	tunnel, other := -1, -1
	for i := range n.r.Entries {
		e := &n.r.Entries[i]
		if e.Obstacle == right.Obstacle || e.At.Dist(right.At) > 3 || n.i > 0 && e.Obstacle == n.from().Obstacle {
			continue
		}
		if e.Kind == course.Tunnel && tunnel < 0 && e.Heading.Off(line).Abs() <= geom.Deg(100) {
			tunnel = i
		}
		apart := n.s.From.At.Towards(e.At).Off(line).Abs()
		if other < 0 && apart <= geom.Deg(25) && e.Heading.Off(right.Heading).Abs() <= geom.Deg(60) {
			other = i
		}
	}
	if tunnel >= 0 {
		n.add(TunnelBeside, "%s", n.r.Label(tunnel))
	}
	if other >= 0 {
		n.add(Discrimination, "%s", n.r.Label(other))
	}
	n.tightFast()
}

// tightFast names a sharp turn after a fast line with a trap straight on.
func (n *namer) tightFast() {
	if n.i == 0 || !within(n.s.Turn, 75, 360) && !within(n.s.Depart, 75, 180) {
		return
	}
	before := n.r.Legs[n.i-1].Shape
	if n.from().Kind != course.Tunnel && (before.Gap < 5 || !within(before.Turn, 0, 30) || !within(before.Depart, 0, 30)) {
		return
	}
	if len(n.l.Meets) == 0 {
		return
	}
	m := n.l.Meets[0] // whatever it is, it stands before what follows
	if m.Range <= 8 && m.Entry >= 0 && m.Obstacle != n.to().Obstacle {
		n.add(TightFastTrap, "%s", n.r.Label(m.Entry))
	}
}
