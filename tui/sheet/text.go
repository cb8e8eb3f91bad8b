package sheet

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// Columns is how broad Text is at most.
const Columns = 40

// Text is the page as a list to paste into a message: no line is broader than Columns.
func Text(p Page) string {
	var b strings.Builder
	para := func(hang string, s string) { b.WriteString(wrap(s, hang)) }
	para("", p.Course)
	para("", p.Team+", "+p.Date)
	for i := range p.Plans {
		pl := &p.Plans[i]
		b.WriteString("\n")
		para("", strings.ToUpper(pl.Name))
		para("", pl.Verdict)
		for _, c := range pl.Cues {
			mark := " "
			if c.Risk {
				mark = "!"
			}
			label := c.Label
			if len(label) < 2 {
				label = " " + label
			}
			para("     ", mark+label+"  "+c.Moment+": "+c.line())
			if c.EndOfPart {
				b.WriteString("\n")
			}
		}
		for _, k := range pl.Careful {
			para("  ", "! "+k.Leg+": "+k.What+", "+k.Chance)
		}
	}
	if len(p.Plans) == 2 {
		b.WriteString("\nWHAT DIFFERS\n")
		for _, d := range p.Differences.Legs {
			para("  ", d.About+": "+d.A+" or "+d.B)
		}
	}
	b.WriteString("\n")
	para("", cautionLine)
	para("", made(p))
	return b.String()
}

// wrap breaks s into lines of at most Columns cells, all but the first begun with hang.
func wrap(s, hang string) string {
	head := s[:len(s)-len(strings.TrimLeft(s, " "))]
	lines := strings.Split(ansi.Wrap(strings.TrimLeft(s, " "), Columns-max(len(head), len(hang)), " "), "\n")
	for i := range lines {
		if lines[i] = strings.TrimSpace(lines[i]); i > 0 {
			lines[i] = hang + lines[i]
		} else {
			lines[i] = head + lines[i]
		}
	}
	return strings.Join(lines, "\n") + "\n"
}
