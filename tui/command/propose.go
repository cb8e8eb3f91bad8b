package command

import (
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"cuewalk/course/tomlfile"
	"cuewalk/sim/options"
	"cuewalk/sim/reading"
	"cuewalk/tui/report"
	"cuewalk/tui/words"
)

// proposeCommand is "cuewalk propose".
func proposeCommand() *cobra.Command {
	var asJSON bool
	var seed uint64
	var dir string
	cmd := &cobra.Command{
		Use:   "propose COURSE [TEAM] [-o DIR]",
		Short: "Make plans from nothing that this handler can run",
		Long: `Propose makes up to four different plans for a course, each with its chance, its
time, its worst legs and its tightest cue. With -o it writes them into a folder as
plan files with remarks; a file that is there already is never replaced. It takes
up to a minute; Ctrl-C stops it with the best so far. Without a team it takes a
large dog and an average handler.`,
		Example: `  cuewalk propose course.toml team.toml
  cuewalk propose course.toml team.toml -o plans
  cuewalk propose course.toml --json`,
		Args: arguments(1, 2),
		RunE: func(cmd *cobra.Command, paths []string) error {
			r, err := readingOf(paths)
			if err != nil {
				return err
			}
			ctx, stop := signal.NotifyContext(cmd.Context(), os.Interrupt)
			defer stop()
			all := options.Propose(ctx, r, seed, func(all []options.Proposal) { sofar(cmd, all) })
			files, err := writeProposals(dir, r, all)
			if err != nil {
				return err
			}
			if asJSON {
				return report.ProposeJSON(cmd.OutOrStdout(), r.Course, r.Team.Name, all, files, seed)
			}
			return report.ProposeText(cmd.OutOrStdout(), r.Course, r.Team.Name, all, files)
		},
	}
	cmd.Flags().StringVarP(&dir, "output", "o", "", "the folder to write the plans into; it is made if it is not there")
	cmd.Flags().Uint64Var(&seed, "seed", 1, "luck of the runs; the same seed gives the same plans")
	cmd.Flags().BoolVar(&asJSON, "json", false, "write JSON for other programs (keys: cuewalk help json)")
	return cmd
}

// sofar says how far the search is.
func sofar(cmd *cobra.Command, all []options.Proposal) {
	best := &all[0]
	fmt.Fprintf(cmd.ErrOrStderr(), "cuewalk: %d of up to %d so far; best clean %s: %s\n", len(all), options.MostProposals,
		words.Percent(best.Result.Share()), best.Told)
}

// writeProposals writes plans into new files of a folder, none where it is empty, and
// returns their names.
func writeProposals(dir string, r *reading.Reading, all []options.Proposal) ([]string, error) {
	if dir == "" {
		return nil, nil
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, fmt.Errorf("making the folder: %w", err)
	}
	base := strings.TrimSuffix(filepath.Base(r.Course.File), filepath.Ext(r.Course.File))
	var files []string
	n := 1
	for i := range all {
		name := ""
		for ; ; n++ {
			name = filepath.Join(dir, fmt.Sprintf("%s-plan-%d.toml", base, n))
			if _, err := os.Lstat(name); err != nil {
				break
			}
		}
		if err := tomlfile.Create(name, all[i].Written(r)); err != nil {
			return files, err
		}
		files = append(files, name)
	}
	return files, nil
}
