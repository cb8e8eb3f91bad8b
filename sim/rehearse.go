package sim

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim/dog"
	"cuewalk/sim/handler"
)

// Rehearse returns the likely run with its chances by integration; no luck is
// drawn. Each leg's chances are for a dog that comes to it as planned: where the
// dog would likely go wrong, the team goes on from the next number all the same.
func (s *Setup) Rehearse() *Rehearsal {
	b, st := s.planned(len(s.correct))
	s.arrived.once.Do(func() { s.arrived.states = b.arrivals })
	b.finish(&st)
	s.spare.Put(b.in)
	return b.r
}

// RehearseTo is Rehearse with what comes after course number n left out, for trying
// out the beginning of a plan.
func (s *Setup) RehearseTo(n int) *Rehearsal {
	b, st := s.planned(min(n, len(s.correct)))
	b.finish(&st)
	s.spare.Put(b.in)
	return b.r
}

// planned takes the likely run to the take-off or entry of number n.
func (s *Setup) planned(n int) (*builder, State) {
	b := &builder{in: newIntegrator(s), r: &Rehearsal{Setup: s}}
	b.r.Trace.Samples = make([]Sample, 0, 64*len(s.correct))
	st := s.Start(Luck{})
	b.keep(&st, 1)
	for st.Leg <= n {
		b.leg(&st)
	}
	return b, st
}

// builder puts a rehearsal together leg by leg.
type builder struct {
	in       *integrator
	r        *Rehearsal
	arrivals [][]State // at the take-off or entry of each number, once it has been taken rightly: the likely one, and others as likely as it
	others   []State   // of the last number, beside the likely one
}

// keep records a state as a sample.
func (b *builder) keep(st *State, left float64) {
	b.r.Trace.add(st, left)
}

func (t *Trace) add(st *State, left float64) {
	s := Sample{
		Time: st.Time, Stride: st.Stride, Dog: st.Dog.Body, Hand: st.Hand.Hand, Cue: st.Hand.Action, Leg: st.Leg,
		Commit: st.Dog.Commit, Lead: st.Lead, Last: st.Dog.Last, Since: st.Dog.SinceLast, Seeking: st.Dog.Seeking, Survive: left,
	}
	n := len(t.Samples)
	if n == 0 || t.Samples[n-1].Stride != s.Stride {
		t.Strides = append(t.Strides, n)
	}
	t.Samples = append(t.Samples, s)
	t.print(n)
}

// print notes where paws come down at sample n.
func (t *Trace) print(n int) {
	s := &t.Samples[n]
	if n == 0 {
		return
	}
	p := &t.Samples[n-1]
	switch {
	case p.Dog.Mode != dog.Air && s.Dog.Mode == dog.Air:
		t.Paws = append(t.Paws, PawPrint{p.Dog.At, n, TakeOffMark})
	case p.Dog.Mode == dog.Air && s.Dog.Mode != dog.Air:
		t.Paws = append(t.Paws, PawPrint{s.Dog.At, n, LandingMark})
	case s.Stride != p.Stride && s.Dog.Mode == dog.Ground:
		t.Paws = append(t.Paws, PawPrint{s.Dog.At, n, GroundStride})
	}
}

// leg works out one leg and takes st to its end as planned.
func (b *builder) leg(st *State) {
	in, s := b.in, b.in.s
	leg := Leg{Number: st.Leg, First: len(b.r.Trace.Samples) - 1}
	start := *st
	in.early, in.earlyAt = 0, 0
	in.leg(append([]State{*st}, b.others...))
	leg.Clean = in.out.clean
	b.leavesEarly()
	correct := s.correct[st.Leg-1]
	b.faults(&leg, correct)
	for _, i := range in.shaded {
		if sec := in.hidden[i]; sec > 0.02 {
			leg.Hidden = append(leg.Hidden, Hidden{i, sec})
		}
	}
	b.others = b.others[:0]
	b.asPlanned(st, correct)
	leg.Last = len(b.r.Trace.Samples) - 1
	b.figures(&leg, st, start)
	b.arrivals = append(b.arrivals, append([]State{*st}, b.others...))
	b.r.Legs = append(b.r.Legs, leg)
}

// leavesEarly adds to the leg before what has come out of its obstacle since.
func (b *builder) leavesEarly() {
	if b.in.earlyAt < 1 || b.in.earlyAt > len(b.r.Legs) {
		return
	}
	l := &b.r.Legs[b.in.earlyAt-1]
	kind, entry := MissedContact, b.in.s.correct[l.Number-1]
	if b.in.s.Entries[entry].Kind == course.Weaves {
		kind = Refusal
	}
	p := l.Clean * b.in.early
	l.Clean -= p
	for i := range l.Faults {
		if l.Faults[i].Kind == kind {
			l.Faults[i].Chance += p
			p = 0
		}
	}
	if p > 0 {
		b.slip(l, kind, p, b.in.s.Entries[entry].Obstacle)
		if n := len(l.Faults); kind == Refusal && n > 0 && l.Faults[n-1].Kind == Refusal {
			l.Faults[n-1].Entry = entry
		}
	}
	sortFaults(l.Faults)
}

// asPlanned takes st along the likely line over the correct entry: committed when
// half of those who do have; led there where none do. Where dogs commit early and late,
// it keeps how these arrive, too.
func (b *builder) asPlanned(st *State, correct int) {
	l := &b.in.layers[0]
	if st.Dog.Commit == correct {
		if end, ok := b.follow(l, 0, *st); ok {
			*st = end
			return
		}
	}
	if l.sum[correct] > enough {
		for _, share := range []float64{0.5, 0.2, 0.8} {
			look, _ := l.quantile(correct, share)
			if end, ok := b.follow(l, look, b.in.bound(l, correct, share)); ok {
				*st = end
				b.spreadOut(l, correct)
				return
			}
		}
	}
	if b.in.out.clean > 0.5 { // carried over it without ever choosing
		if end, ok := b.follow(l, len(l.states)-1, l.states[len(l.states)-1]); ok {
			*st = end
			return
		}
	}
	b.in.begin(b.in.s, Luck{})
	b.in.ghost(st, func(x *State) { b.keep(x, 1) })
}

// spreadOut keeps how dogs arrive that commit early and late.
func (b *builder) spreadOut(l *layer, correct int) {
	for _, share := range []float64{1.0 / 6, 5.0 / 6} {
		if st := b.in.bound(l, correct, share); b.in.finish(&st) {
			b.others = append(b.others, st)
		}
	}
}

// finish runs a committed dog to the end of its leg and reports whether it is clean.
func (in *integrator) finish(st *State) bool {
	in.verdict, in.entry = goingOn, -1
	for k := 0; in.verdict == goingOn && k < in.longest(); k++ {
		in.move(st, in.s.stepTime(st))
	}
	return in.verdict == clean
}

// follow records line l up to a step and the dog from st on, which is in that step; it
// reports false, with nothing recorded, if that does not end clean.
func (b *builder) follow(l *layer, look int, st State) (State, bool) {
	n, strides, paws := len(b.r.Trace.Samples), len(b.r.Trace.Strides), len(b.r.Trace.Paws)
	for i := 1; i <= look; i++ {
		b.keep(&l.states[i], l.left[i]/l.left[0])
	}
	b.in.verdict, b.in.entry = goingOn, -1
	for k := 0; b.in.verdict == goingOn && k < b.in.longest(); k++ {
		b.in.move(&st, b.in.s.stepTime(&st))
		b.keep(&st, l.left[look]/l.left[0])
	}
	if b.in.verdict != clean {
		t := &b.r.Trace
		t.Samples, t.Strides, t.Paws = t.Samples[:n], t.Strides[:strides], t.Paws[:paws]
		return st, false
	}
	return st, true
}

// faults fills in what goes wrong on the leg, likeliest first.
func (b *builder) faults(leg *Leg, correct int) {
	in, s := b.in, b.in.s
	l := &in.layers[0]
	target := s.Entries[correct].Obstacle
	for _, e := range in.out.entries {
		p := in.out.wrong[e]
		if p < 0.0005 {
			continue
		}
		f := b.glimpsed(Fault{Kind: OffCourse, Entry: e, Obstacle: s.Entries[e].Obstacle, Chance: p, Leaves: -1})
		if f.Obstacle == target {
			f.Kind = WrongSide
		}
		if p > 0.03 && l.sum[e] > 0 {
			look, path := b.branch(l, e, correct)
			f.Leaves, f.Path = leg.First+look, path
		}
		leg.Faults = append(leg.Faults, f)
	}
	if p := in.out.refused; p >= 0.0005 {
		leg.Faults = append(leg.Faults, b.glimpsed(Fault{Kind: Refusal, Entry: correct, Obstacle: target, Chance: p, Leaves: -1}))
	}
	b.slip(leg, KnockedBar, in.out.bar, target)
	b.slip(leg, MissedContact, in.out.contact, target)
	sortFaults(leg.Faults)
}

// glimpsed adds to a fault when and where its entry pulled most.
func (b *builder) glimpsed(f Fault) Fault {
	g := b.in.near[f.Entry]
	f.Bearing, f.Range, f.InView, f.Off, f.Strength, f.Ahead, f.Parts = g.bearing, g.rng, g.inView, g.off, g.strength, g.ahead, g.parts
	if g.inView == 0 { // seen only after it had turned away from something else
		f.InView = g.later
	}
	return f
}

// branch returns the step at which a dog that goes to entry e would leave the
// likely line, and its way from there up to the obstacle.
func (b *builder) branch(l *layer, e, correct int) (int, []geom.Point) {
	look, _ := l.quantile(e, 0.5)
	look = min(look, b.decided(l, correct))
	st := l.states[look]
	st.Dog.Commit = e
	path := []geom.Point{st.Dog.At}
	b.in.verdict = goingOn
	for k := 0; b.in.verdict == goingOn && k < b.in.longest(); k++ {
		b.in.move(&st, b.in.s.stepTime(&st))
		if path[len(path)-1].Dist(st.Dog.At) > 0.25 {
			path = append(path, st.Dog.At)
		}
	}
	return look, append(path, b.in.s.Entries[e].At)
}

// decided returns the step in which the likely dog commits to the correct entry; the
// last one where it never does.
func (b *builder) decided(l *layer, correct int) int {
	if l.sum[correct] > enough {
		look, _ := l.quantile(correct, 0.5)
		return look
	}
	return len(l.states) - 1
}

func sortFaults(f []Fault) {
	for i := 1; i < len(f); i++ {
		for k := i; k > 0 && f[k].Chance > f[k-1].Chance; k-- {
			f[k], f[k-1] = f[k-1], f[k]
		}
	}
}

// figures fills in what the leg is like for the dog and counts what may go wrong
// beside its end.
func (b *builder) figures(leg *Leg, st *State, start State) {
	s := b.in.s
	samples := b.r.Trace.Samples[leg.First : leg.Last+1]
	leg.Time = st.Time - start.Time
	leg.Radius = math.Inf(1)
	strides, metres, last := 0, 0.0, -1
	for i := range samples {
		d := &samples[i].Dog
		if k := math.Abs(d.Turn); d.Mode == dog.Ground && k > 1e-6 {
			leg.Radius = min(leg.Radius, 1/k)
		}
		if d.Mode == dog.Ground && samples[i].Stride != last {
			strides, metres, last = strides+1, metres+d.Stride, samples[i].Stride
		}
	}
	if strides > 0 {
		leg.Stride = metres / float64(strides)
	}
	if leg.Time > 0 {
		leg.Speed = (st.Odo - start.Odo) / leg.Time
	}
	e := &s.Entries[s.correct[leg.Number-1]]
	if e.Kind.Jumped() {
		leg.TakeOff, leg.Landing, leg.Flight = st.Dog.TakeOff, st.Dog.Landing, st.Dog.Total
	}
	for i := range samples {
		if samples[i].Dog.Mode != dog.Inside && samples[i].Dog.At.Dist(samples[i].Hand.At) < handler.Meeting {
			b.slip(leg, Collision, 1, e.Obstacle)
			break
		}
	}
}

func (b *builder) slip(leg *Leg, kind FaultKind, p float64, obstacle int) {
	if p >= 0.0005 {
		leg.Faults = append(leg.Faults, Fault{Kind: kind, Entry: -1, Obstacle: obstacle, Chance: p, Leaves: -1})
	}
}

// finish runs out the last flight and sums up.
func (b *builder) finish(st *State) {
	b.in.early, b.in.earlyAt = 0, 0
	for n := 0; st.Dog.Mode != dog.Ground && n < b.in.longest(); n++ {
		b.in.verdict = goingOn
		b.in.move(st, b.in.s.stepTime(st))
		b.keep(st, 1)
	}
	b.leavesEarly()
	r := b.r
	if n := len(r.Legs); n > 0 {
		r.Legs[n-1].Time += st.Time - r.Trace.Samples[r.Legs[n-1].Last].Time
		r.Legs[n-1].Last = len(r.Trace.Samples) - 1
	}
	r.Length, r.Time = st.Odo, st.Time
	r.Time10, r.Time90 = r.Time, r.Time
	r.Clean = 1
	for i := range r.Legs {
		l := &r.Legs[i]
		l.Low, l.High = l.Clean, l.Clean
		r.Clean *= l.Clean
	}
	r.Low, r.High = r.Clean, r.Clean
	r.cues()
}
