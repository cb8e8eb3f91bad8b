package geom

import "math"

// Turn is how a stretch of a path bends.
type Turn int8

// The ways a stretch bends.
const (
	LeftTurn  Turn = -1
	Straight  Turn = 0
	RightTurn Turn = 1
)

// Stretch is a part of a path that bends one way throughout.
type Stretch struct {
	Turn   Turn
	Length float64 // metres along the path
}

// Path is a way of up to three stretches, each straight or an arc of the same
// radius, without corners between them.
type Path struct {
	From     Pose
	Radius   float64 // of every arc, metres
	Segments [3]Stretch
	Length   float64 // metres
	Word     string  // L, S and R in the order of the stretches, such as "LSL"
}

// Arc returns the pose d metres on along an arc of the given curvature: 1/radius,
// positive to the right, 0 for straight on. A negative d goes backwards.
func (p Pose) Arc(d, curvature float64) Pose {
	half := d * curvature / 2
	square := half * half
	chord := d * (1 - square/6*(1-square/20)) // below a tenth right to 2e-10
	if square > 0.01 {
		chord = d * math.Sin(half) / half
	}
	mid := p.Heading + Angle(half)
	return Pose{p.At.Add(mid.Unit().Mul(chord)), (p.Heading + Angle(2*half)).Wrap()}
}

// At returns the pose s metres along the path; s beyond either end gives that end.
func (p Path) At(s float64) Pose {
	pose := p.From
	s = max(0, min(p.Length, s))
	for i, seg := range p.Segments {
		d := min(s, seg.Length)
		if i == len(p.Segments)-1 && s >= p.Length {
			d = seg.Length // whatever rounding left over
		}
		pose = pose.Arc(d, float64(seg.Turn)/p.Radius)
		s = max(0, s-d)
	}
	return pose
}

// End returns the pose at the end of the path.
func (p Path) End() Pose { return p.At(p.Length) }

// word is a candidate: how it bends, and its stretches in units of the radius.
type word struct {
	name  string
	turns [3]Turn
	parts [3]float64
}

func (w word) length() float64 { return w.parts[0] + w.parts[1] + w.parts[2] }

func (w word) path(from Pose, radius float64) Path {
	p := Path{From: from, Radius: radius, Word: w.name}
	for i, d := range w.parts {
		p.Segments[i] = Stretch{w.turns[i], d * radius}
		p.Length += d * radius
	}
	return p
}

// Dubins returns the shortest path from one pose to another that nowhere bends
// tighter than radius, which must be positive. (L. E. Dubins 1957; the formulae
// for the six words: Shkel and Lumelsky, Classification of the Dubins set, 2001.)
func Dubins(from, to Pose, radius float64) Path {
	words, n := dubinsWords(from, to, radius)
	return shortest(words[:n]).path(from, radius)
}

// shortest returns the shortest of words, the first of equals.
func shortest(words []word) word {
	best := words[0]
	for _, w := range words[1:] {
		if w.length() < best.length() {
			best = w
		}
	}
	return best
}

// dubinsWords returns those of the six words that lead from one pose to the other, and
// how many they are; LSL and RSR always do.
func dubinsWords(from, to Pose, radius float64) (words [6]word, n int) {
	d := from.At.Dist(to.At) / radius
	along := from.At.Towards(to.At)
	// The sources count angles anticlockwise from the line between the poses.
	a, b := float64(along-from.Heading), float64(along-to.Heading)
	sa, ca := math.Sincos(a)
	sb, cb := math.Sincos(b)
	cab := math.Cos(a - b)
	add := func(name string, turns [3]Turn, t, p, q float64) {
		words[n] = word{name, turns, [3]float64{turnOf(t), p, turnOf(q)}}
		n++
	}
	const l, s, r = LeftTurn, Straight, RightTurn

	h := math.Atan2(cb-ca, d+sa-sb)
	add("LSL", [3]Turn{l, s, l}, h-a, root(2+d*d-2*cab+2*d*(sa-sb)), b-h)
	h = math.Atan2(ca-cb, d-sa+sb)
	add("RSR", [3]Turn{r, s, r}, a-h, root(2+d*d-2*cab+2*d*(sb-sa)), h-b)
	if pp := -2 + d*d + 2*cab + 2*d*(sa+sb); pp >= 0 {
		p := math.Sqrt(pp)
		h = math.Atan2(-ca-cb, d+sa+sb) - math.Atan2(-2, p)
		add("LSR", [3]Turn{l, s, r}, h-a, p, h-b)
	}
	if pp := -2 + d*d + 2*cab - 2*d*(sa+sb); pp >= 0 {
		p := math.Sqrt(pp)
		h = math.Atan2(ca+cb, d-sa-sb) - math.Atan2(2, p)
		add("RSL", [3]Turn{r, s, l}, a-h, p, b-h)
	}
	if c := (6 - d*d + 2*cab + 2*d*(sa-sb)) / 8; math.Abs(c) <= 1 {
		p := 2*math.Pi - math.Acos(c)
		t := a - math.Atan2(ca-cb, d-sa+sb) + p/2
		add("RLR", [3]Turn{r, l, r}, t, p, a-b-t+p)
	}
	if c := (6 - d*d + 2*cab + 2*d*(sb-sa)) / 8; math.Abs(c) <= 1 {
		p := 2*math.Pi - math.Acos(c)
		t := -a + math.Atan2(cb-ca, d+sa-sb) + p/2
		add("LRL", [3]Turn{l, r, l}, t, p, b-a-t+p)
	}
	return words, n
}

// root is the square root, 0 for what rounding made negative.
func root(x float64) float64 { return math.Sqrt(max(0, x)) }

// turnOf brings an angle into [0, 2 pi); rounding just below a whole turn is no turn.
func turnOf(x float64) float64 {
	w := float64(Angle(x).Compass())
	if w > 2*math.Pi-1e-10 {
		return 0
	}
	return w
}
