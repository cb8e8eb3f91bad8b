package rulebook

import (
	"cmp"
	"slices"
)

// Scoring is what faults cost. Figures that were not seen are 0.
type Scoring struct {
	Source
	Fault     Hundredths // each course fault
	Refusal   Hundredths // each refusal
	Overtime  Hundredths // each second over the standard time; a hundredth costs a hundredth of it
	Refusals  int        // so many on the course eliminate
	WeaveOnce bool       // errors at one weave after its entry are charged once, however many
}

// Run is what happened in one run, as the judge called it.
type Run struct {
	Time       Hundredths
	Faults     int    // course faults
	Refusals   int    // refusals and run-outs
	Eliminated string // what eliminated it, such as "wrong course"; empty for nothing
}

// Score is what a run scores.
type Score struct {
	Course     Hundredths // course faults and refusals
	Overtime   Hundredths // time faults
	Total      Hundredths
	Time       Hundredths
	Eliminated string // why it has no place; empty for a placed run
}

// Score returns what run scores at the standard time sct and the maximum time mct
// (0 for none), and whether these rules' scoring is known. Exactly the standard
// time costs nothing, exactly the maximum time does not eliminate.
func (r *Rules) Score(run Run, sct, mct Hundredths) (Score, bool) {
	p := r.Scoring
	if p == nil {
		return Score{}, false
	}
	s := Score{
		Course: Hundredths(run.Faults)*p.Fault + Hundredths(run.Refusals)*p.Refusal,
		Time:   run.Time, Eliminated: run.Eliminated,
	}
	if over := run.Time - sct; over > 0 {
		s.Overtime = Hundredths(share(int64(over)*int64(p.Overtime), 100))
	}
	s.Total = s.Course + s.Overtime
	switch {
	case s.Eliminated != "":
	case p.Refusals > 0 && run.Refusals >= p.Refusals:
		s.Eliminated = "too many refusals"
	case mct > 0 && run.Time > mct:
		s.Eliminated = "over the maximum course time"
	}
	return s, true
}

// Weave returns how many faults and refusals one weave costs: every wrong entry a
// refusal, errors after the entry together one fault where the rules say so.
func (s Scoring) Weave(wrongEntries, laterErrors int) (faults, refusals int) {
	if s.WeaveOnce {
		laterErrors = min(laterErrors, 1)
	}
	return laterErrors, wrongEntries
}

// WeaveMost returns the most that one weave can cost a run that is not eliminated,
// 0 where it is not known.
func (s Scoring) WeaveMost() Hundredths {
	if !s.WeaveOnce || s.Refusals == 0 {
		return 0
	}
	return s.Fault + Hundredths(s.Refusals-1)*s.Refusal
}

// Places returns the place of each score, from 1: fewest total faults, then fewest
// course faults, then the faster time. Runs equal in all three share a place.
// Eliminated runs have place 0.
func Places(scores []Score) []int {
	order := make([]int, len(scores))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return compare(scores[a], scores[b]) })
	places := make([]int, len(scores))
	for rank, i := range order {
		switch {
		case scores[i].Eliminated != "":
		case rank > 0 && compare(scores[order[rank-1]], scores[i]) == 0:
			places[i] = places[order[rank-1]]
		default:
			places[i] = rank + 1
		}
	}
	return places
}

func compare(a, b Score) int {
	out := func(s Score) int { return min(len(s.Eliminated), 1) }
	if c := cmp.Compare(out(a), out(b)); c != 0 || out(a) == 1 {
		return c
	}
	return cmp.Or(cmp.Compare(a.Total, b.Total), cmp.Compare(a.Course, b.Course), cmp.Compare(a.Time, b.Time))
}

// Mark is a name for a range of total faults: from the one before it to below Below.
type Mark struct {
	Source
	Name  string
	Below Hundredths // 0 for no upper end
}

// MarkFor returns the name these rules give a number of total faults, "" for none.
func (r *Rules) MarkFor(total Hundredths) string {
	for _, m := range r.Marks {
		if m.Below == 0 || total < m.Below {
			return m.Name
		}
	}
	return ""
}
