package sim

import (
	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim/dog"
	"cuewalk/sim/handler"
)

// Hand is the handler at one instant, as he can be seen.
type Hand = handler.Hand

// State is one instant of a run. It is a plain value: copying it forks the run.
type State struct {
	Time float64 // seconds since the release
	Odo  float64 // metres the dog has run
	Dog  dog.State
	Lead dog.Lead // what the dog reads now
	Hand handler.State
	Leg  int // course number the judge waits for, from 1; one past the last when done

	Stride int     // strides and flights since the release
	stride float64 // share of the present stride gone

	past past
	told told
	lit  float64 // time until which the dog was in the dark of a tunnel: what the handler showed before then it has not seen

	took, came float64 // Odo at the last right take-off or entry, and at its landing or exit
	hazard     float64 // pulls summed up since the dog last decided
	called     float64 // call-off rate summed up since it committed
	need       float64 // what they must sum up to; 0 when not drawn yet
	strain     float64 // summed up rates at which it is taken out of the obstacle it is in
	sure       float64 // seconds it has been committed to the right entry
	idle       float64 // seconds on this leg on the ground, committed to nothing
	lucky      lucky   // what this run's luck makes of the present leg
	tries      int     // times it was called off or ran past on this leg
	armed      bool    // the dog has been in position for the obstacle the judge waits for
}

// lucky holds draws that stay the same for a leg.
type lucky struct {
	late float64 // seconds added to the dog's latency
	spot float64 // metres by which the next take-off misses its spot
}

// hunch is the handler's luck in one run.
type hunch struct {
	s     *Setup
	l     Luck
	given []float64 // by action: seconds at which somebody else gives it, +Inf for not yet; nil: he times himself
}

// Early implements handler.Luck.
func (h hunch) Early(action int) float64 {
	return h.l.normal(drawTiming, action, h.s.Team.Handler.Timing)
}

// Given implements handler.Luck.
func (h hunch) Given(action int) (float64, bool) {
	if action >= len(h.given) {
		return 0, false
	}
	return h.given[action], true
}

// Astray implements handler.Luck.
func (h hunch) Astray(action int) geom.Point {
	sd := h.s.Team.Handler.Placing
	return geom.Point{X: h.l.normal(drawStandX, action, sd), Y: h.l.normal(drawStandY, action, sd)}
}

// Start returns the state at the release.
func (s *Setup) Start(luck Luck) State {
	var st State
	first := s.Entries[s.correct[0]]
	const off = 1.5 // m/s, with its first push
	st.Dog.Reset(geom.Pose{At: s.Course.Start, Heading: s.Course.Start.Towards(first.At)}, off)
	st.Dog.Stride = dog.StrideLength(s.dog.Withers, off)
	st.Leg = 1
	seen := s.watched(&st)
	st.Hand = s.hand.Start(&seen, hunch{s: s, l: luck})
	s.fresh(&st, luck)
	st.lit = -10
	for k := range 3 { // he has stood there for a while: the dog has read him
		st.past.note(-2+float64(k), 0.1, &st.Hand)
	}
	st.past.cues = [3]given{{-2, 0}, {-2, 0}, {-2, 0}}
	h, w := s.shown(&st, 0)
	st.Lead = s.dog.Read(&st.Dog.Body, &h, w)
	s.setUp(&st)
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
	sight := s.sight(st.Dog.Body, st.Lead, st.Hand.At, st.Dog.Last, st.Dog.SinceLast)
	r.view = s.scene.Look(s.dog, &sight, r.buffer[:0])
	st.Lead = sight.Lead
	best := 0.0
	for i := range r.view.Seen {
		if r.view.Seen[i].Pull > best {
			best, st.Dog.Commit = r.view.Seen[i].Pull, r.view.Seen[i].Entry
		}
	}
}

// watched returns the dog as its handler sees it.
func (s *Setup) watched(st *State) handler.Dog {
	d := &st.Dog
	w := handler.Dog{
		Time: st.Time, At: d.At, Heading: d.Heading, Speed: d.Speed, Stride: dog.StrideLength(s.dog.Withers, max(d.Speed, s.dog.Collected)),
		Run: st.Odo, Aloft: d.Mode == dog.Air, Inside: d.Mode == dog.Inside, Left: d.Total - d.Gone,
		Next: st.Leg, Took: st.took, Came: st.came, Sure: st.sure,
	}
	if w.Aloft {
		w.Heading = d.Track
	}
	if w.Inside && d.Entry >= 0 {
		w.Out = s.Entries[d.Entry].Exit.At
	}
	return w
}

// dark reports whether a dog inside entry i sees nothing of the ring.
func (s *Setup) dark(i int) bool { return i >= 0 && s.Entries[i].Kind == course.Tunnel }

// marks returns what a handler knows of the course numbers.
func (s *Setup) marks() []handler.Mark {
	marks := make([]handler.Mark, len(s.correct))
	var usual dog.State
	usual.Speed = s.usual
	for n := range marks {
		e := &s.Entries[s.correct[n]]
		m := &marks[n]
		*m = handler.Mark{Entry: e, Worth: e.Length, TakeOff: s.dog.ReachOut(&usual, e)}
		if e.Kind.Jumped() {
			m.Landing = 0.5 * (s.dog.LandingCollected + s.dog.LandingExtended)
		} else {
			m.Worth = s.dog.Through(e, s.usual) * s.usual
		}
		if n > 0 {
			before := &marks[n-1]
			m.Along = before.Along + before.Worth + before.Entry.Exit.At.Dist(e.At)
		}
	}
	return marks
}
