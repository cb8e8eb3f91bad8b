package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim/reading"
	"cuewalk/tui/words"
)

// How much of a reading the text shows; JSON has all.
const (
	mostTraps = 12
	mostViews = 6
	mostMeets = 3
)

// ReadText writes what r says for a person to read: the course as rules and ruler
// see it, the traps, then leg by leg, and cautions. speed is the judge's chosen
// speed in m/s, 0 for none. The error is w's.
func ReadText(w io.Writer, r *reading.Reading, speed float64) error {
	var p page
	readCourse(&p, r, speed)
	readFindings(&p, r)
	readTraps(&p, r)
	readLegs(&p, r)
	readCautions(&p, r)
	_, err := io.WriteString(w, p.String())
	return err
}

// readCourse writes names, length and times.
func readCourse(p *page, r *reading.Reading, speed float64) {
	c := r.Course
	p.hang("Course", 8, c.Name)
	p.hang("Team", 8, r.Team.Name)
	if r.Rules == nil {
		p.hang("Rules", 8, `none: write rules = "FCI 2023" or another into the course to hold it against a rulebook`)
	} else {
		p.hang("Rules", 8, r.Rules.Name+", "+r.Rules.Organisation)
	}
	p.heading("The course")
	p.text(2, fmt.Sprintf("%s to run, %s long on the dog's best line.", counted(len(c.Order), "number"), words.Length(c.Units, r.Length)))
	if r.Rules != nil {
		p.text(2, fmt.Sprintf("These rules measure it as %s (%s).", words.Length(c.Units, r.Measured.Metres), r.Measured.Measure))
		p.text(2, courseTimes(r, speed))
	}
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// courseTimes says what the rules make of the chosen speed.
func courseTimes(r *reading.Reading, speed float64) string {
	t, ok := r.Times(speed)
	switch {
	case speed <= 0 && r.Rules.Clock != nil:
		return "Give --speed with the judge's metres per second for the course times."
	case !ok:
		return "These rules give no formula for the course time."
	case t.MCT == 0:
		return fmt.Sprintf("At %s the standard course time is %s s.", words.Speed(speed), t.SCT)
	}
	return fmt.Sprintf("At %s the standard course time is %s s, the maximum %s s.", words.Speed(speed), t.SCT, t.MCT)
}

// readFindings writes where the course is not as its rules ask.
func readFindings(p *page, r *reading.Reading) {
	if r.Rules == nil {
		return
	}
	p.heading("Against the rulebook")
	if len(r.Findings) == 0 {
		p.text(2, "Nothing found. Not every rule is known here: the judge and the current rulebook decide.")
	}
	for _, f := range words.Findings(r.Findings) {
		p.hang("  -", 4, upperFirst(f.Rule)+onto(f.Obstacles)+": "+f.What+" ["+f.Source+"]")
	}
}

func onto(ids []string) string {
	if len(ids) == 0 {
		return ""
	}
	return " (" + strings.Join(ids, ", ") + ")"
}

// readTraps writes the traps of the whole course, strongest first.
func readTraps(p *page, r *reading.Reading) {
	p.heading("Traps")
	if len(r.Traps) == 0 {
		p.text(2, "Nothing wrong pulls a dog off its best line here.")
		return
	}
	p.text(2, "Chance that each gets a dog on its best line that nobody handles. "+words.Model)
	for i := range r.Traps {
		if i == mostTraps {
			p.text(2, fmt.Sprintf("And %d weaker ones (--json lists all).", len(r.Traps)-i))
			break
		}
		t := &r.Traps[i]
		text := fmt.Sprintf("%s, %s: %s.", words.Leg(t.Leg), target(r, t.Entry), t.Why)
		if hide := hiding(r.Course.Units, &t.Cover); hide != "" {
			text += " " + hide
		}
		p.hang(chance(t.Pull), 11, text)
	}
}

// target names an entry: "tunnel 4 (-tube)".
func target(r *reading.Reading, entry int) string {
	o := r.Entries[entry].Obstacle
	return words.Short(r.Course, o) + " (" + r.Label(entry) + ")"
}

// hiding says where a body hides a trap best.
func hiding(u course.Units, c *reading.Cover) string {
	if len(c.Places) == 0 {
		return "A standing body hides it from nowhere on the way."
	}
	best := 0
	for i := range c.Places {
		if c.Places[i].Trap > c.Places[best].Trap {
			best = i
		}
	}
	at := c.Places[best]
	return fmt.Sprintf("A body at %s hides %s of it.", words.Place(u, at.At), words.Percent(at.Trap))
}

// readLegs writes a block for each leg.
func readLegs(p *page, r *reading.Reading) {
	p.heading("Leg by leg")
	for i := range r.Legs {
		readLeg(p, r, &r.Legs[i])
	}
}

func readLeg(p *page, r *reading.Reading, l *reading.Leg) {
	u := r.Course.Units
	p.line("")
	p.ends("To "+words.Target(r.Course, l.Number), names(l.Names))
	p.text(4, fmt.Sprintf("%s; %s; %s; %s.", words.Length(u, l.Distance), turning(l), approaching(l), leading(l)))
	if l.Blocked {
		p.text(4, "No line free of other obstacles was found: the figures run through one.")
	}
	if len(l.Meets) > 0 {
		p.text(4, "Straight on: "+meeting(r, l)+".")
	}
	if n := l.Number; n <= len(r.Reach.Legs) {
		p.text(4, handler(u, &r.Reach.Legs[n-1], l))
	}
	views(p, r, l)
}

func names(all []reading.Challenge) string {
	var b []string
	for _, c := range all {
		b = append(b, c.String())
	}
	return strings.Join(b, "; ")
}

func turning(l *reading.Leg) string {
	if l.Turn.Abs() < geom.Deg(0.5) {
		return "no turn"
	}
	way := "right"
	if l.Turn < 0 {
		way = "left"
	}
	return fmt.Sprintf("turns %.0f degrees %s", l.Turn.Abs().Degrees(), way)
}

func approaching(l *reading.Leg) string {
	if l.Side == reading.Neither {
		return "meets it straight"
	}
	return fmt.Sprintf("meets it %.0f degrees off, from the %s", l.Approach.Abs().Degrees(), l.Side)
}

func leading(l *reading.Leg) string {
	text := "either lead"
	if l.Lead != reading.Neither {
		text = l.Lead.String() + " lead"
	}
	if n := len(l.Changes); n > 0 {
		where := "on the ground"
		switch {
		case l.Changes[0].Air:
			where = "over the jump before"
		case l.Changes[0].Inside:
			where = "in the obstacle before"
		}
		text += ", changed " + where
	}
	return text
}

func meeting(r *reading.Reading, l *reading.Leg) string {
	var b []string
	for i, m := range l.Meets {
		if i == mostMeets {
			break
		}
		what := words.Short(r.Course, m.Obstacle)
		if m.Entry < 0 {
			what = "the side of " + what
		}
		b = append(b, what+" ("+met(r, m)+") after "+words.Length(r.Course.Units, m.Range))
	}
	return strings.Join(b, ", ")
}

// handler says where the handler can be when the dog gets there.
func handler(u course.Units, g *reading.ReachLeg, l *reading.Leg) string {
	switch {
	case math.IsInf(g.Nearest, 1):
		return "Handler: nowhere in time."
	case g.Ahead:
		return "Handler: can be ahead of the dog here."
	case g.Nearest < 2:
		return "Handler: can be beside it, not ahead."
	}
	text := fmt.Sprintf("Handler: at most to within %s of it", words.Length(u, g.Nearest))
	if !g.Handling {
		return text + ", too far to handle."
	}
	return text + "."
}

// views writes the table of what comes before the dog's eyes.
func views(p *page, r *reading.Reading, l *reading.Leg) {
	if len(l.Views) == 0 {
		return
	}
	p.line("    " + pad("Before its eyes", 26) + pad("bearing", 10) + pad("off", 9) + pad("seconds", 8) + "against the right one")
	shown := strongest(l.Views)
	for _, v := range shown {
		p.line("    " + column(target(r, v.Entry), 26) + pad(signed(v.Bearing), 10) +
			pad(words.Length(r.Course.Units, v.Range), 9) + pad(inView(v.InView), 8) + against(r.Course.Units, &v))
	}
	if n := len(l.Views) - len(shown); n > 0 {
		p.text(4, fmt.Sprintf("and %d that pull less", n))
	}
}

// inView is a time in view in few cells; what is there for an instant is not said as 0.
func inView(seconds float64) string {
	if seconds < 0.05 {
		return "<0.1"
	}
	return fmt.Sprintf("%.1f", seconds)
}

// strongest returns the right one and those that pull most, mostViews at most, in
// the order seen.
func strongest(all []reading.View) []reading.View {
	shown := slices.Clone(all)
	for len(shown) > mostViews {
		least := -1
		for i := range shown {
			if !shown[i].Right && (least < 0 || shown[i].Pull <= shown[least].Pull) {
				least = i
			}
		}
		shown = slices.Delete(shown, least, least+1)
	}
	return shown
}

// against compares what is in view with the right one, in at most 23 cells.
func against(u course.Units, v *reading.View) string {
	switch {
	case v.Right:
		return "the right one"
	case v.Wrong:
		return "its wrong way"
	}
	text := fmt.Sprintf("%.0f deg", v.Separation.Degrees())
	switch {
	case v.Farther >= 0.05:
		return text + ", " + words.Length(u, v.Farther) + " more"
	case v.Farther <= -0.05:
		return text + ", " + words.Length(u, -v.Farther) + " less"
	}
	return text
}

// signed is a bearing in few cells: "12 right".
func signed(a geom.Angle) string {
	d := int(math.Round(a.Degrees()))
	switch {
	case d > 0:
		return fmt.Sprintf("%d right", d)
	case d < 0:
		return fmt.Sprintf("%d left", -d)
	}
	return "ahead"
}

// readCautions writes where somebody could get hurt.
func readCautions(p *page, r *reading.Reading) {
	p.heading("Cautions")
	for _, c := range r.Cautions {
		p.hang("  -", 4, upperFirst(c.What)+". ["+c.Source+"]")
	}
	p.text(2, "The judge, the current rulebook and your vet have the last word.")
}
