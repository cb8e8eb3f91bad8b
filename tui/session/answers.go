package session

import (
	"slices"

	"cuewalk/sim"
)

// answers keeps rehearsals, so that undo and going back and forth between plans cost nothing.
type answers struct {
	known map[Question]*sim.Rehearsal
	order []Question // oldest first
}

// most is how many rehearsals are kept beside those wanted; one is some hundred kilobytes.
const most = 24

// Ask returns the rehearsal of q: from before if there is one, with as many runs behind it as
// were made by now.
func (s *Session) Ask(q Question) *sim.Rehearsal {
	if r := s.answers.known[q]; r != nil {
		return r
	}
	r := s.c.Rehearse(s.course, q.Plan, q.Team)
	s.keep(q, r)
	return r
}

// Settled reports whether the figures of q will change no more: all its runs are made, or none
// are to be made.
func (s *Session) Settled(q Question) bool { return s.c.Runs < 1 || s.Ask(q).Runs >= s.c.Runs }

func (s *Session) keep(q Question, r *sim.Rehearsal) {
	a := &s.answers
	if a.known == nil {
		a.known = map[Question]*sim.Rehearsal{}
	}
	if _, ok := a.known[q]; !ok {
		a.order = append(a.order, q)
	}
	a.known[q] = r
	for i := 0; i < len(a.order) && len(a.order) > most+len(s.wanted); i++ {
		if old := a.order[i]; old != q && !slices.Contains(s.wanted, old) {
			delete(a.known, old)
			a.order = slices.Delete(a.order, i, i+1)
			i--
		}
	}
}

func (a *answers) forget() { a.known, a.order = nil, nil }

// Forget lets go of all answers, so that what was asked is worked out again.
func (s *Session) Forget() { s.answers.forget() }
