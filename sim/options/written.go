package options

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"cuewalk/plan"
	"cuewalk/sim/reading"
)

// Written returns the proposal as a plan file, with remarks that say what it is worth and
// why each cue is there.
func (o *Proposal) Written(r *reading.Reading) []byte {
	parts := strings.Split(string(plan.Format(&o.Plan, r.Course)), "\n[[cue]]\n")
	var b bytes.Buffer
	for _, l := range o.head() {
		b.WriteString("# " + l + "\n")
	}
	b.WriteString(parts[0])
	for k, part := range parts[1:] {
		fmt.Fprintf(&b, "\n# %s\n[[cue]]\n%s", o.why(r, k), part)
	}
	return b.Bytes()
}

// head says what the plan is worth.
func (o *Proposal) head() []string {
	return []string{
		fmt.Sprintf("Proposed for this course and %q: a start to walk and to alter.", o.Likely.Setup.Team.Name),
		fmt.Sprintf("Clean in %.0f %% of %d runs that the search never saw (%.0f %% of those it was searched with), about %.1f s.",
			100*o.Result.Share(), o.Result.Worlds, 100*o.Searched, o.Likely.Time),
		"Likelihoods from a model, not promises about a dog.",
	}
}

// why says what cue k is for, what he does there, and how much room it has.
func (o *Proposal) why(r *reading.Reading, k int) string {
	a := &o.Likely.Setup.Actions[k+1]
	n := min(LeadsTo(a.When), len(r.Legs))
	l := &r.Legs[n-1]
	text := fmt.Sprintf("For %d", n)
	if a.Manoeuvre != plan.NoManoeuvre {
		text += ", " + a.Manoeuvre.String()
	}
	if turn := math.Abs(l.Shape.Turn.Degrees()); turn >= 25 {
		inside := (l.Shape.Turn > 0) == (a.Arm == plan.LeftArm) // a right turn with the dog on his left: he is on its right
		side := "outside"
		if inside {
			side = "inside"
		}
		text += fmt.Sprintf(": on the %s of a turn of %.0f degrees", side, turn)
	}
	if k < len(o.Moved) && o.Moved[k] {
		text += "; he cannot be farther up in time"
	}
	if c := &o.Slack.Cues[k]; c.Timed {
		text += fmt.Sprintf("; room %.1f s sooner, %.1f s later", c.Early, c.Late)
	}
	return text + "."
}
