//go:build unix

package tui

import (
	"os"
	"os/signal"
	"syscall"

	tea "github.com/charmbracelet/bubbletea"
)

// catchStop has a stop from outside leave the terminal in order, as one by key does, and
// returns what ends that. The screen library stops the process itself, by the same signal, so
// it is not caught until the process goes on.
func catchStop(p *tea.Program) (end func()) {
	stop, goOn, done := make(chan os.Signal, 1), make(chan os.Signal, 1), make(chan struct{})
	signal.Notify(stop, syscall.SIGTSTP)
	signal.Notify(goOn, syscall.SIGCONT)
	go func() {
		for {
			select {
			case <-stop:
				signal.Reset(syscall.SIGTSTP)
				p.Send(tea.Suspend())
			case <-goOn:
				signal.Notify(stop, syscall.SIGTSTP)
			case <-done:
				return
			}
		}
	}()
	return func() {
		signal.Stop(stop)
		signal.Stop(goOn)
		close(done)
	}
}
