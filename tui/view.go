package tui

import (
	"fmt"
	"slices"
	"strings"

	"cuewalk/tui/canvas"
	"cuewalk/tui/words"
)

// View is the frame. It is worked out once after each change and kept.
func (m *Model) View() string {
	if m.learning != nil {
		return m.learning.View()
	}
	if m.stale {
		m.stale = false
		m.canvas.Clear()
		m.places = m.places[:0]
		m.draw()
		m.frame = m.canvas.String(m.palette)
	}
	return m.frame
}

func (m *Model) draw() {
	v := m.canvas.All()
	switch err := m.s.Ready(); {
	case m.w < leastWidth || m.h < leastHeight:
		v.Wrap(fmt.Sprintf("This window is too small: make it at least %d by %d.", leastWidth, leastHeight), canvas.Plain)
		return
	case err != nil:
		v.Wrap(words.Safe(err.Error())+". Any key quits.", canvas.Caution)
		return
	case m.page != noPage:
		m.drawPage(v)
		return
	case m.mode == comparing:
		m.drawCompare(v)
	case m.mode == walking:
		m.drawWalk(v)
	case m.mode == judging:
		m.drawJudge(v)
	default:
		m.drawRehearse(v)
	}
	n := 1
	if m.prompt != nil {
		n = m.prompt.rows(m.w - 1)
	}
	m.drawFoot(m.sub(rect{0, m.h - n, m.w, n}))
}

func (m *Model) sub(r rect) canvas.View { return m.canvas.Sub(r.x, r.y, r.w, r.h) }

// click notes that a click in r means this.
func (m *Model) click(r rect, kind placeKind, n int) {
	m.places = append(m.places, place{r, kind, n})
}

// drawHead names course, plan and team, and says how likely a clean run is.
func (m *Model) drawHead(v canvas.View) {
	w, _ := v.Size()
	q := m.question(0)
	r := m.run()
	chance := "clean run " + words.Percent(r.Clean)
	if w < 72 {
		chance = "model: " + chance
	} else if i := words.Interval(r.Low, r.High); i != "" {
		chance += " (" + i + ")"
	}
	if p := m.progress(); p != "" && w >= 72 {
		chance += "  " + p
	}
	end := v.TextEnd(w-1, 0, chance, canvas.Plain|canvas.Strong)
	name := words.Safe(q.Plan.Name)
	if m.doc().Altered() {
		name += " *"
	}
	sep := " | "
	if m.canvas.Fine {
		sep = " · "
	}
	x := v.TextFit(0, 0, min(end-2, max(canvas.Width(name), end-2-w/3)), name, m.nameRole())
	rest := sep + words.Safe(q.Team.Name) + sep + words.Safe(m.s.Course().Name)
	v.TextFit(x, 0, end-2-x, rest, canvas.Quiet)
}

func (m *Model) nameRole() canvas.Role {
	if m.doc().Altered() {
		return canvas.Altered | canvas.Strong
	}
	return canvas.Title
}

// progress says how far the runs are: "480 of 2000 runs".
func (m *Model) progress() string {
	done, of, going := m.s.Progress(m.question(m.active()))
	switch {
	case going && of > 0:
		if m.w < 100 {
			return fmt.Sprintf("%d/%d", done, of)
		}
		return fmt.Sprintf("%d of %d runs", done, of)
	case m.s.Advising() > 0:
		return "trying changes"
	case m.s.Running():
		return "running"
	case m.s.Resting():
		return "runs stopped"
	}
	return ""
}

// drawFoot shows what was just said or asked, and else the keys that matter now.
func (m *Model) drawFoot(v canvas.View) {
	w, _ := v.Size()
	if m.prompt != nil {
		m.prompt.draw(v)
		return
	}
	w-- // the last cell of the screen stays empty
	switch {
	case m.typed != "":
		x := v.Text(0, 0, "go to number ", canvas.Plain)
		x = v.Text(x, 0, m.typed+"_", canvas.Plain|canvas.Chosen)
		v.TextFit(x, 0, w-x, "   enter go   esc forget it", canvas.Quiet)
		return
	case m.note.text != "":
		v.TextFit(0, 0, w, m.note.text, m.note.role)
		return
	}
	x := m.footKeys(v, w)
	if s := words.ModelShort; w-x >= len(s)+2 {
		v.TextEnd(w, 0, s, canvas.Quiet)
	}
}

// mostFoot is how many keys the footer shows at most.
const mostFoot = 6

func (m *Model) footKeys(v canvas.View, w int) int {
	x, shown := 0, 0
	for _, b := range m.footer() {
		label := b.name(m.canvas.Fine)
		n := canvas.Width(label) + 1 + canvas.Width(b.foot)
		if x > 0 {
			n += 3
		}
		if shown == mostFoot || x+n > w {
			continue
		}
		if x > 0 {
			x += 3
		}
		from := x
		x = v.Text(x, 0, label, canvas.Key)
		x = v.Text(x+1, 0, b.foot, canvas.Plain)
		m.click(rect{from, m.h - 1, x - from, 1}, onKey, m.index(b))
		shown++
	}
	return x
}

// footer lists at most six bindings: those that matter most now, with help and the way back
// always among them.
func (m *Model) footer() []*binding {
	var ranked, always []*binding
	for _, b := range m.now() {
		switch {
		case b.foot == "back" && !m.backStep().away:
		case b.foot == "help" || b.foot == "back":
			always = append(always, b)
		case b.foot != "":
			ranked = append(ranked, b)
		}
	}
	m.sortRank(ranked)
	ranked = ranked[:min(len(ranked), mostFoot-len(always))]
	if first := min(1, len(ranked)); m.w < 80 { // help before what might not fit
		return slices.Concat(ranked[:first], always, ranked[first:])
	}
	return append(ranked, always...)
}

func (m *Model) index(b *binding) int {
	for i := range m.keys {
		if &m.keys[i] == b {
			return i
		}
	}
	return -1
}

// drawBroken says what is wrong with files that could not be read again.
func (m *Model) drawBroken(v canvas.View) {
	w, _ := v.Size()
	const still = "the last good state is shown"
	if w > 2*len(still) {
		w = v.TextEnd(w-1, 0, still, canvas.Quiet) - 2
	}
	v.TextFit(0, 0, w, "! "+m.brokenText(), canvas.Wrong)
}

// writer puts texts one below the other.
type writer struct {
	v canvas.View
	y int
}

// put wraps a text into the rows that are left and reports whether all of it fit.
func (p *writer) put(text string, role canvas.Role) bool {
	w, h := p.v.Size()
	if p.y >= h || text == "" {
		return false
	}
	need := canvas.Lines(text, w)
	p.y += p.v.Sub(0, p.y, w, h-p.y).Wrap(text, role)
	return need <= h-p.y+need
}

// pair puts a label and a text beside it.
func (p *writer) pair(label, text string, role canvas.Role) {
	w, h := p.v.Size()
	if p.y >= h || text == "" {
		return
	}
	x := p.v.TextFit(0, p.y, w, label+" ", canvas.Quiet)
	if lines := canvas.Lines(text, w-x); x < w/2 && lines > 0 {
		p.y += p.v.Sub(x, p.y, w-x, h-p.y).Wrap(text, role)
		return
	}
	p.y++
	p.put(text, role)
}

func joinWords(parts ...string) string {
	var out []string
	for _, p := range parts {
		if p != "" {
			out = append(out, p)
		}
	}
	return strings.Join(out, ", ")
}

// brokenLines breaks a text at blanks into lines of at most w cells; a longer word stays whole.
func brokenLines(text string, w int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && canvas.Width(line)+1+canvas.Width(word) > w {
			lines = append(lines, line)
			line = ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(lines, line)
}
