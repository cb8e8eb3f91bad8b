package sim

import (
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim/dog"
	"cuewalk/sim/handler"
)

// pastSlots is how many moments of the handler's motion are kept.
const pastSlots = 12

// past is what the handler did in the last half second and more, for a dog that
// answers a latency late: his motion at moments some way apart, and when he gave his
// last cues. The newest moment is now.
type past struct {
	motion [pastSlots]motion
	head   int // slot of the newest
	n      int
	cues   [3]given // newest first
}

// motion is the handler's body at one time.
type motion struct {
	time           float64
	at, vel        geom.Point // vel as it is read: see dog.Anticipate
	chest, pointer geom.Angle
	reach          float64 // 0..1: how far the arm is held out
	signal         plan.Signal
}

// given is an action and when it came into force.
type given struct {
	time   float64
	action int
}

// told is the cue the dog read last: he says it again, or means it still, until the dog has
// taken an obstacle, and from then on it is forgotten.
type told struct {
	action int
	done   bool    // it has taken an obstacle since
	age    float64 // seconds it has run since then
	ago    float64 // seconds it has run since it read it
}

// hear counts on for dt seconds in which the action read was in force; took and inside say
// whether the dog took an obstacle, and whether it is in one that takes its time.
func (t *told) hear(action int, dt float64, took, inside bool) {
	switch {
	case action != t.action:
		*t = told{action: action}
	case !inside:
		t.ago += dt
		if t.done {
			t.age += dt
		}
	}
	t.done = t.done || took
}

// note takes in the handler at time t; moments nearer than apart seconds are one.
func (p *past) note(t, apart float64, h *handler.State) {
	if before := (p.head + pastSlots - 1) % pastSlots; p.n < 2 || p.motion[p.head].time-p.motion[before].time >= apart {
		p.head = (p.head + 1) % pastSlots
		p.n = min(p.n+1, pastSlots)
	}
	p.motion[p.head] = motion{t, h.At, dog.Anticipate(h.Vel, h.Acc), h.Chest, h.Pointer, h.Reach, h.Signal}
}

// gave takes in that an action came into force at time t.
func (p *past) gave(t float64, action int) {
	if p.cues[0].action != action {
		p.cues = [3]given{{t, action}, p.cues[0], p.cues[1]}
	}
}

// at returns the handler's body as it was at time t, between moments in proportion.
func (p *past) at(t float64) motion {
	newer := p.head
	for i, k := p.head, 0; k < p.n; i, k = (i+pastSlots-1)%pastSlots, k+1 {
		m := &p.motion[i]
		if m.time > t {
			newer = i
			continue
		}
		if i == newer {
			return *m
		}
		n := &p.motion[newer]
		share := (t - m.time) / (n.time - m.time)
		return motion{t, m.at.Lerp(n.at, share), m.vel.Lerp(n.vel, share), m.chest.Lerp(n.chest, share), m.pointer.Lerp(n.pointer, share), m.reach + (n.reach-m.reach)*share, m.signal}
	}
	return p.motion[newer]
}

// action returns the action that was in force at time t.
func (p *past) action(t float64) int {
	for i := range p.cues {
		if p.cues[i].time <= t {
			return p.cues[i].action
		}
	}
	return p.cues[len(p.cues)-1].action
}

// shown returns what the dog makes out at time now of its handler, late seconds later
// than dogs like it do.
func (s *Setup) shown(st *State, now float64) (dog.Handler, team.Meaning) {
	late := st.lucky.late
	m := st.past.at(now - s.dog.Latency - late)
	a := &s.Actions[st.past.action(now-s.dog.Latency-late)]
	w := s.Actions[st.past.action(now-s.dog.WordLatency-late)].Word
	g := dog.Along
	switch m.signal {
	case plan.Pull:
		g = dog.Pull
	case plan.Push:
		g = dog.Push
	}
	return dog.Handler{
		At: m.at, Vel: m.vel, Chest: m.chest, Pointer: m.pointer, Reach: m.reach, Arm: a.Arm.Sign(), Gesture: g,
		Dark: now-s.dog.Latency-late < st.lit, Told: dog.Fresh(st.told.age), Sent: dog.Fresh(st.told.ago),
	}, w
}
