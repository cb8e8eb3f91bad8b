package sim

import (
	"cuewalk/course/geom"
	"cuewalk/sim/dog"
)

// FaultKind is what can go wrong on a leg.
type FaultKind uint8

// The faults. Every dog that leaves a leg is counted once: clean, or under the first thing
// that went wrong; these chances sum to 1. Collisions are beside that.
const (
	OffCourse FaultKind = iota
	WrongSide
	Refusal
	KnockedBar
	MissedContact
	Collision
	FaultKinds
)

var faultNames = [FaultKinds]string{"off_course", "wrong_side", "refusal", "knocked_bar", "missed_contact", "collision"}

// String returns the fault as it is written in JSON.
func (k FaultKind) String() string { return faultNames[k] }

// Ends reports whether the fault ends the leg: the dog does not take what is next rightly.
func (k FaultKind) Ends() bool { return k <= Refusal }

// Counts reports whether the fault is one that a leg is not clean for.
func (k FaultKind) Counts() bool { return k != Collision }

// Fault is one thing that goes wrong on a leg, with its chance.
type Fault struct {
	Kind     FaultKind
	Entry    int          // index in Setup.Entries of the wrong entry; -1 where there is none
	Obstacle int          // index in the course of the obstacle it happens at
	Chance   float64      // 0..1, for a dog that comes to this leg as planned
	Bearing  geom.Angle   // where it lay off the dog's heading when it pulled most, right positive
	Range    float64      // how far off then, metres
	InView   float64      // seconds the dog had it in view before it took anything
	Off      geom.Angle   // how far the handler's lead was off it then; meaningless where Strength is 0
	Strength float64      // how loud the handler was then
	Parts    dog.Parts    // what he said of it then, part by part
	Ahead    bool         // the handler had not turned the dog when it left the ground
	Stray    bool         // comes up off the likely line only: the figures above are means of runs, InView unknown
	Wide     float64      // of a refusal off the likely line: metres to the right of the obstacle's middle at which it is run past; 0 where the dog takes nothing and Range is the nearest it comes
	Leaves   int          // sample of the likely run at which the dog leaves the line; -1 where it does not
	Path     []geom.Point // where it would run from there
}

// Hidden is an obstacle that the handler's body covered on a leg.
type Hidden struct {
	Obstacle int
	Seconds  float64
}

// Leg is the way to one course number, from the take-off (or entry) of the one
// before to that of its own.
type Leg struct {
	Number      int // course number of its target
	Clean       float64
	Low, High   float64 // 95 % interval of Clean from the runs; both equal Clean where none were run
	Faults      []Fault // likeliest first
	First, Last int     // samples of the likely run, both included
	Speed       float64 // mean, m/s
	Stride      float64 // mean ground stride, m
	TakeOff     float64 // paws to bar, m; 0 where the target is not jumped
	Landing     float64 // bar to paws, m; 0 where the target is not jumped
	Flight      float64 // seconds in the air over the target
	Radius      float64 // tightest radius, m; +Inf on a straight line
	Time        float64 // seconds
	Hidden      []Hidden
}

// CueTiming is what became of one action of the plan on the likely run.
type CueTiming struct {
	Action     int     // index in Setup.Actions
	Sample     int     // sample at which it was given; -1 if its moment never came
	Given      float64 // seconds since release
	Late       float64 // seconds after the moment at which he is at the stand, as he runs; 0 if he was there
	Short      float64 // seconds by which he could not be there however early he set off from the cue before; 0 if he could
	Off        float64 // metres from the stand when the moment came
	Where      geom.Point
	Obstacle   int  // course number whose take-off or entry it had to be read before
	ReadInTime bool // read before that take-off or entry
}

// Rehearsal is everything the simulator says of one plan run by one team.
type Rehearsal struct {
	Setup          *Setup
	Trace          Trace
	Legs           []Leg
	Cues           []CueTiming
	Length         float64 // metres of the dog's line
	Time           float64 // seconds, release to the last landing or exit
	Clean          float64 // chance of a whole clean run
	Low, High      float64 // its 95 % interval; equal Clean where none were run
	Time10, Time90 float64 // tenth and ninetieth percentile of the time of clean runs
	Runs           int     // whole runs behind Clean; 0: Clean is the product of the legs'
	Seed           uint64
}

// Worst returns the numbers of the up to n legs least likely to be clean, worst
// first, leaving out those above 0.98.
func (r *Rehearsal) Worst(n int) []int {
	var out []int
	used := make([]bool, len(r.Legs))
	for range n {
		best := -1
		for i := range r.Legs {
			if !used[i] && r.Legs[i].Clean < 0.98 && (best < 0 || r.Legs[i].Clean < r.Legs[best].Clean) {
				best = i
			}
		}
		if best < 0 {
			break
		}
		used[best] = true
		out = append(out, r.Legs[best].Number)
	}
	return out
}
