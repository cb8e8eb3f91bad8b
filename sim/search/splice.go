// Package search changes plans and looks for better ones. What is better is for a score
// to say that is handed in: the package knows plans and courses, and no dog. It is pure:
// the same plan and score give the same answer.
//
// Lengths are metres. A constant marked C is chosen here and has no source.
package search

import (
	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/team"
)

// Splice returns the plan that has the cues of a up to number n, that number's own landing
// or exit left out, and those of b from there on. The first cue of b says what lasts from
// b's earlier ones, so that b goes on as it would have. Both must be checked plans; the
// result is not checked.
func Splice(c *course.Course, t *team.Team, a, b *plan.Plan, n int) plan.Plan {
	_, after := plan.EventsOf(c.Obstacles[c.Order[n-1].Obstacle].Kind)
	end := plan.Moment{Number: n, Event: after}
	p := plan.Plan{Name: a.Name, For: a.For, LeadOut: a.LeadOut}
	for _, cue := range a.Cues {
		if cue.When.Before(end) {
			p.Cues = append(p.Cues, cue)
		}
	}
	before, acts := p.Resolve(c, t), b.Resolve(c, t)
	first := true
	for k, cue := range b.Cues {
		if cue.When.Before(end) {
			continue
		}
		if first {
			cue, first = lasting(cue, before[len(before)-1], acts[k+1]), false
		}
		cue.Line = 0
		p.Cues = append(p.Cues, cue)
	}
	return p
}

// lasting returns the cue with all said that makes it, behind an action before, what it
// is to be.
func lasting(cue plan.Cue, before, is plan.Action) plan.Cue {
	if cue.Pace == plan.SamePace && before.Pace != is.Pace {
		cue.Pace = is.Pace
	}
	if cue.Shoulders.Facing == plan.SameFacing && (before.Shoulders != is.Shoulders || cue.Cross != plan.NoCross) {
		cue.Shoulders = is.Shoulders
	}
	arm := before.Arm
	if cue.Cross != plan.NoCross {
		arm = arm.Other()
	}
	if cue.Arm == plan.SameArm && arm != is.Arm {
		cue.Arm = is.Arm
	}
	return cue
}
