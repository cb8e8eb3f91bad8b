package sim

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim/dog"
)

// knocked returns the chance that the bar falls in the flight the dog has begun.
// Height against the withers, angle to the bar, speed, a take-off off its spot and a cue
// in the last instant raise it (common practice, no source; values C).
func (s *Setup) knocked(st *State) float64 {
	e := s.took(st)
	if e.Height <= 0 {
		return 0
	}
	slant := float64(st.Dog.Off) / 0.5
	spot := st.Dog.Misfit / 0.25
	fast := s.extension(st)
	high := e.Height / s.Team.Dog.Withers
	p := (1 - s.Team.Dog.Bars) * barRate * (0.4 + 0.6*high*high) * (1 + 0.8*slant*slant + 0.6*spot*spot + 0.7*fast*fast)
	return min(0.5, p*(1+lateBar*st.Dog.Lateness))
}

// missedZone returns the chance of a missed contact on the obstacle the dog goes onto.
func (s *Setup) missedZone(st *State) float64 {
	if !s.took(st).Kind.Contact() {
		return 0
	}
	slant := float64(st.Dog.Off) / 0.4
	return min(0.6, (1-s.Team.Dog.Contact)*0.4*(0.6+s.extension(st)+slant*slant))
}

// missedWeave returns the chance that a dog misses the weave entry it goes into:
// speed and the side where the first pole must be wrapped make it harder.
func (s *Setup) missedWeave(st *State) float64 {
	e := s.took(st)
	if e.Kind != course.Weaves {
		return 0
	}
	off := float64(st.Dog.Off) // right positive: coming from the left, the hard side
	hard := max(0, off) / float64(e.Left)
	easy := max(0, -off) / float64(e.Right)
	way := 1 - geom.Smooth(0.6, 1.4, st.Hand.At.Dist(e.At)) // a handler in the way
	return min(0.9, (1-s.Team.Dog.Entry)*(0.3+1.5*s.extension(st)+3*hard*hard+0.8*easy*easy)+blockedEntry*way)
}

// What goes wrong with the obstacles that take their time, by what the handler does
// meanwhile: rates per second for a dog that is sure of nothing (common practice, no
// source; values C).
const (
	barRate      = 0.15 // chance of a knocked bar for a careless dog at a bar of its withers' height
	lateBar      = 4.0  // times that, on top, for a cue in the very last instant
	blockedEntry = 0.25 // chance that a handler in the way costs the weave entry
	popRate      = 1.2  // leaving the poles early
	zoneRate     = 1.5  // leaving a contact early
)

// strain returns the rate per second at which the handler takes the dog out of the
// obstacle it is in: he peels off to the side, or drives on past it.
func (s *Setup) strain(st *State) float64 {
	e := &s.Entries[st.Dog.Entry]
	at := geom.Pose{At: st.Dog.At, Heading: e.Heading}
	to, vel := at.Local(st.Hand.At), at.Local(st.Dog.At.Add(st.Hand.Vel))
	aside := geom.Smooth(0.8, 2.5, math.Copysign(1, to.X)*vel.X) * geom.Smooth(1.5, 4, math.Abs(to.X))
	past := geom.Smooth(0.5, 3.5, to.Y) * geom.Smooth(2, 4.5, vel.Y)
	switch {
	case e.Kind == course.Weaves:
		return popRate * (1 - s.Team.Dog.Entry) * (aside + 0.6*past)
	case e.Kind.Contact() && st.Dog.Gone > 0.5*st.Dog.Total:
		return zoneRate * (1 - s.Team.Dog.Contact) * (aside + past)
	}
	return 0
}

// took returns the entry the judge has last seen taken rightly.
func (s *Setup) took(st *State) *course.Entry { return &s.Entries[s.correct[max(0, st.Leg-2)]] }

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
