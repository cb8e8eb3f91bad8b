package plan

import (
	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan/team"
)

// Action is a cue with everything filled in: what stayed from earlier cues, what a
// cross swaps, what the word means to the team. Action 0 of a plan is the lead-out.
type Action struct {
	When      Moment
	Stand     geom.Point // where the handler wants to be when the moment comes
	HasStand  bool       // false: he is wherever his way has brought him
	Pace      Pace
	Arm       Arm
	Signal    Signal
	Shoulders Shoulders
	Cross     Cross
	Word      team.Meaning
	Spoken    string    // the word as said
	Manoeuvre Manoeuvre // what the trade calls it
	Cue       int       // index in Plan.Cues; -1 for the lead-out
}

// Manoeuvre is a handling manoeuvre by its name in the trade.
type Manoeuvre uint8

// The manoeuvres that positions, arms and shoulders make.
const (
	NoManoeuvre Manoeuvre = iota
	LeadOut
	Front      // front cross
	Blind      // blind cross
	Rear       // rear cross
	Serpentine // shoulders to the dog along a line that weaves past the obstacles' fronts
	Threadle   // draws the dog between two obstacles to take the second from its far side
	Wrap       // the dog is turned tightly round the upright of the jump it takes
	PostTurn   // the handler turns with the dog on his outside
	Layering   // an obstacle stands between handler and dog
)

var manoeuvreNames = []string{"", "lead-out", "front cross", "blind cross", "rear cross", "serpentine", "threadle",
	"wrap", "post turn", "layering"}

// String returns the manoeuvre's name in the trade; empty for none.
func (m Manoeuvre) String() string { return manoeuvreNames[m] }

// Resolve returns what the handler does on course c with team t, as actions in
// order: the lead-out first, then one for each cue. The plan must have passed Check.
func (p *Plan) Resolve(c *course.Course, t *team.Team) []Action {
	first := Action{
		When: Moment{Event: Release}, Stand: p.LeadOut, HasStand: true, Pace: Stop, Arm: RightArm,
		Shoulders: Shoulders{Facing: FaceNext}, Manoeuvre: LeadOut, Cue: -1,
	}
	first.Arm = leadOutArm(c, p.LeadOut)
	actions := make([]Action, 1, len(p.Cues)+1)
	actions[0] = first
	for i := range p.Cues {
		actions = append(actions, p.Cues[i].after(actions[len(actions)-1], i, t))
	}
	r := recogniser{c: c, p: p, actions: actions, line: newLine(c)}
	for i := range p.Cues {
		actions[i+1].Manoeuvre = r.recognise(i)
	}
	return actions
}

// leadOutArm returns the arm on the side of the dog's first line that the dog is
// on as the handler sees it looking along the course.
func leadOutArm(c *course.Course, at geom.Point) Arm {
	if len(c.Order) == 0 {
		return RightArm
	}
	e := c.Entry(1)
	if (geom.Pose{At: c.Start, Heading: c.Start.Towards(e.At)}).Local(at).X > 0 {
		return LeftArm // handler on the right of the line: the dog is on his left
	}
	return RightArm
}

// after returns the action of cue k when prev was the one before.
func (k *Cue) after(prev Action, i int, t *team.Team) Action {
	a := prev
	a.When, a.Cue, a.Cross, a.Manoeuvre = k.When, i, k.Cross, NoManoeuvre
	a.Stand, a.HasStand = k.Stand, k.HasStand
	a.Signal, a.Spoken, a.Word = k.Signal, k.Word, team.Meaning{}
	if k.Pace != SamePace {
		a.Pace = k.Pace
	}
	if k.Cross != NoCross {
		a.Arm = prev.Arm.Other()
		a.Shoulders = Shoulders{Facing: FaceNext}
	}
	if k.Arm != SameArm {
		a.Arm = k.Arm
	}
	if k.Shoulders.Facing != SameFacing {
		a.Shoulders = k.Shoulders
	}
	if k.Word != "" {
		a.Word, _ = t.Meaning(k.Word)
	}
	return a
}
