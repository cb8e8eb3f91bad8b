package tui

import (
	"time"

	"cuewalk/tui/canvas"

	tea "github.com/charmbracelet/bubbletea"
)

// play is the axis moving by itself.
type play struct {
	on     bool
	number int       // tells the beats of this play from those of one before
	speed  int       // index in speeds
	last   time.Time // of the beat before; zero at the first
	time   float64   // seconds of the run, between samples too
}

var speeds = []struct {
	factor float64
	name   string
}{{1, "true speed"}, {.5, "half speed"}, {.25, "quarter speed"}}

// beat is how often the picture moves on while playing.
const beat = time.Second / 30

func (m *Model) playOrStop() tea.Cmd {
	if m.play.on {
		m.play.on = false
		return nil
	}
	r := m.run()
	if m.at >= last(r) {
		m.move(0)
	}
	m.play.on, m.play.time, m.play.last = true, m.seconds(), time.Time{}
	m.play.number++
	return m.nextBeat()
}

func (m *Model) nextBeat() tea.Cmd {
	number := m.play.number
	return m.o.Tick(beat, func(now time.Time) tea.Msg { return tickMsg{number, now} })
}

// tick moves on by the time that has passed, so that a slow terminal skips and does not lag.
func (m *Model) tick(msg tickMsg) tea.Cmd {
	p := &m.play
	if !p.on || msg.number != p.number {
		m.stale = false
		return nil
	}
	step := beat.Seconds()
	if !p.last.IsZero() {
		step = min(max(msg.now.Sub(p.last).Seconds(), 0), .25)
	}
	p.last = msg.now
	p.time += step * speeds[p.speed].factor
	ss := m.run().Trace.Samples
	at := m.at
	for at+1 < len(ss) && ss[at+1].Time <= p.time {
		at++
	}
	m.move(at)
	if at >= last(m.run()) {
		p.on = false
		return nil
	}
	return m.nextBeat()
}

func (m *Model) faster(dir int) {
	m.play.speed = min(max(m.play.speed-dir, 0), len(speeds)-1)
	m.say(canvas.Quiet, "plays at "+speeds[m.play.speed].name)
}
