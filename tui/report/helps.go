package report

import (
	"fmt"

	"cuewalk/sim"
	"cuewalk/sim/advice"
	"cuewalk/tui/words"
)

// helps writes what would help on the worst legs, where that was looked for.
func helps(p *page, r *sim.Rehearsal, found []advice.Found) {
	if len(found) == 0 {
		return
	}
	p.heading("What would help")
	p.text(2, "Changes of one cue that were tried in the model, each counted with the same luck as the plan as it is.")
	for i := range found {
		f := &found[i]
		head := fmt.Sprintf("%s, now leg %s, whole run %s: ", words.Leg(f.Number), words.Percent(f.Leg), words.Percent(f.Run))
		if len(f.Advice) == 0 {
			p.hang("  -", 4, head+words.NoAdvice+".")
			continue
		}
		p.hang("  -", 4, head)
		for k := range f.Advice {
			p.hang("     ", 8, words.Change(r.Setup, &f.Advice[k])+" gives "+words.Effect(&f.Advice[k])+".")
		}
	}
}

// Help is the JSON of a change of one cue that would help on a leg.
type Help struct {
	Leg      int      `json:"leg"`
	Cue      int      `json:"cue"` // from 1
	Change   string   `json:"change"`
	LegClean *float64 `json:"leg_clean"`
	Clean    *float64 `json:"clean"`
}

func shapeHelps(r *sim.Rehearsal, found []advice.Found) []Help {
	out := []Help{}
	for i := range found {
		for k := range found[i].Advice {
			a := &found[i].Advice[k]
			out = append(out, Help{found[i].Number, a.Cue + 1, words.Change(r.Setup, a), number(a.Leg, 4), number(a.Run, 4)})
		}
	}
	return out
}
