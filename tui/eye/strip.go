// Package eye draws what the dog has before its eyes: a strip that keeps still, straight
// ahead in its middle, while the world slides through it as the dog turns.
package eye

import (
	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim"
	"cuewalk/sim/dog"
)

// Strip is one look of the dog. Only Course and Dog must be set.
type Strip struct {
	Course    *course.Course
	Entries   []course.Entry // as in sim.Setup
	Dog       dog.Body
	Seen      []dog.Seen // from left to right
	Hand      sim.Hand
	Handler   bool       // Hand is known: draw him
	Body      float64    // his radius, metres; 0 for 0.2
	Lead      geom.Angle // heading on the map that he indicates
	Strength  float64    // how loud that is; 0: he says nothing
	Right     int        // index in Entries of the one that should come next; -1 for none. The dog does not know it
	Told      int        // index of the obstacle that the dog may wrongly take, as is told beside the strip; -1 for none
	Commit    int        // index in Entries of the one the dog has committed to; -1 for none
	Labels    []string   // name of each obstacle, by its index; the id where it is missing
	Attention geom.Angle // width of attention; 0 for 26 degrees
	Field     geom.Angle // field of view all told; 0 for 240 degrees
	// Coming is what the dog is still inside, if this is what it will see coming out of
	// it; Jump, in which nobody is inside, for none.
	Coming course.Kind
}

// Look is the strip at a sample of a run: what Setup.See says there.
// buf is used for Seen and may be nil.
func Look(s *sim.Setup, at sim.Sample, buf []dog.Seen) Strip {
	out := Strip{
		Course: s.Course, Entries: s.Entries, Dog: at.Dog, Seen: s.See(at, buf[:0]), Hand: at.Hand,
		Handler: true, Lead: at.Lead.Heading, Strength: at.Lead.Strength,
		Right: -1, Told: -1, Commit: at.Commit, Labels: Labels(s.Course, at.Leg),
	}
	if s.Team != nil {
		out.Body, out.Attention, out.Field = s.Team.Handler.Body, s.Team.Dog.Attention, s.Team.Dog.FieldOfView
	}
	if at.Leg >= 1 && at.Leg <= len(s.Course.Order) {
		out.Right = s.Right(at.Leg)
	}
	return out
}
