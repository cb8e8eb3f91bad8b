package command

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"cuewalk/sim"
	"cuewalk/sim/advice"
	"cuewalk/sim/slack"
	"cuewalk/tui/report"
)

// mostRuns is how many seeded runs may be asked for.
const mostRuns = 1_000_000

// mostSubsteps is the finest division of a step that may be asked for.
const mostSubsteps = 16

// luck is the flags for the seeded runs.
type luck struct {
	runs int
	seed uint64
}

func (l *luck) flags(cmd *cobra.Command) {
	cmd.Flags().IntVar(&l.runs, "runs", 2000, "whole runs behind the chances; 0 works them out from the likely run alone")
	cmd.Flags().Uint64Var(&l.seed, "seed", 1, "luck of the runs; the same seed gives the same figures")
}

func (l luck) check() error {
	if l.runs < 0 || l.runs > mostRuns {
		return fmt.Errorf("--runs %d is out of range; give 0 to %d", l.runs, mostRuns)
	}
	return nil
}

// reportCommand is "cuewalk report".
func reportCommand() *cobra.Command {
	var l luck
	var asJSON, quick bool
	var substeps int
	cmd := &cobra.Command{
		Use:   "report COURSE PLAN [TEAM]",
		Short: "Say where a plan is likely to go wrong, and why",
		Long: `Report runs a plan on a course and says for every leg how likely it is to be
clean, what goes wrong else, and why; and which change of one cue would help on
the worst legs. The files may come in any order; without
a team it takes a large dog and an average handler.`,
		Example: `  cuewalk report course.toml plan.toml team.toml
  cuewalk report course.toml plan.toml --runs 10000 --seed 7
  cuewalk report course.toml plan.toml --json`,
		Args: arguments(2, 3),
		RunE: func(cmd *cobra.Command, paths []string) error {
			if err := l.check(); err != nil {
				return err
			}
			setup, err := setupOf(paths)
			if err != nil {
				return err
			}
			if substeps < 1 || substeps > mostSubsteps {
				return fmt.Errorf("--substeps %d is out of range; give 1 to %d", substeps, mostSubsteps)
			}
			if substeps > 1 {
				setup = setup.Finer(float64(substeps))
			}
			r, err := l.rehearse(cmd, setup)
			if err != nil {
				return err
			}
			var found []advice.Found
			if !quick && l.runs > 0 {
				if found, err = l.advise(cmd, r); err != nil {
					return err
				}
			}
			var room *slack.Slack
			if !quick {
				if room, err = slack.Of(cmd.Context(), r); err != nil {
					return err
				}
			}
			return write(cmd.OutOrStdout(), r, found, room, asJSON)
		},
	}
	l.flags(cmd)
	cmd.Flags().BoolVar(&asJSON, "json", false, "write JSON for other programs (keys: cuewalk help json)")
	cmd.Flags().IntVar(&substeps, "substeps", 1, "divide every step of the simulation by so many, to see that the figures do not hang on it")
	cmd.Flags().BoolVar(&quick, "quick", false, "leave out what would help and the slack of the cues, which take a second or two")
	return cmd
}

// Legs that advice is looked for: so many of the worst, where they are clean less often.
const (
	advised     = 3
	wantsAdvice = 0.95
)

// advise looks for what would help on the worst legs.
func (l luck) advise(cmd *cobra.Command, r *sim.Rehearsal) ([]advice.Found, error) {
	var all []advice.Found
	s := r.Setup
	for _, n := range r.Worst(advised) {
		if r.Legs[n-1].Clean >= wantsAdvice {
			continue
		}
		f, err := advice.ForLeg(cmd.Context(), s.Course, s.Plan, s.Team, n, l.seed, min(l.runs, advice.Runs))
		if err != nil {
			return nil, err
		}
		all = append(all, f)
	}
	return all, nil
}

// setupOf makes the course, plan and team in the files at paths ready to run.
func setupOf(paths []string) (*sim.Setup, error) {
	f, err := readFiles(paths)
	if err != nil {
		return nil, err
	}
	if err := f.oneOfEach(); err != nil {
		return nil, err
	}
	t, err := f.team()
	if err != nil {
		return nil, err
	}
	return sim.New(f.courses[0], f.plans[0].Plan, t), nil
}

// rehearse is the likely run, with the figures of the seeded ones where there are any.
func (l luck) rehearse(cmd *cobra.Command, s *sim.Setup) (*sim.Rehearsal, error) {
	r := s.Rehearse()
	if l.runs == 0 {
		return r, nil
	}
	tally, err := s.RunMany(cmd.Context(), l.seed, l.runs, nil)
	if err != nil {
		return nil, err
	}
	return r.With(tally), nil
}

func write(w io.Writer, r *sim.Rehearsal, found []advice.Found, room *slack.Slack, asJSON bool) error {
	if asJSON {
		return report.JSON(w, r, found, room)
	}
	return report.Text(w, r, found, room)
}
