// Package dog is the simulated dog: what it sees, what pulls it, how it strides,
// turns and jumps. It is given entries without numbers and a handler to look at;
// nothing in this package knows the order of the course.
//
// Lengths are metres, times seconds, angles radians.
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
	Heading geom.Angle
	Speed   float64 // m/s
	Stride  float64 // length of the present stride, m
	Turn    float64 // curvature of its line, 1/m, right positive
	Mode    Mode
	Entry   int // entry it is in or over; -1 for none
}

// Seen is one entry as the dog has it before its eyes.
type Seen struct {
	Entry   int        // index in the scene
	Bearing geom.Angle // off its heading, right positive
	Range   float64    // metres
	Width   geom.Angle // angular width of the opening, hidden or not
	Visible float64    // 0..1, what is left open of that width
	ByBody  bool       // the handler's body hides some of it
	Pull    float64    // rate at which it gets the dog, per second
}
