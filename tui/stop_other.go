//go:build !unix

package tui

import tea "github.com/charmbracelet/bubbletea"

// catchStop does nothing where a process cannot be stopped from outside.
func catchStop(*tea.Program) (end func()) { return func() {} }
