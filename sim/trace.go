package sim

import (
	"cuewalk/course/geom"
	"cuewalk/sim/dog"
)

// Sample is one instant of a run, as it is drawn and explained.
type Sample struct {
	Time    float64 // seconds since the release
	Stride  int     // strides and flights since the release
	Dog     dog.Body
	Hand    Hand
	Cue     int      // index in Setup.Actions of the action in force
	Leg     int      // course number the team is on its way to, from 1
	Commit  int      // index in Setup.Entries of the entry the dog has committed to, -1 for none
	Lead    dog.Lead // what the dog reads of its handler
	Last    int      // obstacle it has just come out of; -1 for none
	Since   float64  // seconds since then
	Seeking float64  // 0..1: it sees nothing to do where it goes and looks about
	Survive float64  // chance that a dog on this line has committed to nothing yet
}

// Trace is a run as a series of samples.
type Trace struct {
	Samples []Sample
	Strides []int // index of the first sample of each stride and flight
	Paws    []PawPrint
}

// PawPrint is a place where the dog's feet come down: one for each ground stride,
// and the take-off and landing of each flight.
type PawPrint struct {
	At     geom.Point
	Sample int
	Mark   Mark
}

// Mark says what a paw print is.
type Mark uint8

// The marks.
const (
	GroundStride Mark = iota
	TakeOffMark
	LandingMark
)
