package command

import (
	"fmt"

	"github.com/spf13/cobra"

	"cuewalk/course/tomlfile"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim/options"
	"cuewalk/tui/report"
)

// compareCommand is "cuewalk compare".
func compareCommand() *cobra.Command {
	var l luck
	var asJSON bool
	var teams []string
	cmd := &cobra.Command{
		Use:   "compare COURSE PLAN PLAN... [--team TEAM...]",
		Short: "Say which of several plans is better, if that can be told",
		Long: `Compare runs several plans for one course on the same luck, for each team, until
it is clear which is the best or all have run --runs times. Plans that are equally
good are called different at most once in twenty comparisons. It names the legs
where the choice matters, and the mix of the plans that would be best.
The files may come in any order; without a team it takes a large dog and an
average handler.`,
		Example: `  cuewalk compare course.toml inside.toml blind.toml team.toml
  cuewalk compare course.toml *-plan.toml --team pip.toml --team rook.toml
  cuewalk compare course.toml a.toml b.toml --json`,
		Args: arguments(3, 200),
		RunE: func(cmd *cobra.Command, paths []string) error {
			if err := l.check(); err != nil {
				return err
			}
			if l.runs == 0 {
				return fmt.Errorf("--runs 0 is out of range; give 1 to %d", mostRuns)
			}
			f, err := readFiles(append(paths, teams...))
			if err != nil {
				return err
			}
			if len(f.courses) != 1 || len(f.plans) < 2 {
				return fmt.Errorf("give one course and at least two plans; these are %s, %s and %s",
					several(len(f.courses), "course"), several(len(f.plans), "plan"), several(len(f.teams), "team"))
			}
			all, err := l.compare(cmd, f)
			if err != nil {
				return err
			}
			if asJSON {
				return report.CompareJSON(cmd.OutOrStdout(), f.courses[0], all, l.seed)
			}
			return report.CompareText(cmd.OutOrStdout(), f.courses[0], all, l.seed)
		},
	}
	l.flags(cmd)
	cmd.Flags().Lookup("runs").Usage = "whole runs of each plan at most"
	cmd.Flags().StringArrayVar(&teams, "team", nil, "a team's file; may be given several times")
	cmd.Flags().BoolVar(&asJSON, "json", false, "write JSON for other programs (keys: cuewalk help json)")
	return cmd
}

// compare sets the plans against each other for every team.
func (l luck) compare(cmd *cobra.Command, f *files) ([]*options.Against, error) {
	if len(f.teams) == 0 {
		t, err := f.team()
		if err != nil {
			return nil, err
		}
		f.teams = []*team.Team{t}
	}
	plans, err := f.plansForAll()
	if err != nil {
		return nil, err
	}
	var all []*options.Against
	for _, t := range f.teams {
		a, err := options.Compare(cmd.Context(), f.courses[0], t, plans, l.seed, l.runs)
		if err != nil {
			return nil, err
		}
		all = append(all, a)
	}
	return all, nil
}

// plansForAll returns the plans; the error says what keeps one from being run by a team.
func (f *files) plansForAll() ([]*plan.Plan, error) {
	var plans []*plan.Plan
	var wrong tomlfile.Problems
	for _, p := range f.plans {
		plans = append(plans, p.Plan)
		for _, t := range f.teams {
			for _, fault := range p.Plan.Check(f.courses[0], t) {
				note(&wrong, p.Plan.File, fmt.Errorf("for %s: %s", tomlfile.Show(t.Name), fault))
			}
		}
	}
	return plans, wrong.Err()
}
