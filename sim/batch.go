package sim

import (
	"context"
	"runtime"
	"sort"
	"sync"
	"sync/atomic"
)

// Tally is what came of many seeded runs. Every leg has as many samples as there
// were runs: after a fault a run goes on from the next number as planned.
type Tally struct {
	Seed  uint64
	Runs  int
	Clean int        // whole runs without any fault
	Legs  []LegTally // by number
	Times []float64  // seconds of the clean runs, ascending
}

// LegTally counts how one leg ended.
type LegTally struct {
	Clean, Refused            int
	Knocked, Missed, Collided int
	Wrong                     map[int]int      // by entry
	lures                     map[int]*lureSum // by wrong entry; -1 for refusals
}

// result is what one run leaves behind. Run i writes to slot i, so that totals are
// the same for any number of cores.
type result struct {
	clean bool
	time  float64
	ends  []int16 // by leg: endClean, endRefused or the wrong entry
	slips []uint8 // by leg: bits slipBar, slipContact, slipMet
	lures []lure  // by leg: how it went wrong
}

const (
	endClean   = -1
	endRefused = -2
)

const (
	slipBar = 1 << iota
	slipContact
	slipMet
)

// RunMany makes n seeded runs over all cores; run i depends on seed and i alone.
// progress, where not nil, is called from several goroutines now and then with the
// runs done so far. It returns ctx's error when cancelled.
func (s *Setup) RunMany(ctx context.Context, seed uint64, n int, progress func(done int)) (*Tally, error) {
	return s.runMany(ctx, seed, n, runtime.GOMAXPROCS(0), true, progress)
}

// RunOn is RunMany for a plan that is a small change of one whose runs m remembers: what
// comes before the change is not run again. The tally is that of RunMany.
func (s *Setup) RunOn(ctx context.Context, m *Memory, seed uint64, n int, progress func(done int)) (*Tally, error) {
	from, alike := m.recall(s, seed)
	kept := &remembered{course: s.Course, team: s.Team, seed: seed, actions: s.Actions, arrivals: s.arrivals()}
	switch {
	case alike < len(s.Actions):
		kept.alike = alike
	case from != nil: // the plan itself, more often
		kept.alike = from.alike
	}
	if kept.alike > 0 {
		kept.marks = make([]mark, min(n, mostMarks))
	}
	t, err := s.series(ctx, series{seed, n, runtime.GOMAXPROCS(0), true, progress, from, kept})
	if err == nil {
		m.remember(kept)
	}
	return t, err
}

// runMany is RunMany with a number of workers, and with luck in more than the
// dog's choices or not.
func (s *Setup) runMany(ctx context.Context, seed uint64, n, workers int, vary bool, progress func(int)) (*Tally, error) {
	return s.series(ctx, series{seed, n, workers, vary, progress, nil, &remembered{}})
}

// series says what runs are to be made.
type series struct {
	seed       uint64
	n, workers int
	vary       bool
	progress   func(int)
	from       *remembered // where they may begin; nil for at the release
	kept       *remembered // takes their marks
}

func (s *Setup) series(ctx context.Context, q series) (*Tally, error) {
	arrivals := s.arrivals()
	same := q.from.sameArrivals(arrivals)
	legs, n := len(s.right), q.n
	results := make([]result, n)
	ends, slips, lures := make([]int16, n*legs), make([]uint8, n*legs), make([]lure, n*legs)
	var next, done atomic.Int64
	var wg sync.WaitGroup
	const chunk = 4 // small, so that no worker is left alone with a long end
	for range max(1, min(q.workers, n)) {
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
					results[i].ends, results[i].slips, results[i].lures = ends[from:to], slips[from:to], lures[from:to]
					r.begin(s, Luck{seed: q.seed, run: uint64(i), on: q.vary})
					st := r.resume(&results[i], q.from.mark(i, same))
					var keep *mark
					if i < len(q.kept.marks) {
						keep = &q.kept.marks[i]
					}
					r.whole(&st, &results[i], arrivals, keep, q.kept.alike)
				}
				if d := done.Add(int64(min(chunk, n-lo))); q.progress != nil {
					q.progress(int(d))
				}
			}
		}()
	}
	wg.Wait()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return tally(q.seed, results, legs), nil
}

// resume returns where the run begins, with how the legs before ended.
func (r *run) resume(out *result, from *mark) State {
	out.clean = true
	if from == nil {
		return r.s.Start(r.luck)
	}
	out.clean = from.clean
	copy(out.ends, from.ends[:from.leg])
	copy(out.slips, from.slips[:from.leg])
	copy(out.lures, from.lures[:from.leg])
	return from.st
}

// arrivals returns the state at the start of the leg after each number when it has
// been taken as planned. It is worked out once, by whoever needs the likely run first.
func (s *Setup) arrivals() []State {
	s.arrived.once.Do(func() {
		b, _ := s.planned(len(s.right))
		s.spare.Put(b.in)
		s.arrived.states = b.arrivals
	})
	return s.arrived.states
}

// whole takes one run from the start of a leg to the last number, and keeps the last place
// where nothing but the first alike actions had told on it, unless keep is nil.
func (r *run) whole(st *State, out *result, arrivals []State, keep *mark, alike int) {
	for leg := st.Leg - 1; leg < len(out.ends); leg++ {
		if keep != nil {
			*keep = mark{*st, leg, out.clean, out.ends, out.slips, out.lures}
		}
		out.ends[leg] = int16(r.leg(st))
		if keep != nil && !r.s.untouched(st.action, alike) {
			keep = nil
		}
		out.slips[leg] = r.slipped(st, out.ends[leg] == endClean)
		if out.ends[leg] == endClean && out.slips[leg]&^slipMet == 0 {
			continue
		}
		out.clean = false
		if out.ends[leg] != endClean {
			out.lures[leg] = r.lured()
			*st = arrivals[leg]
			r.s.fresh(st, r.luck)
		}
	}
	out.time = st.Time + st.Dog.Total - st.Dog.Gone
}

// leg runs one leg to its end and returns how it ended.
func (r *run) leg(st *State) int {
	r.fresh()
	met := false
	for n := 0; r.verdict == goingOn && n < longest; n++ {
		r.sample(st)
		met = met || st.met
	}
	leg := st.Leg
	if r.verdict == clean {
		leg--
		if r.missedEntry > 0 && r.luck.uniform(drawEntry, leg) < r.missedEntry {
			r.verdict = refused
		}
	}
	r.collided = met
	switch r.verdict {
	case clean:
		return endClean
	case offCourse, wrongSide:
		return r.entry
	}
	return endRefused
}

// slipped draws what may go wrong beside the end of the leg.
func (r *run) slipped(st *State, taken bool) uint8 {
	var bits uint8
	if r.collided {
		bits |= slipMet
	}
	if !taken {
		return bits
	}
	if p := r.s.knocked(st); p > 0 && r.luck.uniform(drawBar, st.Leg) < p {
		bits |= slipBar
	}
	if p := r.s.missedZone(st); p > 0 && r.luck.uniform(drawContact, st.Leg) < p {
		bits |= slipContact
	}
	return bits
}

// tally sums up results in the order of the runs.
func tally(seed uint64, results []result, legs int) *Tally {
	t := &Tally{Seed: seed, Runs: len(results), Legs: make([]LegTally, legs)}
	for i := range results {
		if results[i].clean {
			t.Clean++
			t.Times = append(t.Times, results[i].time)
		}
		for n := range legs {
			t.Legs[n].add(int(results[i].ends[n]), results[i].slips[n], &results[i].lures[n])
		}
	}
	sort.Float64s(t.Times)
	return t
}

func (l *LegTally) add(end int, slips uint8, how *lure) {
	if end != endClean {
		l.lured(end, how)
	}
	switch end {
	case endClean:
		l.Clean++
	case endRefused:
		l.Refused++
	default:
		if l.Wrong == nil {
			l.Wrong = map[int]int{}
		}
		l.Wrong[end]++
	}
	if slips&slipBar != 0 {
		l.Knocked++
	}
	if slips&slipContact != 0 {
		l.Missed++
	}
	if slips&slipMet != 0 {
		l.Collided++
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
