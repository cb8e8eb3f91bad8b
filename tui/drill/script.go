package drill

import (
	"fmt"
	"io"
	"strings"

	"cuewalk/plan/learn"
	"cuewalk/sim"
	"cuewalk/tui/words"
)

// Script writes the plan as it is said to oneself, for paper: numbers, moments, words, a rule
// between sections. It takes at most 80 columns.
func Script(w io.Writer, o Options) error {
	if err := o.fill(); err != nil {
		return err
	}
	s := sim.New(o.Course, o.Plan, o.Team)
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n%s\n\n", words.Safe(o.Plan.Name), words.Safe(o.Course.Name))
	fmt.Fprintf(&b, "     start: stand %s\n", words.Place(o.Course.Units, o.Plan.LeadOut))
	for _, section := range learn.Sections(o.Course, o.Plan) {
		b.WriteString(strings.Repeat("-", 60) + "\n")
		for k := section.From; k < section.To; k++ {
			fmt.Fprintf(&b, "%3d  %-18s %s\n", k+1, o.Plan.Cues[k].When, strings.Join(said(s, k), ", "))
		}
	}
	b.WriteString(strings.Repeat("-", 60) + "\n")
	_, err := io.WriteString(w, b.String())
	return err
}

// said is what a cue sets, and nothing that stays as it was.
func said(s *sim.Setup, k int) []string {
	c := &s.Plan.Cues[k]
	var out []string
	add := func(text string) {
		if text != "" {
			out = append(out, text)
		}
	}
	if c.Word != "" {
		add(`"` + words.Safe(c.Word) + `"`)
	}
	if m := s.Actions[k+1].Manoeuvre.String(); c.Cross != 0 && m != "" {
		add(m)
	}
	if c.Signal != 0 {
		add(c.Signal.String())
	}
	add(c.Pace.String())
	if c.Arm != 0 {
		add(c.Arm.String() + " arm")
	}
	if c.Cross == 0 && c.Shoulders.Facing != 0 {
		add(words.Shoulders(c.Shoulders))
	}
	if c.HasStand {
		add("at " + words.Place(s.Course.Units, c.Stand))
	}
	return out
}
