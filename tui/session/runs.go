package session

import (
	"context"
	"fmt"
	"runtime/debug"
	"slices"
	"time"

	"cuewalk/sim"
)

// batch is one series of seeded runs going on in the background. Its events carry its number,
// so that those of a series given up are told from those wanted.
type batch struct {
	number int
	q      Question
	runs   int
	done   int
	ctx    context.Context
	cancel context.CancelFunc
	said   chan Event
}

// progressEvent says how far a series is, talliedEvent what came of it.
type (
	progressEvent struct{ number, done int }
	panicEvent    struct{ what string }
	talliedEvent  struct {
		number int
		tally  *sim.Tally
		err    error
	}
)

func (progressEvent) isEvent() {}
func (panicEvent) isEvent()    {}
func (talliedEvent) isEvent()  {}

// firstFrame is how long the first series leaves the processor to the first picture.
const firstFrame = 30 * time.Millisecond

// Want says what figures are wanted of, most wanted first, and starts the runs they lack; runs
// that are wanted no more are given up.
func (s *Session) Want(qs ...Question) Task {
	s.wanted = append(s.wanted[:0], qs...)
	return s.keepRunning()
}

// Rest stops the runs until Resume.
func (s *Session) Rest() {
	s.stopRunning()
	s.resting = true
}

// Resume makes the runs that were stopped.
func (s *Session) Resume() Task {
	s.resting = false
	return s.keepRunning()
}

// Resting reports whether runs were stopped that are wanted.
func (s *Session) Resting() bool { return s.resting }

// Progress is how many of the runs of q are made, of how many, and whether they go on.
func (s *Session) Progress(q Question) (done, of int, going bool) {
	if b := s.batch; b != nil && b.q == q && b.runs == s.c.Runs {
		return b.done, b.runs, true
	}
	return s.Ask(q).Runs, max(s.c.Runs, 0), s.batch != nil && s.batch.q == q
}

// Running reports whether any runs go on.
func (s *Session) Running() bool { return s.batch != nil }

// lacking is what is wanted and lacks runs: first a few for all, then the full number.
func (s *Session) lacking() (q Question, runs int, ok bool) {
	if s.c.Runs < 1 || s.resting {
		return q, 0, false
	}
	for _, runs := range []int{min(quickRuns, s.c.Runs), s.c.Runs} {
		for _, q := range s.wanted {
			if s.Ask(q).Runs < runs {
				return q, runs, true
			}
		}
	}
	return q, 0, false
}

func (s *Session) keepRunning() Task {
	if b := s.batch; b != nil {
		if slices.Contains(s.wanted, b.q) && !s.resting {
			return nil
		}
		s.stopRunning()
	}
	q, runs, ok := s.lacking()
	if !ok {
		return nil
	}
	return s.start(q, runs)
}

func (s *Session) start(q Question, runs int) Task {
	ctx, cancel := context.WithCancel(context.Background())
	s.batches++
	b := &batch{number: s.batches, q: q, runs: runs, ctx: ctx, cancel: cancel, said: make(chan Event, 1)}
	s.batch = b
	setup, seed := s.Ask(q).Setup, s.c.Seed
	pause := time.Duration(0)
	if b.number == 1 {
		pause = firstFrame
	}
	go func() {
		defer b.pass()
		time.Sleep(pause)
		tally, err := setup.RunMany(ctx, seed, runs, func(done int) {
			select {
			case b.said <- progressEvent{b.number, done}:
			default: // the last one was not taken yet
			}
		})
		select {
		case b.said <- talliedEvent{b.number, tally, err}:
		case <-ctx.Done():
		}
	}()
	return b.listen()
}

// pass hands a panic of the series to whoever takes events: only there can a terminal be left
// in order.
func (b *batch) pass() {
	if r := recover(); r != nil {
		select {
		case b.said <- panicEvent{fmt.Sprintf("%v\n%s", r, debug.Stack())}:
		case <-b.ctx.Done():
		}
	}
}

// listen waits for what the series says next.
func (b *batch) listen() Task {
	return func() Event {
		select {
		case e := <-b.said:
			return e
		case <-b.ctx.Done():
			return nil
		}
	}
}

func (s *Session) stopRunning() {
	if s.batch != nil {
		s.batch.cancel()
		s.batch = nil
	}
}

func (s *Session) progressed(e progressEvent) (News, Task) {
	b := s.batch
	if b == nil || e.number != b.number {
		return nil, nil
	}
	b.done = e.done
	return Running{}, b.listen()
}

func (s *Session) tallied(e talliedEvent) (News, Task) {
	b := s.batch
	if b == nil || e.number != b.number {
		return nil, nil
	}
	b.cancel()
	s.batch = nil
	if e.err != nil {
		return Running{}, nil
	}
	s.keep(b.q, s.Ask(b.q).With(e.tally))
	if s.Ask(b.q).Runs < b.runs { // nothing came of it: do not try for ever
		s.resting = true
		return Running{}, nil
	}
	return Counted{b.q}, s.keepRunning()
}

// Settle makes all runs of q at once; ctx ends it.
func (s *Session) Settle(ctx context.Context, q Question) error {
	r := s.Ask(q)
	if s.Settled(q) {
		return nil
	}
	tally, err := r.Setup.RunMany(ctx, s.c.Seed, s.c.Runs, nil)
	if err == nil {
		s.keep(q, r.With(tally))
	}
	return err
}
