// Package sim runs a plan: a dog steered only by what it sees and what the handler
// does, a handler with a person's legs, and a judge who knows the numbers. It is
// pure: values in, values out.
package sim

import (
	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/team"
)

// Setup is a course, a plan and a team made ready to run. It is not changed by
// runs and may be used by many at once.
type Setup struct {
	Course  *course.Course
	Plan    *plan.Plan
	Team    *team.Team
	Entries []course.Entry // every way to take every obstacle
	Actions []plan.Action  // the plan with everything filled in; 0 is the lead-out
}
