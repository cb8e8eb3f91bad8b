package compare

import (
	"context"
	"math"

	"cuewalk/sim"
)

// Result is what came of several options in the same worlds.
type Result struct {
	Options []Option
	Worlds  int      // that the options left at the end have met
	Best    int      // the option that beats all others; -1 where they are not told apart
	Living  []int    // options not told apart at the end; Best alone where there is one
	Pairs   [][]Pair // [a][b], a against b
}

// Option is how one option did in the worlds it met.
type Option struct {
	Worlds, Clean int
	Legs          []int     // clean, by leg
	Times         []float64 // seconds of its clean runs, in the order of the worlds
}

// Pair is how a did against b in the worlds both met.
type Pair struct {
	Better bool         // a has been shown to be better than b
	Worse  bool         // and the other way round
	Run    Difference   // clean runs
	Legs   []Difference // clean legs
	Time   Difference   // seconds, in worlds in which both were clean
}

// How many worlds are run before the options are judged: enough at first to give figures
// that mean something, then fewer. Looking often costs nothing in truth, and starting runs
// a little in time (C).
const (
	firstBatch = 200
	batch      = 100
)

// Plans runs the options in the same worlds until one is shown to be the best, those left
// are known to differ by nothing that matters, or all have met most worlds. The worlds hang
// on the seed alone, so the answer is the same on any number of cores. It returns ctx's
// error when cancelled. All setups must be of one course; most is at least 1.
func Plans(ctx context.Context, options []*sim.Setup, seed uint64, most int, progress func(worlds int)) (*Result, error) {
	s := newSeries(len(options), len(options[0].Course.Order))
	for k, n := 0, firstBatch; s.race.Worlds() < most && (k == 0 || s.open() || len(options) == 1); k, n = k+1, batch {
		part := make([][]sim.Outcome, len(options))
		for _, i := range s.race.Living() {
			tally, err := options[i].RunMany(ctx, Luck(seed, k), min(n, most-s.race.Worlds()), nil)
			if err != nil {
				return nil, err
			}
			part[i] = tally.Each
		}
		s.add(part)
		if progress != nil {
			progress(s.race.Worlds())
		}
	}
	return s.result(), nil
}

// open reports whether more worlds may still tell something that matters.
func (s *series) open() bool {
	in := s.race.Living()
	for i, a := range in {
		for _, b := range in[i+1:] {
			if !s.pairs[a][b].Run.NoMatter() {
				return true
			}
		}
	}
	return false
}

// Luck returns a seed for part k of a series of worlds that hang on one seed: part 0 has
// the seed itself, the others have seeds far from it.
func Luck(seed uint64, k int) uint64 {
	if k == 0 {
		return seed
	}
	x := seed + uint64(k)*0x9e3779b97f4a7c15 // golden ratio: Steele, Lea, Flood 2014, OOPSLA (M)
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// Outcomes compares options by runs that were made already, by option and world; every
// option must have met the same worlds, at least one.
func Outcomes(options [][]sim.Outcome) *Result {
	s := newSeries(len(options), len(options[0][0].Legs))
	s.add(options)
	return s.result()
}

// series is a comparison going on.
type series struct {
	race    *Race
	options []Option
	pairs   [][]Pair
}

func newSeries(options, legs int) *series {
	s := &series{race: NewRace(options, Alpha), options: make([]Option, options)}
	for i := range s.options {
		s.options[i].Legs = make([]int, legs)
		row := make([]Pair, options)
		for k := range row {
			row[k].Legs = make([]Difference, legs)
		}
		s.pairs = append(s.pairs, row)
	}
	return s
}

// add takes in worlds, by option; those of options that were out before are not read.
func (s *series) add(worlds [][]sim.Outcome) {
	in := s.race.Living()
	clean := make([]bool, len(worlds))
	for w := range worlds[in[0]] {
		for _, a := range in {
			o := &worlds[a][w]
			clean[a] = o.Clean
			s.options[a].add(o)
			for _, b := range in {
				s.pairs[a][b].add(o, &worlds[b][w])
			}
		}
		s.race.Add(clean)
	}
}

func (o *Option) add(w *sim.Outcome) {
	o.Worlds++
	if w.Clean {
		o.Clean++
		o.Times = append(o.Times, w.Time)
	}
	for n, clean := range w.Legs {
		if clean {
			o.Legs[n]++
		}
	}
}

func (p *Pair) add(a, b *sim.Outcome) {
	p.Run.AddClean(a.Clean, b.Clean)
	for n := range p.Legs {
		p.Legs[n].AddClean(a.Legs[n], b.Legs[n])
	}
	if a.Clean && b.Clean {
		p.Time.Add(a.Time, b.Time)
	}
}

func (s *series) result() *Result {
	r := &Result{Options: s.options, Worlds: s.race.Worlds(), Living: s.race.Living(), Pairs: s.pairs}
	r.Best, _ = s.race.Best()
	if len(s.options) == 1 {
		r.Best = -1 // nothing to be better than
	}
	for a := range s.pairs {
		for b := range s.pairs[a] {
			s.pairs[a][b].Better, s.pairs[a][b].Worse = s.race.Beats(a, b), s.race.Beats(b, a)
		}
	}
	return r
}

// Share returns the share of its worlds in which the option was clean, 0..1.
func (o *Option) Share() float64 { return float64(o.Clean) / float64(max(o.Worlds, 1)) }

// NoMatter reports whether a difference of chances is known to be too small to matter: its
// whole interval lies within two points either way (C).
func (d *Difference) NoMatter() bool {
	low, high := d.Interval(Alpha)
	return math.Max(-low, high) <= 0.02
}

// RunInterval returns bounds for how much more often a is clean than b, valid wherever one
// stops. They never contradict the verdict.
func (p *Pair) RunInterval() (low, high float64) {
	low, high = p.Run.Interval(Alpha)
	low, high = max(low, -1), min(high, 1)
	if p.Better {
		low = max(low, 0)
	}
	if p.Worse {
		high = min(high, 0)
	}
	return low, high
}
