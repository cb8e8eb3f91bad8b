package tui

import (
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
)

// question is what a rehearsal is the answer to. The three are never changed once shown, so
// their addresses tell them apart.
type question struct {
	plan *plan.Plan
	team *team.Team
}

// answers keeps rehearsals, so that undo and going back and forth between plans cost nothing.
type answers struct {
	known map[question]*sim.Rehearsal
	order []question // oldest first
}

// most is how many rehearsals are kept; one is some hundred kilobytes.
const most = 24

// ask returns the rehearsal of q, from before if there is one.
func (m *Model) ask(q question) *sim.Rehearsal {
	if r := m.answers.known[q]; r != nil {
		return r
	}
	r := m.o.rehearse(m.course, q.plan, q.team)
	m.answers.put(q, r)
	return r
}

func (a *answers) put(q question, r *sim.Rehearsal) {
	if a.known == nil {
		a.known = map[question]*sim.Rehearsal{}
	}
	if _, ok := a.known[q]; !ok {
		a.order = append(a.order, q)
	}
	a.known[q] = r
	if len(a.order) > most {
		delete(a.known, a.order[0])
		a.order = a.order[1:]
	}
}

func (a *answers) forget() { a.known, a.order = nil, nil }
