package sim

import (
	"math"
	"slices"
	"sort"
)

// Live is a run that goes on as it is looked at, in which somebody else gives the cues:
// the handler does what each says from the moment it is given. A cue may be given for a
// moment just past; what came after is run again. It has the luck of one seeded run.
type Live struct {
	s      *Setup
	r      run
	states []State
	trace  Trace
	given  []float64 // by action, seconds; +Inf for not yet
	came   []float64 // by action: when its moment came; NaN for not yet
	ends   []int     // by leg that is over: how it ended
	at     []int     // by leg that is over: the state it ended with
	from   int       // the state the present way began with: before it nothing is run again
}

// Live begins a run at the release. Run number i of a seed has the luck of run i of
// RunMany with that seed.
func (s *Setup) Live(seed uint64, i int) *Live {
	l := &Live{s: s, given: make([]float64, len(s.Actions)), came: make([]float64, len(s.Actions))}
	for k := range l.given {
		l.given[k], l.came[k] = math.Inf(1), math.NaN()
	}
	l.r.begin(s, Luck{seed: seed, run: uint64(i), on: true})
	l.r.hunch.given = l.given
	l.add(s.Start(l.r.luck))
	return l
}

func (l *Live) last() *State { return &l.states[len(l.states)-1] }

// Time returns how far it has been run, seconds since the release.
func (l *Live) Time() float64 { return l.last().Time }

// Next returns the index in Setup.Actions of the next cue to be given; false after the last.
func (l *Live) Next() (int, bool) {
	k := l.last().Hand.Action + 1
	for k < len(l.given) && !math.IsInf(l.given[k], 1) {
		k++
	}
	return k, k < len(l.given)
}

// Late returns how many seconds after its moment action k was given, early negative; false
// while one of the two is still to come.
func (l *Live) Late(k int) (float64, bool) {
	late := l.given[k] - l.came[k]
	return late, !math.IsNaN(late) && !math.IsInf(late, 0)
}

// Came returns when the moment of action k came, seconds since the release.
func (l *Live) Came(k int) (float64, bool) { return l.came[k], !math.IsNaN(l.came[k]) }

// Ahead returns in how many seconds the moment of action k comes at the dog's present
// speed, as its handler sees it; negative when it is past.
func (l *Live) Ahead(k int) float64 {
	d := l.s.watched(l.last())
	return l.s.hand.Until(&d, k) / max(d.Speed, 1)
}

// Leg returns how the leg to number n ended: its fault, the obstacle it happened at, and
// whether it is over at all. A clean leg has ok and clean.
func (l *Live) Leg(n int) (kind FaultKind, obstacle int, clean, over bool) {
	if n < 1 || n > len(l.ends) {
		return 0, -1, false, false
	}
	own := l.s.Entries[l.s.correct[n-1]].Obstacle
	switch end := l.ends[n-1]; end {
	case endClean:
		return 0, own, true, true
	case endRefused:
		return Refusal, own, false, true
	case endBar:
		return KnockedBar, own, false, true
	case endContact:
		return MissedContact, own, false, true
	default:
		if at := l.s.Entries[end].Obstacle; at != own {
			return OffCourse, at, false, true
		}
		return WrongSide, own, false, true
	}
}

// Legs returns how many legs are over.
func (l *Live) Legs() int { return len(l.ends) }

// Stopped reports whether the last leg ended with a fault that the dog does not go on from
// by itself.
func (l *Live) Stopped() bool {
	n := len(l.ends)
	return n > 0 && (l.ends[n-1] >= 0 || l.ends[n-1] == endRefused) && l.at[n-1] == len(l.states)-1
}

// Over reports whether all numbers are done.
func (l *Live) Over() bool { return len(l.ends) == len(l.s.correct) && !l.Stopped() }

// Rehearsal is the run up to now as a rehearsal of which only setup and trace are filled
// in, to be drawn; good until the next call.
func (l *Live) Rehearsal() *Rehearsal { return &Rehearsal{Setup: l.s, Trace: l.trace} }

// To runs on to t seconds after the release, as far as it goes.
func (l *Live) To(t float64) {
	for l.Time() < t && !l.Stopped() && !l.Over() {
		l.step()
	}
}

// Give gives the next cue at t seconds after the release and runs on to where the run was.
// It returns the cue's index in Setup.Actions; false where none is left or t is before the
// way the run is on. A cue is never given before the one before it.
func (l *Live) Give(t float64) (int, bool) {
	k, ok := l.Next()
	if !ok || t < l.states[l.from].Time {
		return 0, false
	}
	if k-1 > l.states[l.from].Hand.Action {
		t = max(t, l.given[k-1])
	}
	now := l.Time()
	l.back(t)
	l.given[k] = t
	l.r.stop = t
	l.To(t)
	l.r.stop = 0
	l.To(max(now, t+1e-6))
	return k, true
}

// GoOn takes the dog on from the number after a fault, as seeded runs do: from where it
// would be as planned.
func (l *Live) GoOn() bool {
	leg := len(l.ends) - 1
	if !l.Stopped() || leg+1 >= len(l.s.correct) {
		return false
	}
	from := l.s.arrivals()[leg]
	st := from[min(len(from)-1, int(l.r.luck.uniform(drawArrival, leg)*float64(len(from))))]
	l.s.fresh(&st, l.r.luck)
	for k := range l.given {
		if k > st.Hand.Action {
			l.given[k], l.came[k] = math.Inf(1), math.NaN()
		}
	}
	l.r.fresh()
	l.add(st)
	l.from = len(l.states) - 1
	return true
}

func (l *Live) add(st State) {
	l.states = append(l.states, st)
	l.trace.add(&st, 1)
}

// back forgets what came after t.
func (l *Live) back(t float64) {
	n := l.from + sort.Search(len(l.states)-l.from, func(i int) bool { return l.states[l.from+i].Time > t+1e-9 })
	n = max(n, l.from+1)
	if n == len(l.states) {
		return
	}
	l.states = l.states[:n]
	l.trace.cut(n)
	for len(l.at) > 0 && l.at[len(l.at)-1] >= n {
		l.at, l.ends = l.at[:len(l.at)-1], l.ends[:len(l.ends)-1]
	}
	for k := range l.came {
		if l.came[k] > l.Time() {
			l.came[k] = math.NaN()
		}
	}
	l.r.fresh()
}

// cut forgets the samples from n on.
func (t *Trace) cut(n int) {
	t.Samples = t.Samples[:n]
	t.Strides = slices.DeleteFunc(t.Strides, func(i int) bool { return i >= n })
	t.Paws = slices.DeleteFunc(t.Paws, func(p PawPrint) bool { return p.Sample >= n })
}

// step takes the run on by a step, and through the end of a leg.
func (l *Live) step() {
	st := *l.last()
	l.moments(&st)
	l.r.step(&st)
	l.add(st)
	if n, end := l.r.left(); n > 0 && n <= len(l.ends) && l.ends[n-1] == endClean {
		l.ends[n-1] = end
	}
	if l.r.verdict == goingOn {
		if len(l.states)-1-l.began() < l.r.longest() {
			return
		}
	}
	end := endRefused
	switch l.r.verdict {
	case clean:
		end = l.r.slipped(&st)
	case offCourse, wrongSide:
		end = l.r.entry
	}
	l.ends, l.at = append(l.ends, end), append(l.at, len(l.states)-1)
	l.r.fresh()
}

// began returns the state the present leg began with.
func (l *Live) began() int {
	if n := len(l.at); n > 0 {
		return max(l.at[n-1], l.from)
	}
	return l.from
}

// moments notes which cues' moments have come by now.
func (l *Live) moments(st *State) {
	d := l.s.watched(st)
	dt := l.s.stepTime(st)
	for k := range l.came {
		if !math.IsNaN(l.came[k]) || k == 0 {
			continue
		}
		left := l.s.hand.Until(&d, k)
		switch {
		case math.IsInf(left, -1):
			l.came[k] = st.Time
		case left <= dt*d.Speed:
			l.came[k] = max(0, st.Time+left/max(d.Speed, 1))
		}
	}
}
