package sim

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/sim/dog"
)

// Shares of the top speed that a pace stands for (common practice, no source).
const (
	jogShare  = 0.65
	walkShare = 0.35
)

// act lets the handler do what he does in dt seconds: give the cues whose moment
// has come, turn, and move.
func (s *Setup) act(st *State, luck Luck, dt float64) {
	for st.action+1 < len(s.Actions) && s.due(st, st.action+1) {
		s.give(st, st.action+1, luck)
	}
	s.turnChest(st, dt)
	s.walk(st, dt)
}

// due reports whether the moment of action k has come. He times himself by the dog
// he sees; a moment that never comes passes with the judge's number.
func (s *Setup) due(st *State, k int) bool {
	m := s.Actions[k].When
	if m.Event != plan.Release && m.Number < st.Leg-1 { // passed over: he takes a moment to catch up
		return st.Odo-st.took >= s.Team.Handler.Reaction*st.Dog.Speed
	}
	early := st.lucky.early * st.Dog.Speed
	return s.ahead(st, m)+m.Strides*dog.StrideLength(s.dog.Withers, max(st.Dog.Speed, s.dog.Collected)) <= early
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
		rest = (st.Dog.Total - st.Dog.Gone) * gallopPace
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

// head sets the way to the next stand, round what stands between.
func (s *Setup) head(st *State, k int, luck Luck) {
	st.lucky.early = luck.normal(drawTiming, k+1, s.Team.Handler.Timing)
	to, ok := s.nextStand(k)
	l := &st.legs
	l.n, l.i, l.stand = 0, 0, -1
	if !ok {
		return
	}
	l.stand = to
	s.route(st, s.stand(to, luck))
}

// route lays the way from where the handler is to a place.
func (s *Setup) route(st *State, to geom.Point) {
	l := &st.legs
	way, ok := geom.Way(st.Hand.At, to, s.walls, 0.3, l.way[:0])
	if !ok || len(way) > len(l.way) {
		l.way[0] = to
		l.n, l.i = 1, 0
		return
	}
	l.n, l.i = len(way), 0
}

// wayLeft returns the metres of way left.
func (l *legs) wayLeft(from geom.Point) float64 {
	sum := 0.0
	for i := l.i; i < l.n; i++ {
		sum += from.Dist(l.way[i])
		from = l.way[i]
	}
	return sum
}

// walk moves the handler for dt within a person's limits.
func (s *Setup) walk(st *State, dt float64) {
	l := &st.legs
	if l.stand < 0 {
		s.goOn(st)
	}
	for l.i < l.n-1 && st.Hand.At.Dist(l.way[l.i]) < 0.35 {
		l.i++
	}
	want := geom.Point{}
	if l.i < l.n {
		to := l.way[l.i].Sub(st.Hand.At)
		if d := to.Norm(); d > 0.02 {
			want = to.Mul(s.pace(st, l.wayLeft(st.Hand.At)) / d)
		}
	}
	s.push(st, want, dt)
}

// pace returns the speed the handler wants with left metres to go: his pace, less
// where he would be early; standing, until he must leave.
func (s *Setup) pace(st *State, left float64) float64 {
	h := &s.Team.Handler
	limit := h.Speed
	switch s.Actions[st.action].Pace {
	case plan.Jog:
		limit *= jogShare
	case plan.Walk:
		limit *= walkShare
	}
	if st.legs.stand < 0 {
		if s.Actions[st.action].Pace == plan.Stop {
			return 0
		}
		return min(limit, math.Sqrt(2*h.Braking*left))
	}
	m := s.Actions[st.legs.stand].When
	far := s.ahead(st, m) + m.Strides*dog.StrideLength(s.dog.Withers, max(st.Dog.Speed, s.dog.Collected))
	soon := max(0.05, far/max(st.Dog.Speed, s.dog.Collected))
	if s.Actions[st.action].Pace == plan.Stop {
		needed := left/h.Speed + h.Speed/(2*h.Acceleration)
		if left < 0.3 || soon > needed {
			return 0
		}
		return limit
	}
	return min(limit, left/soon)
}

// push brings the handler's velocity toward want within what legs can do.
func (s *Setup) push(st *State, want geom.Point, dt float64) {
	h, hand := &s.Team.Handler, &st.Hand
	if v := want.Norm(); v > 0 {
		// Slower sideways and backwards than the way the chest faces.
		along := want.Dot(hand.Chest.Unit()) / v
		share := 1.0
		if along < 0 {
			share = h.Sideways + (h.Backward-h.Sideways)*along*along
		} else {
			share = h.Sideways + (1-h.Sideways)*along*along*(3-2*along)
		}
		want = want.Mul(min(1, h.Speed*share/v))
	}
	limit := h.Acceleration
	if want.Norm() < hand.Vel.Norm()-0.01 { // turning at one speed is no braking
		limit = h.Braking
	}
	change := want.Sub(hand.Vel)
	if n := change.Norm(); n > limit*dt {
		change = change.Mul(limit * dt / n)
	}
	vel := s.yield(st, hand.Vel.Add(change))
	hand.Acc = vel.Sub(hand.Vel).Mul(1 / dt)
	hand.Vel = vel
	hand.At = hand.At.Add(vel.Mul(dt))
}

// Distances at which handler and dog get in each other's way, in metres (C).
const (
	meeting  = 0.45 // bodies touch
	yielding = 1.0  // he holds back
)

// yield keeps the handler from going through the dog.
func (s *Setup) yield(st *State, vel geom.Point) geom.Point {
	to := st.Dog.At.Sub(st.Hand.At)
	d := to.Norm()
	if d < meeting {
		st.met = true
	}
	if d > yielding || d < 1e-6 || st.Dog.Mode == dog.Inside {
		return vel
	}
	u := to.Mul(1 / d)
	if in := vel.Dot(u); in > 0 {
		vel = vel.Sub(u.Mul(in * max(0, min(1, (yielding-d)/(yielding-meeting)))))
	}
	return vel
}

// goOn sets the way of a handler with no stand left: along the course, keeping the
// side he works the dog from.
func (s *Setup) goOn(st *State) {
	n := min(st.Leg, len(s.right))
	e := &s.Entries[s.right[n-1]]
	to := geom.Pose{At: e.Exit.Ahead(2), Heading: e.Heading}.Beside(-1.8 * st.Hand.Arm.Sign())
	if st.legs.n > 0 && st.legs.way[st.legs.n-1].Dist(to) < 0.01 {
		return
	}
	s.route(st, to)
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
	if l.i < l.n && l.wayLeft(st.Hand.At) > 0.5 {
		for i := l.i; i < l.n; i++ {
			if st.Hand.At.Dist(l.way[i]) > 0.4 {
				return st.Hand.At.Towards(l.way[i])
			}
		}
	}
	if l.stand > 0 { // nearly there: he already faces the stand after it
		if k, ok := s.nextStand(l.stand); ok && s.Actions[k].Stand.Dist(st.Hand.At) > 0.5 {
			return st.Hand.At.Towards(s.Actions[k].Stand)
		}
	}
	return st.Hand.Chest
}

// dark reports whether a dog inside entry i sees nothing of the ring.
func (s *Setup) dark(i int) bool { return i >= 0 && s.Entries[i].Kind == course.Tunnel }
