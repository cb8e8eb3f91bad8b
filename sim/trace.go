package sim

import (
	"cuewalk/course/geom"
	"cuewalk/plan"
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
	Survive float64  // chance that a dog on this line has committed to nothing yet
}

// Hand is the handler at one instant.
type Hand struct {
	At     geom.Point
	Vel    geom.Point // m/s
	Acc    geom.Point // m/s2
	Chest  geom.Angle // heading the chest faces
	Arm    plan.Arm
	Signal plan.Signal
}

// Speed returns how fast the handler goes, m/s.
func (h Hand) Speed() float64 { return h.Vel.Norm() }

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
