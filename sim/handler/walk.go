package handler

import (
	"math"

	"cuewalk/course/geom"
	"cuewalk/plan"
)

const (
	jogShare  = 0.65 // of the top speed (common practice, no source)
	walkShare = 0.35
	room      = 0.3  // m: how far from an obstacle the middle of a handler passes (C)
	cut       = 0.4  // m: how far inside a corner of his way he runs (C)
	steering  = 0.25 // s: how far ahead on his way he steers (C): he begins a corner before he is there,
	faceAhead = 0.35 // s: the shoulders first (C)
	yielding  = 1.0  // m: he holds back for the dog (C)
)

// Meeting is how near a handler and a dog are that have run into each other, in metres (C).
const Meeting = 0.45

// head sets the way to the next stand, round what stands between.
func (h *Handler) head(s *State, k int, luck Luck) {
	s.early = luck.Early(k + 1)
	to, ok := h.NextStand(k)
	s.ways.n, s.ways.i, s.ways.stand = 0, 0, -1
	if ok {
		s.ways.stand = to
		h.route(s, h.stand(to, luck))
	}
}

// route lays the way from where the handler is to a place.
func (h *Handler) route(s *State, to geom.Point) {
	w := &s.ways
	way, ok := geom.Way(s.At, to, h.walls, room, w.at[:0])
	if !ok || len(way) > len(w.at) {
		w.at[0] = to
		w.n, w.i = 1, 0
		return
	}
	w.n, w.i = len(way), 0
}

// left returns the metres of way left.
func (w *ways) left(from geom.Point) float64 {
	sum := 0.0
	for i := w.i; i < w.n; i++ {
		sum += from.Dist(w.at[i])
		from = w.at[i]
	}
	return sum
}

// walk moves the handler for dt within a person's limits.
func (h *Handler) walk(s *State, d *Dog, dt float64) {
	// What he has of the dog's speed is what he saw a reaction ago: following it at once,
	// the two would drive each other up and down.
	s.watched += (d.Speed - s.watched) * -math.Expm1(-dt/max(h.Reaction, 0.05))
	w := &s.ways
	if w.stand < 0 {
		h.goOn(s, d)
	}
	for w.i < w.n-1 && h.rounded(s.At, w.at[w.i], w.at[w.i+1]) {
		w.i++
	}
	here := s.At
	s.At = here.Add(s.Vel.Mul(dt / 2)) // what he wants is a matter of the middle of the step
	want := geom.Point{}
	if left := w.left(s.At); left > 0.02 {
		to := h.onWay(s, max(0.3, steering*s.Speed())).Sub(s.At)
		if n := to.Norm(); n > 0.02 {
			want = to.Mul(h.pace(s, d, left) / n)
		}
	}
	want = h.yield(s, d, want)
	s.At = here
	h.push(s, want, dt)
	if !d.Inside && d.At.Dist(s.At) < Meeting {
		s.Met = true
	}
}

// rounded reports whether a handler at p is past a corner of his way: there, or near
// it with the way on clear before him.
func (h *Handler) rounded(p, corner, next geom.Point) bool {
	d := p.Dist(corner)
	return d < 0.35 || d < 1.5 && geom.Clear(p, next, h.walls, room)
}

// onWay returns the place up to d metres ahead on the handler's way: not round a corner
// that he goes round for what stands there; past its end on to the stand after it.
func (h *Handler) onWay(s *State, d float64) geom.Point {
	w, at := &s.ways, s.At
	if w.i < w.n {
		to := w.at[w.i]
		n := at.Dist(to)
		if n >= d {
			return at.Lerp(to, d/n)
		}
		if at, d = to, d-n; w.i < w.n-1 {
			return at
		}
	}
	if k, ok := h.goesOn(w.stand); ok {
		to := h.Actions[k].Stand
		if n := at.Dist(to); n > d {
			return at.Lerp(to, d/n)
		}
		return to
	}
	return at
}

// goesOn returns the action whose stand the handler heads for after the one of action
// k, and false where he is to stop at that one, something is in the way, or there is none.
func (h *Handler) goesOn(k int) (int, bool) {
	if k < 0 || h.Actions[k].Pace == plan.Stop || !h.clear[k] { // that he brakes there is the cue
		return 0, false
	}
	return h.NextStand(k)
}

// pace returns the speed the handler wants with left metres to go: his pace, less
// where he would be early; standing, until he must leave.
func (h *Handler) pace(s *State, d *Dog, left float64) float64 {
	limit := h.Speed
	switch h.Actions[s.Action].Pace {
	case plan.Jog:
		limit *= jogShare
	case plan.Walk:
		limit *= walkShare
	}
	stopped := h.Actions[s.Action].Pace == plan.Stop
	if s.ways.stand < 0 {
		if stopped {
			return 0
		}
		return min(limit, math.Sqrt(2*h.Braking*left))
	}
	soon := max(0.05, h.until(d, h.Actions[s.ways.stand].When)/max(s.watched, h.Usual)) // a slow dog will be faster again
	if stopped {
		if needed := left/h.Speed + h.Speed/(2*h.Acceleration); left < 0.3 || soon > needed {
			return 0
		}
		return limit
	}
	round := h.rounding(s)
	v := left / soon
	if lost := max(0, v-round); lost > 0 { // braking for the corner costs time that he makes up before it
		v = left / max(0.05, soon-lost*lost/(2*h.Braking*v))
	}
	return min(limit, v, math.Sqrt(round*round+2*h.Braking*s.At.Dist(s.ways.at[s.ways.i])))
}

// rounding returns the highest speed at which the handler can round the next corner
// of his way: on an arc that cuts it by no more than cut, leaning no harder than he
// can brake. Infinite where he goes straight on.
func (h *Handler) rounding(s *State) float64 {
	w := &s.ways
	if w.i >= w.n {
		return math.Inf(1)
	}
	in := w.at[w.i].Sub(s.At)
	var out geom.Point
	if w.i+1 < w.n {
		out = w.at[w.i+1].Sub(w.at[w.i])
	} else if k, ok := h.goesOn(w.stand); ok {
		out = h.Actions[k].Stand.Sub(w.at[w.i])
	}
	n := in.Norm() * out.Norm()
	if n < 0.01 {
		return math.Inf(1)
	}
	half := math.Sqrt(max(0, 1+in.Dot(out)/n) / 2) // cosine of half the corner's angle
	if half > 0.999 {
		return math.Inf(1)
	}
	return math.Sqrt(h.Braking * cut * half / (1 - half))
}

// push brings the handler's velocity toward want within what legs can do.
func (h *Handler) push(s *State, want geom.Point, dt float64) {
	if v := want.Norm(); v > 0 {
		// Slower sideways and backwards than the way the chest faces.
		along := want.Dot(s.Chest.Unit()) / v
		share := h.Sideways + (1-h.Sideways)*along*along*(3-2*along)
		if along < 0 {
			share = h.Sideways + (h.Backward-h.Sideways)*along*along
		}
		want = want.Mul(min(1, h.Speed*share/v))
	}
	limit := h.Acceleration
	if want.Norm() < s.Vel.Norm()-0.01 { // turning at one speed is no braking
		limit = h.Braking
	}
	change := want.Sub(s.Vel)
	if n := change.Norm(); n > limit*dt {
		change = change.Mul(limit * dt / n)
	}
	vel := s.Vel.Add(change)
	s.Acc = change.Mul(1 / dt)
	s.At = s.At.Add(s.Vel.Add(vel).Mul(dt / 2))
	s.Vel = vel
}

// yield keeps what the handler wants from leading through the dog: the nearer it is, the
// less he goes on toward it.
func (h *Handler) yield(s *State, d *Dog, want geom.Point) geom.Point {
	if d.Inside {
		return want
	}
	to := d.At.Sub(s.At)
	n := to.Norm()
	if n > yielding || n < 1e-6 {
		return want
	}
	u := to.Mul(1 / n)
	if in := want.Dot(u); in > 0 {
		want = want.Sub(u.Mul(in * max(0, min(1, (yielding-n)/(yielding-Meeting)))))
	}
	return want
}

// goOn sets the way of a handler with no stand left: along the course, keeping the
// side he works the dog from.
func (h *Handler) goOn(s *State, d *Dog) {
	n := min(d.Next, len(h.Marks))
	e := h.Marks[n-1].Entry
	to := geom.Pose{At: e.Exit.Ahead(2), Heading: e.Heading}.Beside(-1.8 * s.Arm.Sign())
	if s.ways.n > 0 && s.ways.at[s.ways.n-1].Dist(to) < 0.01 {
		return
	}
	h.route(s, to)
}
