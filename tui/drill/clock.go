package drill

import (
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// frame is how long a picture stands while something runs.
const frame = 33 * time.Millisecond

// clock tells the seconds of a run from the time of day, at a speed, and can be held.
type clock struct {
	base  float64 // seconds of the run at since
	since time.Time
	speed float64
	on    bool
	held  bool
}

func (c *clock) start(now time.Time, at, speed float64) {
	*c = clock{base: at, since: now, speed: speed, on: true}
}

// at returns the seconds of the run now.
func (c *clock) at(now time.Time) float64 {
	if !c.on || c.held {
		return c.base
	}
	return c.base + now.Sub(c.since).Seconds()*c.speed
}

func (c *clock) stop() { c.on = false }

func (c *clock) hold(now time.Time) {
	if c.on && !c.held {
		c.base, c.held = c.at(now), true
	}
}

func (c *clock) resume(now time.Time) {
	if c.on && c.held {
		c.since, c.held = now, false
	}
}

// tickMsg is one beat of what runs; those of an earlier row are told by their number.
type tickMsg struct{ number int }

// ticking begins a row of ticks while the clock runs.
func (m *Model) ticking() tea.Cmd {
	if !m.clock.on || m.clock.held {
		return nil
	}
	m.beats++
	return m.next()
}

func (m *Model) next() tea.Cmd {
	number := m.beats
	return m.o.Tick(frame, func(time.Time) tea.Msg { return tickMsg{number} })
}

// ticked lets what runs go on.
func (m *Model) ticked(t tickMsg) tea.Cmd {
	if t.number != m.beats || !m.clock.on || m.clock.held {
		return nil
	}
	var cmd tea.Cmd
	at := m.clock.at(m.o.Now())
	switch m.mode {
	case recalling:
		m.recall.tick(m, at)
	case timing:
		cmd = m.timing.tick(m, at)
	case saying:
		m.say.tick(m, at)
	}
	if !m.clock.on {
		return cmd
	}
	return tea.Batch(cmd, m.next())
}
