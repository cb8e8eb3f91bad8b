package tui

import (
	"path/filepath"

	"cuewalk/tui/canvas"
	"cuewalk/tui/session"
	"cuewalk/tui/verdict"

	tea "github.com/charmbracelet/bubbletea"
)

// command makes a task of the session a command of the screen.
func command(t session.Task) tea.Cmd {
	if t == nil {
		return nil
	}
	return func() tea.Msg {
		if e := t(); e != nil {
			return e
		}
		return nil
	}
}

// happened takes what came of a task, tells it, and goes on with what is next.
func (m *Model) happened(e session.Event) tea.Cmd {
	was := m.place()
	news, tasks := m.s.Take(e)
	if news == nil {
		m.stale = false
	}
	cmds := []tea.Cmd{m.tell(news, was)}
	for _, t := range tasks {
		cmds = append(cmds, command(t))
	}
	if m.mode == judging {
		cmds = append(cmds, m.keepRunning())
	}
	return tea.Batch(cmds...)
}

// tell says what is new.
func (m *Model) tell(news session.News, was spot) tea.Cmd {
	switch n := news.(type) {
	case session.Advised:
		return m.advised(n)
	case session.Written:
		return m.written(n)
	case session.NotWritten:
		m.notWritten(n)
	case session.Reloaded:
		m.reloaded(n)
		m.at = was.in(m.run())
		return m.keepRunning()
	case session.Held:
		m.say(canvas.Caution, "! "+filepath.Base(n.Doc.File())+" was changed outside: R takes that, u then brings yours back")
	case session.Started:
		return m.started(n)
	case session.NotStarted:
		m.notStarted(n)
	}
	return nil
}

// reloaded says which file was taken over.
func (m *Model) reloaded(n session.Reloaded) {
	switch n.Kind {
	case session.CourseFile:
		m.walks, m.camera = nil, camera{}
		m.say(canvas.Quiet, "the course was changed outside and is taken over")
	case session.TeamFile:
		m.say(canvas.Quiet, "the team was changed outside and is taken over")
	case session.PlanOfFile:
		m.say(canvas.Quiet, "the plan was changed outside and is taken over; u goes back")
	}
}

// watch begins to wait for changes of the files shown.
func (m *Model) watch() tea.Cmd {
	t, err := m.s.Watch()
	if err != nil {
		m.say(canvas.Caution, "! changes of the files will not be seen: "+err.Error())
	}
	return command(t)
}

// keepRunning has the runs made that the figures on the screen lack.
func (m *Model) keepRunning() tea.Cmd {
	runs := command(m.s.Want(m.shown()...))
	if m.mode == judging && !m.s.Resting() {
		if n := verdict.Sought(m.s, m.question(0)); n > 0 {
			return tea.Batch(runs, command(m.s.Advise(m.question(0), n)))
		}
	}
	return runs
}
