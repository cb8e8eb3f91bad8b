package words

import (
	"fmt"
	"strings"

	"cuewalk/sim"
)

// From here on the handler's share in what goes wrong is worth a word: metres short of a stand,
// seconds late.
const (
	short = 0.5
	late  = 0.1
)

// Part says what the handler does amiss in the cues that act on a leg: "You are 3.6 m short of
// the stand of cue 11 when it comes, and 0.4 s late." Empty where he does nothing amiss.
func Part(r *sim.Rehearsal, leg sim.Leg) string {
	for _, c := range r.Cues {
		if c.Action == 0 || c.Sample < 0 || c.Obstacle != leg.Number && c.Obstacle != leg.Number-1 {
			continue
		}
		var amiss []string
		if c.Off >= short && c.Late >= late {
			amiss = append(amiss, fmt.Sprintf("are %s short of your stand when cue %d comes and get there %s late", Length(r.Setup.Course.Units, c.Off), c.Action, Seconds(c.Late)))
		}
		if !c.ReadInTime && c.Obstacle > 0 {
			amiss = append(amiss, fmt.Sprintf("give cue %d too late to be read before %d", c.Action, c.Obstacle))
		}
		if amiss != nil {
			return "You " + strings.Join(amiss, ", and ") + "."
		}
	}
	return ""
}
