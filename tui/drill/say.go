package drill

import (
	"fmt"
	"strings"

	"cuewalk/plan"
	"cuewalk/tui/canvas"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
)

// sayIt is a walk at true speed with the next cue in large letters, some time ahead.
type sayIt struct {
	ahead float64 // seconds before its moment that a cue is shown
	shown int     // action shown; 0 for none yet
	over  bool
}

// The least and most time ahead, seconds.
const leastAhead, mostAhead = 0.0, 3.0

func (s *sayIt) start(m *Model) tea.Cmd {
	s.shown, s.over = 0, false
	m.clock.start(m.o.Now(), -3, 1) // time to get ready
	return m.ticking()
}

func (s *sayIt) key(m *Model, k string) tea.Cmd {
	switch k {
	case "+", "=":
		s.ahead = min(mostAhead, s.ahead+0.25)
	case "-":
		s.ahead = max(leastAhead, s.ahead-0.25)
	case "b":
		m.o.Bell = !m.o.Bell
	case "r", "enter":
		return s.start(m)
	}
	return nil
}

func (s *sayIt) tick(m *Model, at float64) {
	for k := s.shown + 1; k < len(m.run.Cues); k++ {
		c := m.run.Cues[k]
		if c.Sample < 0 {
			continue
		}
		if c.Given-s.ahead > at {
			break
		}
		s.shown = k
		if m.o.Bell && m.o.Ring != nil {
			m.o.Ring()
		}
	}
	if at > m.run.Time {
		s.over = true
		m.clock.stop()
	}
}

func (s *sayIt) draw(m *Model, v canvas.View) {
	w, h := v.Size()
	at := m.clock.at(m.o.Now())
	m.head(v, fmt.Sprintf("say it, %.2f s ahead%s", s.ahead, map[bool]string{true: ", bell", false: ""}[m.o.Bell]))
	m.foot(v, "+ - time ahead  b bell  r again  p pause  esc back  q leave")
	box := v.Sub(2, 2, w-4, h-5)
	switch {
	case s.over:
		box.Wrap("That was the run. r walks it again.", canvas.Plain)
	case s.shown == 0:
		box.Wrap("Get ready. You stand at "+words.Place(m.o.Course.Units, m.o.Plan.LeadOut)+".", canvas.Title)
	default:
		drawLetters(box.Sub(0, 1, w-4, letterHeight), loud(m, s.shown))
		p := writer{v: box, y: letterHeight + 3}
		p.put(upper(cueText(m.setup, s.shown-1)), canvas.Plain|canvas.Strong)
		if s.shown+1 < len(m.setup.Actions) {
			p.gap()
			p.put("then "+cueText(m.setup, s.shown), canvas.Quiet)
		}
	}
	v.TextEnd(w-1, h-3, words.Seconds(max(at, 0))+" of "+words.Seconds(m.run.Time), canvas.Quiet)
}

// loud is what a cue is in one or two words: what is said, or the cross, or what changes.
func loud(m *Model, k int) string {
	c := &m.o.Plan.Cues[k-1]
	switch {
	case c.Word != "":
		return c.Word
	case c.Cross != plan.NoCross:
		return c.Cross.String()
	case c.Signal != plan.Along:
		return c.Signal.String()
	case c.Arm != plan.SameArm:
		return c.Arm.String()
	case c.Pace != plan.SamePace:
		return c.Pace.String()
	case c.Shoulders.Facing != plan.SameFacing:
		return strings.TrimPrefix(words.Shoulders(m.setup.Actions[k].Shoulders), "shoulders ")
	}
	return "stand"
}
