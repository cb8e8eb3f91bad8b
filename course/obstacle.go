package course

import (
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

// Defaults fills the sizes of o that are 0 with those usual for its kind and a
// dog's jump height of bar metres. Sizes are those of the FCI 2012 texts and club
// reproductions: bar 1.2-1.5 m, wing 0.4-0.6 m, tunnel 0.6 m across, A-frame
// sides of 2.7 m and 0.9 m breadth, dog walk of three parts of 3.6 m, 0.3 m
// broad, seesaw 3.66 m, table about 0.9 m square.
func (o *Obstacle) Defaults(bar float64) {
	set := func(v *float64, d float64) {
		if *v == 0 {
			*v = d
		}
	}
	switch o.Kind {
	case Jump, Wall:
		set(&o.Width, 1.2)
		set(&o.Height, bar)
		if o.Wings {
			set(&o.Wing, 0.5)
		}
		if o.Kind == Wall {
			set(&o.Wing, 0.4)
			set(&o.Length, 0.2)
		}
	case Spread:
		set(&o.Width, 1.2)
		set(&o.Height, bar)
		set(&o.Length, 0.4)
		if o.Wings {
			set(&o.Wing, 0.5)
		}
	case LongJump:
		set(&o.Width, 1.2)
		set(&o.Height, 0.28)
		set(&o.Length, 1.2)
	case Tyre:
		set(&o.Width, 0.55)
		set(&o.Height, bar)
		set(&o.Wing, 0.4)
	case Tunnel:
		set(&o.Width, 0.6)
		set(&o.Height, 0.6)
		o.Length = geom.PathLength(o.Through)
	case Weaves:
		if o.Poles == 0 {
			o.Poles = 12
		}
		set(&o.Width, 0.6)
		o.Length = Spacing * float64(o.Poles-1)
	case AFrame:
		set(&o.Width, 0.9)
		set(&o.Height, 1.7)
		set(&o.Length, 4.2)
	case DogWalk:
		set(&o.Width, 0.3)
		set(&o.Height, 1.2)
		set(&o.Length, 10.5)
	case Seesaw:
		set(&o.Width, 0.3)
		set(&o.Height, 0.61)
		set(&o.Length, 3.66)
	case Table:
		set(&o.Width, 0.9)
		set(&o.Height, bar)
		set(&o.Length, 0.9)
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
