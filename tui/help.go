package tui

import (
	"cmp"
	"slices"

	"cuewalk/tui/canvas"
	"cuewalk/tui/eye"
	"cuewalk/tui/ring"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
)

// page is what lies over the screen.
type page uint8

const (
	noPage page = iota
	keysPage
	signsPage
	legPage    // everything about a leg of a course that is read
	coursePage // and about the course
)

func (m *Model) sortRank(bs []*binding) {
	rank := func(b *binding) int {
		if m.mode == altering && b.alterRank > 0 {
			return b.alterRank
		}
		if m.mode == judging && b.judgeRank > 0 {
			return b.judgeRank
		}
		if m.mode == walking && b.walkRank > 0 {
			return b.walkRank
		}
		return b.rank
	}
	slices.SortStableFunc(bs, func(a, b *binding) int { return cmp.Compare(rank(a), rank(b)) })
}

// line is one line of a page: a heading, or a key or sign and what it does or means.
type line struct {
	left, right string
	role        canvas.Role
}

// helpLines lists the keys that do something now, from the table that is obeyed.
func (m *Model) helpLines() []line {
	var out []line
	group := ""
	for _, b := range m.now() {
		if b.group != group {
			if group != "" {
				out = append(out, line{})
			}
			group = b.group
			out = append(out, line{left: group, role: canvas.Title})
		}
		out = append(out, line{b.name(m.canvas.Fine), b.what, canvas.Key})
	}
	out = append(out, line{}, line{left: "The mouse", role: canvas.Title},
		line{"click", "go to an obstacle, a leg or a cue; light a plan; press a key of the last row", canvas.Key},
		line{"drag", "move a stand of the handler", canvas.Key},
		line{"wheel", "nearer and farther over the ring; on and back elsewhere", canvas.Key})
	return out
}

// ringSigns says what the signs of the ring mean.
func (m *Model) ringSigns() []line {
	out := []line{{"The ring", "", canvas.Title}}
	for _, s := range ring.Table() {
		out = append(out, line{s.Sign, s.Means, s.Role})
	}
	return out
}

// columnWords says what the columns over the legs are.
func (m *Model) columnWords() string {
	if m.mode == walking {
		return "the chance that a wrong obstacle gets an unhandled dog; the highest is the worst, its chance at the left"
	}
	return "the chance that the leg is not clean; the highest is the worst, its chance at the left"
}

// signLines says what the signs on the screen mean.
func (m *Model) signLines() []line {
	out := append(m.ringSigns(), []line{
		{"", "", 0},
		{"The dog's eye", "", canvas.Title},
	}...)
	for _, s := range eye.Legend() {
		out = append(out, line{s.Sign, s.Means, s.Role})
	}
	out = append(out, []line{
		{"", "", 0},
		{"The legs", "", canvas.Title},
		{"columns", m.columnWords(), canvas.Wrong},
		{"! >", "one of the three worst legs; the leg under the cursor", canvas.Wrong},
		{"*", "changed and not saved; a difference that is more than chance", canvas.Altered},
		{"(a to b %)", "in 95 of 100 such series of runs the chance lies in there", canvas.Plain},
		{"", "", 0},
		{"What this is", "", canvas.Title},
	}...)
	for _, c := range words.Cautions() {
		out = append(out, line{right: c})
	}
	return out
}

func (m *Model) pageLines() []line {
	switch m.page {
	case signsPage:
		return m.signLines()
	case legPage:
		return m.legLines()
	case coursePage:
		return m.courseLines()
	}
	return m.helpLines()
}

// drawPage draws the page over the whole screen, from the line scrolled to.
func (m *Model) drawPage(v canvas.View) {
	w, h := v.Size()
	title := "Keys that do something now"
	switch m.page {
	case signsPage:
		title = "What the signs mean"
	case legPage:
		title = "To " + words.Target(m.s.Course(), m.walked().run.Legs[max(legIndex(m.run(), m.at), 0)].Number)
	case coursePage:
		title = words.Safe(m.s.Course().Name)
	}
	v.TextFit(0, 0, w, title, canvas.Title)
	rows := m.pageRows(w - 1)
	room := h - 3
	m.scroll = min(max(m.scroll, 0), max(len(rows)-room, 0))
	for i := range min(room, len(rows)-m.scroll) {
		rows[m.scroll+i].draw(v, 2+i-1+1)
	}
	foot := "esc back"
	if len(rows) > room {
		foot = "up down more   " + foot
	}
	v.TextFit(0, h-1, w-1, foot, canvas.Quiet)
}

// pageRow is one row of a page as it stands.
type pageRow struct {
	left, right string
	at          int
	role        canvas.Role
}

func (r pageRow) draw(v canvas.View, y int) {
	w, _ := v.Size()
	if r.role == canvas.Title {
		v.TextFit(0, y, w-1, r.left, r.role)
		return
	}
	v.TextFit(1, y, r.at-2, r.left, r.role)
	v.TextFit(r.at, y, w-r.at-1, r.right, canvas.Plain)
}

// pageRows breaks the lines of the page to w cells.
func (m *Model) pageRows(w int) []pageRow {
	at := 14
	if m.page == signsPage {
		at = 13
	}
	var out []pageRow
	for _, l := range m.pageLines() {
		if l.role == canvas.Title || l.right == "" {
			out = append(out, pageRow{left: l.left, at: at, role: l.role})
			continue
		}
		for i, part := range brokenLines(l.right, w-at) {
			r := pageRow{right: part, at: at, role: l.role}
			if i == 0 {
				r.left = l.left
			}
			out = append(out, r)
		}
	}
	return out
}

// pageKey scrolls the page or leaves it.
func (m *Model) pageKey(k string) tea.Cmd {
	switch k {
	case "down", "j":
		m.scroll++
	case "up", "k":
		m.scroll--
	case "pgdown", " ":
		m.scroll += m.h - 4
	case "pgup":
		m.scroll -= m.h - 4
	case "home", "g":
		m.scroll = 0
	case "end", "G":
		m.scroll = 1 << 20
	case "esc", "?", "f1", "m", "q", "enter", "e", "r":
		m.page = noPage
	case "ctrl+c":
		m.page = noPage
		return m.quit()
	}
	m.scroll = max(m.scroll, 0)
	return nil
}

func (m *Model) openPage(p page) { m.page, m.scroll = p, 0 }

func (m *Model) signs() { m.openPage(signsPage) }
