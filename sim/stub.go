package sim

import (
	"context"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim/dog"
)

// New makes a checked course, plan and team ready to run.
func New(c *course.Course, p *plan.Plan, t *team.Team) *Setup {
	return &Setup{Course: c, Plan: p, Team: t, Entries: c.Entries(), Actions: p.Resolve(c, t)}
}

// Rehearse returns the likely run with its chances by integration; no luck is drawn.
func (s *Setup) Rehearse() *Rehearsal { return &Rehearsal{Setup: s} }

// Tally is what came of many seeded runs.
type Tally struct {
	Runs, Clean int
}

// RunMany makes n seeded runs over all cores; run i depends on seed and i alone.
// progress, where not nil, is called now and then with the runs done so far. It
// returns ctx's error when cancelled.
func (s *Setup) RunMany(ctx context.Context, seed uint64, n int, progress func(done int)) (*Tally, error) {
	return &Tally{}, nil
}

// With returns r with the figures of many runs in place of the integrated ones.
func (r *Rehearsal) With(t *Tally) *Rehearsal { return r }

// See appends to dst what the dog has before its eyes at a sample, from left to
// right, and returns it.
func (s *Setup) See(at Sample, dst []dog.Seen) []dog.Seen { return dst }

// Lead returns the heading the handler indicates to the dog at a sample and how
// loud that is; 0 where he says nothing.
func (s *Setup) Lead(at Sample) (geom.Angle, float64) { return 0, 0 }
