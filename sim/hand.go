package sim

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/sim/dog"
)

// act lets the handler do what he does in dt seconds: give the cues whose moment
// has come, turn, and move.
func (s *Setup) act(st *State, luck Luck, dt float64) {
	for st.action+1 < len(s.Actions) && s.due(st, st.action+1, dt) {
		s.give(st, st.action+1, luck)
	}
	s.turnChest(st, dt)
	s.walk(st, dt)
}

// due reports whether the moment of action k has come, or comes in the nearer half of
// the next dt seconds. He times himself by the dog he sees; a moment that never comes
// passes with the judge's number.
func (s *Setup) due(st *State, k int, dt float64) bool {
	m := s.Actions[k].When
	if m.Event != plan.Release && m.Number < st.Leg-1 { // passed over: he takes a moment to catch up
		return st.Odo-st.took >= s.Team.Handler.Reaction*st.Dog.Speed
	}
	return s.until(st, m) <= (st.lucky.early+dt/2)*st.Dog.Speed
}

// until returns the metres the dog still has to moment m, its strides counted at the
// dog's present length.
func (s *Setup) until(st *State, m plan.Moment) float64 {
	return s.ahead(st, m) + m.Strides*dog.StrideLength(s.dog.Withers, max(st.Dog.Speed, s.dog.Collected))
}

// ahead returns the metres the dog still has to the event of moment m; negative
// once it is past. Through obstacles that take their time it counts what a
// galloping dog would cover meanwhile.
func (s *Setup) ahead(st *State, m plan.Moment) float64 {
	switch {
	case m.Event == plan.Release:
		return -st.Odo
	case m.Number < st.Leg-1:
		return math.Inf(-1)
	case m.Number == st.Leg-1 && !m.Event.After():
		return st.took - st.Odo
	case m.Number == st.Leg-1:
		if st.Dog.Mode == dog.Air || st.Dog.Mode == dog.Inside {
			return (st.Dog.Total - st.Dog.Gone) * max(st.Dog.Speed, 1)
		}
		return st.done - st.Odo
	}
	next := &s.Entries[s.right[st.Leg-1]]
	rest := 0.0
	from := st.Dog.At
	if st.Dog.Mode == dog.Inside {
		rest = (st.Dog.Total - st.Dog.Gone) * s.usual
		from = s.Entries[st.Dog.Entry].Exit.At
	}
	target := &s.Entries[s.right[m.Number-1]]
	rest += from.Dist(next.At) + s.along[m.Number-1] - s.along[st.Leg-1]
	if m.Event.After() {
		return rest + s.worth(target) + s.landing(target)
	}
	return rest - s.reach(st, target)
}

// reach is how far before an entry the trunk leaves the ground or goes in.
func (s *Setup) reach(st *State, e *course.Entry) float64 { return s.dog.ReachOut(&st.Dog, e) }

func (s *Setup) landing(e *course.Entry) float64 {
	if e.Kind.Jumped() {
		return 0.5 * (s.dog.LandingCollected + s.dog.LandingExtended)
	}
	return 0
}

// give puts action k in force: from now on the handler does what it says.
func (s *Setup) give(st *State, k int, luck Luck) {
	a := &s.Actions[k]
	st.action = k
	st.Hand.Arm, st.Hand.Signal = a.Arm, a.Signal
	st.legs.rotate = 0
	if a.Cross == plan.FrontCross || a.Cross == plan.BlindCross {
		toDog := float64(st.Hand.At.Towards(st.Dog.At).Off(st.Hand.Chest))
		st.legs.rotate = math.Copysign(1, toDog)
		if a.Cross == plan.BlindCross {
			st.legs.rotate = -st.legs.rotate
		}
	}
	s.head(st, k, luck)
}

// nextStand returns the first action after k that says where to stand.
func (s *Setup) nextStand(k int) (int, bool) {
	for i := k + 1; i < len(s.Actions); i++ {
		if s.Actions[i].HasStand {
			return i, true
		}
	}
	return 0, false
}

// stand returns where the handler will in fact be when he means the stand of action k.
func (s *Setup) stand(k int, luck Luck) geom.Point {
	sd := s.Team.Handler.Placing
	return s.Actions[k].Stand.Add(geom.Point{X: luck.normal(drawStandX, k, sd), Y: luck.normal(drawStandY, k, sd)})
}

// turnChest turns the shoulders toward where they are to face, at most as fast as
// a person can; through the dog's side in a front cross, away from it in a blind.
func (s *Setup) turnChest(st *State, dt float64) {
	off := float64(s.facing(st).Off(st.Hand.Chest))
	if r := st.legs.rotate; r != 0 {
		switch {
		case math.Abs(off) < 0.5 || math.Abs(off) > 3.0 && r*off > 0:
			if math.Abs(off) < 0.5 {
				st.legs.rotate = 0
			}
		case off*r < 0:
			off += 2 * math.Pi * r
		}
	}
	if math.Abs(off) > math.Pi-0.02 && st.legs.rotate == 0 { // right about: by the dog's side
		off = math.Copysign(off, float64(st.Hand.At.Towards(st.Dog.At).Off(st.Hand.Chest)))
	}
	step := s.Team.Handler.Turning * dt
	st.Hand.Chest = (st.Hand.Chest + geom.Angle(max(-step, min(step, off)))).Wrap()
}

// facing returns the heading the shoulders are to face.
func (s *Setup) facing(st *State) geom.Angle {
	sh := s.Actions[st.action].Shoulders
	switch sh.Facing {
	case plan.FaceDog:
		return st.Hand.At.Towards(st.Dog.At)
	case plan.FaceNumber:
		return st.Hand.At.Towards(s.Entries[s.right[sh.Number-1]].At)
	case plan.FaceHeading:
		return sh.Heading
	}
	l := &st.legs
	if to := s.onWay(st, max(0.6, faceAhead*st.Hand.Speed())); to.Dist(st.Hand.At) > 0.4 {
		return st.Hand.At.Towards(to)
	}
	if l.stand > 0 { // there: he already faces the stand after it
		if k, ok := s.nextStand(l.stand); ok && s.Actions[k].Stand.Dist(st.Hand.At) > 0.5 {
			return st.Hand.At.Towards(s.Actions[k].Stand)
		}
	}
	return st.Hand.Chest
}

// dark reports whether a dog inside entry i sees nothing of the ring.
func (s *Setup) dark(i int) bool { return i >= 0 && s.Entries[i].Kind == course.Tunnel }
