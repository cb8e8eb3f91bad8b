package sim

import (
	"math"

	"cuewalk/sim/dog"
)

// Step returns the state one stride later: a gallop stride, a flight, or as much
// of an obstacle as fits in one. The dog's part of it sees the scene and the
// handler; only the judge and the handler know the numbers.
func (s *Setup) Step(st State, luck Luck) State {
	stride := st.Stride
	var r run
	r.begin(s, luck)
	for st.Stride == stride && r.verdict == goingOn {
		r.sample(&st)
	}
	return st
}

// verdict is how a leg ended.
type verdict uint8

const (
	goingOn verdict = iota
	clean
	offCourse
	wrongSide
	refused
)

// run carries what one run needs besides its state.
type run struct {
	s           *Setup
	luck        Luck
	seen        []dog.Seen
	verdict     verdict
	entry       int     // entry taken when the leg ended; -1 for none
	collided    bool    // handler and dog met on the leg
	missedEntry float64 // chance that the weave entry just taken was missed
	lure        lure    // what the dog went for last
	idle        bool    // the dog took nothing and stopped working
	near        float64 // square of the metres it came to the right entry at its nearest
	wide        float64 // metres beside the right entry at which the dog ran past it; 0 for not
	free        bool    // commits are somebody else's business: integration along the line
}

func (r *run) begin(s *Setup, luck Luck) {
	r.s, r.luck = s, luck
	r.fresh()
}

// fresh forgets the leg before.
func (r *run) fresh() {
	r.verdict, r.entry = goingOn, -1
	r.lure.entry, r.wide, r.idle, r.near = -1, 0, false, math.Inf(1)
}

// sample takes the run on to the next look.
func (r *run) sample(st *State) {
	s := r.s
	dt := s.sampleTime(st)
	if !r.free {
		r.decide(st, dt)
	}
	r.move(st, dt)
}

// look returns what the dog sees now, with the sum of the pulls.
func (r *run) look(st *State) float64 {
	sight := r.s.sight(st.Dog.Body, st.Lead, st.Hand.At, st.Dog.Last, st.Dog.SinceLast)
	var sum float64
	r.seen, sum = r.s.scene.Look(r.s.dog, &sight, r.seen[:0])
	return sum
}

// decide lets the dog commit, or be called off, with this run's luck.
func (r *run) decide(st *State, dt float64) {
	if st.Dog.Commit >= 0 {
		if rate := r.callOff(st); rate > 0 {
			st.called += rate * dt
			if st.called > r.luck.exponential(drawCallOff, st.place()) {
				st.Dog.Commit = -1
				st.tries++
				st.hazard, st.called, st.need = 0, 0, 0
			}
		}
		return
	}
	sum := r.look(st)
	if sum == 0 {
		return
	}
	if st.need == 0 {
		st.need = r.luck.exponential(drawCommit, st.place())
	}
	if st.hazard += sum * dt; st.hazard < st.need {
		return
	}
	pick := r.luck.uniform(drawWhich, st.place()) * sum
	for i := range r.seen {
		if pick -= r.seen[i].Pull; pick <= 0 || i == len(r.seen)-1 {
			st.Dog.Commit = r.seen[i].Entry
			r.chosen(st, &r.seen[i])
			return
		}
	}
}

// place numbers the decision the dog is at: the leg, and the tries on it.
func (st *State) place() int { return st.Leg*16 + min(st.tries, 15) }

// callOffRoom is how far beyond its take-off a dog can still be called off, in metres (C).
const callOffRoom = 2.5

// callOff returns the rate per second at which a strong contrary cue calls the dog
// off what it has committed to: only outside the commitment distance.
func (r *run) callOff(st *State) float64 {
	e := &r.s.Entries[st.Dog.Commit]
	if st.Dog.Mode != dog.Ground || st.Lead.Strength <= 1 {
		return 0
	}
	if st.Dog.At.Dist(e.At) < r.s.dog.ReachOut(&st.Dog, e)+callOffRoom {
		return 0
	}
	off := math.Abs(float64(st.Lead.Heading.Off(st.Dog.At.Towards(e.At))))
	if off < math.Pi/3 {
		return 0
	}
	return 5 * (st.Lead.Strength - 1) // C
}

// move takes handler and dog on by dt and lets the judge look.
func (r *run) move(st *State, dt float64) {
	s := r.s
	s.act(st, r.luck, dt)
	st.Time += dt
	st.past.push(st.Time, s.shown(st))
	late := st.lucky.late
	h := st.past.at(st.Time - s.dog.Latency - late)
	st.Lead = s.dog.Reread(st.Lead, st.Dog.Body, h, st.past.word(st.Time-s.dog.WordLatency-late), dt)
	before, share := st.Dog.At, s.dog.StrideShare(&st.Dog, dt)
	luck := dog.Luck{Spot: st.lucky.spot}
	event := s.scene.Advance(s.dog, &st.Dog, &st.Lead, luck, dt)
	st.Odo += before.Dist(st.Dog.At)
	st.count(event, share)
	if st.Dog.Mode == dog.Ground && st.Dog.Commit < 0 {
		st.idle += dt
	}
	r.judge(st, event, before)
}

// sampleTime returns the seconds until the next look.
func (s *Setup) sampleTime(st *State) float64 { return s.scene.SampleTime(s.dog, &st.Dog) }

// count counts strides, of which share more is gone; a flight or passage ends one.
func (st *State) count(event dog.Event, share float64) {
	if st.stride += share; event != dog.Nothing || st.stride > 1-1e-9 {
		st.Stride++
		st.stride = 0
	}
}
