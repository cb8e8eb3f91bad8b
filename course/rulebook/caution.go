package rulebook

import (
	"cuewalk/course"
	"cuewalk/course/geom"
)

// Caution is a place where somebody could get hurt. It is no ruling: the judge,
// the organisation's current rulebook and the vet decide.
type Caution struct {
	What      string
	Obstacles []string // ids, in course order; empty where it is about the whole course
	Source    string
}

// Circumstances are what a caller knows beyond the map. The zero value knows nothing.
type Circumstances struct {
	AgeMonths int   // age of the dog; 0 where not known
	Wet       bool  // the ground is wet
	Legs      []Leg // in any order; legs that are not known may be left out
}

// Leg is what a caller knows of the dog's run to one number of the course.
type Leg struct {
	Number   int        // course number the leg ends at, from 1
	Approach geom.Angle // how far off the way through the obstacle the dog meets it
	Radius   float64    // tightest turn of the leg in metres; 0 where it is straight or not known
	Speed    float64    // speed in that turn, metres per second
	Crossing float64    // how far ahead of the dog landing from Number the handler crosses its line, metres; 0 where he does not
}

// Cautions returns what to take care of on c with a dog of this height at the
// withers in metres (0 where not known). Where k has no leg to an obstacle, the
// straight line from the one before stands for the dog's approach. r adds its least
// age and may be nil. c must be a checked course.
func Cautions(c *course.Course, withers float64, k Circumstances, r *Rules) []Caution {
	l := &look{c: c, withers: withers, known: k}
	l.bars()
	l.crooked()
	l.contacts()
	l.slippery()
	l.crossings()
	l.dog(r)
	return l.seen
}
