package tui

import (
	"cuewalk/tui/canvas"

	tea "github.com/charmbracelet/bubbletea"
)

// backStep is what Esc does now: it leads back one step, or stops what goes on by itself.
type backStep struct {
	away bool // it leads back from somewhere: worth a place in the footer
	do   func(m *Model) tea.Cmd
}

func (m *Model) canGoBack() bool { return m.backStep().do != nil }

// backStep finds the step; it has no do where there is none.
func (m *Model) backStep() backStep {
	quietly := func(f func(m *Model)) func(*Model) tea.Cmd {
		return func(m *Model) tea.Cmd { f(m); return nil }
	}
	switch {
	case m.typed != "":
		return backStep{true, quietly(func(m *Model) { m.typed = "" })}
	case m.play.on:
		return backStep{true, quietly(func(m *Model) { m.play.on = false })}
	case m.mode == altering:
		return backStep{true, quietly(func(m *Model) { m.mode = rehearsing })}
	case m.mode == comparing && m.camera.own == nil:
		return backStep{true, (*Model).leaveCompare}
	case m.camera.own != nil || m.camera.whole || m.camera.follow:
		return backStep{true, quietly(func(m *Model) { m.camera = camera{turn: m.camera.turn} })}
	case m.s.Starting():
		return backStep{false, (*Model).stopStarting}
	case m.mode == walking && len(m.s.Docs()) > 0:
		return backStep{true, (*Model).leaveWalk}
	case m.mode == rehearsing:
		return backStep{true, (*Model).openVerdict}
	case m.s.Advising() > 0 || m.s.Running():
		return backStep{false, (*Model).stopRuns}
	}
	return backStep{}
}

func (m *Model) back() tea.Cmd { return m.backStep().do(m) }

// stopRuns stops all that is worked out in the background.
func (m *Model) stopRuns() tea.Cmd {
	m.s.StopAdvice()
	m.s.Rest()
	m.say(canvas.Quiet, "the runs were stopped; r goes on with them")
	return nil
}

func (m *Model) stopStarting() tea.Cmd {
	m.s.StopFirst()
	m.say(canvas.Quiet, "the first plan was given up; no file was written")
	return nil
}

func (m *Model) runAgain() tea.Cmd { return tea.Batch(command(m.s.Resume()), m.keepRunning()) }
