package tui

import (
	"sync/atomic"

	tea "github.com/charmbracelet/bubbletea"
)

// stopper knows whether the screen is leaving the terminal to be stopped.
type stopper struct{ leaving atomic.Bool }

// see is a filter of messages that notes when the screen is to be stopped.
func (s *stopper) see(_ tea.Model, msg tea.Msg) tea.Msg {
	if _, ok := msg.(tea.SuspendMsg); ok {
		s.leaving.Store(true)
	}
	return msg
}
