package sim

import (
	"sync"

	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/team"
)

// Memory keeps where seeded runs stood before what a change of the plan can touch: the runs
// of an altered plan begin there and not at the release, and come out the same. It may be used
// by many at once. The zero value remembers nothing yet.
type Memory struct {
	mu   sync.Mutex
	kept []*remembered // oldest first
}

// What is kept: a mark takes some three kilobytes.
const (
	mostKept  = 4
	mostMarks = 500 // runs with a mark
)

// remembered is what is kept of one series of runs.
type remembered struct {
	course   *course.Course
	team     *team.Team
	seed     uint64
	actions  []plan.Action
	arrivals []State
	alike    int    // marks hold for plans with the same first actions, this many
	marks    []mark // by run; none where no plan like it had been run before
}

// mark is where one run stood at the start of a leg, and how the legs before had ended.
type mark struct {
	st    State
	leg   int // legs done; 0: the run has to begin at the release
	clean bool
	ends  []int16
	slips []uint8
	lures []lure
}

// recall returns the marks that save most of the runs of s, nil for none, and how many of its
// first actions are those of some plan that was run before.
func (m *Memory) recall(s *Setup, seed uint64) (from *remembered, alike int) {
	m.mu.Lock()
	defer m.mu.Unlock()
	for _, k := range m.kept {
		if k.course != s.Course || k.team != s.Team || k.seed != seed {
			continue
		}
		n := sameActions(k.actions, s.Actions)
		alike = max(alike, n)
		if k.marks != nil && k.alike <= n && (from == nil || k.alike >= from.alike) {
			from = k
		}
	}
	return from, alike
}

// remember keeps the marks of a series, in the place of the oldest.
func (m *Memory) remember(k *remembered) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.kept = append(m.kept, k); len(m.kept) > mostKept {
		m.kept = m.kept[1:]
	}
}

// sameActions returns how many of the first actions handler and dog cannot tell apart.
func sameActions(a, b []plan.Action) int {
	n := 0
	for n < min(len(a), len(b)) && bare(a[n]) == bare(b[n]) {
		n++
	}
	return n
}

// bare returns an action without what it is called.
func bare(a plan.Action) plan.Action {
	a.Spoken, a.Manoeuvre, a.Cue = "", 0, 0
	return a
}

// mark returns the mark of run i, nil where it has to begin at the release. A run that went
// wrong goes on from the likely run's arrivals: these too must be the same.
func (k *remembered) mark(i, sameArrivals int) *mark {
	if k == nil || i >= len(k.marks) || k.marks[i].leg == 0 || k.marks[i].leg > sameArrivals {
		return nil
	}
	return &k.marks[i]
}

// sameArrivals returns the number of legs after which the likely run stands where it stood.
func (k *remembered) sameArrivals(arrivals []State) int {
	n := 0
	for k != nil && n < min(len(arrivals), len(k.arrivals)) && arrivals[n] == k.arrivals[n] {
		n++
	}
	return n
}

// untouched reports whether a handler in action k has done nothing yet that an action after
// the first alike ones can touch: he looks on from the stand he heads for to the next.
func (s *Setup) untouched(k, alike int) bool {
	for range 2 {
		next, ok := s.nextStand(k)
		if !ok {
			return false
		}
		k = next
	}
	return k < alike
}
