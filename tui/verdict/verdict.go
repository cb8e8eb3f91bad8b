// Package verdict says in words a stranger understands how a plan is likely to go: how often
// it is clean, where it goes wrong and how, why, and what to change. It reckons nothing: it
// asks the session, and says no figure that may yet change.
package verdict

import (
	"fmt"

	"cuewalk/sim"
	"cuewalk/tui/session"
	"cuewalk/tui/words"
)

// State is how far the answer to something has come.
type State uint8

// The states.
const (
	Waiting State = iota // for what comes before it
	Going                // being worked out
	Stopped              // by the user
	Known
)

// Verdict is what is known of a plan and a team.
type Verdict struct {
	Question session.Question
	Run      *sim.Rehearsal

	Runs     State
	Done, Of int    // seeded runs made, of how many
	Clean    string // "Clean in about 3 runs in 10."

	// What follows is said only once the runs are Known.
	Leg     int    // number that the worst leg leads to; 0 where none stands out
	Where   string // "It goes wrong most on the way from 11 to 12: clean 3 times in 10."
	Happens []Happening
	Part    string // the handler's, in one sentence; may be empty

	Advice  State
	Changes []Change // best first; Known without any: nothing was found that helps
}

// Happening is one thing that goes wrong on the worst leg.
type Happening struct {
	Chance string // "38 %"
	What   string
	Why    string
	Fault  int // index in the leg's faults
}

// Change is a change that helps, with its figures before and after.
type Change struct {
	session.Change
	What     string
	Leg, Run Step
}

// Step is a chance before and after a change.
type Step struct{ Was, Is string }

func (s Step) String() string { return s.Was + " to " + s.Is }

// mostHappenings is how many things that go wrong are told.
const mostHappenings = 2

// Of is the verdict on q as far as it is known.
func Of(s *session.Session, q session.Question) Verdict {
	v := Verdict{Question: q, Run: s.Ask(q)}
	r := v.Run
	going := false
	v.Done, v.Of, going = s.Progress(q)
	switch {
	case s.Settled(q):
		v.Runs = Known
	case s.Resting():
		v.Runs = Stopped
	case going || s.Running():
		v.Runs = Going
	}
	if v.Runs != Known {
		v.Clean = unsettled(v)
		return v
	}
	v.Clean = settled(r)
	w := r.Worst(1)
	if len(w) == 0 {
		v.Where = "No leg stands out: each is clean in more than 98 in 100."
		v.Advice = Known
		return v
	}
	leg, _ := words.LegByNumber(r, w[0])
	v.Leg = leg.Number
	v.Where = fmt.Sprintf("It goes wrong most %s: clean %s.", Way(leg.Number), words.Share(leg.Clean, "times"))
	v.Happens = happenings(r, leg)
	v.Part = words.Part(r, leg)
	v.advise(s)
	return v
}

// Way names a leg in words: "on the way from 11 to 12".
func Way(n int) string {
	if n == 1 {
		return "on the way to 1"
	}
	return fmt.Sprintf("on the way from %d to %d", n-1, n)
}

func unsettled(v Verdict) string {
	if v.Run.Runs == 0 {
		return "The first runs are being made."
	}
	return "So far clean in " + words.ShareRange(v.Run.Low, v.Run.High, "runs") + "."
}

func settled(r *sim.Rehearsal) string {
	s := "Clean in about " + words.Share(r.Clean, "runs")
	if i := words.Interval(r.Low, r.High); i != "" {
		s += " (" + i + ")"
	}
	return s + "."
}

func happenings(r *sim.Rehearsal, leg sim.Leg) []Happening {
	var out []Happening
	for _, f := range words.ByWeight(leg.Faults) {
		if len(out) == mostHappenings || f.Chance < .01 {
			break
		}
		at := 0
		for i := range leg.Faults {
			if leg.Faults[i].Kind == f.Kind && leg.Faults[i].Entry == f.Entry {
				at = i
			}
		}
		out = append(out, Happening{words.Percent(f.Chance), words.Fault(r.Setup, f), words.Why(r, leg, f), at})
	}
	return out
}

// advise says what is known of changes that help on the worst leg.
func (v *Verdict) advise(s *session.Session) {
	a := s.Found(v.Question, v.Leg)
	switch {
	case a == nil && s.Advising() == v.Leg:
		v.Advice = Going
		return
	case a == nil:
		return
	case !s.AdviceSettled(v.Question, v.Leg) && s.Resting():
		v.Advice = Stopped
		return
	case !s.AdviceSettled(v.Question, v.Leg):
		v.Advice = Going
		return
	}
	v.Advice = Known
	was, _ := words.LegByNumber(v.Run, v.Leg)
	for _, c := range a.Changes {
		r := s.Ask(c.Question)
		is, _ := words.LegByNumber(r, v.Leg)
		v.Changes = append(v.Changes, Change{c, words.Change(v.Run.Setup, &c.Found),
			Step{words.Percent(was.Clean), words.Percent(is.Clean)}, Step{words.Percent(v.Run.Clean), words.Percent(r.Clean)}})
	}
}

// Wanted lists what has to be run for the verdict on q, most wanted first.
func Wanted(s *session.Session, q session.Question) []session.Question {
	out := []session.Question{q}
	if !s.Settled(q) {
		return out
	}
	if w := s.Ask(q).Worst(1); len(w) > 0 {
		if a := s.Found(q, w[0]); a != nil && !s.AdviceSettled(q, w[0]) {
			for _, c := range a.Changes {
				out = append(out, c.Question)
			}
		}
	}
	return out
}

// Sought is the leg on which the verdict on q lacks advice; 0 for none.
func Sought(s *session.Session, q session.Question) int {
	if !s.Settled(q) {
		return 0
	}
	if w := s.Ask(q).Worst(1); len(w) > 0 && s.Found(q, w[0]) == nil {
		return w[0]
	}
	return 0
}

// Sentences says the verdict in lines of text.
func (v Verdict) Sentences() []string {
	out := []string{v.Clean}
	if v.Where != "" {
		out = append(out, v.Where)
	}
	for _, h := range v.Happens {
		out = append(out, h.Chance+": "+h.What+". "+h.Why)
	}
	if v.Part != "" {
		out = append(out, v.Part)
	}
	switch {
	case v.Advice != Known || v.Leg == 0:
	case len(v.Changes) == 0:
		out = append(out, "What to change: "+words.NoAdvice+".")
	default:
		out = append(out, "What to change, best first; take and the number takes it:")
	}
	for i, c := range v.Changes {
		out = append(out, fmt.Sprintf("%d: %s. That leg clean %s, the whole run %s.", i+1, c.What, c.Leg, c.Run))
	}
	return out
}
