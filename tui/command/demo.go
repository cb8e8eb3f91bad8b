package command

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"cuewalk/course/tomlfile"
	"cuewalk/testdata/demo"
)

// demoSources are the files of the demonstration, by name.
func demoSources() ([]source, error) {
	names, err := fs.Glob(demo.Files, "*.toml")
	if err != nil {
		return nil, err
	}
	sources := make([]source, len(names))
	for i, name := range names {
		data, err := demo.Files.ReadFile(name)
		if err != nil {
			return nil, err
		}
		sources[i] = source{name, data}
	}
	return sources, nil
}

// demoCommand is "cuewalk demo".
func demoCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "demo DIR",
		Short: "Write the files of the demonstration into a folder, to start from",
		Long: `Demo writes the courses, plans and teams of the demonstration into a folder,
which is made if it is not there. Files that are there already are never
replaced: then nothing is written at all.`,
		Example: `  cuewalk demo mine
  cuewalk mine/*.toml`,
		Args: arguments(1, 1),
		RunE: func(cmd *cobra.Command, args []string) error {
			sources, err := demoSources()
			if err != nil {
				return err
			}
			if err := writeNew(args[0], sources); err != nil {
				return err
			}
			for _, s := range sources {
				if _, err := fmt.Fprintln(cmd.OutOrStdout(), tomlfile.Plain(filepath.Join(args[0], s.name))); err != nil {
					return err
				}
			}
			return nil
		},
	}
}

// writeNew writes sources into the folder dir, which it makes if need be. Where
// one of the files is there already, it writes none and says so.
func writeNew(dir string, sources []source) error {
	var wrong tomlfile.Problems
	for _, s := range sources {
		path := filepath.Join(dir, s.name)
		if _, err := os.Lstat(path); err == nil {
			wrong = append(wrong, tomlfile.Pos{File: path}.Problem("is there already; nothing was written", "choose another folder"))
		}
	}
	if err := wrong.Err(); err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return folderProblem(dir, err)
	}
	for _, s := range sources {
		note(&wrong, s.name, tomlfile.Create(filepath.Join(dir, s.name), s.data))
	}
	return wrong.Err()
}

// folderProblem words an error of making a folder.
func folderProblem(dir string, err error) error {
	var system *fs.PathError
	if errors.As(err, &system) {
		err = system.Err
	}
	return tomlfile.Pos{File: dir}.Problem("cannot be made into a folder: "+err.Error(), "choose another name")
}
