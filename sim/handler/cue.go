package handler

import (
	"math"

	"cuewalk/course/geom"
	"cuewalk/plan"
)

// due reports whether the moment of action k has come, or comes in the nearer half of
// the next dt seconds. He times himself by the dog he sees; a moment that never comes
// passes with the judge's number, after he has taken that in. Where somebody else gives
// the cues he waits to be told.
func (h *Handler) due(s *State, d *Dog, k int, luck Luck, dt float64) bool {
	if at, told := luck.Given(k); told {
		return at <= d.Time+1e-9
	}
	m := h.Actions[k].When
	if m.Event != plan.Release && m.Number < d.Next-1 {
		return d.Run-d.Took >= h.Reaction*d.Speed
	}
	return h.until(d, m) <= (s.early+dt/2)*d.Speed
}

// Until returns the metres the dog still has to the moment of action k; negative once it
// is past, -Inf long after.
func (h *Handler) Until(d *Dog, k int) float64 { return h.until(d, h.Actions[k].When) }

// until returns the metres the dog still has to moment m, its strides counted at the
// dog's present length.
func (h *Handler) until(d *Dog, m plan.Moment) float64 {
	return h.ahead(d, m) + m.Strides*d.Stride
}

// ahead returns the metres the dog still has to the event of moment m; negative once
// it is past. Through obstacles that take their time it counts what a galloping dog
// would cover meanwhile.
func (h *Handler) ahead(d *Dog, m plan.Moment) float64 {
	switch {
	case m.Event == plan.Release:
		return -d.Run
	case m.Number < d.Next-1:
		return math.Inf(-1)
	case m.Number == d.Next-1 && !m.Event.After():
		return d.Took - d.Run
	case m.Number == d.Next-1:
		if d.Aloft || d.Inside {
			return d.Left * max(d.Speed, 1)
		}
		return d.Came - d.Run
	}
	next, target := &h.Marks[d.Next-1], &h.Marks[m.Number-1]
	rest, from := 0.0, d.At
	if d.Inside {
		rest, from = d.Left*h.Usual, d.Out
	}
	rest += from.Dist(next.Entry.At) + target.Along - next.Along
	if m.Event.After() {
		return rest + target.Worth + target.Landing
	}
	if target.Entry.Kind.Jumped() { // shorter strides take off nearer
		return rest - target.TakeOff*d.Stride/h.Stride
	}
	return rest - target.TakeOff
}

// give puts action k in force: from now on the handler does what it says.
func (h *Handler) give(s *State, d *Dog, k int, luck Luck) {
	a := &h.Actions[k]
	s.Action = k
	s.Arm, s.Signal = a.Arm, a.Signal
	s.ways.spin, s.drew = 0, 0
	if a.Cross == plan.FrontCross || a.Cross == plan.BlindCross {
		s.ways.spin = math.Copysign(1, float64(s.At.Towards(d.At).Off(s.Chest)))
		if a.Cross == plan.BlindCross {
			s.ways.spin = -s.ways.spin
		}
	}
	h.head(s, k, luck)
}

// release lets go of a pull that has worked: when he has seen the dog turned to him on the
// ground, or beside him, for his reaction time (common practice, no source).
func (h *Handler) release(s *State, d *Dog, dt float64) {
	if s.Signal != plan.Pull || d.Aloft || d.Inside {
		return
	}
	if to := s.At.Sub(d.At); to.Norm() > besideHim && to.Dot(d.Heading.Unit()) < to.Norm()*math.Cos(float64(cameIn)) {
		return
	}
	if s.drew += dt; s.drew >= h.Reaction {
		s.Signal = plan.Along
	}
}

// turn turns the chest toward where it is to face, at most as fast as a person can;
// through the dog's side in a front cross, away from it in a blind.
func (h *Handler) turn(s *State, d *Dog, dt float64) {
	off := float64(h.facing(s, d).Off(s.Chest))
	if r := s.ways.spin; r != 0 {
		switch {
		case math.Abs(off) < 0.5:
			s.ways.spin = 0
		case math.Abs(off) > 3 && r*off > 0:
		case off*r < 0:
			off += 2 * math.Pi * r
		}
	}
	if math.Abs(off) > math.Pi-0.02 && s.ways.spin == 0 { // right about: by the dog's side
		off = math.Copysign(off, float64(s.At.Towards(d.At).Off(s.Chest)))
	}
	most := h.Turning * dt
	s.Chest = (s.Chest + geom.Angle(max(-most, min(most, off)))).Wrap()
}
