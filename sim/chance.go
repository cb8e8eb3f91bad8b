package sim

import (
	"math"
	"slices"

	"cuewalk/course/geom"
	"cuewalk/sim/dog"
)

// flux is the chance that the dog commits to an entry in one step.
type flux struct {
	look  int
	entry int
	p     float64
}

// outcome is how the chances of a leg are shared out: clean, or the first thing that goes
// wrong.
type outcome struct {
	clean, refused, bar, contact float64
	wrong                        []float64 // by entry
	entries                      []int     // those of wrong that are not 0, ascending once the leg is done
}

// layer is what the integration of one uncommitted line leaves behind. Layers are
// kept between legs so that nothing is allocated along a run.
type layer struct {
	states []State
	left   []float64 // survival before each step
	flux   []flux
	sum    []float64 // by entry
	drawn  []int     // entries of which sum is not 0, ascending once the line is done
}

func (l *layer) reset() {
	l.states, l.left, l.flux = l.states[:0], l.left[:0], l.flux[:0]
	for _, e := range l.drawn {
		l.sum[e] = 0
	}
	l.drawn = l.drawn[:0]
}

// glimpse is when and where an entry pulled most.
type glimpse struct {
	p        float64
	ahead    bool // in the air, or landed straight on
	bearing  geom.Angle
	rng      float64
	inView   float64 // seconds on the first line, before any second thoughts
	later    float64 // and on all lines after it
	off      geom.Angle
	strength float64
	parts    dog.Parts
}

// integrator works out the chances of legs by integration: nothing is drawn.
type integrator struct {
	run
	layers [3]layer
	out    outcome
	near   []glimpse // by entry: where it pulled most on this leg
	noted  []int     // entries of which near is not zero
	hidden []float64 // seconds by obstacle
	shaded []int     // obstacles of which hidden is not 0, ascending once the leg is done
	aside  bool      // follows another arrival than the likely one: nothing is noted of how things look
}

func newIntegrator(s *Setup) *integrator {
	if in, ok := s.spare.Get().(*integrator); ok {
		in.begin(s, Luck{})
		return in
	}
	in := &integrator{hidden: make([]float64, len(s.Course.Obstacles))}
	in.begin(s, Luck{})
	for i := range in.layers {
		in.layers[i].sum = make([]float64, len(s.Entries))
	}
	in.out.wrong = make([]float64, len(s.Entries))
	in.near = make([]glimpse, len(s.Entries))
	return in
}

const (
	enough   = 0.002 // chances smaller than this are not followed further
	tail     = 0.01  // what is left uncommitted is then shared out like the rest
	lost     = 400   // steps on one line before the dog counts as lost
	rare     = 0.02  // wrong commitments rarer than this are taken as carried out
	hardly   = 0.25  // what so few dogs still see is not in view any more
	nestMass = 0.01  // second thoughts rarer than this count as refusals
)

// leg shares out the chances of the leg that starts at any of the arrivals, each as likely
// as the others; the first is the likely one, and its line is left in layer 0.
func (in *integrator) leg(arrivals []State) {
	in.reset()
	for i := len(arrivals) - 1; i >= 0; i-- {
		in.aside = i > 0
		in.spread(arrivals[i], 1/float64(len(arrivals)), 0)
	}
	slices.Sort(in.out.entries)
	slices.Sort(in.shaded)
	in.out.whole()
}

// whole makes the chances sum to 1: what was too small to follow is shared out in proportion.
func (o *outcome) whole() {
	total := o.clean + o.refused + o.bar + o.contact
	for _, e := range o.entries {
		total += o.wrong[e]
	}
	if total <= 0 {
		return
	}
	for _, p := range []*float64{&o.clean, &o.refused, &o.bar, &o.contact} {
		*p /= total
	}
	for _, e := range o.entries {
		o.wrong[e] /= total
	}
}

// reset forgets the leg before: only what that leg touched, so that a leg costs no more on
// a long course.
func (in *integrator) reset() {
	for _, e := range in.out.entries {
		in.out.wrong[e] = 0
	}
	for _, e := range in.noted {
		in.near[e] = glimpse{}
	}
	for _, o := range in.shaded {
		in.hidden[o] = 0
	}
	in.out.entries, in.noted, in.shaded = in.out.entries[:0], in.noted[:0], in.shaded[:0]
	in.out.clean, in.out.refused, in.out.bar, in.out.contact = 0, 0, 0, 0
}

// spread follows an uncommitted dog of weight mass from st on: in each step part of
// it commits to each entry it sees.
func (in *integrator) spread(st State, mass float64, depth int) {
	l := &in.layers[depth]
	if st.Dog.Commit >= 0 { // its mind is made up already
		l.reset()
		l.states, l.left = append(l.states, st), append(l.left, mass)
		in.chase(st, mass, depth)
		return
	}
	end, left := in.line(l, st, mass, depth)
	in.noteMomentum(l)
	in.settle(in.verdict, in.entry, left, &end)
	slices.Sort(l.drawn)
	for _, e := range l.drawn {
		if p := l.sum[e]; p > enough*mass*0.5 {
			in.commit(l, e, p, depth)
		}
	}
}

// line runs the uncommitted dog until something ends the leg or nothing is left of
// it, and returns where that is and what is left.
func (in *integrator) line(l *layer, st State, mass float64, depth int) (State, float64) {
	l.reset()
	in.verdict, in.entry = goingOn, -1
	left := mass
	for in.verdict == goingOn && left > tail*mass && len(l.states) < in.longest() {
		l.states, l.left = append(l.states, st), append(l.left, left)
		dt := in.move(&st, in.s.stepTime(&st))
		if sum := in.view.Sum; sum > 0 {
			gone := left * -math.Expm1(-sum*dt)
			for i := range in.view.Seen {
				in.note(l, &in.view.Seen[i], gone*in.view.Seen[i].Pull/sum, dt)
			}
			left -= gone
		}
		if depth == 0 && !in.aside {
			in.noteHidden(dt)
		}
	}
	if in.verdict != goingOn {
		return st, left
	}
	if left > tail*mass { // never committed: it stopped or ran out
		in.verdict = refused
		return st, left
	}
	return st, 0
}

// note adds the chance p that the dog commits to what it saw in the last step, of dt seconds.
func (in *integrator) note(l *layer, seen *dog.Seen, p, dt float64) {
	if p <= 0 {
		return
	}
	l.flux = append(l.flux, flux{len(l.states) - 1, seen.Entry, p})
	if l.sum[seen.Entry] == 0 {
		l.drawn = append(l.drawn, seen.Entry)
	}
	l.sum[seen.Entry] += p
	if in.aside {
		return
	}
	g := in.glimpse(seen.Entry)
	switch {
	case seen.Pull <= 0.01 || l.left[len(l.left)-1] < l.left[0]*hardly: // as good as decided
	case l == &in.layers[0]:
		g.inView += dt
	default:
		g.later += dt
	}
	if p > g.p {
		bearing := seen.Off(in.mid.Heading)
		g.p, g.ahead = p, in.mid.Mode == dog.Air || l.states[len(l.states)-1].Dog.Late
		g.bearing, g.rng, g.parts = bearing, seen.Range, seen.Parts
		g.off, g.strength = in.lead.Heading.Off(in.mid.Heading+bearing), in.lead.Strength
	}
}

// noteMomentum notes where the dog was when its own momentum began to carry it over
// the entry it took without ever choosing it.
func (in *integrator) noteMomentum(l *layer) {
	if in.aside || in.entry < 0 || in.near[in.entry].p > 0 {
		return
	}
	const stride = 8 // steps
	e, st := &in.s.Entries[in.entry], &l.states[max(0, len(l.states)-int(stride*in.s.scene.Fine))]
	line := st.Dog.At.Towards(e.At)
	*in.glimpse(in.entry) = glimpse{
		p: enough, bearing: line.Off(st.Dog.Heading), rng: st.Dog.At.Dist(e.At), inView: in.near[in.entry].inView, later: in.near[in.entry].later,
		off: st.Lead.Heading.Off(line), strength: st.Lead.Strength,
	}
}

// glimpse returns what is noted of an entry, for writing.
func (in *integrator) glimpse(entry int) *glimpse {
	g := &in.near[entry]
	if *g == (glimpse{}) {
		in.noted = append(in.noted, entry)
	}
	return g
}

func (in *integrator) noteHidden(dt float64) {
	for i := range in.view.Seen {
		if in.view.Seen[i].ByBody && in.view.Seen[i].Visible < 0.5 {
			o := in.s.Entries[in.view.Seen[i].Entry].Obstacle
			if in.hidden[o] == 0 {
				in.shaded = append(in.shaded, o)
			}
			in.hidden[o] += dt
		}
	}
}

// commit shares out the weight p that committed to entry e along line l: a dog that
// did so early and one that did so late stand for all; one where they are few.
func (in *integrator) commit(l *layer, e int, p float64, depth int) {
	forks := 1
	switch {
	case p < rare && e != in.s.correct[l.states[0].Leg-1]:
		in.settle(in.s.judged(e, l.states[0].Leg), e, p, &l.states[0])
		return
	case depth == 0 && p >= 0.1 && !in.aside:
		forks = 2
	}
	share := p / float64(forks)
	for k := range forks {
		st := in.bound(l, e, (float64(k)+0.5)/float64(forks))
		in.chase(st, share, depth)
	}
}

// bound returns the dog at the moment by which the given share of those who commit to e
// along line l have, bound for it.
func (in *integrator) bound(l *layer, e int, share float64) State {
	look, part := l.quantile(e, share)
	st := l.states[look]
	if look+1 < len(l.states) {
		if dt := part * (l.states[look+1].Time - st.Time); dt > 1e-5 {
			in.move(&st, dt)
		}
	}
	st.Dog.Commit = e
	return st
}

// quantile returns the step, and the share of it, by which the given share of those who
// commit to e have.
func (l *layer) quantile(e int, share float64) (look int, part float64) {
	want := share * l.sum[e]
	for i := range l.flux {
		f := &l.flux[i]
		if f.entry != e {
			continue
		}
		look, part = f.look, max(0, min(1, want/f.p))
		if want -= f.p; want <= 0 {
			break
		}
	}
	return look, part
}

// chase runs a committed dog of weight mass to its end. Part of it may be called
// off on the way; that part looks about again from where half of it was.
func (in *integrator) chase(st State, mass float64, depth int) {
	in.verdict, in.entry = goingOn, -1
	keep, half := 1.0, -1.0
	var off State
	for n := 0; in.verdict == goingOn && n < in.longest(); n++ {
		if in.sure(&st) {
			in.verdict, in.entry = in.s.judged(st.Dog.Commit, st.Leg), st.Dog.Commit
			break
		}
		if st.Dog.Commit < 0 && st.Dog.Mode == dog.Ground { // ran past it
			in.again(st, mass*keep, depth)
			keep = 0
			break
		}
		before := st
		if dt := in.move(&st, in.s.stepTime(&st)); in.rate > 0 {
			keep *= math.Exp(-in.rate * dt)
			if half < 0 || keep > half {
				off, half = before, 0.5
			}
		}
	}
	v, e := in.verdict, in.entry
	if v == goingOn {
		v = refused
	}
	in.settle(v, e, mass*keep, &st) // first: looking about again overwrites what this run left behind
	if half > 0 && mass*(1-keep) > 0 {
		off.Dog.Commit = -1
		off.tries++
		in.again(off, mass*(1-keep), depth)
	}
}

// longest is how many steps on one line make the dog count as lost.
func (r *run) longest() int { return int(lost * r.s.scene.Fine) }

// sure reports whether nothing can keep the dog any more from the wrong entry it
// has committed to: too near to be called off, straight before it.
func (in *integrator) sure(st *State) bool {
	i := st.Dog.Commit
	if i < 0 || i == in.s.correct[st.Leg-1] || st.Dog.Mode != dog.Ground {
		return false
	}
	e := &in.s.Entries[i]
	to := st.Dog.At.Towards(e.At)
	return st.Dog.At.Dist(e.At) < in.s.dog.ReachOut(&st.Dog, e)+dog.CallOffRoom &&
		to.Off(st.Dog.Heading).Abs() < 0.35 && to.Off(e.Heading).Abs() < 0.6
}

// again lets a dog that took back its choice look about anew.
func (in *integrator) again(st State, mass float64, depth int) {
	if mass <= 0 {
		return
	}
	if depth+1 < len(in.layers) && mass > nestMass {
		in.spread(st, mass, depth+1)
		return
	}
	in.out.refused += mass
}

// settle books the weight p of dogs that end as st under the verdict.
func (in *integrator) settle(v verdict, entry int, p float64, st *State) {
	if p <= 0 {
		return
	}
	switch v {
	case clean:
		slips := in.s.slips(st)
		in.out.refused += p * slips.refusal
		in.out.bar += p * slips.bar
		in.out.contact += p * slips.contact
		in.out.clean += p * (1 - slips.refusal - slips.bar - slips.contact)
	case offCourse, wrongSide:
		if in.out.wrong[entry] == 0 {
			in.out.entries = append(in.out.entries, entry)
		}
		in.out.wrong[entry] += p
	default:
		in.out.refused += p
	}
}
