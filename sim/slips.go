package sim

import (
	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim/dog"
)

// knocked returns the chance that the bar falls in the flight the dog has begun.
// Angle to the bar, speed, a take-off off its spot and a cue in the last instant
// raise it (common practice, no source; values C).
func (s *Setup) knocked(st *State) float64 {
	e := &s.Entries[st.Dog.Entry]
	if e.Height <= 0 {
		return 0
	}
	slant := float64(st.Dog.Off) / 0.5
	spot := st.Dog.Misfit / 0.25
	fast := s.extension(st)
	p := (1 - s.Team.Dog.Bars) * 0.16 * (1 + 0.8*slant*slant + 0.6*spot*spot + 0.7*fast*fast)
	if st.Dog.Late {
		p *= 2.2
	}
	return min(0.5, p)
}

// missedZone returns the chance of a missed contact on the obstacle the dog goes onto.
func (s *Setup) missedZone(st *State) float64 {
	if !s.Entries[st.Dog.Entry].Kind.Contact() {
		return 0
	}
	slant := float64(st.Dog.Off) / 0.4
	return min(0.6, (1-s.Team.Dog.Contact)*0.4*(0.6+s.extension(st)+slant*slant))
}

// missedWeave returns the chance that a dog misses the weave entry it goes into:
// speed and the side where the first pole must be wrapped make it harder.
func (s *Setup) missedWeave(st *State) float64 {
	e := &s.Entries[st.Dog.Entry]
	if e.Kind != course.Weaves {
		return 0
	}
	off := float64(st.Dog.Off) // right positive: coming from the left, the hard side
	hard := max(0, off) / float64(e.Left)
	easy := max(0, -off) / float64(e.Right)
	return min(0.9, (1-s.Team.Dog.Entry)*(0.3+1.5*s.extension(st)+3*hard*hard+0.8*easy*easy))
}

func (s *Setup) extension(st *State) float64 {
	d := &s.Team.Dog
	return max(0, min(1, (st.Dog.Speed-d.Collected)/(d.Extended-d.Collected)))
}

// slips are the chances of what may still go wrong with an obstacle the dog takes
// rightly: one of them at most can be true of one obstacle.
type slips struct{ bar, contact, refusal float64 }

// slips returns what may go wrong with the obstacle the dog has just taken.
func (s *Setup) slips(st *State) slips {
	return slips{bar: s.knocked(st), contact: s.missedZone(st), refusal: s.missedWeave(st)}
}

// ghost leads the dog by the shortest line it can run to the obstacle the judge
// waits for, and over it, whatever it would have done: the team goes on after a
// fault. The handler gives his cues meanwhile.
func (r *run) ghost(st *State, keep func(*State)) {
	s := r.s
	for n := 0; st.Dog.Mode != dog.Ground && n < r.longest(); n++ {
		r.move(st, s.stepTime(st))
		keep(st)
	}
	correct := s.correct[st.Leg-1]
	e := &s.Entries[correct]
	st.Dog.Commit = -1
	to := geom.Pose{At: e.At, Heading: e.Heading}
	to.At = to.Ahead(-s.dog.ReachOut(&st.Dog, e) * 0.95)
	path := geom.Dubins(st.Dog.Pose(), to, 1.5)
	const speed = 4.0
	for gone := 0.0; gone < path.Length; {
		dt := s.stepTime(st)
		seen := s.watched(st)
		s.hand.Act(&st.Hand, &seen, &r.hunch, dt)
		st.past.gave(st.Time, st.Hand.Action)
		st.Time += dt
		st.past.note(st.Time, s.apart, &st.Hand)
		step := min(speed*dt, path.Length-gone)
		gone += max(step, 1e-6)
		p := path.At(gone)
		st.Dog.At, st.Dog.Heading = p.At, p.Heading.Wrap()
		st.Dog.Speed, st.Dog.Turn, st.Dog.SinceLast = speed, 0, st.Dog.SinceLast+dt
		st.Dog.Stride = dog.StrideLength(s.dog.Withers, speed)
		st.Odo += step
		st.count(dog.Nothing, s.dog.StrideShare(&st.Dog, dt))
		keep(st)
	}
	h, w := s.shown(st, st.Time)
	st.Lead = s.dog.Read(&st.Dog.Body, &h, w)
	st.Dog.Heading, st.Dog.At = e.Heading, to.At
	st.Dog.Commit = correct
	s.scene.TakeNow(s.dog, &st.Dog, &st.Lead)
	st.Stride++
	st.stride = 0
	r.verdict = goingOn
	r.taken(st, correct)
	keep(st)
}
