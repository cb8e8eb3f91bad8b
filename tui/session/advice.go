package session

import (
	"cmp"
	"context"
	"slices"

	"cuewalk/sim/advice"
)

// sought is what advice is the answer to: a question and the leg to a course number.
type sought struct {
	q Question
	n int
}

// Advice is what was found to help on the leg to a course number.
type Advice struct {
	Question Question
	Leg      int
	Changes  []Change
}

// Change is one change of a plan that may help. It is a question like any other: its figures
// are those of the same runs, with the same luck.
type Change struct {
	Question
	Found advice.Advice
	Of    advice.Found // the chances that Found is told against
}

// search is a search for advice going on in the background.
type search struct {
	number int
	sought sought
	cancel func()
}

// advisedEvent says what a search found.
type advisedEvent struct {
	number int
	found  advice.Found
	err    error
}

func (advisedEvent) isEvent() {}

// Advise looks for changes of the plan of q that would help on the leg to number n. What was
// looked for before is not looked for again; then there is no task.
func (s *Session) Advise(q Question, n int) Task {
	key := sought{q, n}
	if s.found[key] != nil || s.search != nil && s.search.sought == key {
		return nil
	}
	s.StopAdvice()
	ctx, cancel := context.WithCancel(context.Background())
	s.searches++
	s.search = &search{s.searches, key, cancel}
	number, c, seed, find := s.searches, s.course, s.c.Seed, s.c.Advise
	return func() Event {
		found, err := find(ctx, c, q.Plan, q.Team, n, seed, advice.Runs)
		return advisedEvent{number, found, err}
	}
}

// Found is the advice that was found for a leg of q; nil for none yet. Changes that turned out
// not to help, once their figures are settled, are left out, and the best stand first.
func (s *Session) Found(q Question, n int) *Advice {
	a := s.found[sought{q, n}]
	if a == nil || s.c.Runs < 1 {
		return a
	}
	out := &Advice{Question: a.Question, Leg: a.Leg}
	was := s.Ask(q)
	for _, c := range a.Changes {
		if r := s.Ask(c.Question); !s.Settled(c.Question) || r.Clean > was.Clean {
			out.Changes = append(out.Changes, c)
		}
	}
	if s.AdviceSettled(q, n) {
		slices.SortStableFunc(out.Changes, func(x, y Change) int {
			return cmp.Compare(s.Ask(y.Question).Clean, s.Ask(x.Question).Clean)
		})
	}
	return out
}

// AdviceSettled reports whether advice was found for a leg of q and all its figures are settled.
func (s *Session) AdviceSettled(q Question, n int) bool {
	a := s.found[sought{q, n}]
	return a != nil && !slices.ContainsFunc(a.Changes, func(c Change) bool { return !s.Settled(c.Question) })
}

// Advising is the number of the leg that advice is looked for on; 0 for none.
func (s *Session) Advising() int {
	if s.search == nil {
		return 0
	}
	return s.search.sought.n
}

// StopAdvice gives up looking.
func (s *Session) StopAdvice() {
	if s.search != nil {
		s.search.cancel()
		s.search = nil
	}
}

func (s *Session) advised(e advisedEvent) (News, Task) {
	if s.search == nil || e.number != s.search.number {
		return nil, nil
	}
	key := s.search.sought
	s.StopAdvice()
	a := &Advice{Question: key.q, Leg: key.n}
	if e.err != nil {
		s.remember(key, a) // it would fail again
		return Advised{Advice: a, Err: e.err}, nil
	}
	for i := range e.found.Advice {
		f := e.found.Advice[i]
		p := f.Plan
		a.Changes = append(a.Changes, Change{Question{&p, key.q.Team}, f, e.found})
	}
	s.remember(key, a)
	return Advised{Advice: a}, nil
}

// mostAdvice is how many legs advice is kept for.
const mostAdvice = 40

func (s *Session) remember(key sought, a *Advice) {
	if s.found == nil || len(s.found) >= mostAdvice {
		s.found = map[sought]*Advice{}
	}
	s.found[key] = a
}
