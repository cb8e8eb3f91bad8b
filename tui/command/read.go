package command

import (
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"cuewalk/course/rulebook"
	"cuewalk/sim/reading"
	"cuewalk/tui/report"
)

// fastestCourse is the highest chosen speed that is taken, m/s.
const fastestCourse = 20

// newReadCommand is "cuewalk read".
func newReadCommand() *cobra.Command {
	var speed float64
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "read COURSE [TEAM]",
		Short: "Read a course through the dog's eyes, before any plan",
		Long: `Read says what a course asks of a dog with no plan at all: its best line, what
comes before its eyes while it turns, which wrong obstacles pull it, where the
handler can be in time, and what the rulebook and care for dog and handler say.
Without a team it takes a large dog and an average handler.`,
		Example: `  cuewalk read course.toml team.toml
  cuewalk read course.toml --speed 4.2
  cuewalk read course.toml --json`,
		Args: arguments(1, 2),
		RunE: func(cmd *cobra.Command, paths []string) error {
			if cmd.Flags().Changed("speed") && (math.IsNaN(speed) || speed <= 0 || speed > fastestCourse) {
				return fmt.Errorf("--speed %v is out of range; give metres per second, above 0 and at most %d", speed, fastestCourse)
			}
			r, err := readingOf(paths)
			if err != nil {
				return err
			}
			if asJSON {
				return report.ReadJSON(cmd.OutOrStdout(), r, speed)
			}
			return report.ReadText(cmd.OutOrStdout(), r, speed)
		},
	}
	cmd.Flags().Float64Var(&speed, "speed", 0, "the judge's chosen speed in m/s, for the course times")
	cmd.Flags().BoolVar(&asJSON, "json", false, "write JSON for other programs (keys: cuewalk help json)")
	return cmd
}

// readingOf reads the course in the files at paths for the team in them.
func readingOf(paths []string) (*reading.Reading, error) {
	f, err := readFiles(paths)
	if err != nil {
		return nil, err
	}
	if len(f.courses) != 1 || len(f.plans) > 0 || len(f.teams) > 1 {
		return nil, fmt.Errorf("give one course and at most one team; these are %s, %s and %s",
			several(len(f.courses), "course"), several(len(f.teams), "team"), several(len(f.plans), "plan"))
	}
	t, err := f.team()
	if err != nil {
		return nil, err
	}
	c := f.courses[0]
	var rules *rulebook.Rules
	if c.Rules != "" {
		if rules, err = rulebook.Find(c.Rules); err != nil {
			return nil, err
		}
	}
	return reading.Read(c, t, rules), nil
}
