package belief

import (
	"context"
	"fmt"
	"strings"

	"cuewalk/course"
	"cuewalk/sim"
)

// Leg is what came of the way to one number. Chances are for a dog that comes to it.
type Leg struct {
	Clean         float64         // the right obstacle, rightly, no bar and no contact
	OffCourse     map[int]float64 // by index of the wrong obstacle
	WrongSide     float64
	Refusal       float64
	KnockedBar    float64
	MissedContact float64
	Time          float64 // seconds, on the likely run
	Speed         float64 // m/s, mean, on the likely run
}

// Run is what came of a plan with a team.
type Run struct {
	Clean    float64
	Time     float64 // seconds, median of the clean runs; meaningless where HasTime is false
	HasTime  bool    // some run was clean
	Legs     []Leg
	obstacle []course.Obstacle
}

// Measure runs every plan of the case with every team, each runs times with the luck of
// the seed.
func (c *Case) Measure(seed uint64, runs int) (Measured, error) {
	m := make(Measured, len(c.plans))
	for t, tm := range c.Teams {
		var first *sim.Setup
		for p := range c.plans {
			s := first
			if s == nil {
				s = sim.New(c.Course, c.plans[p][t], tm)
				first = s
			} else {
				s = s.WithPlan(c.plans[p][t])
			}
			run, err := measure(s, seed, runs)
			if err != nil {
				return nil, err
			}
			m[p] = append(m[p], run)
		}
	}
	return m, nil
}

// measure makes the runs. Beside it nothing here knows what the simulator gives.
func measure(s *sim.Setup, seed uint64, runs int) (Run, error) {
	tally, err := s.RunMany(context.Background(), seed, runs, nil)
	if err != nil {
		return Run{}, err
	}
	r := s.Rehearse().With(tally)
	out := Run{Clean: r.Clean, HasTime: len(tally.Times) > 0, Time: r.Time, obstacle: s.Course.Obstacles}
	for i := range r.Legs {
		l := &r.Legs[i]
		leg := Leg{Clean: l.Clean, OffCourse: map[int]float64{}, Time: l.Time, Speed: l.Speed}
		for _, f := range l.Faults {
			leg.add(f)
		}
		out.Legs = append(out.Legs, leg)
	}
	return out, nil
}

func (l *Leg) add(f sim.Fault) {
	switch f.Kind {
	case sim.OffCourse:
		l.OffCourse[f.Obstacle] += f.Chance
	case sim.WrongSide:
		l.WrongSide += f.Chance
	case sim.Refusal:
		l.Refusal += f.Chance
	case sim.KnockedBar:
		l.KnockedBar += f.Chance
	case sim.MissedContact:
		l.MissedContact += f.Chance
	}
}

// anyOffCourse is the chance of any wrong obstacle.
func (l *Leg) anyOffCourse() float64 {
	sum := 0.0
	for _, p := range l.OffCourse {
		sum += p
	}
	return sum
}

// String is a table with a line for each leg: what may go wrong with its chance, where
// that is at least a tenth of a per cent.
func (r *Run) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "clean %.3f", r.Clean)
	if r.HasTime {
		fmt.Fprintf(&b, " time %.2f s", r.Time)
	}
	for i := range r.Legs {
		l := &r.Legs[i]
		fmt.Fprintf(&b, "\n  %2d clean %.3f %5.2f s %.2f m/s", i+1, l.Clean, l.Time, l.Speed)
		say := func(what string, p float64) {
			if p >= 0.001 {
				fmt.Fprintf(&b, "  %s %.3f", what, p)
			}
		}
		for o := range r.obstacle {
			say("off course "+r.obstacle[o].ID, l.OffCourse[o])
		}
		say("wrong side", l.WrongSide)
		say("refusal", l.Refusal)
		say("bar", l.KnockedBar)
		say("contact", l.MissedContact)
	}
	return b.String()
}
