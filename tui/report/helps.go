package report

import (
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
	p.text(2, "Changes of one cue that were tried in the model, and by how many points of a hundred each makes leg and whole run cleaner. Both are counted on the same luck.")
	for i := range found {
		f := &found[i]
		head := words.Leg(f.Number) + ": "
		if len(f.Advice) == 0 {
			p.hang("  -", 4, head+words.NoAdvice+".")
			continue
		}
		p.hang("  -", 4, head)
		for k := range f.Advice {
			p.hang("     ", 8, words.Change(r.Setup, &f.Advice[k])+": "+words.Effect(f, &f.Advice[k])+".")
		}
	}
}

// Help is the JSON of a change of one cue that would help on a leg.
type Help struct {
	Leg     int      `json:"leg"`
	Cue     int      `json:"cue"` // from 1
	Change  string   `json:"change"`
	LegGain *float64 `json:"leg_gain"` // by how much the leg is cleaner with it, 0.1 for ten points
	Gain    *float64 `json:"gain"`     // the whole run
}

func shapeHelps(r *sim.Rehearsal, found []advice.Found) []Help {
	out := []Help{}
	for i := range found {
		for k := range found[i].Advice {
			a := &found[i].Advice[k]
			out = append(out, Help{found[i].Number, a.Cue + 1, words.Change(r.Setup, a), number(a.Leg-found[i].Leg, 4), number(a.Run-found[i].Run, 4)})
		}
	}
	return out
}
