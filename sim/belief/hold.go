package belief

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"cuewalk/sim"
)

// Finding is what the simulator says of one statement.
type Finding struct {
	Belief Belief
	Held   bool
	Found  string // the figures, where it does not hold
}

// Figures are what the simulator says of every plan with every team of a case.
type Figures map[Run]*sim.Rehearsal

// Runs rehearses every plan of the case with every team, with n seeded runs each.
func (c *Case) Runs(ctx context.Context, seed uint64, n int) (Figures, error) {
	out := Figures{}
	for i, t := range c.Teams {
		var first *sim.Setup
		for _, name := range c.Plans {
			s := first
			if s == nil {
				s = sim.New(c.Course, c.For[i][name], t)
				first = s
			} else {
				s = s.WithPlan(c.For[i][name])
			}
			r := s.Rehearse()
			tally, err := s.RunMany(ctx, seed, n, nil)
			if err != nil {
				return nil, err
			}
			out[Run{name, t.Name}] = r.With(tally)
		}
	}
	return out, nil
}

// Judge returns for each statement whether it holds.
func (c *Case) Judge(f Figures) []Finding {
	var out []Finding
	for _, b := range c.Beliefs {
		out = append(out, c.judge(b, f))
	}
	return out
}

func (c *Case) judge(b Belief, f Figures) Finding {
	found := Finding{Belief: b, Held: true}
	var said []string
	for _, t := range c.Teams {
		for _, p := range c.Plans {
			left := Run{p, t.Name}
			if b.Left.Plan != "" && b.Left.Plan != p || b.Left.Team != "" && b.Left.Team != t.Name {
				continue
			}
			for _, right := range c.against(b, left) {
				ok, figures := b.holds(f[left], f[right])
				found.Held = found.Held && ok
				if !ok {
					said = append(said, fmt.Sprintf("%s, %s: %s", p, t.Name, figures))
				}
			}
		}
	}
	found.Found = strings.Join(said, "; ")
	return found
}

// against returns what a statement compares the run left with: the same team where it
// compares plans, the same plan where it compares teams. A range is compared with itself.
func (c *Case) against(b Belief, left Run) []Run {
	if b.Is == In {
		return []Run{left}
	}
	right := left
	if b.Right.Plan != "" {
		right.Plan = b.Right.Plan
	}
	if b.Right.Team != "" {
		right.Team = b.Right.Team
	}
	return []Run{right}
}

// holds reports whether the statement holds of one run, or of one beside another, and the
// figures it rests on.
func (b *Belief) holds(left, right *sim.Rehearsal) (bool, string) {
	switch b.Subject.Measure {
	case WorstLeg:
		worst := worstLeg(left)
		return slices.Contains(b.Numbers, worst), fmt.Sprintf("leg %d", worst)
	case EasyLegs:
		ok, said := true, ""
		for _, n := range b.Subject.Legs {
			if p := left.Legs[n-1].Clean; p < b.Low || p > b.High {
				ok = false
				said += fmt.Sprintf(" leg %d %.2f", n, p)
			}
		}
		return ok, strings.TrimSpace(said)
	}
	x := b.Subject.figure(left)
	if b.Is == In {
		return x >= b.Low && x <= b.High, fmt.Sprintf("%.3g", x)
	}
	y := b.Subject.figure(right)
	said := fmt.Sprintf("%.3g against %.3g", x, y)
	switch b.Is {
	case Above:
		return x-y >= b.By-rounding, said
	case Below:
		return y-x >= b.By-rounding, said
	}
	return max(x-y, y-x) <= b.By, said
}

// rounding is what counts as nothing between two figures.
const rounding = 1e-9

// worstLeg returns the number of the leg least likely to be clean.
func worstLeg(r *sim.Rehearsal) int {
	worst := 0
	for i := range r.Legs {
		if r.Legs[i].Clean < r.Legs[worst].Clean {
			worst = i
		}
	}
	return worst + 1
}

// figure returns the figure a subject speaks of.
func (s *Subject) figure(r *sim.Rehearsal) float64 {
	switch s.Measure {
	case RunClean:
		return r.Clean
	case RunTime:
		return r.Time
	}
	l := &r.Legs[s.Legs[0]-1]
	switch s.Measure {
	case LegClean:
		return l.Clean
	case LegTime:
		return l.Time
	case LegSpeed:
		return l.Speed
	}
	kind := map[Measure]sim.FaultKind{LegOffCourse: sim.OffCourse, LegWrongSide: sim.WrongSide, LegRefusal: sim.Refusal,
		LegBar: sim.KnockedBar, LegContact: sim.MissedContact}[s.Measure]
	sum := 0.0
	for i := range l.Faults {
		f := &l.Faults[i]
		if f.Kind == kind && (s.Into == "" || r.Setup.Course.Obstacles[f.Obstacle].ID == s.Into) {
			sum += f.Chance
		}
	}
	return sum
}
