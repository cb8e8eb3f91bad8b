//go:build !unix

package tui

import tea "github.com/charmbracelet/bubbletea"

// catch does nothing where a process cannot be stopped from outside.
func (s *stopper) catch(*tea.Program) (end func()) { return func() {} }
