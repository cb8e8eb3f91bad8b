// Package plan holds a handling plan: where the handler stands when the dog is
// released, and the cues he gives, each at a moment of the dog's run. It knows
// the course's numbers; it knows nothing of how a dog decides.
package plan

import (
	"cuewalk/course/geom"
)

// Plan is a handling plan as written. Lengths are metres whatever units the file used.
type Plan struct {
	Name    string
	For     string     // name of the course it is for; empty for any
	LeadOut geom.Point // where the handler stands when the dog is released
	Cues    []Cue      // in the order of their moments
	File    string     // the file it came from; empty for none
}

// Cue is a moment of the dog's run, where the handler is when it comes, and what
// he begins to do then. What is not set stays as it was, except Signal and Word,
// which last until the next cue.
type Cue struct {
	When      Moment
	Stand     geom.Point
	HasStand  bool
	Pace      Pace
	Arm       Arm
	Signal    Signal
	Shoulders Shoulders
	Cross     Cross
	Word      string // as written; empty for none
	Line      int    // line of the file its table starts at, 0 for none
}

// Pace is how the handler goes from a cue on.
type Pace uint8

// The paces. The zero value keeps the pace that was.
const (
	SamePace Pace = iota
	Run
	Jog
	Walk
	Stop
)

// Arm is the side the dog works on.
type Arm uint8

// The arms. The zero value keeps the arm that was.
const (
	SameArm Arm = iota
	LeftArm
	RightArm
)

// Other returns the arm on the other side; SameArm stays.
func (a Arm) Other() Arm {
	switch a {
	case LeftArm:
		return RightArm
	case RightArm:
		return LeftArm
	}
	return a
}

// Sign returns +1 for the right arm, -1 for the left, 0 for SameArm.
func (a Arm) Sign() float64 {
	switch a {
	case LeftArm:
		return -1
	case RightArm:
		return 1
	}
	return 0
}

// Signal is what the arm does.
type Signal uint8

// The signals. The zero value is along, which is also what a cue without one means.
const (
	Along Signal = iota // held along the way
	Pull                // arm and hand turned in: draws the dog to this side
	Push                // sends it away from the handler
)

// Cross is a change of sides.
type Cross uint8

// The crosses.
const (
	NoCross    Cross = iota
	FrontCross       // turns toward the dog in front of it
	BlindCross       // turns away from the dog in front of it
	RearCross        // passes behind its path
)

// Facing is how the shoulders are told to face.
type Facing uint8

// The facings. The zero value keeps the facing that was.
const (
	SameFacing  Facing = iota
	FaceNext           // supports: the obstacle the dog is to take, as far as his running lets him
	FaceWay            // where he goes
	FaceDog            // the dog
	FaceNumber         // the obstacle with number Shoulders.Number
	FaceHeading        // the heading Shoulders.Heading
)

// Shoulders is which way the handler's chest faces.
type Shoulders struct {
	Facing  Facing
	Number  int
	Heading geom.Angle
}

var (
	paceNames   = []string{"", "run", "jog", "walk", "stop"}
	armNames    = []string{"", "left", "right"}
	signalNames = []string{"along", "pull", "push"}
	crossNames  = []string{"", "front", "blind", "rear"}
)

// Paces, Arms, Signals and Crosses list the words as written in files, in the
// order of the constants; an empty word stands for a value that cannot be written.
func Paces() []string   { return append([]string(nil), paceNames...) }
func Arms() []string    { return append([]string(nil), armNames...) }
func Signals() []string { return append([]string(nil), signalNames...) }
func Crosses() []string { return append([]string(nil), crossNames...) }

// String returns the pace as written in files; empty for SamePace.
func (p Pace) String() string { return paceNames[p] }

// String returns the arm as written in files; empty for SameArm.
func (a Arm) String() string { return armNames[a] }

// String returns the signal as written in files.
func (s Signal) String() string { return signalNames[s] }

// String returns the cross as written in files; empty for NoCross.
func (c Cross) String() string { return crossNames[c] }
