package sim

import (
	"math"
	"slices"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim/dog"
)

// flux is the chance that the dog commits to an entry at one look.
type flux struct {
	look  int
	entry int
	p     float64
}

// outcome is how the chances of a leg are shared out.
type outcome struct {
	clean, refused float64
	wrong          []float64 // by entry
	entries        []int     // those of wrong that are not 0, ascending once the leg is done
}

// layer is what the integration of one uncommitted line leaves behind. Layers are
// kept between legs so that nothing is allocated along a run.
type layer struct {
	states []State
	left   []float64 // survival before each look
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
}

func newIntegrator(s *Setup) *integrator {
	if in, ok := s.spare.Get().(*integrator); ok {
		in.begin(s, Luck{})
		return in
	}
	in := &integrator{hidden: make([]float64, len(s.Course.Obstacles))}
	in.begin(s, Luck{})
	in.free = true
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
	longest  = 400   // looks on one line before the dog counts as lost
	rare     = 0.02  // wrong commitments rarer than this are taken as carried out
	hardly   = 0.25  // what so few dogs still see is not in view any more
	nestMass = 0.01  // second thoughts rarer than this count as refusals
)

// leg shares out the chances of the leg that starts at st.
func (in *integrator) leg(st State) {
	in.reset()
	in.spread(st, 1, 0)
	slices.Sort(in.out.entries)
	slices.Sort(in.shaded)
	total := in.out.clean + in.out.refused
	for _, e := range in.out.entries {
		total += in.out.wrong[e]
	}
	if total > 0 { // what was too small to follow is shared out in proportion
		in.out.clean /= total
		in.out.refused /= total
		for _, e := range in.out.entries {
			in.out.wrong[e] /= total
		}
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
	in.out.clean, in.out.refused = 0, 0
}

// spread follows an uncommitted dog of weight mass from st on: at each look part of
// it commits to each entry it sees.
func (in *integrator) spread(st State, mass float64, depth int) {
	l := &in.layers[depth]
	if st.Dog.Commit >= 0 { // its mind is made up already
		l.reset()
		l.states, l.left = append(l.states, st), append(l.left, mass)
		in.chase(st, mass, depth)
		return
	}
	left := in.line(l, st, mass, depth)
	in.noteMomentum(l)
	in.settle(in.verdict, in.entry, left)
	slices.Sort(l.drawn)
	for _, e := range l.drawn {
		if p := l.sum[e]; p > enough*mass*0.5 {
			in.commit(l, e, p, depth)
		}
	}
}

// line runs the uncommitted dog until something ends the leg or nothing is left of
// it, and returns what is left.
func (in *integrator) line(l *layer, st State, mass float64, depth int) float64 {
	l.reset()
	in.verdict, in.entry = goingOn, -1
	left := mass
	for in.verdict == goingOn && left > tail*mass && len(l.states) < longest {
		l.states, l.left = append(l.states, st), append(l.left, left)
		dt := in.s.sampleTime(&st)
		if sum := in.look(&st); sum > 0 {
			gone := left * (1 - math.Exp(-sum*dt))
			for i := range in.seen {
				in.note(l, &in.seen[i], &st, gone*in.seen[i].Pull/sum, dt)
			}
			left -= gone
		}
		if depth == 0 {
			in.noteHidden(dt)
		}
		in.move(&st, dt)
	}
	if in.verdict != goingOn {
		return left
	}
	if left > tail*mass { // never committed: it stopped or ran out
		in.verdict = refused
		return left
	}
	return 0
}

// note adds the chance p that the dog commits to what it sees now.
func (in *integrator) note(l *layer, seen *dog.Seen, st *State, p, dt float64) {
	if p <= 0 {
		return
	}
	l.flux = append(l.flux, flux{len(l.states) - 1, seen.Entry, p})
	if l.sum[seen.Entry] == 0 {
		l.drawn = append(l.drawn, seen.Entry)
	}
	l.sum[seen.Entry] += p
	g := in.glimpse(seen.Entry)
	switch {
	case seen.Pull <= 0.01 || l.left[len(l.left)-1] < l.left[0]*hardly: // as good as decided
	case l == &in.layers[0]:
		g.inView += dt
	default:
		g.later += dt
	}
	if p > g.p {
		line := st.Dog.Heading + seen.Bearing
		g.p, g.ahead = p, st.Dog.Mode == dog.Air || st.Dog.Late
		g.bearing, g.rng = seen.Bearing, seen.Range
		g.off, g.strength = st.Lead.Heading.Off(line), st.Lead.Strength
	}
}

// noteMomentum notes where the dog was when its own momentum began to carry it over
// the entry it took without ever choosing it.
func (in *integrator) noteMomentum(l *layer) {
	if in.entry < 0 || in.near[in.entry].p > 0 {
		return
	}
	e, st := &in.s.Entries[in.entry], &l.states[max(0, len(l.states)-dog.Samples)]
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
	for i := range in.seen {
		if in.seen[i].ByBody && in.seen[i].Visible < 0.5 {
			o := in.s.Entries[in.seen[i].Entry].Obstacle
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
	case p < rare && e != in.s.right[l.states[0].Leg-1]:
		in.settle(in.s.judged(e, l.states[0].Leg), e, p)
		return
	case depth == 0 && p >= 0.1:
		forks = 2
	}
	share := p / float64(forks)
	for k := range forks {
		st := l.states[l.quantile(e, (float64(k)+0.5)/float64(forks))]
		st.Dog.Commit = e
		in.chase(st, share, depth)
	}
}

// quantile returns the look by which the given share of those who commit to e have.
func (l *layer) quantile(e int, share float64) int {
	want, look := share*l.sum[e], 0
	for i := range l.flux {
		if l.flux[i].entry == e {
			look = l.flux[i].look
			if want -= l.flux[i].p; want <= 0 {
				break
			}
		}
	}
	return look
}

// chase runs a committed dog of weight mass to its end. Part of it may be called
// off on the way; that part looks about again from where half of it was.
func (in *integrator) chase(st State, mass float64, depth int) {
	in.verdict, in.entry = goingOn, -1
	keep, half := 1.0, -1.0
	var off State
	for n := 0; in.verdict == goingOn && n < longest; n++ {
		if in.sure(&st) {
			in.verdict, in.entry = in.s.judged(st.Dog.Commit, st.Leg), st.Dog.Commit
			break
		}
		if st.Dog.Commit < 0 && st.Dog.Mode == dog.Ground { // ran past it
			in.again(st, mass*keep, depth)
			keep = 0
			break
		}
		dt := in.s.sampleTime(&st)
		if st.Dog.Commit >= 0 {
			if rate := in.callOff(&st); rate > 0 {
				keep *= math.Exp(-rate * dt)
				if half < 0 || keep > half {
					off, half = st, 0.5
				}
			}
		}
		in.move(&st, dt)
	}
	v, e := in.verdict, in.entry
	if v == goingOn {
		v = refused
	}
	in.settle(v, e, mass*keep) // first: looking about again overwrites what this run left behind
	if half > 0 && mass*(1-keep) > 0 {
		off.Dog.Commit = -1
		off.tries++
		in.again(off, mass*(1-keep), depth)
	}
}

// sure reports whether nothing can keep the dog any more from the wrong entry it
// has committed to: too near to be called off, straight before it.
func (in *integrator) sure(st *State) bool {
	i := st.Dog.Commit
	if i < 0 || i == in.s.right[st.Leg-1] || st.Dog.Mode != dog.Ground {
		return false
	}
	e := &in.s.Entries[i]
	to := st.Dog.At.Towards(e.At)
	return st.Dog.At.Dist(e.At) < in.s.dog.ReachOut(&st.Dog, e)+callOffRoom &&
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

// settle books the weight p under the verdict.
func (in *integrator) settle(v verdict, entry int, p float64) {
	if p <= 0 {
		return
	}
	switch v {
	case clean:
		miss := 0.0
		if in.s.Entries[entry].Kind == course.Weaves {
			miss = in.missedEntry
		}
		in.out.clean += p * (1 - miss)
		in.out.refused += p * miss
	case offCourse, wrongSide:
		if in.out.wrong[entry] == 0 {
			in.out.entries = append(in.out.entries, entry)
		}
		in.out.wrong[entry] += p
	default:
		in.out.refused += p
	}
}
