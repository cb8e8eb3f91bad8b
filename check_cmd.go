package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/spf13/cobra"

	"cuewalk/course/tomlfile"
)

// checkCommand is "cuewalk check".
func checkCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "check FILE...",
		Short: "Say everything that is wrong with course, plan and team files",
		Long: `Check reads files and lists every problem of every one of them, each with its
line and column and what to write instead. Nothing is run. Give a plan together
with its course.`,
		Example: `  cuewalk check course.toml
  cuewalk check course.toml plan.toml team.toml`,
		Args: arguments(1, math.MaxInt),
		RunE: func(cmd *cobra.Command, paths []string) error {
			f, err := readFiles(paths)
			if err != nil {
				return err
			}
			return say(cmd.OutOrStdout(), f)
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
