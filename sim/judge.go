package sim

import (
	"math"

	"cuewalk/course/geom"
	"cuewalk/sim/dog"
)

// The refusal line is the program's own reading: no rulebook seen draws it with
// measures. It is the line through the obstacle at right angles to its direction;
// a dog that has been before it, within lineReach of the middle, and passes it
// without taking the obstacle has run out (AKC judges' guide, FCI, Kennel Club).
const (
	lineReach = 4.0 // metres to either side
	patience  = 4.0 // seconds on the ground with nothing taken: it has stopped working
)

// verdict is how a leg ended.
type verdict uint8

const (
	goingOn verdict = iota
	clean
	offCourse
	wrongSide
	refused
)

// judge looks at what the dog has done since it was at before.
func (r *run) judge(st *State, event dog.Event, before geom.Point) {
	if st.Leg > len(r.s.correct) {
		if event == dog.Done {
			st.came = st.Odo
			r.out(st)
		}
		return
	}
	switch event {
	case dog.Took:
		r.taken(st, st.Dog.Entry)
	case dog.Done:
		st.came = st.Odo
		r.out(st)
	case dog.Missed:
		st.tries++
		st.hazard, st.called, st.need = 0, 0, 0
	}
	if r.verdict == goingOn && st.Dog.Mode == dog.Ground && r.ranOut(st, before) {
		r.verdict = refused
	}
	if st.idle > patience {
		r.verdict, r.idle = refused, true
	}
}

// judged returns the judge's verdict on a dog that takes an entry on a leg.
func (s *Setup) judged(entry, leg int) verdict {
	e, step := &s.Entries[entry], s.Course.Order[leg-1]
	switch {
	case step.Takes(*e):
		return clean
	case e.Obstacle == step.Obstacle:
		return wrongSide
	}
	return offCourse
}

// taken judges the entry the dog took; a right one opens the next leg.
func (r *run) taken(st *State, entry int) {
	r.entry = entry
	if r.verdict = r.s.judged(entry, st.Leg); r.verdict != clean {
		return
	}
	st.took = st.Odo
	st.Leg++
	st.idle, st.hazard, st.called, st.need, st.sure, st.tries, st.armed = 0, 0, 0, 0, 0, 0, false
	r.s.fresh(st, r.luck)
}

// out notes the chance that a dog which has come out of the obstacle at the number before
// left it early.
func (r *run) out(st *State) {
	if st.strain > 0 {
		r.early, r.earlyAt = -math.Expm1(-st.strain), st.Leg-1
		st.strain = 0
	}
}

// ranOut reports whether the dog has run past the obstacle the judge waits for, and notes
// how near it came and how wide of it.
func (r *run) ranOut(st *State, before geom.Point) bool {
	e := &r.s.Entries[r.s.correct[st.Leg-1]]
	to := e.At.Sub(st.Dog.At)
	square := to.Dot(to)
	r.near = min(r.near, square)
	if square > 1.5*1.5*lineReach*lineReach {
		return false // not near enough for any of it
	}
	if st.Dog.Commit >= 0 && r.s.Entries[st.Dog.Commit].Obstacle != e.Obstacle {
		return false // it is on its way over something else: that is for taken
	}
	way := geom.Pose{At: e.At, Heading: e.Heading}
	was, is := way.Local(before), way.Local(st.Dog.At)
	facing := math.Abs(float64(st.Dog.At.Towards(e.At).Off(st.Dog.Heading)))
	if is.Y < -0.4 && math.Abs(is.X) < 2 && is.Y > -3.5 && facing < 0.7 {
		st.armed = true
	}
	if st.armed && was.Y < 0 && is.Y >= 0 && math.Abs(is.X) < lineReach && math.Abs(is.X) > e.Half*0.5 {
		r.wide = is.X
		return true
	}
	return false
}
