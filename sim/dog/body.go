// Package dog is the simulated dog: what it sees, what pulls it, how it strides,
// turns and jumps. It is given entries without numbers and a handler to look at;
// nothing in this package knows the order of the course.
//
// Lengths are metres, times seconds, angles radians. Ids such as J1 or G5 name
// rows of the table of sources in sim/MODEL.md; C marks common practice or a fitted
// value with no source.
package dog

import "cuewalk/course/geom"

// Mode is what the dog is doing.
type Mode uint8

// The modes.
const (
	Waiting  Mode = iota // at the start, not released
	Ground               // galloping
	Air                  // over a jump
	Inside               // in a tunnel, in the weaves, on a contact or a table
	Standing             // stopped, looking for what to do
)

var modeNames = []string{"waiting", "on the ground", "in the air", "inside", "standing"}

// String returns the mode in plain words.
func (m Mode) String() string { return modeNames[m] }

// Body is the dog at one instant.
type Body struct {
	At      geom.Point // middle of the trunk
	Heading geom.Angle // in the air, the heading it will land on
	Speed   float64    // m/s
	Stride  float64    // length of the present stride, m
	Turn    float64    // curvature of its line, 1/m, right positive
	Mode    Mode
	Entry   int // entry it is in or over; -1 for none
}

// Seen is one entry as the dog has it before its eyes.
type Seen struct {
	Entry   int        // index in the scene
	Bearing geom.Angle // off its heading, right positive; only where all is looked at, else see Off
	Range   float64    // metres
	Width   geom.Angle // angular width of the opening, hidden or not
	Visible float64    // 0..1, what is left open of that width
	ByBody  bool       // the handler's body hides some of it
	Pull    float64    // rate at which it gets the dog, per second
	Parts   Parts      // what the handler says of it

	line               geom.Point // one metre along the way to it
	chest, arm, motion float64    // how well they point at it, 0..1
}

// State is the dog between two samples. It is a plain value: copying it forks the run.
type State struct {
	Body
	Commit int // entry it has committed to; -1 for none

	TurnRead  float64 // seconds a turn has been read and not taken back
	Seeking   float64 // 0 sees something to do before it .. 1 looks about for it
	Last      int     // obstacle it has just come out of; -1 for none
	SinceLast float64 // seconds since then
	Passage           // the jump or obstacle it is in
}

// Passage is the way over or through one obstacle.
type Passage struct {
	Track    geom.Angle // ground track in the air; straight
	Off      geom.Angle // angle of the flight to the way through the entry, right positive
	Total    float64    // seconds it takes
	Gone     float64    // seconds of it gone
	TakeOff  float64    // paws to bar, m
	Landing  float64    // bar to paws, m
	Misfit   float64    // m by which the take-off was off its spot
	Late     bool       // a turn was read, but too late to land turned
	Lateness float64    // 0..1: how much of a turn it is asked for in the last instant
}

// Reset puts the dog at a pose with a speed, committed to nothing.
func (s *State) Reset(p geom.Pose, speed float64) {
	*s = State{Body: Body{At: p.At, Heading: p.Heading, Speed: speed, Mode: Ground, Entry: -1}, Commit: -1, Last: -1, SinceLast: 10}
}

// Off returns where an entry seen by a dog heading along h lies, right positive.
func (s *Seen) Off(h geom.Angle) geom.Angle { return geom.Point{}.Towards(s.line).Off(h) }

// Pose returns where the dog is and where it heads.
func (b Body) Pose() geom.Pose { return geom.Pose{At: b.At, Heading: b.Heading} }
