package drill

import (
	"fmt"
	"sort"
	"strconv"
	"strings"

	"cuewalk/sim"
	"cuewalk/tui/canvas"
	"cuewalk/tui/words"
)

// The least window that everything fits into.
const leastWidth, leastHeight = 60, 20

// View implements tea.Model.
func (m *Model) View() string {
	m.canvas.Clear()
	v := m.canvas.All()
	switch {
	case m.w < leastWidth || m.h < leastHeight:
		v.Wrap("This window is too small: make it at least 60 by 20.", canvas.Plain)
	case m.paused:
		m.head(v, "paused")
		v.Sub(0, 2, m.w, m.h-4).Wrap("Paused. Nothing runs on. Any key goes on, q leaves; what you have learnt is kept.", canvas.Plain)
	case m.mode == recalling:
		m.recall.draw(m, v)
	case m.mode == timing:
		m.timing.draw(m, v)
	case m.mode == saying:
		m.say.draw(m, v)
	default:
		m.drawChoice(v)
	}
	if m.note != "" && m.h > 2 {
		v.TextFit(0, m.h-2, m.w, m.note, m.noteRole)
	}
	return m.canvas.String(m.palette)
}

// head is the row that says what is learnt and where one is in it.
func (m *Model) head(v canvas.View, where string) {
	w, _ := v.Size()
	end := v.TextEnd(w-1, 0, where, canvas.Plain|canvas.Strong)
	v.TextFit(0, 0, end-2, words.Safe(m.o.Plan.Name), canvas.Title)
}

// foot is the row of keys.
func (m *Model) foot(v canvas.View, keys string) {
	w, h := v.Size()
	v.TextFit(0, h-1, w, keys, canvas.Key)
}

func (m *Model) drawChoice(v canvas.View) {
	w, h := v.Size()
	m.head(v, "learn it by heart")
	p := writer{v: v.Sub(2, 2, w-4, h-5)}
	p.put("1  Recall", canvas.Key)
	p.put("   What comes next, where and what, cue by cue, until two whole recalls are without a mistake. About ten minutes.", canvas.Plain)
	p.put("   "+m.soFar(), canvas.Quiet)
	p.gap()
	p.put("2  Timing", canvas.Key)
	p.put("   The dog runs; press a key at the moment of each cue. The dog answers to your press.", canvas.Plain)
	p.gap()
	p.put("3  Say it", canvas.Key)
	p.put("   The next cue in large letters, a little ahead, to be said as on the line.", canvas.Plain)
	p.gap()
	p.put("The judge's briefing, the rulebook and your dog on the day come before any plan.", canvas.Quiet)
	m.foot(v, "1 2 3 choose  q leave")
}

// soFar says what is known of the plan.
func (m *Model) soFar() string {
	known := 0
	for k := range m.o.Plan.Cues {
		if m.kept.Knows(m.o.Plan, k) {
			known++
		}
	}
	text := count(known, "cue") + " of " + count(len(m.o.Plan.Cues), "cue") + " known at the last asking"
	if !m.o.Store.Keeps() {
		text += "; nothing is kept"
	}
	return text + "."
}

// writer puts texts below each other.
type writer struct {
	v canvas.View
	y int
}

func (p *writer) put(text string, role canvas.Role) {
	w, h := p.v.Size()
	if p.y >= h {
		return
	}
	p.y += p.v.Sub(0, p.y, w, h-p.y).Wrap(text, role)
}

func (p *writer) gap() { p.y++ }

// upTo is the run as far as sample n: what comes after it is not to be seen.
func upTo(r *sim.Rehearsal, n int) *sim.Rehearsal {
	s := r.Trace.Samples
	return &sim.Rehearsal{Setup: r.Setup, Trace: sim.Trace{Samples: s[:min(n+1, len(s))]}}
}

// cueText is cue k with what it sets: `cue 4, "6 entry -2": "go", at (12.8, 31.6)`.
func cueText(s *sim.Setup, k int) string {
	return fmt.Sprintf("cue %d, %q: %s", k+1, s.Plan.Cues[k].When.String(), strings.Join(said(s, k), ", "))
}

// sampleAt is the last sample at or before t seconds.
func sampleAt(r *sim.Rehearsal, t float64) int {
	s := r.Trace.Samples
	return max(0, sort.Search(len(s), func(i int) bool { return s[i].Time > t })-1)
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}

func upper(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
