// Package report lays out what a rehearsal says as text for a person and as JSON
// for a program. It works out no chance and no rule of its own: the figures come
// from the rehearsal, the sentences from package words.
package report

import (
	"fmt"
	"io"

	"cuewalk/sim"
	"cuewalk/sim/advice"
	"cuewalk/sim/slack"
	"cuewalk/tui/words"
)

// Columns is how many cells a line of a report takes at most.
const Columns = 80

// Text writes what r says for a person to read: the whole run first, what would help
// where that was looked for, then leg by leg, the cues and how much room each has, what was
// taken for granted, and cautions. room may be nil. The error is w's.
func Text(w io.Writer, r *sim.Rehearsal, found []advice.Found, room *slack.Slack) error {
	var p page
	overall(&p, r)
	helps(&p, r, found)
	legs(&p, r)
	cues(&p, r)
	rooms(&p, r, room)
	assumed(&p, r)
	cautions(&p, r)
	_, err := io.WriteString(w, p.String())
	return err
}

// overall writes the names and what is said of the whole run.
func overall(p *page, r *sim.Rehearsal) {
	s := r.Setup
	p.hang("Course", 8, s.Course.Name)
	p.hang("Plan", 8, s.Plan.Name)
	p.hang("Team", 8, s.Team.Name)
	p.heading("The whole run")
	p.text(2, words.Overall(r))
	p.text(2, behind(r)+" "+words.Model)
	p.heading("Worst legs")
	for _, sentence := range words.Worst(r, 3) {
		p.hang("  -", 4, sentence)
	}
}

// behind says what stands behind the figures of the whole run.
func behind(r *sim.Rehearsal) string {
	if r.Runs == 0 {
		return "No whole runs were made: the chance is that of all legs multiplied."
	}
	text := fmt.Sprintf("Intervals are 95 %%. Seed: %d.", r.Seed)
	if r.Time10 != r.Time90 {
		text += " Eight clean runs in ten take the times in brackets."
	}
	return text
}
