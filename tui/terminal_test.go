package tui

import (
	"io"
	"strings"
	"sync"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/vt"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// terminal is an emulated one. The emulator does not lock what it shows, so this does.
type terminal struct {
	mu sync.Mutex
	e  *vt.Emulator
}

func (s *terminal) Write(b []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.e.Write(b)
}

func (s *terminal) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.e.String()
}

func (s *terminal) resize(w, h int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.e.Resize(w, h)
}

func (s *terminal) waitFor(t *testing.T, what string) {
	t.Helper()
	for end := time.Now().Add(5 * time.Second); time.Now().Before(end); time.Sleep(2 * time.Millisecond) {
		if strings.Contains(s.String(), what) {
			return
		}
	}
	t.Fatalf("%q never came; the screen is\n%s", what, s.String())
}

// The whole screen in a terminal: keys go in as bytes, and what is read is what a person sees.
func TestInATerminal(t *testing.T) {
	o, d := practice(t)
	o.Profile = termenv.ANSI256
	o.Tick = nil
	o.Runs = 50
	s := &terminal{e: vt.NewEmulator(100, 30)}
	go io.Copy(io.Discard, s.e) // its answers to queries
	in, keys := io.Pipe()
	m := New(o)
	p := tea.NewProgram(m, tea.WithInput(in), tea.WithOutput(s), tea.WithAltScreen(), tea.WithMouseCellMotion(), tea.WithoutSignals())
	done := make(chan error, 1)
	go func() { _, err := p.Run(); done <- err }()
	send := func(text string) { _, _ = io.WriteString(keys, text) }
	p.Send(tea.WindowSizeMsg{Width: 100, Height: 30})
	s.waitFor(t, "Inside, front cross at 4")
	s.waitFor(t, "? help")

	s.waitFor(t, "Clean in about")
	send("l")
	s.waitFor(t, "space play")
	send("5\r")
	s.waitFor(t, "4 to 5  clean")
	send("\x1b[B") // down
	s.waitFor(t, "5 to 6  clean")
	send("?")
	s.waitFor(t, "Moving through the run")
	send("\x1b")
	s.waitFor(t, "5 to 6  clean")
	send("c")
	s.waitFor(t, "B - A")
	send("\x1b")
	s.waitFor(t, "5 to 6  clean")
	send("5\r")
	s.waitFor(t, "4 to 5  clean")
	send("a")
	s.waitFor(t, "Alter cue")
	send("\x1b[D") // left
	s.waitFor(t, "front cross at 4 *")
	s.resize(60, 20)
	p.Send(tea.WindowSizeMsg{Width: 60, Height: 20})
	s.waitFor(t, "4 to 5  clean")
	send("s")
	s.waitFor(t, "saved to inside.toml")
	assert.Contains(t, string(d["inside.toml"]), "# the cross")
	send("q")
	select {
	case err := <-done:
		require.NoError(t, err)
	case <-time.After(5 * time.Second):
		t.Fatal("q did not end it")
	}
}
