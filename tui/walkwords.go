package tui

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"cuewalk/course/geom"
	"cuewalk/sim/reading"
	"cuewalk/tui/canvas"
	"cuewalk/tui/words"
)

// challengesOf names what the leg is in the trade's words.
func challengesOf(l *reading.Leg) string {
	var all []string
	for _, c := range l.Names {
		all = append(all, words.Safe(c.String()))
	}
	if all == nil {
		return "no challenge by name"
	}
	return strings.Join(all, "; ")
}

// turnOf says how far the dog turns on the ground.
func turnOf(l *reading.Leg) string {
	if l.Turn.Abs() < geom.Deg(.5) {
		return "no turn"
	}
	way := reading.Right
	if l.Turn < 0 {
		way = reading.Left
	}
	return fmt.Sprintf("turns %.0f degrees %s", l.Turn.Abs().Degrees(), way)
}

func approachOf(l *reading.Leg) string {
	if l.Side == reading.Neither {
		return "meets it straight"
	}
	return fmt.Sprintf("meets it %.0f degrees off from the %s", l.Approach.Abs().Degrees(), l.Side)
}

func leadOf(l *reading.Leg) string {
	text := "either lead"
	if l.Lead != reading.Neither {
		text = l.Lead.String() + " lead"
	}
	if len(l.Changes) == 0 {
		return text
	}
	switch c := l.Changes[0]; {
	case c.Air:
		return text + " changed over the jump before"
	case c.Inside:
		return text + " changed in the obstacle before"
	}
	return text + " changed on the ground"
}

// whereabouts says where the handler can be when the dog takes the leg's obstacle.
func whereabouts(r *reading.Reading, l *reading.Leg) string {
	if l.Number < 1 || l.Number > len(r.Reach.Legs) {
		return "may be anywhere"
	}
	g := &r.Reach.Legs[l.Number-1]
	switch {
	case math.IsInf(g.Nearest, 1):
		return "cannot be anywhere near in time"
	case g.Ahead:
		return "can be ahead of the dog here"
	case g.Nearest < 2:
		return "can be beside it, not ahead"
	case g.Handling:
		return "get at most to within " + words.Length(r.Course.Units, g.Nearest) + " of it"
	}
	return "get at most to within " + words.Length(r.Course.Units, g.Nearest) + " of it, too far to handle"
}

// straightOn is what lies on the natural exit line of the obstacle before.
func straightOn(r *reading.Reading, l *reading.Leg) string {
	var all []string
	for i, m := range l.Meets {
		if i == 2 {
			break
		}
		what := words.Short(r.Course, m.Obstacle)
		if m.Entry < 0 {
			what = "the side of " + what
		}
		all = append(all, what+" after "+words.Length(r.Course.Units, m.Range))
	}
	return joinWords(all...)
}

// trapName names a trap: "tunnel 7 (-tube)".
func trapName(r *reading.Reading, t *reading.Trap) string {
	return words.Short(r.Course, r.Entries[t.Entry].Obstacle) + " (" + words.Safe(r.Label(t.Entry)) + ")"
}

// viewName names what comes before the dog's eyes in the fewest words.
func viewName(r *reading.Reading, l *reading.Leg, v *reading.View) string {
	o := r.Entries[v.Entry].Obstacle
	switch {
	case v.Right:
		return fmt.Sprintf("%s %d", r.Entries[v.Entry].Kind, l.Number)
	case v.Wrong && r.Entries[v.Entry].Kind.Jumped():
		return fmt.Sprintf("back of %d", l.Number)
	case v.Wrong:
		return fmt.Sprintf("far end of %d", l.Number)
	}
	return words.Short(r.Course, o)
}

// hiding says where a body hides a trap best.
func hiding(r *reading.Reading, t *reading.Trap) string {
	p, ok := bestCover(&t.Cover)
	if !ok {
		return "No body hides it from beside the way."
	}
	return "A body at " + words.Place(r.Course.Units, p.At) + " (B) hides " + words.Percent(p.Trap) + " of its pull."
}

// cautionsFor are the cautions about the leg's obstacle.
func cautionsFor(r *reading.Reading, l *reading.Leg) []string {
	id := r.Course.Obstacles[r.Course.Order[l.Number-1].Obstacle].ID
	var all []string
	for _, c := range r.Cautions {
		if slices.Contains(c.Obstacles, id) {
			all = append(all, words.Safe(c.What))
		}
	}
	return all
}

func upperFirst(s string) string {
	if s != "" && s[0] >= 'a' && s[0] <= 'z' {
		return string(s[0]-'a'+'A') + s[1:]
	}
	return s
}

// legLines is everything about the leg under the cursor.
func (m *Model) legLines() []line {
	w := m.walked()
	l := w.leg(m.at)
	if l == nil {
		return nil
	}
	out := []line{
		{"challenges", challengesOf(l), canvas.Key},
		{"way", joinWords(words.Length(m.s.Course().Units, l.Distance), turnOf(l), approachOf(l), leadOf(l)), canvas.Key},
		{"handler", "you " + whereabouts(w.read, l), canvas.Key},
	}
	if s := straightOn(w.read, l); s != "" {
		out = append(out, line{"straight on", s, canvas.Key})
	}
	for _, c := range cautionsFor(w.read, l) {
		out = append(out, line{"caution", c, canvas.Caution})
	}
	out = append(out, line{}, line{left: "In the order in which it comes before the dog's eyes", role: canvas.Title})
	for i := range l.Views {
		v := &l.Views[i]
		text := fmt.Sprintf("%s: %s off, %s, for %s", viewName(w.read, l, v), words.Length(m.s.Course().Units, v.Range), words.Bearing(v.Bearing), words.Seconds(v.InView))
		if v.Right {
			text += "; the right one"
		} else {
			text += fmt.Sprintf("; %.0f degrees from the right one, %s", v.Separation.Degrees(), farther(m, v.Farther))
		}
		out = append(out, line{fmt.Sprint(i + 1), text, canvas.Key})
	}
	out = append(out, line{}, line{left: "Traps of this leg", role: canvas.Title})
	for _, t := range w.traps[l.Number-1] {
		out = append(out, m.trapLine(w, t))
	}
	if len(w.traps[l.Number-1]) == 0 {
		out = append(out, line{right: "Nothing wrong pulls an unhandled dog here."})
	}
	return out
}

func farther(m *Model, d float64) string {
	if d < 0 {
		return words.Length(m.s.Course().Units, -d) + " nearer"
	}
	return words.Length(m.s.Course().Units, d) + " farther"
}

func (m *Model) trapLine(w *walk, t *reading.Trap) line {
	return line{words.Percent(t.Pull), trapName(w.read, t) + ": " + words.Safe(t.Why) + ". " + hiding(w.read, t), trapRole(t.Pull)}
}

// courseLines is what rulebook and care say of the course, and all traps.
func (m *Model) courseLines() []line {
	r := m.walked().read
	out := []line{{"length", words.Length(m.s.Course().Units, r.Length) + " on the dog's best line", canvas.Key}}
	out = append(out, line{}, line{left: "Against the rulebook", role: canvas.Title})
	switch {
	case r.Rules == nil:
		out = append(out, line{right: `The course names no rulebook: write rules = "FCI 2023" or another into it.`})
	case len(r.Findings) == 0:
		out = append(out, line{right: "Nothing found under " + r.Rules.Name + ". Not every rule is known here."})
	default:
		out = append(out, line{right: r.Rules.Name + " measures " + words.Length(m.s.Course().Units, r.Measured.Metres) + "."})
	}
	for _, f := range words.Findings(r.Findings) {
		out = append(out, line{f.Rule, about(f.Obstacles) + f.What + " [" + f.Source + "]", canvas.Caution})
	}
	out = append(out, line{}, line{left: "Cautions", role: canvas.Title})
	for _, c := range r.Cautions {
		out = append(out, line{"!", about(c.Obstacles) + words.Safe(c.What) + " [" + c.Source + "]", canvas.Caution})
	}
	out = append(out, line{right: "The judge, the current rulebook and your vet have the last word."})
	out = append(out, line{}, line{left: "Traps, strongest first", role: canvas.Title})
	for i := range r.Traps {
		t := m.trapLine(m.walked(), &r.Traps[i])
		t.right = words.Leg(r.Traps[i].Leg) + ", " + t.right
		out = append(out, t)
	}
	return append(out, line{right: words.Model})
}

func about(ids []string) string {
	if len(ids) == 0 {
		return ""
	}
	return words.Safe(strings.Join(ids, ", ")) + ": "
}
