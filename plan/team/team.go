// Package team holds what is known of a dog and its handler: the figures the
// simulator runs on. It knows nothing of courses being run or of plans.
//
// Lengths are metres, times seconds, angles radians. Ids such as J1 or G5 name
// rows of the table of sources in sim/MODEL.md. A figure marked C is common practice
// or fitted, with no source; one marked M is from memory.
package team

import (
	"cuewalk/course"
	"cuewalk/course/geom"
)

// Team is one dog and one handler.
type Team struct {
	Name    string
	Dog     Dog
	Handler Handler
	Words   map[string]Meaning // this handler's own words
	File    string             // the file it came from; empty for a preset
}

// Meaning is what a word tells the dog.
type Meaning struct {
	Sense Sense
	Kind  course.Kind // which kind of obstacle, where Sense is Name
}

// Sense is the direction a word gives.
type Sense uint8

// The senses a word can have.
const (
	Silent Sense = iota // no word
	Come                // to the handler
	Go                  // straight on
	Out                 // away from the handler
	Left                // turn left
	Right               // turn right
	Turn                // turn to the side the handler is on
	Name                // take that kind of obstacle
	SenseCount
)

var senseNames = [SenseCount]string{"", "come", "go", "out", "left", "right", "turn", ""}

// String returns the sense as it is written in files; empty for Silent and Name.
func (s Sense) String() string {
	if s < SenseCount {
		return senseNames[s]
	}
	return ""
}

// MeaningOf returns what a word written in a file means without any team's own
// words: the six directions and the kinds of obstacle.
func MeaningOf(word string) (Meaning, bool) {
	for s := Come; s < Name; s++ {
		if senseNames[s] == word {
			return Meaning{Sense: s}, true
		}
	}
	if k, ok := course.KindOf(word); ok {
		return Meaning{Sense: Name, Kind: k}, true
	}
	return Meaning{}, false
}

// Meaning returns what word means to this team: its own words first.
func (t *Team) Meaning(word string) (Meaning, bool) {
	if m, ok := t.Words[word]; ok {
		return m, true
	}
	return MeaningOf(word)
}

// Dog is what is known of a dog. Every figure can be set in a team file.
type Dog struct {
	Withers float64 // height at the withers, 0.15-0.90
	Focus   float64 // 0 watches the handler, 1 watches the obstacles

	Collected    float64 // speed in collected strides, m/s
	Extended     float64 // speed on an open line, m/s
	Acceleration float64 // m/s2
	Braking      float64 // m/s2
	Grip         float64 // largest sideways acceleration on good ground, m/s2
	Radius       float64 // smallest radius at low speed, about a body's length
	LeadChange   float64 // seconds a change of leading leg costs in a change of direction

	TakeOffCollected, TakeOffExtended float64    // paws to bar at take-off
	LandingCollected, LandingExtended float64    // bar to paws at landing
	LandingTurn                       geom.Angle // most a landing can be turned already
	TurnRead                          float64    // seconds before take-off a turn must be read for all of that

	Latency     float64    // from what the handler's body does to what the dog does
	WordLatency float64    // the same for a word
	Attention   geom.Angle // width of attention either side of the way it goes
	FieldOfView geom.Angle // all told

	Weaves  float64 // seconds for 12 poles
	AFrame  float64 // seconds from up contact to ground
	DogWalk float64
	Seesaw  float64
	Table   float64 // seconds it must stay on the table
	Contact float64 // 0..1 how sure it is of its contact zones
	Entry   float64 // 0..1 how sure it is of the weave entry
	Bars    float64 // 0..1 how careful it is with bars

	Knows [SenseCount]float64       // 0..1 how well it knows each word; Name stands for obstacle names
	Draw  [course.KindCount]float64 // how much each kind pulls; 1 = like a jump
}

// Handler is what is known of a handler.
type Handler struct {
	Speed        float64 // top speed, m/s
	Acceleration float64 // m/s2
	Braking      float64 // m/s2
	Turning      float64 // radians per second
	Reaction     float64 // seconds to answer what he did not expect
	Backward     float64 // speed backwards as a share of forwards
	Sideways     float64 // speed sideways as a share of forwards
	Body         float64 // radius of the body as it hides things, m
	Timing       float64 // spread of the moment a cue is given, s
	Placing      float64 // spread of the place he reaches, m
	Step         float64 // length of a step when pacing out, m; 0 where not known
}
