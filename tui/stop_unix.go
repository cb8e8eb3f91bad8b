//go:build unix

package tui

import (
	"os"
	"os/signal"
	"syscall"

	tea "github.com/charmbracelet/bubbletea"
)

// catch has a stop from outside leave the terminal in order, as one by key does, and returns
// what ends that. The screen library stops the process by the same signal when it has left the
// terminal; as a caught signal never gets its default back in Go, that one is answered with a
// signal that cannot be caught.
func (s *stopper) catch(p *tea.Program) (end func()) {
	stop, goOn, done := make(chan os.Signal, 1), make(chan os.Signal, 1), make(chan struct{})
	signal.Notify(stop, syscall.SIGTSTP)
	signal.Notify(goOn, syscall.SIGCONT)
	go func() {
		for {
			select {
			case <-stop:
				if s.leaving.Load() {
					_ = syscall.Kill(syscall.Getpid(), syscall.SIGSTOP)
				} else {
					p.Send(tea.Suspend())
				}
			case <-goOn:
				s.leaving.Store(false)
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
