package report

import (
	"fmt"

	"cuewalk/sim"
	"cuewalk/tui/words"
)

// cues writes what became of each cue as a table.
func cues(p *page, r *sim.Rehearsal) {
	if len(r.Cues) == 0 {
		return
	}
	p.heading("Cues")
	p.line(cueRow("", "planned for", "given", "late by", "off", "read before", "makes"))
	for _, t := range r.Cues {
		p.line(cue(r, t))
	}
	p.text(2, "Off: how far from the stand the handler was when the moment came; late by: how long that way takes him at "+
		"his top speed. Read before: the number whose take-off or entry it was for, and whether the dog had read it by then.")
}

func cueRow(number, when, given, late, off, read, what string) string {
	return column("  "+number, 6) + column(when, 21) + column(given, 9) + column(late, 9) + column(off, 9) +
		column(read, 13) + column(what, 13)
}

func cue(r *sim.Rehearsal, t sim.CueTiming) string {
	a := r.Setup.Actions[t.Action]
	number := ""
	if a.Cue >= 0 {
		number = fmt.Sprint(t.Action)
	}
	if t.Sample < 0 {
		return cueRow(number, a.When.String(), "never", "-", "-", "-", a.Manoeuvre.String())
	}
	late, off := "-", "-"
	if t.Late >= 0.05 {
		late = words.Seconds(t.Late)
	}
	if t.Off >= 0.05 {
		off = words.Length(r.Setup.Course.Units, t.Off)
	}
	return cueRow(number, a.When.String(), words.Seconds(t.Given), late, off, read(t), a.Manoeuvre.String())
}

// read says which number a cue had to be read before, and whether it was.
func read(t sim.CueTiming) string {
	switch {
	case t.Obstacle < 1:
		return "-"
	case t.ReadInTime:
		return fmt.Sprintf("%d: yes", t.Obstacle)
	}
	return fmt.Sprintf("%d: NO", t.Obstacle)
}
