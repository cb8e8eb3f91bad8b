package course

// Kind is a kind of obstacle.
type Kind uint8

// The kinds of obstacle a course may hold.
const (
	Jump      Kind = iota // a bar between two uprights, with or without wings
	Spread                // two bars, the far one higher; taken one way only
	LongJump              // low units to be cleared in length; taken one way only
	Wall                  // a wall with displaceable units on top
	Tyre                  // a ring to jump through
	Tunnel                // a pipe, straight or curved
	Weaves                // a row of poles
	AFrame                // two ramps with contact zones
	DogWalk               // a plank with a ramp at each end, with contact zones
	Seesaw                // a plank that tips, with contact zones
	Table                 // a platform to stop on
	KindCount             // how many kinds there are
)

var kindNames = [KindCount]string{
	"jump", "spread", "long jump", "wall", "tyre", "tunnel", "weaves", "A-frame", "dog walk", "seesaw", "table",
}

// KindNames lists the kinds as they are written in files, in the order of the constants.
func KindNames() []string { return append([]string(nil), kindNames[:]...) }

// alsoCalled are names of obstacles that people use, and what they are called here (common
// practice, no source).
var alsoCalled = map[string]Kind{
	"hurdle": Jump, "single": Jump, "bar jump": Jump, "double": Spread, "triple": Spread, "oxer": Spread, "double jump": Spread,
	"triple jump": Spread, "broad jump": LongJump, "panel": Wall, "panel jump": Wall, "hoop": Tyre, "ring": Tyre,
	"pipe": Tunnel, "pole": Weaves, "poles": Weaves, "weave poles": Weaves, "slalom": Weaves, "frame": AFrame,
	"walk": DogWalk, "plank": DogWalk, "teeter": Seesaw, "teeter-totter": Seesaw, "see saw": Seesaw, "pause table": Table, "box": Table,
}

// KindOf returns the kind written as name, and whether there is one.
func KindOf(name string) (Kind, bool) {
	for k, n := range kindNames {
		if n == name {
			return Kind(k), true
		}
	}
	return 0, false
}

// String returns the kind as it is written in files.
func (k Kind) String() string {
	if k < KindCount {
		return kindNames[k]
	}
	return "unknown obstacle"
}

// One names one obstacle of the kind in a sentence: "a jump", "an A-frame", "weaves".
func (k Kind) One() string {
	switch k {
	case Weaves:
		return k.String()
	case AFrame:
		return "an " + k.String()
	}
	return "a " + k.String()
}

// Jumped reports whether the dog takes the kind by jumping: it then has a
// take-off and a landing; the others have an entry and an exit.
func (k Kind) Jumped() bool { return k <= Tyre }

// Contact reports whether the kind has contact zones.
func (k Kind) Contact() bool { return k == AFrame || k == DogWalk || k == Seesaw }

// Solid reports whether a dog cannot see through or over the kind.
func (k Kind) Solid() bool { return k == Wall || k == Tunnel || k == AFrame || k == Table }

// OneWay reports whether the kind may be taken only the way it is drawn.
func (k Kind) OneWay() bool { return k == Spread || k == LongJump }
