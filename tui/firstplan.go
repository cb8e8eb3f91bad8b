package tui

import (
	"path/filepath"

	"cuewalk/tui/canvas"
	"cuewalk/tui/session"

	tea "github.com/charmbracelet/bubbletea"
)

// startPlan asks where a first plan shall be written.
func (m *Model) startPlan() tea.Cmd {
	if m.s.Starting() {
		m.say(canvas.Quiet, "a first plan is being tried out already; esc stops that")
		return nil
	}
	m.askStart("Write a first plan to which new file?", m.s.FirstName())
	return nil
}

func (m *Model) askStart(text, value string) {
	m.prompt = &prompt{text: text, value: value, done: func(m *Model, name string) tea.Cmd {
		if name == "" {
			m.say(canvas.Caution, "! no plan was written: no name was given")
			return nil
		}
		m.say(canvas.Quiet, "a first plan is being tried out; this takes some seconds   esc stop")
		return command(m.s.StartFirst(m.team(), name))
	}}
}

func (m *Model) notStarted(n session.NotStarted) {
	if n.Path == "" {
		m.say(canvas.Wrong, "! no plan was written: "+n.Err.Error())
		return
	}
	m.askStart("Not written: "+n.Err.Error()+". To which new file instead?", filepath.Base(n.Path))
}

// started opens a first plan that was written, at the same course number.
func (m *Model) started(n session.Started) tea.Cmd {
	from, at := m.run(), m.at
	m.mode, m.lit, m.fault, m.camera, m.play.on = judging, 0, 0, camera{}, false
	m.sides[0].Doc, m.sides[0].AsSaved = len(m.s.Docs())-1, false
	m.sides[1] = m.other(m.sides[0])
	m.at = joined(from, m.run(), at)
	m.say(canvas.Quiet, "a first plan was written to "+n.Path+"; alter it as you like")
	return m.keepRunning()
}
