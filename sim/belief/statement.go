package belief

import "cuewalk/course/tomlfile"

// Quantity is what a statement is about.
type Quantity uint8

// The quantities. Those of a leg are for a dog that comes to it.
const (
	LegClean      Quantity = iota // chance: the right obstacle, rightly, no fault of any kind
	OffCourse                     // chance: any wrong obstacle
	OffCourseInto                 // chance: this wrong obstacle
	WrongSide                     // chance: the right obstacle from its wrong side or mouth
	Refusal                       // chance: a refusal, a missed weave entry too
	KnockedBar                    // chance
	MissedContact                 // chance
	LegTime                       // seconds
	LegSpeed                      // m/s, mean
	RunClean                      // chance of a whole clean run
	RunTime                       // seconds, median of the clean runs
	EasyLegs                      // chance of each of some legs to be clean
	WorstLeg                      // number of the leg with the lowest chance to be clean
)

// Chance reports whether the quantity is a chance, 0 to 1.
func (q Quantity) Chance() bool {
	return q != LegTime && q != LegSpeed && q != RunTime && q != WorstLeg
}

// Subject is a quantity of a leg or of the run.
type Subject struct {
	Quantity Quantity
	Leg      int   // course number; 0 for the run
	Into     int   // index of the wrong obstacle of OffCourseInto
	Legs     []int // numbers of EasyLegs
}

// Who is a run or several: a plan and a team by index, -1 for every one of the case.
type Who struct{ Plan, Team int }

// Relation is how quantities are believed to stand.
type Relation uint8

// The relations.
const (
	Between Relation = iota // A's lies from Low to High
	More                    // A's is higher than B's by at least By
	Less                    // A's is lower than B's by at least By
	Near                    // A's and B's differ by at most By
	Among                   // A's is one of Legs
)

// Statement is one thing a coach believes of a case.
type Statement struct {
	tomlfile.Pos
	Text      string // as written
	Subject   Subject
	Relation  Relation
	A, B      Who
	Low, High float64
	By        float64
	Legs      []int // numbers of Among
}
