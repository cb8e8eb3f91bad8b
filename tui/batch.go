package tui

import (
	"context"
	"fmt"
	"runtime/debug"
	"time"

	"cuewalk/sim"

	tea "github.com/charmbracelet/bubbletea"
)

// batch is one series of seeded runs going on in the background. Its messages carry its
// number, so that those of a series given up are told from those wanted.
type batch struct {
	number int
	q      question
	runs   int
	done   int
	ctx    context.Context
	cancel context.CancelFunc
	said   chan tea.Msg
}

// progressMsg says how far a series is, talliedMsg what came of it.
type (
	progressMsg struct{ number, done int }
	panicMsg    struct{ what string }
	talliedMsg  struct {
		number int
		tally  *sim.Tally
		err    error
	}
)

// firstFrame is how long the first series leaves the processor to the first picture.
const firstFrame = 30 * time.Millisecond

// wanted lists what is on the screen and lacks runs: first a few for all, then the full
// number.
func (m *Model) wanted() (q question, runs int, ok bool) {
	if m.o.Runs < 0 || m.resting {
		return q, 0, false
	}
	for _, runs := range []int{min(quickRuns, m.o.Runs), m.o.Runs} {
		for _, q := range m.shown() {
			if m.ask(q).Runs < runs {
				return q, runs, true
			}
		}
	}
	return q, 0, false
}

// keepRunning starts the next series that is wanted, after giving up one that is not.
func (m *Model) keepRunning() tea.Cmd {
	if b := m.batch; b != nil {
		for _, q := range m.shown() {
			if q == b.q && !m.resting {
				return nil
			}
		}
		m.stopRunning()
	}
	q, runs, ok := m.wanted()
	if !ok {
		return nil
	}
	return m.start(q, runs)
}

func (m *Model) start(q question, runs int) tea.Cmd {
	ctx, cancel := context.WithCancel(context.Background())
	m.batches++
	b := &batch{number: m.batches, q: q, runs: runs, ctx: ctx, cancel: cancel, said: make(chan tea.Msg, 1)}
	m.batch = b
	setup, seed := m.ask(q).Setup, m.o.Seed
	pause := time.Duration(0)
	if b.number == 1 {
		pause = firstFrame
	}
	go func() {
		defer b.pass()
		time.Sleep(pause)
		tally, err := setup.RunMany(ctx, seed, runs, func(done int) {
			select {
			case b.said <- progressMsg{b.number, done}:
			default: // the screen has not yet taken the last one
			}
		})
		select {
		case b.said <- talliedMsg{b.number, tally, err}:
		case <-ctx.Done():
		}
	}()
	return b.listen()
}

// pass hands a panic of the series to the model: bubbletea leaves the terminal in order only
// after those that happen there.
func (b *batch) pass() {
	if r := recover(); r != nil {
		select {
		case b.said <- panicMsg{fmt.Sprintf("%v\n%s", r, debug.Stack())}:
		case <-b.ctx.Done():
		}
	}
}

// listen waits for what the series says next.
func (b *batch) listen() tea.Cmd {
	return func() tea.Msg {
		select {
		case msg := <-b.said:
			return msg
		case <-b.ctx.Done():
			return nil
		}
	}
}

func (m *Model) stopRunning() {
	if m.batch != nil {
		m.batch.cancel()
		m.batch = nil
	}
}

func (m *Model) progressed(msg progressMsg) tea.Cmd {
	b := m.batch
	if b == nil || msg.number != b.number {
		m.stale = false
		return nil
	}
	b.done = msg.done
	return b.listen()
}

func (m *Model) tallied(msg talliedMsg) tea.Cmd {
	b := m.batch
	if b == nil || msg.number != b.number {
		m.stale = false
		return nil
	}
	b.cancel()
	m.batch = nil
	if msg.err != nil {
		return nil
	}
	m.answers.put(b.q, m.ask(b.q).With(msg.tally))
	if m.ask(b.q).Runs < b.runs { // nothing came of it: do not try for ever
		m.resting = true
		return nil
	}
	return m.keepRunning()
}
