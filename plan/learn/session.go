package learn

import "slices"

// again is how many places later a wrong cue is asked again: with one other question
// between (C). A right one is asked again only in the next pass: asking it at once adds
// little, asking it later much (A2, A4).
const again = 2

// wholes is how many whole recalls in a row without a mistake make a plan learnt (C).
const wholes = 2

// Pass is one walk over some sections, in the run's order, never shuffled: order is what
// a handler needs (A7, A10).
type Pass struct {
	First, Last int  // sections, both included
	Whole       bool // a whole recall at the clock of the simulated run
}

// Passes returns the passes over n sections before the whole recalls: forward and
// cumulative, 1, 2, 1+2, 3, 1+2+3, ... (A7).
func Passes(n int) []Pass {
	var out []Pass
	for k := range n {
		out = append(out, Pass{First: k, Last: k})
		if k > 0 {
			out = append(out, Pass{First: 0, Last: k})
		}
	}
	return out
}

// Session is how far the learning of a plan has come. It is a plain value that can be kept
// in a file; its zero value is no session.
type Session struct {
	Sections []Section
	Passes   []Pass // before the whole recalls
	Pass     int    // the pass being made; from len(Passes) on they are whole recalls
	Queue    []int  // cues still to be asked in this pass, by index; the first is asked now
	Mistakes int    // in this pass
	Clean    int    // whole recalls in a row without a mistake, up to now
	Asked    int    // answers given in all
	Wrong    int
	Hints    int
}

// Start begins a session over the sections. known tells of each cue whether it is known
// from before; it may be nil. Where all cues of the first sections are known, learning
// begins with the first section that holds a new one; where all are, with whole recalls.
func Start(sections []Section, known func(cue int) bool) Session {
	s := Session{Sections: sections, Passes: Passes(len(sections))}
	first := 0
	for first < len(sections) && known != nil && sections[first].all(known) {
		first++
	}
	s.Passes = slices.DeleteFunc(s.Passes, func(p Pass) bool { return p.Last < first })
	s.fill()
	return s
}

func (s Section) all(known func(int) bool) bool {
	for i := s.From; i < s.To; i++ {
		if !known(i) {
			return false
		}
	}
	return true
}

// Now returns the pass that is being made.
func (s *Session) Now() Pass {
	if s.Pass < len(s.Passes) {
		return s.Passes[s.Pass]
	}
	return Pass{First: 0, Last: len(s.Sections) - 1, Whole: true}
}

// Cue returns the index of the cue that is asked now; false when the plan is learnt or
// has no cues.
func (s *Session) Cue() (int, bool) {
	if s.Done() || len(s.Queue) == 0 {
		return 0, false
	}
	return s.Queue[0], true
}

// Done reports whether the plan is learnt: two whole recalls in a row without a mistake.
func (s *Session) Done() bool { return s.Clean >= wholes }

// Left returns how many questions are still to come in this pass if all are answered right.
func (s *Session) Left() int { return len(s.Queue) }

// Answer takes in whether the cue asked now was answered rightly and goes on to the next.
func (s *Session) Answer(right bool) {
	if len(s.Queue) == 0 {
		return
	}
	cue := s.Queue[0]
	s.Queue = slices.Clone(s.Queue[1:])
	s.Asked++
	if !right {
		s.Wrong++
		s.Mistakes++
		s.Queue = slices.Insert(s.Queue, min(again-1, len(s.Queue)), cue)
	}
	if len(s.Queue) == 0 {
		s.next()
	}
}

// Hint counts a hint. It costs nothing else.
func (s *Session) Hint() { s.Hints++ }

// Restart begins the present pass anew, with no mistakes.
func (s *Session) Restart() {
	s.Mistakes = 0
	s.fill()
}

// next ends a pass.
func (s *Session) next() {
	if s.Now().Whole {
		if s.Mistakes == 0 {
			s.Clean++
		} else {
			s.Clean = 0
		}
	}
	s.Pass++
	s.Mistakes = 0
	if !s.Done() {
		s.fill()
	}
}

// fill puts all cues of the present pass into the queue.
func (s *Session) fill() {
	s.Queue = nil
	if len(s.Sections) == 0 {
		return
	}
	p := s.Now()
	for i := s.Sections[p.First].From; i < s.Sections[p.Last].To; i++ {
		s.Queue = append(s.Queue, i)
	}
}

// Fits reports whether the session is one over n cues: what was read from a file may be
// anything.
func (s *Session) Fits(n int) bool {
	at := 0
	for _, x := range s.Sections {
		if x.From != at || x.To <= x.From {
			return false
		}
		at = x.To
	}
	for _, p := range s.Passes {
		if p.First < 0 || p.Last < p.First || p.Last >= len(s.Sections) {
			return false
		}
	}
	for _, i := range s.Queue {
		if i < 0 || i >= n {
			return false
		}
	}
	return at == n && s.Pass >= 0 && s.Clean >= 0 && (len(s.Queue) > 0 || s.Done() || n == 0)
}
