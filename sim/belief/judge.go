package belief

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// rounding is what figures may be off by from adding up shares.
const rounding = 1e-9

// Finding is what came of a statement for one run, or one pair of runs.
type Finding struct {
	Held bool
	Text string // the figures and what was believed of them
}

// Verdict is what came of a statement: it holds where every finding does.
type Verdict struct {
	Statement *Statement
	Held      bool
	Findings  []Finding
}

// Measured holds the figures of a case by plan and team.
type Measured [][]Run

// Judge judges every statement of the case.
func (c *Case) Judge(m Measured) []Verdict {
	var all []Verdict
	for i := range c.Beliefs {
		s := &c.Beliefs[i]
		v := Verdict{Statement: s, Held: true}
		for _, pair := range c.pairs(s) {
			f := c.find(s, m, pair)
			v.Held = v.Held && f.Held
			v.Findings = append(v.Findings, f)
		}
		all = append(all, v)
	}
	return all
}

// pair is two runs to be set against each other; b is unused where a statement has
// only one side.
type pair struct{ a, b Who }

// pairs are the runs that a statement means. What neither side names goes together.
func (c *Case) pairs(s *Statement) []pair {
	b := s.B
	if s.Relation == Between || s.Relation == Among {
		b = s.A
	}
	var all []pair
	for _, plans := range both(s.A.Plan, b.Plan, len(c.plans)) {
		for _, teams := range both(s.A.Team, b.Team, len(c.Teams)) {
			all = append(all, pair{Who{plans[0], teams[0]}, Who{plans[1], teams[1]}})
		}
	}
	return all
}

// both gives the indices of the two sides: the one that is named, or each of n.
func both(a, b, n int) [][2]int {
	var all [][2]int
	for i := range n {
		for k := range n {
			together := a >= 0 || b >= 0 || i == k
			if together && (a < 0 || a == i) && (b < 0 || b == k) {
				all = append(all, [2]int{i, k})
			}
		}
	}
	return all
}

// find judges a statement on one pair.
func (c *Case) find(s *Statement, m Measured, w pair) Finding {
	a, b := &m[w.a.Plan][w.a.Team], &m[w.b.Plan][w.b.Team]
	nameA, nameB := c.name(w.a), c.name(w.b)
	switch {
	case s.Subject.Quantity == EasyLegs:
		return easy(s, a, nameA)
	case s.Subject.Quantity == WorstLeg:
		return worst(s, a, nameA)
	case s.Relation == Between:
		x := s.Subject.of(a)
		return Finding{s.in(x), fmt.Sprintf("%s: %s (%.4g to %.4g)", nameA, figure(x), s.Low, s.High)}
	}
	x, y := s.Subject.of(a), s.Subject.of(b)
	held, sign, want := false, ">", fmt.Sprintf("by %.4g", s.By)
	switch s.Relation {
	case More:
		held = s.apart(x, y)
	case Less:
		held, sign = s.apart(y, x), "<"
	case Near:
		held, sign, want = math.Abs(x-y) <= s.By+rounding, "~", fmt.Sprintf("within %.4g", s.By)
	}
	return Finding{held, fmt.Sprintf("%s: %s %s %s: %s (%s)", nameA, figure(x), sign, nameB, figure(y), want)}
}

func figure(x float64) string {
	if math.IsNaN(x) {
		return "no clean run"
	}
	return fmt.Sprintf("%.3f", x)
}

// apart reports whether x is higher than y by enough. Times and speeds that need no
// margin must still differ.
func (s *Statement) apart(x, y float64) bool {
	if s.By == 0 && !s.Subject.Quantity.Chance() {
		return x > y
	}
	return x-y >= s.By-rounding
}

// in reports whether x is in the range; what is not a number is not.
func (s *Statement) in(x float64) bool { return x >= s.Low-rounding && x <= s.High+rounding }

func easy(s *Statement, r *Run, name string) Finding {
	f := Finding{Held: true}
	var texts []string
	for _, n := range s.Subject.Legs {
		x := r.Legs[n-1].Clean
		f.Held = f.Held && s.in(x)
		texts = append(texts, fmt.Sprintf("%d %.3f", n, x))
	}
	f.Text = fmt.Sprintf("%s: %s (%.4g to %.4g)", name, strings.Join(texts, ", "), s.Low, s.High)
	return f
}

// worst holds where one of the legs with the lowest chance is among those meant.
func worst(s *Statement, r *Run, name string) Finding {
	low, f := math.Inf(1), Finding{}
	for i := range r.Legs {
		low = min(low, r.Legs[i].Clean)
	}
	var texts []string
	for i := range r.Legs {
		if x := r.Legs[i].Clean; x <= low+rounding || slices.Contains(s.Legs, i+1) {
			texts = append(texts, fmt.Sprintf("%d %.3f", i+1, x))
			f.Held = f.Held || x <= low+rounding && slices.Contains(s.Legs, i+1)
		}
	}
	f.Text = name + ": " + strings.Join(texts, ", ")
	return f
}

// of returns the quantity's figure; not a number where no run was clean to be timed.
func (s *Subject) of(r *Run) float64 {
	switch s.Quantity {
	case RunClean:
		return r.Clean
	case RunTime:
		if !r.HasTime {
			return math.NaN()
		}
		return r.Time
	}
	l := &r.Legs[s.Leg-1]
	switch s.Quantity {
	case OffCourse:
		return l.anyOffCourse()
	case OffCourseInto:
		return l.OffCourse[s.Into]
	case WrongSide:
		return l.WrongSide
	case Refusal:
		return l.Refusal
	case KnockedBar:
		return l.KnockedBar
	case MissedContact:
		return l.MissedContact
	case LegTime:
		return l.Time
	case LegSpeed:
		return l.Speed
	}
	return l.Clean
}

// name is how a run is told from the others of its case.
func (c *Case) name(w Who) string {
	switch {
	case len(c.plans) == 1:
		return c.Teams[w.Team].Name
	case len(c.Teams) == 1:
		return c.Plans[w.Plan]
	}
	return c.Plans[w.Plan] + ", " + c.Teams[w.Team].Name
}
