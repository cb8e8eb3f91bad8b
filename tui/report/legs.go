package report

import (
	"cuewalk/sim"
	"cuewalk/tui/words"
)

// rare is the chance below which a fault is summed up in the text; JSON has all.
const rare = 0.005

// legs writes a block for each leg.
func legs(p *page, r *sim.Rehearsal) {
	p.heading("Leg by leg")
	p.text(2, "Chances of a leg are for a dog that comes to it as planned. A leg is clean, or "+
		"counted under the first thing that goes wrong; meetings of dog and handler are beside that. The likely line is the one the dog runs "+
		"where nothing is left to luck.")
	for i := range r.Legs {
		leg(p, r, r.Legs[i])
	}
}

func leg(p *page, r *sim.Rehearsal, l sim.Leg) {
	p.line("")
	p.ends("To "+words.Target(r.Setup.Course, l.Number), "clean "+words.Chance(l.Clean, l.Low, l.High))
	p.text(4, words.Measures(r, l))
	left := 0.0
	for _, f := range words.ByWeight(l.Faults) {
		if f.Chance < rare {
			left += f.Chance
			continue
		}
		p.hang(chance(f.Chance), 11, upperFirst(words.Fault(r.Setup, f))+". "+words.Why(r, l, f))
	}
	if left >= rare {
		p.hang(chance(left), 11, "Other things, each under 1 %.")
	}
	if covered := words.Covered(r, l); covered != "" {
		p.text(4, covered)
	}
}

// chance is the label of a fault.
func chance(c float64) string {
	text := words.Percent(c)
	return pad("", 9-len(text)) + text
}

func upperFirst(s string) string {
	if s != "" && s[0] >= 'a' && s[0] <= 'z' {
		return string(s[0]-'a'+'A') + s[1:]
	}
	return s
}
