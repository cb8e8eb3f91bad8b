package sheet

import "strings"

// line is what a cue is, without its moment: `rear cross, right, "come"`.
func (c *Cue) line() string {
	text := c.What
	if c.Arm != "" {
		text += ", " + c.Arm
	}
	if c.Word != "" {
		text += ", " + quoted(c.Word)
	}
	return text
}

func quoted(s string) string { return "“" + s + "”" }

// String is a place in words: "2.5 m off the left wing of 7, toward 9".
func (p *Pace) String() string {
	switch {
	case p.Toward == "":
		return "at the " + p.From
	case p.Length == "":
		return "from " + p.From + " " + p.Toward
	case p.Steps != "":
		return p.Length + " (" + p.Steps + " steps) off the " + p.From + ", " + p.Toward
	}
	return p.Length + " off the " + p.From + ", " + p.Toward
}

func upper(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
