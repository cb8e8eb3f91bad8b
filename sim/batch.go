package sim

import (
	"context"
	"runtime"
	"sort"
	"sync"
	"sync/atomic"

	"cuewalk/course"
	"cuewalk/sim/dog"
)

// Tally is what came of many seeded runs. Every leg has as many samples as there
// were runs: after a fault a run goes on from the next number as planned.
type Tally struct {
	Seed  uint64
	Runs  int
	Clean int        // whole runs without any fault
	Legs  []LegTally // by number
	Times []float64  // seconds of the clean runs, ascending
	Each  []Outcome  // by run
}

// LegTally counts how one leg ended: every run once, under clean or the first thing that
// went wrong; Collided is beside that.
type LegTally struct {
	Clean, Refused, Knocked, Missed int
	Wrong                           map[int]int // by entry
	Collided                        int
	lures                           map[int]*lureSum // by wrong entry; -1 for refusals
}

// Ends of a leg beside the wrong entry taken.
const (
	endClean   = -1
	endRefused = -2
	endBar     = -3
	endContact = -4
)

// result is what one run leaves behind. Run i writes to slot i, so that totals are
// the same for any number of cores.
type result struct {
	clean bool
	time  float64
	ends  []int16 // by leg: how it ended, or the wrong entry
	met   []bool  // by leg: handler and dog ran into each other
	lures []lure  // by leg: how it went wrong
}

// RunMany makes n seeded runs over all cores; run i depends on seed and i alone.
// progress, where not nil, is called from several goroutines now and then with the
// runs done so far. It returns ctx's error when cancelled.
func (s *Setup) RunMany(ctx context.Context, seed uint64, n int, progress func(done int)) (*Tally, error) {
	return s.runMany(ctx, seed, n, runtime.GOMAXPROCS(0), true, progress)
}

// runMany is RunMany with a number of workers, and with luck in more than the
// dog's choices or not.
func (s *Setup) runMany(ctx context.Context, seed uint64, n, workers int, vary bool, progress func(int)) (*Tally, error) {
	arrivals := s.arrivals()
	legs := len(s.correct)
	results := make([]result, n)
	ends, met, lures := make([]int16, n*legs), make([]bool, n*legs), make([]lure, n*legs)
	var next, done atomic.Int64
	var wg sync.WaitGroup
	const chunk = 4 // small, so that no worker is left alone with a long end
	for range max(1, min(workers, n)) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			var r run
			for ctx.Err() == nil {
				lo := int(next.Add(chunk)) - chunk
				if lo >= n {
					return
				}
				for i := lo; i < min(lo+chunk, n); i++ {
					from, to := i*legs, (i+1)*legs
					results[i].ends, results[i].met, results[i].lures = ends[from:to], met[from:to], lures[from:to]
					r.begin(s, Luck{seed: seed, run: uint64(i), on: vary})
					r.whole(&results[i], arrivals)
				}
				if d := done.Add(int64(min(chunk, n-lo))); progress != nil {
					progress(int(d))
				}
			}
		}()
	}
	wg.Wait()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return tally(seed, results, legs), nil
}

// arrivals returns the states at the start of the leg after each number when it has
// been taken as planned. They are worked out once, by whoever needs the likely run first.
func (s *Setup) arrivals() [][]State {
	s.arrived.once.Do(func() {
		b, _ := s.planned(len(s.correct))
		s.spare.Put(b.in)
		s.arrived.states = b.arrivals
	})
	return s.arrived.states
}

// whole takes one run from the release to the last number.
func (r *run) whole(out *result, arrivals [][]State) {
	st := r.s.Start(r.luck)
	out.clean = true
	for leg := range out.ends {
		out.ends[leg] = int16(r.leg(&st))
		out.met[leg] = r.met
		r.leaves(out)
		if out.ends[leg] == endClean {
			continue
		}
		out.clean = false
		if out.ends[leg] == endBar || out.ends[leg] == endContact {
			continue // it goes on from where it is
		}
		out.lures[leg] = r.lured()
		from := arrivals[leg]
		st = from[min(len(from)-1, int(r.luck.uniform(drawArrival, leg)*float64(len(from))))]
		r.s.fresh(&st, r.luck)
	}
	out.time = st.Time + st.Dog.Total - st.Dog.Gone
	if st.Dog.Mode == dog.Inside && out.ends[len(out.ends)-1] == endClean {
		r.fresh()
		for n := 0; st.Dog.Mode == dog.Inside && n < r.longest(); n++ {
			r.move(&st, r.s.stepTime(&st))
		}
		r.leaves(out)
	}
}

// leaves books it where the dog left the obstacle that it has come out of early.
func (r *run) leaves(out *result) {
	n, end := r.left()
	if n == 0 || out.ends[n-1] != endClean {
		return
	}
	out.clean, out.ends[n-1] = false, int16(end)
	if end == endRefused {
		out.lures[n-1] = lure{entry: -1}
	}
}

// left draws whether the dog left the obstacle that it has come out of early: that is a fault
// of the leg to that obstacle, of which it returns the number; 0 where it did not.
func (r *run) left() (number, end int) {
	n := r.earlyAt
	if n < 1 || r.luck.uniform(drawLeaves, n) >= r.early {
		return 0, endClean
	}
	if r.s.Entries[r.s.correct[n-1]].Kind == course.Weaves {
		return n, endRefused
	}
	return n, endContact
}

// leg runs one leg to its end and returns how it ended.
func (r *run) leg(st *State) int {
	r.fresh()
	for n := 0; r.verdict == goingOn && n < r.longest(); n++ {
		r.step(st)
	}
	switch r.verdict {
	case clean:
		return r.slipped(st)
	case offCourse, wrongSide:
		return r.entry
	}
	return endRefused
}

// slipped draws what goes wrong with the obstacle that was taken rightly.
func (r *run) slipped(st *State) int {
	slips, leg := r.s.slips(st), st.Leg-1
	switch {
	case slips.refusal > 0 && r.luck.uniform(drawEntry, leg) < slips.refusal:
		r.verdict = refused
		return endRefused
	case slips.bar > 0 && r.luck.uniform(drawBar, leg) < slips.bar:
		return endBar
	case slips.contact > 0 && r.luck.uniform(drawContact, leg) < slips.contact:
		return endContact
	}
	return endClean
}

// tally sums up results in the order of the runs.
func tally(seed uint64, results []result, legs int) *Tally {
	t := &Tally{Seed: seed, Runs: len(results), Legs: make([]LegTally, legs)}
	for i := range results {
		t.Each = append(t.Each, results[i].outcome())
		if results[i].clean {
			t.Clean++
			t.Times = append(t.Times, results[i].time)
		}
		for n := range legs {
			t.Legs[n].add(int(results[i].ends[n]), results[i].met[n], &results[i].lures[n])
		}
	}
	sort.Float64s(t.Times)
	return t
}

func (l *LegTally) add(end int, met bool, how *lure) {
	if met {
		l.Collided++
	}
	switch end {
	case endClean:
		l.Clean++
	case endBar:
		l.Knocked++
	case endContact:
		l.Missed++
	case endRefused:
		l.Refused++
		l.lured(end, how)
	default:
		if l.Wrong == nil {
			l.Wrong = map[int]int{}
		}
		l.Wrong[end]++
		l.lured(end, how)
	}
}

func (l *LegTally) lured(end int, how *lure) {
	if end == endRefused {
		end = -1
	}
	if l.lures == nil {
		l.lures = map[int]*lureSum{}
	}
	if l.lures[end] == nil {
		l.lures[end] = &lureSum{}
	}
	l.lures[end].add(how)
}
