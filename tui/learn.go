package tui

import (
	"os"

	"cuewalk/tui/canvas"
	"cuewalk/tui/drill"
	"cuewalk/tui/session"

	tea "github.com/charmbracelet/bubbletea"
)

// learnKeys open the drills on the plan as it stands.
func learnKeys() keyMap {
	const g = "Plans and teams"
	return keyMap{
		{group: g, keys: []string{"v"}, label: "v", what: "learn this plan by heart: recall, timing, say it", live: both(looking, planned), do: act((*Model).startLearning)},
	}
}

// startLearning opens the drills.
func (m *Model) startLearning() tea.Cmd {
	q := m.question(m.active())
	d, err := drill.New(drill.Options{
		Course: m.run().Setup.Course, Plan: q.Plan, Team: q.Team, Store: m.o.Progress, Seed: m.o.Seed,
		Light: m.o.Light, Fine: m.canvas.Fine, Mono: m.o.Mono, Profile: m.o.Profile, Tick: m.o.Tick, Nested: true,
		Ring: func() { _, _ = os.Stdout.WriteString("\a") },
	})
	if err != nil {
		m.say(canvas.Caution, err.Error())
		return nil
	}
	m.play.on = false
	m.learning = d
	d.Update(tea.WindowSizeMsg{Width: m.w, Height: m.h})
	return nil
}

// learn passes a message to the drills while they are open; false for one that is not theirs.
func (m *Model) learn(msg tea.Msg) (cmd tea.Cmd, theirs bool) {
	if m.learning == nil {
		return nil, false
	}
	switch msg.(type) {
	case session.Event, tea.ResumeMsg:
		return nil, false
	case tea.WindowSizeMsg: // the screen below needs it too
		m.learning.Update(msg)
		return nil, false
	}
	_, cmd = m.learning.Update(msg)
	if m.learning.Left() {
		m.learning, m.stale = nil, true
		if k, ok := msg.(tea.KeyMsg); ok && k.Type == tea.KeyCtrlC {
			return m.key(k), true
		}
	}
	return cmd, true
}
