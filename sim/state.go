package sim

import (
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim/dog"
)

// State is one instant of a run. It is a plain value: copying it forks the run.
type State struct {
	Time float64 // seconds since the release
	Odo  float64 // metres the dog has run
	Dog  dog.State
	Lead dog.Lead // what the dog reads now
	Hand Hand
	Leg  int // course number the judge waits for, from 1; one past the last when done

	Stride int     // strides and flights since the release
	stride float64 // share of the present stride gone

	action int // the handler's action in force
	legs   legs
	past   past

	took, done float64 // Odo at the last right take-off or entry, and at its landing or exit
	hazard     float64 // pulls summed up since the dog last decided
	called     float64 // call-off rate summed up since it committed
	need       float64 // what they must sum up to; 0 when not drawn yet
	lucky      lucky   // what this run's luck makes of the present leg and the next cue
	tries      int     // times it was called off or ran past on this leg
	idle       float64 // seconds on this leg on the ground, committed to nothing
	armed      bool    // the dog has been in position for the obstacle the judge waits for
	met        bool    // the handler met the dog on this leg
}

// lucky holds draws that stay the same for a while.
type lucky struct {
	early float64 // seconds by which the next cue comes early
	late  float64 // seconds added to the dog's latency
	spot  float64 // metres by which the next take-off misses its spot
}

// legs are the handler's plans for his own legs.
type legs struct {
	way    [6]geom.Point // places to walk to one after another
	n, i   int
	stand  int // action whose stand is the end of the way; -1 for none
	rotate float64
}

// past is what the handler did in the last half second and more, for a dog that
// answers a latency late.
type past struct {
	time [24]float64
	seen [24]dog.Handler
	head int // slot of the newest
	n    int
}

func (p *past) push(t float64, h dog.Handler) {
	if p.head++; p.head == len(p.seen) {
		p.head = 0
	}
	p.time[p.head], p.seen[p.head] = t, h
	p.n = min(p.n+1, len(p.seen))
}

// at returns the handler as he was at time t, between samples in proportion.
func (p *past) at(t float64) dog.Handler {
	newer := p.head
	for i, k := p.head, 0; k < p.n; i, k = i-1, k+1 {
		if i < 0 {
			i = len(p.seen) - 1
		}
		if p.time[i] > t {
			newer = i
			continue
		}
		if i == newer {
			return p.seen[i]
		}
		return between(&p.seen[i], &p.seen[newer], (t-p.time[i])/(p.time[newer]-p.time[i]))
	}
	return p.seen[newer]
}

func between(a, b *dog.Handler, t float64) dog.Handler {
	h := *a // arm, gesture and darkness change at once, and are read when they have
	h.At = a.At.Lerp(b.At, t)
	h.Vel = a.Vel.Lerp(b.Vel, t)
	h.Chest = (a.Chest + b.Chest.Off(a.Chest)*geom.Angle(t)).Wrap()
	return h
}

// word returns the word that was in the air at time t.
func (p *past) word(t float64) team.Meaning {
	i := p.head
	for k := 1; k < p.n && p.time[i] > t; k++ {
		if i--; i < 0 {
			i = len(p.seen) - 1
		}
	}
	return p.seen[i].Word
}

// Start returns the state at the release.
func (s *Setup) Start(luck Luck) State {
	var st State
	first := s.Entries[s.right[0]]
	const off = 1.5 // m/s, with its first push
	st.Dog.Reset(geom.Pose{At: s.Course.Start, Heading: s.Course.Start.Towards(first.At)}, off)
	st.Dog.Stride = dog.StrideLength(s.dog.Withers, off)
	st.Leg = 1
	st.Hand = Hand{At: s.stand(0, luck), Arm: s.Actions[0].Arm}
	st.Hand.Chest = s.Course.Start.Towards(first.At)
	if to, ok := s.nextStand(0); ok && s.Actions[to].Stand.Dist(st.Hand.At) > 0.5 {
		st.Hand.Chest = st.Hand.At.Towards(s.Actions[to].Stand)
	}
	s.head(&st, 0, luck)
	s.fresh(&st, luck)
	s.setUp(&st)
	for k := range 3 { // he has stood there for a while: the dog has read him
		st.past.push(-1+0.4*float64(k), s.shown(&st))
	}
	return st
}

// fresh draws what stays the same on the leg that begins.
func (s *Setup) fresh(st *State, luck Luck) {
	st.lucky.late = luck.normal(drawLatency, st.Leg, 0.03)
	st.lucky.spot = luck.normal(drawSpot, st.Leg, 0.12)
}

// setUp lets the waiting dog look at what it has been set up before: by the time
// of the release it has made up its mind for the entry that pulls it most.
func (s *Setup) setUp(st *State) {
	r := run{s: s}
	r.look(st)
	best := 0.0
	for i := range r.seen {
		if r.seen[i].Pull > best {
			best, st.Dog.Commit = r.seen[i].Pull, r.seen[i].Entry
		}
	}
}

// shown returns what there is to see of the handler now.
func (s *Setup) shown(st *State) dog.Handler {
	a := &s.Actions[st.action]
	g := dog.Along
	switch st.Hand.Signal {
	case plan.Pull:
		g = dog.Pull
	case plan.Push:
		g = dog.Push
	}
	return dog.Handler{
		At: st.Hand.At, Vel: dog.Anticipate(st.Hand.Vel, st.Hand.Acc), Chest: st.Hand.Chest, Arm: st.Hand.Arm.Sign(),
		Gesture: g, Word: a.Word, Dark: st.Dog.Mode == dog.Inside && s.dark(st.Dog.Entry),
	}
}
