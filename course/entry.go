package course

import (
	"cuewalk/course/geom"
)

// Entry is one way for a dog to take an obstacle. It carries no course number:
// whether it is the right one is for the judge to say, not for the dog.
type Entry struct {
	Obstacle int        // index of the obstacle on the course
	Kind     Kind       // its kind
	Reverse  bool       // against the way the obstacle is drawn
	At       geom.Point // middle of the opening: where a jump's bar or an obstacle's near end is
	Heading  geom.Angle // the way through it
	Half     float64    // half the breadth of the opening, metres
	// Left and Right are the largest angles off Heading at which a dog coming from
	// the left or the right of its axis can still take it. They differ for weave
	// poles only: the first pole must pass at the dog's left shoulder.
	Left, Right geom.Angle
	Exit        geom.Pose // where the far end is, and the way out of it
	Length      float64   // metres of way from At to Exit
	Height      float64   // bar height, metres; 0 where nothing is jumped
	WrongWay    bool      // the obstacle may not be taken this way by anyone
}

// Largest approach angles by kind (fitted, no source): a tunnel can be ducked into
// from far to the side, a plank only from nearly straight on.
var approach = [KindCount]geom.Angle{
	Jump: geom.Deg(60), Spread: geom.Deg(45), LongJump: geom.Deg(45), Wall: geom.Deg(60), Tyre: geom.Deg(50),
	Tunnel: geom.Deg(100), Weaves: geom.Deg(65), AFrame: geom.Deg(50), DogWalk: geom.Deg(45), Seesaw: geom.Deg(45),
	Table: geom.Deg(60),
}

// weaveHard is the largest approach angle from the side where the first pole must
// be wrapped (common practice, no source).
var weaveHard = geom.Deg(30)

// Entries returns every way to take the obstacle with index i: the way it is
// drawn first, then against it; a table has all four sides.
func (o Obstacle) Entries(i int) []Entry {
	switch o.Kind {
	case Tunnel:
		return o.mouths(i)
	case Table:
		return o.sides(i)
	}
	entries := []Entry{o.straight(i, false), o.straight(i, true)}
	if o.Kind == Weaves {
		for k := range entries {
			entries[k].Left = weaveHard
		}
	}
	return entries
}

func (o Obstacle) straight(i int, reverse bool) Entry {
	p := o.pose()
	if reverse {
		p.Heading = (p.Heading + geom.Deg(180)).Wrap()
	}
	length := o.Length
	if o.Kind == Jump || o.Kind == Tyre || o.Kind == Wall {
		length = 0
	}
	e := Entry{
		Obstacle: i, Kind: o.Kind, Reverse: reverse,
		At: p.Ahead(-length / 2), Heading: p.Heading, Half: o.Width / 2,
		Left: approach[o.Kind], Right: approach[o.Kind],
		Exit: geom.Pose{At: p.Ahead(length / 2), Heading: p.Heading}, Length: length,
		WrongWay: reverse && o.Kind.OneWay(),
	}
	if o.Kind.Jumped() {
		e.Height = o.Height
	}
	return e
}

func (o Obstacle) mouths(i int) []Entry {
	pts := o.Through
	n := len(pts)
	in, out := pts[0].Towards(pts[1]), pts[n-2].Towards(pts[n-1])
	forth := Entry{
		Obstacle: i, Kind: Tunnel, At: pts[0], Heading: in, Half: o.Width / 2,
		Left: approach[Tunnel], Right: approach[Tunnel],
		Exit: geom.Pose{At: pts[n-1], Heading: out}, Length: o.Length,
	}
	back := forth
	back.Reverse = true
	back.At, back.Heading = pts[n-1], (out + geom.Deg(180)).Wrap()
	back.Exit = geom.Pose{At: pts[0], Heading: (in + geom.Deg(180)).Wrap()}
	return []Entry{forth, back}
}

func (o Obstacle) sides(i int) []Entry {
	entries := make([]Entry, 0, 4)
	for k := range 4 {
		h := (o.Facing + geom.Deg(90*float64(k))).Wrap()
		depth, half := o.Length/2, o.Width/2
		if k%2 == 1 {
			depth, half = half, depth
		}
		p := geom.Pose{At: o.At, Heading: h}
		entries = append(entries, Entry{
			Obstacle: i, Kind: Table, Reverse: k == 2, At: p.Ahead(-depth), Heading: h, Half: half,
			Left: approach[Table], Right: approach[Table],
			Exit: geom.Pose{At: p.Ahead(depth), Heading: h}, Length: 2 * depth,
		})
	}
	return entries
}
