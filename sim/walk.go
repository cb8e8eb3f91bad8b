package sim

import (
	"math"
	"slices"

	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/sim/dog"
)

// Shares of the top speed that a pace stands for (common practice, no source).
const (
	jogShare  = 0.65
	walkShare = 0.35
)

// handlerRoom is how far from an obstacle the middle of a handler passes, in metres (C).
const handlerRoom = 0.3

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
	way, ok := geom.Way(st.Hand.At, to, s.walls, handlerRoom, l.way[:0])
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
	for l.i < l.n-1 && s.rounded(st.Hand.At, l.way[l.i], l.way[l.i+1]) {
		l.i++
	}
	want := geom.Point{}
	if left := l.wayLeft(st.Hand.At); left > 0.02 {
		to := s.onWay(st, max(0.3, steerAhead*st.Hand.Speed())).Sub(st.Hand.At)
		if d := to.Norm(); d > 0.02 {
			want = to.Mul(s.pace(st, left) / d)
		}
	}
	s.push(st, want, dt)
}

// rounded reports whether a handler at p is past a corner of his way: there, or near
// it with the way on clear before him.
func (s *Setup) rounded(p, corner, next geom.Point) bool {
	d := p.Dist(corner)
	return d < 0.35 || d < 1.5 && geom.Clear(p, next, s.walls, handlerRoom)
}

// How far ahead on his way a handler steers and faces, in seconds (C): he begins a
// corner before he is there, the shoulders first.
const (
	steerAhead = 0.25
	faceAhead  = 0.35
)

// onWay returns the place up to d metres ahead on the handler's way: not round a corner
// that he goes round for what stands there; past its end on to the stand after it.
func (s *Setup) onWay(st *State, d float64) geom.Point {
	l := &st.legs
	at := st.Hand.At
	if l.i < l.n {
		to := l.way[l.i]
		n := at.Dist(to)
		if n >= d {
			return at.Lerp(to, d/n)
		}
		if at, d = to, d-n; l.i < l.n-1 {
			return at
		}
	}
	if k, ok := s.goesOn(l.stand); ok {
		to := s.Actions[k].Stand
		if n := at.Dist(to); n > d {
			return at.Lerp(to, d/n)
		}
		return to
	}
	return at
}

// goesOn returns the action whose stand the handler heads for after the one of action
// k, and false where he is to stop at that one, something is in the way, or there is none.
func (s *Setup) goesOn(k int) (int, bool) {
	if k < 0 || s.Actions[k].Pace == plan.Stop || !s.clear[k] { // that he brakes there is the cue
		return 0, false
	}
	return s.nextStand(k)
}

// clearings works out, by action, whether the first steps from its stand to the next
// are free.
func (s *Setup) clearings() {
	s.clear = make([]bool, len(s.Actions))
	for k := range s.Actions {
		next, ok := s.nextStand(k)
		if !ok || !s.Actions[k].HasStand {
			continue
		}
		from, to := s.Actions[k].Stand, s.Actions[next].Stand
		step := geom.Segment{A: from, B: from.Lerp(to, min(1, 1.5/max(from.Dist(to), 1e-9)))}
		s.clear[k] = !slices.ContainsFunc(s.walls, func(w geom.Segment) bool { return step.Gap(w) < handlerRoom })
	}
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
	soon := max(0.05, s.until(st, m)/max(st.Dog.Speed, s.usual)) // a slow dog will be faster again
	if s.Actions[st.action].Pace == plan.Stop {
		needed := left/h.Speed + h.Speed/(2*h.Acceleration)
		if left < 0.3 || soon > needed {
			return 0
		}
		return limit
	}
	round := s.rounding(st)
	v := left / soon
	if lost := max(0, v-round); lost > 0 { // braking for the corner costs time that he makes up before it
		v = left / max(0.05, soon-lost*lost/(2*h.Braking*v))
	}
	return min(limit, v, math.Sqrt(round*round+2*h.Braking*st.Hand.At.Dist(st.legs.way[st.legs.i])))
}

// cut is how far inside a corner of his way a handler runs, in metres (C).
const cut = 0.4

// rounding returns the highest speed at which the handler can round the next corner
// of his way: on an arc that cuts it by no more than cut, leaning no harder than he
// can brake. Infinite where he goes straight on.
func (s *Setup) rounding(st *State) float64 {
	l := &st.legs
	if l.i >= l.n {
		return math.Inf(1)
	}
	in := l.way[l.i].Sub(st.Hand.At)
	var out geom.Point
	if l.i+1 < l.n {
		out = l.way[l.i+1].Sub(l.way[l.i])
	} else if k, ok := s.goesOn(l.stand); ok {
		out = s.Actions[k].Stand.Sub(l.way[l.i])
	}
	n := in.Norm() * out.Norm()
	if n < 0.01 {
		return math.Inf(1)
	}
	half := math.Sqrt(max(0, 1+in.Dot(out)/n) / 2) // cosine of half the corner's angle
	if half > 0.999 {
		return math.Inf(1)
	}
	return math.Sqrt(s.Team.Handler.Braking * cut * half / (1 - half))
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
