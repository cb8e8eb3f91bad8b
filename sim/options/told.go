package options

import (
	"fmt"
	"slices"
	"strings"

	"cuewalk/plan"
	"cuewalk/sim"
)

// Told returns what the handler does in the trade's words: "front cross between 6 and 7,
// rear cross at 12"; "on the left of the dog all the way" where he does nothing that has a
// name.
func Told(r *sim.Rehearsal) string {
	var parts []string
	acts := r.Setup.Actions
	for i := 1; i < len(acts); i++ {
		switch acts[i].Manoeuvre {
		case plan.Front, plan.Blind, plan.Rear, plan.Threadle, plan.Wrap, plan.Layering:
			parts = append(parts, acts[i].Manoeuvre.String()+" "+Where(acts[i].When, len(r.Legs)))
		default:
			sent := fmt.Sprintf("sent out to %d", min(LeadsTo(acts[i].When), len(r.Legs)))
			if acts[i].Signal == plan.Push && !slices.Contains(parts, sent) {
				parts = append(parts, sent)
			}
		}
	}
	if len(parts) > mostTold {
		parts = append(parts[:mostTold], "and more")
	}
	if len(parts) == 0 {
		side := "right"
		if acts[len(acts)-1].Arm == plan.RightArm {
			side = "left"
		}
		return "on the " + side + " of the dog, no cross"
	}
	return strings.Join(parts, ", ")
}

// mostTold is how many manoeuvres a plan's name says.
const mostTold = 6

// Where says where on a course of so many numbers a moment is: "at 6", "between 6 and 7".
func Where(m plan.Moment, numbers int) string {
	switch {
	case m.Event == plan.Release:
		return "at the release"
	case m.Event.After() && m.Strides > -1 && m.Number < numbers:
		return fmt.Sprintf("between %d and %d", m.Number, m.Number+1)
	case !m.Event.After() && m.Strides <= -3 && m.Number > 1:
		return fmt.Sprintf("between %d and %d", m.Number-1, m.Number)
	}
	return fmt.Sprintf("at %d", m.Number)
}
