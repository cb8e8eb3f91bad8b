package tui

import (
	"fmt"

	"cuewalk/sim"
	"cuewalk/sim/advice"
	"cuewalk/tui/canvas"
	"cuewalk/tui/session"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
)

// seekAdvice looks for changes of the plan that would help on the leg under the cursor.
func (m *Model) seekAdvice() tea.Cmd {
	r := m.run()
	i := legIndex(r, m.at)
	if i < 0 {
		return nil
	}
	if m.sides[0].AsSaved {
		m.say(canvas.Caution, "! this is the plan as saved: tab to the other side to alter")
		return nil
	}
	n, q := r.Legs[i].Number, m.question(0)
	if a := m.s.Found(q, n); a != nil {
		m.offer(a)
		return nil
	}
	m.say(canvas.Quiet, "trying changes of the cues that act on "+words.Leg(n)+"   esc stop")
	return command(m.s.Advise(q, n))
}

// advised shows what was found, unless something else is asked by now.
func (m *Model) advised(n session.Advised) tea.Cmd {
	if n.Err != nil || m.prompt != nil || m.mode == comparing || m.mode == walking || m.mode == judging || n.Advice.Question != m.question(0) {
		return nil
	}
	m.offer(n.Advice)
	return nil
}

func (m *Model) offer(a *session.Advice) {
	setup := m.run().Setup
	if len(a.Changes) == 0 {
		m.say(canvas.Quiet, words.Leg(a.Leg)+": "+words.NoAdvice)
		return
	}
	p := &prompt{listed: true, text: fmt.Sprintf("%s: what would help in the model, in points by %d runs:", words.Leg(a.Leg), advice.Runs)}
	for i := range a.Changes {
		c := &a.Changes[i]
		p.choices = append(p.choices, choice{fmt.Sprint(i + 1), words.Change(setup, &c.Found), words.Effect(&c.Of, &c.Found), func(m *Model) tea.Cmd { return m.heed(setup, a.Question, c) }})
	}
	m.prompt = p
}

// heed makes a piece of advice the plan; undo takes it back.
func (m *Model) heed(s *sim.Setup, q session.Question, c *session.Change) tea.Cmd {
	if m.question(0) != q {
		m.say(canvas.Caution, "! the plan has changed since")
		return nil
	}
	what := words.Change(s, &c.Found)
	m.say(canvas.Quiet, "taken: "+what+"   u undo")
	return m.shift(func(d *session.Document) { d.Push(c.Plan, "advice, "+what) })
}
