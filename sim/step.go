package sim

import (
	"math"

	"cuewalk/sim/dog"
	"cuewalk/sim/handler"
)

// Step returns the state one stride later: a gallop stride, a flight, or as much
// of an obstacle as fits in one. The dog's part of it sees the scene and the
// handler; only the judge and the handler know the numbers.
func (s *Setup) Step(st State, luck Luck) State {
	stride := st.Stride
	var r run
	r.begin(s, luck)
	for st.Stride == stride && r.verdict == goingOn {
		r.step(&st)
	}
	return st
}

// run carries what one run needs besides its state.
type run struct {
	s      *Setup
	luck   Luck
	hunch  hunch   // the handler's part of it
	stop   float64 // seconds since the release at which a step must end; 0 for none
	buffer [48]dog.Seen
	view   dog.View // what the dog saw in the last step
	mid    dog.Body // where it was then
	now    dog.Lead // what it took of its handler then
	lead   dog.Lead // and made of that, with what it had read before
	rate   float64  // per second: how fast it was called off

	verdict verdict
	entry   int // entry taken when the leg ended; -1 for none

	met     bool    // handler and dog met on the leg
	early   float64 // chance that the dog left the obstacle at number earlyAt early
	earlyAt int     // 0 for none
	lure    lure    // what the dog went for last
	idle    bool    // the dog took nothing and stopped working
	near    float64 // square of the metres it came to the correct entry at its nearest
	wide    float64 // metres beside the correct entry at which the dog ran past it; 0 for not
}

func (r *run) begin(s *Setup, luck Luck) {
	r.s, r.luck, r.hunch = s, luck, hunch{s: s, l: luck}
	r.fresh()
}

// fresh forgets the leg before.
func (r *run) fresh() {
	r.verdict, r.entry = goingOn, -1
	r.lure.entry, r.wide, r.idle, r.near, r.met = -1, 0, false, math.Inf(1), false
	r.early, r.earlyAt = 0, 0
}

// step takes the run on to the next look, or to the moment inside the step at which the
// dog decides.
func (r *run) step(st *State) {
	before := *st
	dt := r.s.stepTime(st)
	if left := r.stop - st.Time; left > 1e-9 {
		dt = min(dt, left)
	}
	dt = r.move(st, dt)
	share, entry, off := r.decides(&before, dt)
	if share >= 1 {
		st.hazard, st.called, st.need = before.hazard, before.called, before.need
		if st.Leg != before.Leg || st.tries != before.tries {
			st.hazard, st.called, st.need = 0, 0, 0
		}
		return
	}
	// It decides on the way: it runs on undecided to there, and decided from there.
	*st = before
	r.verdict, r.entry, r.wide = goingOn, -1, 0
	if part := share * dt; part > 1e-5 {
		if r.move(st, part); r.verdict != goingOn {
			return
		}
	}
	if off {
		st.Dog.Commit = -1
		st.tries++
	} else {
		st.Dog.Commit = entry
	}
	st.hazard, st.called, st.need = 0, 0, 0
}

// decides sums up in st what has worked on the dog in the step of dt seconds that began
// there, and returns the share of it after which the dog decides, 1 where it does not:
// for an entry, or off the one it is bound for.
func (r *run) decides(st *State, dt float64) (share float64, entry int, off bool) {
	if st.Dog.Commit >= 0 {
		if r.rate <= 0 {
			return 1, -1, false
		}
		need := r.luck.exponential(drawCallOff, st.place())
		was := st.called
		if st.called += r.rate * dt; st.called < need {
			return 1, -1, false
		}
		return (need - was) / (r.rate * dt), -1, true
	}
	sum := r.view.Sum
	if sum <= 0 || dt <= 0 {
		return 1, -1, false
	}
	if st.need == 0 {
		st.need = r.luck.exponential(drawCommit, st.place())
	}
	was := st.hazard
	if st.hazard += sum * dt; st.hazard < st.need {
		return 1, -1, false
	}
	pick := r.luck.uniform(drawWhich, st.place()) * sum
	for i := range r.view.Seen {
		if pick -= r.view.Seen[i].Pull; pick <= 0 || i == len(r.view.Seen)-1 {
			r.chosen(&r.view.Seen[i])
			return max(0, (st.need-was)/(sum*dt)), r.view.Seen[i].Entry, false
		}
	}
	return 1, -1, false
}

// place numbers the decision the dog is at: the leg, and the tries on it.
func (st *State) place() int { return st.Leg*16 + min(st.tries, 15) }

// move takes handler and dog on by dt, or until something happens to the dog, and lets the
// judge look. What the dog sees and reads it does so midway; see run.view. It returns the
// seconds that have passed.
func (r *run) move(st *State, dt float64) float64 {
	s := r.s
	hand, lead, start, before := st.Hand, st.Lead, st.Time, st.Dog.At
	seen := s.watched(st)
	s.hand.Act(&st.Hand, &seen, &r.hunch, dt)
	st.past.gave(start, st.Hand.Action)
	r.watch(st, &hand, dt)
	share := s.dog.StrideShare(&st.Dog, dt)
	event, used := s.scene.Advance(s.dog, &st.Dog, &r.mid, &r.lead, &r.view, dog.Luck{Spot: st.lucky.spot}, dt)
	if used < dt {
		share *= used / dt
		cut(&st.Hand, &hand, used/dt)
	}
	st.Time = start + used
	st.past.note(st.Time, s.apart, &st.Hand)
	st.told.hear(st.past.action(st.Time-s.dog.WordLatency-st.lucky.late), used, event == dog.Took, st.Dog.Mode == dog.Inside)
	st.Lead = lead.Blend(&r.now, used)
	st.Lead.Heading, st.Lead.Strength = r.lead.Heading, r.lead.Strength
	if st.Dog.Mode == dog.Inside {
		st.strain += s.strain(st) * used
		if s.dark(st.Dog.Entry) {
			st.lit = st.Time
		}
	}
	r.met = r.met || st.Hand.Met
	st.Hand.Met = false
	st.Odo += before.Dist(st.Dog.At)
	st.count(event, share)
	if st.Dog.Mode == dog.Ground && st.Dog.Commit < 0 {
		st.idle += used
	}
	if st.Dog.Commit >= 0 && st.Leg <= len(s.correct) && st.Dog.Commit == s.correct[st.Leg-1] {
		st.sure += used
	} else {
		st.sure = 0
	}
	r.judge(st, event, before)
	return used
}

// watch lets the dog see and read midway through the step of dt seconds that begins at st,
// in which the handler comes from before to where he is.
func (r *run) watch(st *State, before *handler.State, dt float64) {
	s := r.s
	r.mid = st.Dog.Midway(dt)
	h, w := s.shown(st, st.Time+dt/2)
	r.now = s.dog.Read(&r.mid, &h, w)
	r.lead = st.Lead.Blend(&r.now, dt/2)
	sight := s.sight(r.mid, r.lead, before.At.Lerp(st.Hand.At, 0.5), st.Dog.Last, st.Dog.SinceLast+dt/2)
	sight.Seeking = st.Dog.Seeking
	if st.Dog.Commit >= 0 {
		sight.Bound, sight.Goal, sight.Last, sight.Since = true, st.Dog.Commit, s.Entries[st.Dog.Commit].Obstacle, 0
	}
	r.view = s.scene.Look(s.dog, &sight, r.buffer[:0])
	r.lead = sight.Lead
	r.rate = 0
	if sight.Bound {
		r.rate = s.dog.CallOff(&st.Dog, &r.mid, &r.lead, &r.view, &s.Entries[st.Dog.Commit])
	}
}

// cut takes the handler back to a share of the step in which he came from before to here:
// what he has said by then stays said.
func cut(here, before *handler.State, share float64) {
	here.At, here.Vel = before.At.Lerp(here.At, share), before.Vel.Lerp(here.Vel, share)
	here.Reach = before.Reach + (here.Reach-before.Reach)*share
	here.Chest, here.Pointer = before.Chest.Lerp(here.Chest, share), before.Pointer.Lerp(here.Pointer, share)
}

// stepTime returns the seconds the next step should take.
func (s *Setup) stepTime(st *State) float64 { return s.scene.StepTime(s.dog, &st.Dog) }

// count counts strides, of which share more is gone; a flight or passage ends one.
func (st *State) count(event dog.Event, share float64) {
	if st.stride += share; event != dog.Nothing || st.stride > 1-1e-9 {
		st.Stride++
		st.stride = 0
	}
}
