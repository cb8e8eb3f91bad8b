package tui

import (
	"errors"
	"fmt"
	"os"
	"os/signal"
	"strings"
	"syscall"

	tea "github.com/charmbracelet/bubbletea"
)

// rescue keeps what would be lost when the program ends without having asked, because it was
// told to or broke: every plan with unsaved changes goes into a new file beside its own. It
// says where, and what could not be kept.
func (m *Model) rescue() error {
	var kept []string
	var failed []error
	for _, d := range m.docs {
		if !d.unsaved() {
			continue
		}
		path := newName(d.file, func(name string) bool {
			_, err := m.o.Read(name)
			return err == nil || m.taken(name)
		})
		data, err := d.contents(d.plan(), m.course)
		if err == nil {
			err = m.o.Create(path, data)
		}
		if err != nil {
			failed = append(failed, fmt.Errorf("changes to %q are lost: %w", d.plan().Name, err))
			continue
		}
		kept = append(kept, path)
	}
	if len(kept) > 0 {
		failed = append(failed, errors.New("ended before changes were saved; they are kept in "+strings.Join(kept, ", ")))
	}
	return errors.Join(failed...)
}

// hangUp ends the program in order when its terminal goes away, and returns what stops that.
// (bubbletea itself listens for an interrupt and for being told to end.)
func hangUp(p *tea.Program) (stop func()) {
	gone := make(chan os.Signal, 1)
	done := make(chan struct{})
	signal.Notify(gone, syscall.SIGHUP)
	go func() {
		select {
		case <-gone:
			p.Quit()
		case <-done:
		}
	}()
	return func() {
		signal.Stop(gone)
		close(done)
	}
}
