package command

import (
	"os"
	"os/signal"

	"github.com/spf13/cobra"

	"cuewalk/course/tomlfile"
	"cuewalk/plan"
	"cuewalk/sim/options"
	"cuewalk/sim/score"
	"cuewalk/tui/report"
)

// improveCommand is "cuewalk improve".
func improveCommand() *cobra.Command {
	var asJSON, faster bool
	var seed uint64
	var file string
	cmd := &cobra.Command{
		Use:   "improve COURSE PLAN [TEAM] [-o FILE]",
		Short: "Better a plan by changes of up to three neighbouring cues",
		Long: `Improve changes timing, stands, pace, arm, shoulders, crosses, signals and words of
up to three neighbouring cues at a time, the worst legs first. Stands that the
handler cannot reach in time are moved first to where he can be. Each change is
told with its gain, most gain for each cue first. With -o it writes the better
plan to a new file; nothing is ever replaced. Ctrl-C stops it with the best so far.`,
		Example: `  cuewalk improve course.toml plan.toml team.toml
  cuewalk improve course.toml plan.toml team.toml -o better.toml
  cuewalk improve course.toml plan.toml --faster`,
		Args: arguments(2, 3),
		RunE: func(cmd *cobra.Command, paths []string) error {
			setup, err := setupOf(paths)
			if err != nil {
				return err
			}
			ctx, stop := signal.NotifyContext(cmd.Context(), os.Interrupt)
			defer stop()
			first := score.Cleaner
			if faster {
				first = score.Faster
			}
			im, err := options.Improve(ctx, setup.Course, setup.Plan, setup.Team, seed, first)
			if err != nil {
				return err
			}
			if file != "" {
				if err := tomlfile.Create(file, plan.Format(im.After.Plan, setup.Course)); err != nil {
					return err
				}
			}
			if asJSON {
				return report.ImproveJSON(cmd.OutOrStdout(), im, file)
			}
			return report.ImproveText(cmd.OutOrStdout(), im, file)
		},
	}
	cmd.Flags().StringVarP(&file, "output", "o", "", "a new file for the better plan")
	cmd.Flags().BoolVar(&faster, "faster", false, "a faster run, with legs about as clean as they are")
	cmd.Flags().Uint64Var(&seed, "seed", 1, "luck of the runs; the same seed gives the same plan")
	cmd.Flags().BoolVar(&asJSON, "json", false, "write JSON for other programs (keys: cuewalk help json)")
	return cmd
}
