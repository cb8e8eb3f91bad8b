// Package rulebook holds published rules of agility organisations as data and
// answers what they say about a course: is it set as they ask, how long is it as
// they measure it, what times follow, what a run scores. It also words the
// cautions where somebody could get hurt.
//
// Every figure names the edition it comes from, the section where one was
// visible, and what kind of text it was read in. No set is a whole rulebook:
// what is missing was not seen. A finding informs; the judge and the
// organisation's current rulebook decide. Lengths are metres, angles radians;
// times and faults are whole hundredths.
package rulebook

import (
	"slices"

	"cuewalk/course"
)

// Rules is what is known of one organisation's rules in one edition. An empty
// list or nil pointer means that no figure was seen, not that there is no rule.
// Values handed out by Find are shared and must not be changed.
type Rules struct {
	Name         string // as a course file names it, such as "FCI 2012"
	Organisation string // in full
	Edition      string // which texts the figures are from
	Note         string // what to know before relying on them; may be empty

	Counts   []Count     // number of obstacles; a course must fit one of them
	Limits   []Limit     // kinds allowed and how often
	Spacings []Spacing   // distance between consecutive obstacles
	Ends     *Ends       // first and last obstacle
	Rings    []Ring      // least ring
	Length   *Length     // course length and the line it is measured along
	Classes  []Class     // size classes by withers, smallest first
	Heights  []Height    // what is jumped in each class
	Sizes    []Dimension // other sizes of obstacles
	Straight *Straight   // kinds to be approached straight
	Room     *Room       // clear ground beside obstacles
	Apart    *Source     // no two contact obstacles in a row
	OneBend  *Source     // a tunnel may curve one way only
	Zones    []Zone      // which contact zones are judged
	Clock    *Clock      // standard course time from length and speed
	Maximum  *Maximum    // maximum course time from the standard one
	Best     *Best       // standard course time from the best run
	Scoring  *Scoring    // what faults cost
	Marks    []Mark      // names for total faults
	Age      *Age        // least age of the dog
}

// Count is an allowed number of obstacles. Max is 0 where no upper limit was seen.
type Count struct {
	Source
	Level    string // class or grade it is for; empty for every course
	Min, Max int
}

// Limit is how often obstacles of some kinds may be taken on one course.
type Limit struct {
	Source
	Rule     string // short name, such as "hurdles"
	Kinds    []course.Kind
	Min, Max int  // passages; Max is -1 where there is no upper limit
	Distinct bool // counts different kinds instead, and only where the course has any
}

// Spacing is an allowed distance between consecutive obstacles, both ends
// included. Max is 0 where no upper limit was seen.
type Spacing struct {
	Source
	For      []Size        // classes it is for; empty for all
	Towards  []course.Kind // only the distance to such an obstacle; empty for all
	Min, Max float64
	Measure  Measure
	Rare     []Rare // parts of the range allowed only a few times
}

// Rare is a part of a spacing that may come at most Times times on one course.
// Over means that Min itself is not part of it.
type Rare struct {
	Min, Max float64
	Over     bool
	Times    int
	Note     string
}

// Ends are the kinds a course may begin and end with.
type Ends struct {
	Source
	First, Last []course.Kind
}

// Ring is the least ring; either side may be the longer one on the map.
type Ring struct {
	Source
	Width, Length float64
	Where         string // such as "outdoors"; empty for anywhere
}

// Length is the allowed course length and the line it is measured along. Min and
// Max are 0 where no figure was seen.
type Length struct {
	Source
	Min, Max float64
	Measure  Measure
}

// Dimension is an allowed size of an obstacle. Max is 0 where no upper limit was seen.
type Dimension struct {
	Source
	Kind     course.Kind
	What     string // "length", "width" or "poles"
	For      []Size // classes it is for; empty for all
	Min, Max float64
}

// Straight names the kinds that must be met in a straight line from the obstacle before.
type Straight struct {
	Source
	Kinds []course.Kind
}

// Room is the clear ground asked for between obstacles and to the ring's edge, in metres.
type Room struct {
	Source
	Metres float64
}

// Zone says which contact zones of some kinds are judged.
type Zone struct {
	Source
	Kinds    []course.Kind
	Up, Down bool
}

// Age is the least age of the dog.
type Age struct {
	Source
	Months int
	Note   string
}

// ZoneJudged reports whether the up or the down contact zone of a kind is judged,
// and whether these rules are known to say so.
func (r *Rules) ZoneJudged(kind course.Kind, up bool) (judged, known bool) {
	for _, z := range r.Zones {
		if slices.Contains(z.Kinds, kind) {
			return up && z.Up || !up && z.Down, true
		}
	}
	return false, false
}
