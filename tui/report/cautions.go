package report

import (
	"fmt"
	"strings"

	"cuewalk/course"
	"cuewalk/sim"
	"cuewalk/tui/words"
)

// Bars as a share of the withers from which a caution is given: above warnBar the
// flight shortens again and the neck is bent more on landing (J4); from careBar,
// about two inches over a shoulder of 50 cm, more injuries were reported (I4).
const (
	careBar = 1.10
	warnBar = 1.26
)

// meets is the chance of meeting the dog from which a caution is given (no source).
const meets = 0.02

// cautions writes what anybody who acts on the figures should know, and where
// someone could get hurt.
func cautions(p *page, r *sim.Rehearsal) {
	p.heading("Cautions")
	for _, sentence := range words.Cautions() {
		p.hang("  -", 4, sentence)
	}
	p.hang("  -", 4, "The judge, the current rulebook and your vet have the last word.")
	if text := highBars(r.Setup.Course, r.Setup.Team.Dog.Withers); text != "" {
		p.hang("  !", 4, text)
	}
	for _, l := range r.Legs {
		for _, f := range l.Faults {
			if f.Kind == sim.Collision && f.Chance >= meets {
				p.hang("  !", 4, fmt.Sprintf("On the way to %d dog and handler may meet (%s): leave it more room.",
					l.Number, words.Percent(f.Chance)))
			}
		}
	}
}

// highBars says which bars are high for a dog of these withers; empty for none.
func highBars(c *course.Course, withers float64) string {
	highest, ids := 0.0, []string(nil)
	for _, o := range c.Obstacles {
		bar := o.Kind == course.Jump || o.Kind == course.Wall || o.Kind == course.Spread
		if share := o.Height / withers; bar && share >= careBar {
			ids = append(ids, o.ID)
			highest = max(highest, share)
		}
	}
	if ids == nil {
		return ""
	}
	where := strings.Join(ids, ", ")
	if len(ids) > 4 {
		where = fmt.Sprintf("%d obstacles", len(ids))
	}
	text := fmt.Sprintf("Bars of up to %.0f %% of this dog's withers at %s. ", highest*100, where)
	if highest >= warnBar {
		return text + "From 126 % on, dogs were seen to shorten the flight and bend the neck more on landing (J4)."
	}
	return text + "More injuries were reported of dogs that jump well above the shoulder (I4)."
}
