package tui

import (
	"context"
	"fmt"

	"cuewalk/sim"
	"cuewalk/sim/advice"
	"cuewalk/tui/canvas"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
)

// search is a search for advice going on in the background.
type search struct {
	number int
	cancel func()
}

// advisedMsg says what a search found for a question.
type advisedMsg struct {
	number int
	q      question
	found  advice.Found
	err    error
}

// seekAdvice looks for changes of the plan that would help on the leg under the cursor.
func (m *Model) seekAdvice() tea.Cmd {
	r := m.run()
	i := legIndex(r, m.at)
	if i < 0 {
		return nil
	}
	if m.sides[0].asSaved {
		m.say(canvas.Caution, "! this is the plan as saved: tab to the other side to alter")
		return nil
	}
	m.stopSearch()
	ctx, cancel := context.WithCancel(context.Background())
	m.searches++
	m.search = &search{m.searches, cancel}
	n, number, q := r.Legs[i].Number, m.searches, m.question(0)
	c, seed, find := m.course, m.o.Seed, m.o.advise
	m.say(canvas.Quiet, "trying changes of the cues that act on "+words.Leg(n)+"   esc stop")
	return func() tea.Msg {
		found, err := find(ctx, c, q.plan, q.team, n, seed, advice.Runs)
		return advisedMsg{number, q, found, err}
	}
}

func (m *Model) stopSearch() {
	if m.search != nil {
		m.search.cancel()
		m.search = nil
	}
}

// advised shows what was found, unless something else is asked by now.
func (m *Model) advised(msg advisedMsg) tea.Cmd {
	if m.search == nil || msg.number != m.search.number {
		m.stale = false
		return nil
	}
	m.stopSearch()
	if msg.err != nil || m.prompt != nil || m.mode == comparing || m.mode == walking || msg.q != m.question(0) {
		return nil
	}
	f, setup := msg.found, m.run().Setup
	if len(f.Advice) == 0 {
		m.say(canvas.Quiet, words.Leg(f.Number)+": "+words.NoAdvice)
		return nil
	}
	p := &prompt{listed: true, text: fmt.Sprintf("%s: what would help in the model, in points by %d runs:", words.Leg(f.Number), advice.Runs)}
	for i := range f.Advice {
		a := &f.Advice[i]
		p.choices = append(p.choices, choice{fmt.Sprint(i + 1), words.Change(setup, a), words.Effect(&f, a), func(m *Model) tea.Cmd { return m.heed(setup, msg.q, a) }})
	}
	m.prompt = p
	return nil
}

// heed makes a piece of advice the plan; undo takes it back.
func (m *Model) heed(s *sim.Setup, q question, a *advice.Advice) tea.Cmd {
	if m.question(0) != q {
		m.say(canvas.Caution, "! the plan has changed since")
		return nil
	}
	what := words.Change(s, a)
	m.say(canvas.Quiet, "taken: "+what+"   u undo")
	return m.shift(func(d *document) { d.push(&a.Plan, "advice, "+what) })
}
