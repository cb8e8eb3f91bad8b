// Package reading reads a course through the dog's eyes before any plan exists:
// where the dog's own line goes, what comes before its eyes while it turns, which
// wrong obstacles pull it and where a handler can be in time.
//
// It is pure: the same course, team and rules give the same reading. Lengths are
// metres, times seconds, angles radians. A constant marked C is common practice or
// chosen here and has no source.
package reading

import (
	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/course/rulebook"
	"cuewalk/plan/team"
	"cuewalk/sim/dog"
)

// Reading is what a course says to a dog and its handler without any plan.
type Reading struct {
	Course   *course.Course
	Team     *team.Team
	Rules    *rulebook.Rules // nil for none
	Entries  []course.Entry  // every way to take every obstacle
	Line     Line            // the dog's line at its best
	Length   float64         // of that line from the start to the last bar or exit, metres
	Measured rulebook.Measured
	Findings []rulebook.Finding
	Cautions []rulebook.Caution
	Legs     []Leg // Legs[0] leads from the start to number 1
	Traps    []Trap
	Reach    Reach

	right []int // entry that is right at each number
}

// Leg is the way to one number of the course.
type Leg struct {
	Number   int
	Distance float64     // along the dog's line, from exit or bar to entry or bar
	Turn     geom.Angle  // the dog's turning on the ground, summed with its sign, right positive; may pass 180 degrees
	Approach geom.Angle  // the dog's way over or into the obstacle off the obstacle's own, right positive
	Side     Side        // the side of the obstacle's axis it comes from
	Lead     Side        // the leading leg it gallops on: that of the turn
	Changes  []Change    // where the leading leg changes
	Radius   float64     // tightest arc; +Inf where it runs straight
	Speed    float64     // in the tightest arc, else the mean
	Time     float64     // since the release, when the dog takes the obstacle
	Blocked  bool        // no line free of other obstacles was found
	Natural  geom.Pose   // exit line of the obstacle before, for a dog nobody turns
	Meets    []Meeting   // what lies on that line, nearest first
	Shape    Shape       // the angles from centre to centre
	Views    []View      // in the order in which they come before the dog's eyes
	Names    []Challenge // challenges
	First    int         // first sample of Line that belongs to the leg
	Last     int         // last one, included
}

// Side is left, right or neither.
type Side int8

// The sides.
const (
	Left    Side = -1
	Neither Side = 0
	Right   Side = 1
)

// String returns the side in words.
func (s Side) String() string {
	switch s {
	case Left:
		return "left"
	case Right:
		return "right"
	}
	return "straight"
}

// Change is a change of the leading leg: over the jump before, in the obstacle
// before, or else on the ground, where it costs the dog time.
type Change struct {
	At     geom.Point
	Air    bool
	Inside bool
}

// Read reads a checked course for a team. rules may be nil: then nothing is held
// against a rulebook.
func Read(c *course.Course, t *team.Team, rules *rulebook.Rules) *Reading {
	r := &Reading{Course: c, Team: t, Rules: rules}
	if len(c.Order) == 0 {
		return r
	}
	scene, d := dog.NewScene(c.Obstacles), dog.New(t.Dog, c.Surface)
	r.Entries = scene.Entries
	r.Line, r.right = run(c, scene, d)
	r.Length = r.Line.length()
	r.legs(d)
	r.look(scene, d)
	r.name()
	r.covers()
	r.reach()
	r.rulebook()
	return r
}

// Label names entry i as the order of a course file does: the id, with "-" before
// it for the way against the one it is drawn.
func (r *Reading) Label(i int) string {
	e := &r.Entries[i]
	id := r.Course.Obstacles[e.Obstacle].ID
	if e.Reverse && e.Kind != course.Table {
		return "-" + id
	}
	return id
}

// Right returns the index in Entries of the right entry at number n, from 1.
func (r *Reading) Right(n int) int { return r.right[n-1] }

// Times returns the course times for a judge's chosen speed in m/s, and whether
// the rules have the formula.
func (r *Reading) Times(speed float64) (rulebook.Times, bool) {
	if r.Rules == nil || speed <= 0 {
		return rulebook.Times{}, false
	}
	table := false
	for _, s := range r.Course.Order {
		table = table || r.Course.Obstacles[s.Obstacle].Kind == course.Table
	}
	return r.Rules.Times(r.Measured.Metres, speed, table)
}

// rulebook asks the rules and the cautions, with what the line adds to the map.
func (r *Reading) rulebook() {
	withers := r.Team.Dog.Withers
	var known rulebook.Circumstances
	for i := range r.Legs {
		l := &r.Legs[i]
		leg := rulebook.Leg{Number: l.Number, Approach: l.Approach, Speed: l.Speed}
		if l.Radius < straightRadius {
			leg.Radius = l.Radius
		}
		known.Legs = append(known.Legs, leg)
	}
	r.Cautions = rulebook.Cautions(r.Course, withers, known, r.Rules)
	r.Measured = r.Rules.Measure(r.Course, r.Length, 0)
	if r.Rules == nil {
		return
	}
	size := rulebook.Size("")
	if class, ok := r.Rules.Class(withers); ok {
		size = class.Size
	}
	r.Findings = rulebook.CheckPath(r.Course, r.Rules, size, r.Length)
}

// straightRadius is the radius in metres from which an arc counts as straight (C).
const straightRadius = 30.0
