package tui

import (
	"errors"
	"os"
	"os/signal"
	"sync"
	"syscall"
	"time"

	"cuewalk/tui/session"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/term"
)

// Run opens the screen on the terminal and returns when it is left; without a plan it opens on
// the course as the dog reads it. Plans that were changed and not saved are asked about before.
// Told to end, it first keeps what is not saved and only then talks to the terminal, which may
// be blocked; the error says where it was kept.
func Run(o Options) error {
	if o.Watch == nil {
		o.Watch = session.WatchFolders
	}
	m := New(o).(*Model)
	if err := m.s.Ready(); err != nil {
		return err
	}
	g := &guarded{Model: m}
	var stop stopper
	p := tea.NewProgram(g, tea.WithAltScreen(), tea.WithMouseCellMotion(), tea.WithFPS(120), tea.WithoutSignalHandler(), tea.WithFilter(stop.see))
	before, _ := term.GetState(os.Stdin.Fd())
	told := make(chan os.Signal, 1)
	signal.Notify(told, syscall.SIGHUP, syscall.SIGTERM, os.Interrupt)
	defer signal.Stop(told)
	defer stop.catch(p)()
	ended := make(chan error, 1)
	go func() {
		_, err := p.Run()
		ended <- err
	}()
	select {
	case err := <-ended:
		return errors.Join(err, g.rescue())
	case <-told:
		lost := g.rescue()
		leave(p, ended)
		if before != nil {
			_ = term.Restore(os.Stdin.Fd(), before) // a call to the system, which no full line holds up
		}
		return lost
	}
}

// patience is how long a terminal that takes nothing is waited for at the end.
const patience = 2 * time.Second

// leave asks the program to put the terminal in order and waits no longer than patience.
func leave(p *tea.Program, ended <-chan error) {
	go p.Quit()
	select {
	case <-ended:
	case <-time.After(patience):
	}
}

// guarded is the model with a lock around all that changes or reads it, so that it can be
// rescued while the screen library waits for the terminal.
type guarded struct {
	*Model
	lock sync.Mutex
}

func (g *guarded) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	g.lock.Lock()
	defer g.lock.Unlock()
	_, cmd := g.Model.Update(msg)
	return g, cmd
}

func (g *guarded) View() string {
	g.lock.Lock()
	defer g.lock.Unlock()
	return g.Model.View()
}

func (g *guarded) rescue() error {
	g.lock.Lock()
	defer g.lock.Unlock()
	g.s.Close()
	return g.s.Rescue()
}
