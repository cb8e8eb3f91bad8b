package sim

import (
	"maps"
	"math"
	"slices"
)

// Wilson returns the Wilson score interval for k of n at the given z (1.96 for
// 95 %), as in the NIST handbook 7.2.4.1. For n = 0 it is 0..1.
func Wilson(k, n int, z float64) (low, high float64) {
	if n == 0 {
		return 0, 1
	}
	p, m := float64(k)/float64(n), float64(n)
	mid := p + z*z/(2*m)
	half := z * math.Sqrt(p*(1-p)/m+z*z/(4*m*m))
	return max(0, (mid-half)/(1+z*z/m)), min(1, (mid+half)/(1+z*z/m))
}

const z95 = 1.959963984540054

// With returns r with the figures of many runs in place of the integrated ones.
// r itself stays as it was.
func (r *Rehearsal) With(t *Tally) *Rehearsal {
	if t == nil || t.Runs == 0 {
		return r
	}
	out := *r
	out.Runs, out.Seed = t.Runs, t.Seed
	out.Clean = float64(t.Clean) / float64(t.Runs)
	out.Low, out.High = Wilson(t.Clean, t.Runs, z95)
	if n := len(t.Times); n > 0 {
		out.Time = t.Times[n/2]
		out.Time10, out.Time90 = t.Times[n/10], t.Times[n*9/10]
	}
	out.Legs = make([]Leg, len(r.Legs))
	for i := range r.Legs {
		out.Legs[i] = r.Legs[i].with(&t.Legs[i], t.Runs, r.Setup)
	}
	return &out
}

func (l Leg) with(t *LegTally, runs int, s *Setup) Leg {
	l.Clean = float64(t.Clean) / float64(runs)
	l.Low, l.High = Wilson(t.Clean, runs, z95)
	known := l.Faults
	l.Faults = make([]Fault, 0, len(known)+2)
	share := func(k int) float64 { return float64(k) / float64(runs) }
	for _, e := range slices.Sorted(maps.Keys(t.Wrong)) { // a map's order must not reach the report
		f := l.fault(known, e, share(t.Wrong[e]), s)
		t.lures[e].explain(&f)
		l.Faults = append(l.Faults, f)
	}
	right := s.correct[l.Number-1]
	l.add(known, Refusal, right, share(t.Refused), s)
	if n := len(l.Faults); t.Refused > 0 && l.Faults[n-1].Kind == Refusal {
		t.lures[-1].explain(&l.Faults[n-1])
	}
	l.add(known, KnockedBar, -1, share(t.Knocked), s)
	l.add(known, MissedContact, -1, share(t.Missed), s)
	sortFaults(l.Faults)
	l.add(known, Collision, -1, share(t.Collided), s)
	return l
}

// fault returns the known fault at a wrong entry, or a new one, with chance p.
func (l *Leg) fault(known []Fault, e int, p float64, s *Setup) Fault {
	f := Fault{Kind: OffCourse, Entry: e, Obstacle: s.Entries[e].Obstacle, Leaves: -1}
	if f.Obstacle == s.Entries[s.correct[l.Number-1]].Obstacle {
		f.Kind = WrongSide
	}
	for i := range known {
		if known[i].Entry == e && known[i].Kind == f.Kind {
			f = known[i]
		}
	}
	f.Chance = p
	return f
}

func (l *Leg) add(known []Fault, kind FaultKind, entry int, p float64, s *Setup) {
	if p == 0 {
		return
	}
	f := Fault{Kind: kind, Entry: entry, Obstacle: s.Entries[s.correct[l.Number-1]].Obstacle, Leaves: -1}
	for i := range known {
		if known[i].Kind == kind {
			f = known[i]
		}
	}
	f.Chance = p
	l.Faults = append(l.Faults, f)
}
