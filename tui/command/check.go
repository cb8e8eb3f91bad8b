package command

import (
	"fmt"
	"io"
	"math"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"cuewalk/course/tomlfile"
	"cuewalk/sim/belief"
)

// checkCommand is "cuewalk check".
func checkCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "check FILE...",
		Short: "Say everything that is wrong with course, plan and team files",
		Long: `Check reads files and lists every problem of every one of them, each with its
line and column and what to write instead. Nothing is run. Give a plan together
with its course. A .txtar file holds a course, plans, teams and what is believed
of them; its problems are told by its own lines.`,
		Example: `  cuewalk check course.toml
  cuewalk check course.toml plan.toml team.toml
  cuewalk check case.txtar`,
		Args: arguments(1, math.MaxInt),
		RunE: func(cmd *cobra.Command, paths []string) error {
			single, cases := byExtension(paths)
			f, err := readFiles(single)
			var wrong tomlfile.Problems
			note(&wrong, "", err)
			read := readCases(cases, &wrong)
			if err := wrong.Err(); err != nil {
				return err
			}
			if err := say(cmd.OutOrStdout(), f); err != nil {
				return err
			}
			return sayCases(cmd.OutOrStdout(), read)
		},
	}
}

// say lists the files that are right, with what each holds.
func say(w io.Writer, f *files) error {
	var b strings.Builder
	line := func(file, kind, name, more string) {
		fmt.Fprintf(&b, "%s: %s %s%s\n", tomlfile.Plain(file), kind, tomlfile.Show(name), more)
	}
	for _, c := range f.courses {
		line(c.File, "course", c.Name, fmt.Sprintf(", %s, %s", several(len(c.Order), "number"), several(len(c.Obstacles), "obstacle")))
	}
	for _, t := range f.teams {
		line(t.File, "team", t.Name, "")
	}
	for _, p := range f.plans {
		line(p.Plan.File, "plan", p.Plan.Name, ", "+several(len(p.Plan.Cues), "cue")+", for "+tomlfile.Show(p.course.Name))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// caseExtension marks a file that holds several.
const caseExtension = ".txtar"

func byExtension(paths []string) (single, cases []string) {
	for _, path := range paths {
		if filepath.Ext(path) == caseExtension {
			cases = append(cases, path)
		} else {
			single = append(single, path)
		}
	}
	return single, cases
}

// readCases reads case files and adds to wrong what is wrong with them.
func readCases(paths []string, wrong *tomlfile.Problems) []*belief.Case {
	var all []*belief.Case
	for _, path := range paths {
		data, err := tomlfile.ReadFile(path)
		var c *belief.Case
		if err == nil {
			c, err = belief.Parse(path, data)
		}
		note(wrong, path, err)
		if err == nil {
			all = append(all, c)
		}
	}
	return all
}

func sayCases(w io.Writer, all []*belief.Case) error {
	for _, c := range all {
		_, err := fmt.Fprintf(w, "%s: course %s, %s, %s, %s\n", tomlfile.Plain(c.File), tomlfile.Show(c.Course.Name),
			several(len(c.Plans), "plan"), several(len(c.Teams), "team"), several(len(c.Beliefs), "statement"))
		if err != nil {
			return err
		}
	}
	return nil
}
