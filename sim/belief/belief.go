// Package belief holds what a coach believes of a situation against what the simulator
// says of it. A case is one text file: a course, plans and teams as a handler writes
// them, and statements such as "leg 3 clean: called > not called by 0.2". The format is
// described in testdata/cases/README.md.
//
// Chances are 0..1, times seconds, speeds m/s.
package belief

import (
	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/team"
)

// Case is one situation with what is believed of it.
type Case struct {
	File      string
	About     string // the situation in a sentence or two
	Manoeuvre string // what the tables group cases by
	Source    string // where the beliefs come from
	Course    *course.Course
	Teams     []*team.Team
	Plans     []string                // names, in the order of the file
	For       []map[string]*plan.Plan // by team: the plans by name, as that team runs them
	Beliefs   []Belief
}

// Belief is one statement.
type Belief struct {
	Line    int // in the case's file
	Text    string
	Subject Subject
	Left    Run // what it is said of
	Right   Run // what that is compared with, where Is is not In
	Is      Relation
	Low     float64 // In: the range, ends included
	High    float64
	By      float64 // at least so much above or below; at most so far apart
	Numbers []int   // WorstLeg: it is one of these
}

// Relation is how a figure stands to a range or to another figure.
type Relation uint8

// The relations.
const (
	In Relation = iota
	Above
	Below
	Near
)

// Measure is what a statement is about.
type Measure uint8

// The measures.
const (
	LegClean Measure = iota
	LegOffCourse
	LegWrongSide
	LegRefusal
	LegBar
	LegContact
	LegTime
	LegSpeed
	RunClean
	RunTime
	EasyLegs
	WorstLeg
)

// Chance reports whether the measure is a chance.
func (m Measure) Chance() bool { return m != LegTime && m != LegSpeed && m != RunTime }

// Subject is what a statement is about, and where.
type Subject struct {
	Measure Measure
	Legs    []int  // course numbers; one but for EasyLegs
	Into    string // LegOffCourse: the id of the wrong obstacle; empty for any
}

// Run names plans and teams: what it does not name stands for every one in the file.
type Run struct{ Plan, Team string }
