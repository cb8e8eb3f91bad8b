package handler

import (
	"math"

	"cuewalk/course/geom"
	"cuewalk/plan"
)

// How far a handler's chest and arm can be off his way (common practice, no source;
// values C): a runner's hips go where he runs, his chest follows within limits.
var (
	twistStanding = geom.Deg(70)                 // of the chest off the way, standing
	twistRunning  = geom.Deg(20)                 // the same at full run
	outOfReach    = geom.Deg(90)                 // what lies farther round shows him turn away again
	armAcross     = geom.Deg(30)                 // of the arm off the chest, across the body
	armBack       = geom.Deg(110)                // the same to its own side and behind
	roundWing     = 1.6                          // m beside an opening: where a dog goes round the wing of a jump it takes from behind
	edgeOn        = math.Tan(20 * math.Pi / 180) // metres before its plane for one beside: less is along it
	beforeIt      = 1.8                          // m before an opening: where a dog turns in to it
	wellPast      = 1.5                          // m behind its plane from which a dog has to be sent round
	cameIn        = geom.Deg(40)                 // off the way to him: a dog that heads so has come in to his pull
	besideHim     = 1.5                          // m from him: likewise
	armFade       = geom.Deg(30)                 // beyond that, an arm that does not get there is let down
)

// facing returns the heading the chest is to face.
func (h *Handler) facing(s *State, d *Dog) geom.Angle {
	sh := h.Actions[s.Action].Shoulders
	switch sh.Facing {
	case plan.FaceDog:
		return s.At.Towards(d.At)
	case plan.FaceNumber:
		return s.At.Towards(h.Marks[sh.Number-1].Entry.At)
	case plan.FaceHeading:
		return sh.Heading
	case plan.FaceWay:
		return h.wayFacing(s)
	}
	way := h.wayFacing(s)
	n := h.supported(s, d, false)
	if n > len(h.Marks) {
		return way
	}
	off := s.At.Towards(h.place(n, d)).Off(way)
	share := geom.Angle(min(1, s.Speed()/h.Speed))
	most := twistStanding + (twistRunning-twistStanding)*share
	turn := min(off.Abs(), most)
	if over := off.Abs() - outOfReach; over > 0 {
		turn *= 1 - over/(math.Pi-outOfReach)
	}
	return (way + geom.Angle(math.Copysign(float64(turn), float64(off)))).Wrap()
}

// pointing returns where the working arm points: at what he supports, as far as the arm
// gets there; along the chest where the cue says that he faces a place or his way. How
// far it is held out it notes in Reach.
func (h *Handler) pointing(s *State, d *Dog) geom.Angle {
	s.Reach = 1
	if f := h.Actions[s.Action].Shoulders.Facing; f != plan.FaceNext && f != plan.FaceDog {
		return s.Chest
	}
	n := h.supported(s, d, true)
	if n > len(h.Marks) {
		return s.Chest
	}
	side := geom.Angle(s.Arm.Sign())
	off := s.At.Towards(h.place(n, d)).Off(s.Chest) * side // right positive: its own side
	s.Reach = float64(1 - min(1, max(0, -armAcross-off, off-armBack)/armFade))
	return (s.Chest + side*max(-armAcross, min(armBack, off))).Wrap()
}

// place returns what he points at to have number n taken: its opening; where the dog would
// come to it along its plane, the place before it; where it is behind it, the place beside
// it round which he sends it.
func (h *Handler) place(n int, d *Dog) geom.Point {
	e := h.Marks[n-1].Entry
	way := geom.Pose{At: e.At, Heading: e.Heading}
	from := d.At
	if n > d.Next { // it will come from there
		from = h.Marks[n-2].Entry.Exit.At
	}
	at := way.Local(from)
	switch {
	case !e.Kind.Jumped() || -at.Y > edgeOn*math.Abs(at.X):
		return e.At
	case at.Y < wellPast:
		return e.At.Sub(e.Heading.Unit().Mul(beforeIt))
	}
	return way.Beside(math.Copysign(e.Half+roundWing, at.X))
}

// supported returns the course number he supports: the one the dog is to take, until he
// has seen it commit and has answered; then the next. Where a cue that changes his
// working arm is still to come for that number, only his arm goes on: his chest stays
// with it until the cue is given, or the dog has landed or come out.
func (h *Handler) supported(s *State, d *Dog, arm bool) int {
	n := d.Next
	if d.Sure >= h.Reaction {
		n++
	}
	if arm {
		return n
	}
	for k := s.Action + 1; k < len(h.Actions); k++ {
		a := &h.Actions[k]
		if a.Arm == h.Actions[k-1].Arm {
			continue
		}
		number := a.When.Number
		over := d.Next > number && !d.Aloft && !d.Inside
		if number >= 1 && number < n && number >= d.Next-1 && !over {
			return number
		}
		return n
	}
	return n
}

// wayFacing returns the heading of his way: a little ahead of him on it, past its end on
// to the stand after it.
func (h *Handler) wayFacing(s *State) geom.Angle {
	w := &s.ways
	if to := h.onWay(s, max(0.6, faceAhead*s.Speed())); to.Dist(s.At) > 0.4 {
		return s.At.Towards(to)
	}
	if w.stand > 0 { // there: he already faces the stand after it
		if k, ok := h.NextStand(w.stand); ok && h.Actions[k].Stand.Dist(s.At) > 0.5 {
			return s.At.Towards(h.Actions[k].Stand)
		}
	}
	return s.Chest
}
