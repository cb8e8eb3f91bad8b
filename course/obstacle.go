package course

import (
	"cmp"

	"cuewalk/course/geom"
)

// Obstacle is one obstacle on the map, as drawn. Lengths are metres.
type Obstacle struct {
	ID     string
	Kind   Kind
	At     geom.Point // middle of the obstacle; of a tunnel, the middle of its pipe
	Facing geom.Angle // the way it is drawn; of a tunnel, the way into its first mouth

	Through []geom.Point // a tunnel's line from mouth to mouth, two points or more
	Wings   bool         // a jump's wings; without them only the uprights stand
	Width   float64      // opening across the way: bar length, tunnel diameter, plank breadth
	Wing    float64      // breadth of each wing beyond the opening, 0 without
	Height  float64      // bar, apex or platform height
	Length  float64      // along the way: depth of a spread, long jump, plank, row of poles, table
	Poles   int          // weaves only
	Line    int          // line of the file it stands in, 0 where it came from no file
}

// Spacing is the distance between two weave poles in metres (FCI from 2007: 60 cm).
const Spacing = 0.60

// usualPoles is how many weave poles stand where nothing else is said.
const usualPoles = 12

// asBar in [usual] stands for the jump height of the dog's class.
const asBar = -1

// usual are the sizes of each kind in metres where a file gives none: those of the FCI
// 2012 texts and club reproductions (bar 1.2-1.5 m, wing 0.4-0.6 m, tunnel 0.6 m across,
// A-frame sides of 2.7 m and 0.9 m breadth, dog walk of three parts of 3.6 m, 0.3 m
// broad, seesaw 3.66 m, table about 0.9 m square). A tunnel's and a row of weaves' length
// follow from their points and poles.
var usual = [KindCount]struct{ width, height, length, wing float64 }{
	Jump:     {1.2, asBar, 0, 0.5},
	Spread:   {1.2, asBar, 0.4, 0.5},
	LongJump: {1.2, 0.28, 1.2, 0},
	Wall:     {1.2, asBar, 0.2, 0.4},
	Tyre:     {0.55, asBar, 0, 0.4},
	Tunnel:   {0.6, 0.6, 0, 0},
	Weaves:   {0.6, 0, 0, 0},
	AFrame:   {0.9, 1.7, 4.2, 0},
	DogWalk:  {0.3, 1.2, 10.5, 0},
	Seesaw:   {0.3, 0.61, 3.66, 0},
	Table:    {0.9, asBar, 0.9, 0},
}

// Defaults fills the sizes of o that are 0 with those [usual] for its kind and a dog's
// jump height of bar metres. Only jumps and spreads can be without wings.
func (o *Obstacle) Defaults(bar float64) {
	u := usual[o.Kind]
	if u.height == asBar {
		u.height = bar
	}
	if (o.Kind == Jump || o.Kind == Spread) && !o.Wings {
		u.wing = 0
	}
	o.Width, o.Height = cmp.Or(o.Width, u.width), cmp.Or(o.Height, u.height)
	o.Length, o.Wing = cmp.Or(o.Length, u.length), cmp.Or(o.Wing, u.wing)
	switch o.Kind {
	case Tunnel:
		o.Length = geom.PathLength(o.Through)
	case Weaves:
		o.Poles = cmp.Or(o.Poles, usualPoles)
		o.Length = Spacing * float64(o.Poles-1)
	}
}

// pose returns the obstacle's middle and the way it is drawn.
func (o Obstacle) pose() geom.Pose { return geom.Pose{At: o.At, Heading: o.Facing} }

// across returns the line across the way d metres ahead of the middle, reaching
// half metres to either side, from left to right.
func (o Obstacle) across(d, half float64) geom.Segment {
	p := geom.Pose{At: o.pose().Ahead(d), Heading: o.Facing}
	return geom.Segment{A: p.Beside(-half), B: p.Beside(half)}
}

// Footprint returns the lines nobody can walk through: bars with their wings,
// pipes, planks, poles, the sides of a table.
func (o Obstacle) Footprint() []geom.Segment {
	half := o.Width/2 + o.Wing
	switch o.Kind {
	case Tunnel:
		return o.pipe()
	case Weaves, DogWalk, Seesaw:
		return []geom.Segment{{A: o.pose().Ahead(-o.Length / 2), B: o.pose().Ahead(o.Length / 2)}}
	case AFrame, Table:
		return o.outline()
	case Spread, LongJump:
		return []geom.Segment{o.across(-o.Length/2, half), o.across(o.Length/2, half)}
	default:
		return []geom.Segment{o.across(0, half)}
	}
}

// Solids returns the lines a dog cannot see past; nil where the obstacle hides nothing.
func (o Obstacle) Solids() []geom.Segment {
	if !o.Kind.Solid() {
		return nil
	}
	return o.Footprint()
}

func (o Obstacle) pipe() []geom.Segment {
	segs := make([]geom.Segment, 0, len(o.Through)-1)
	for i := 1; i < len(o.Through); i++ {
		segs = append(segs, geom.Segment{A: o.Through[i-1], B: o.Through[i]})
	}
	return segs
}

func (o Obstacle) outline() []geom.Segment {
	near, far := o.across(-o.Length/2, o.Width/2), o.across(o.Length/2, o.Width/2)
	return []geom.Segment{near, {A: near.B, B: far.B}, {A: far.B, B: far.A}, {A: far.A, B: near.A}}
}
