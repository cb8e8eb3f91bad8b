package command

import (
	"errors"
	"fmt"
	"runtime/debug"

	"github.com/spf13/cobra"
)

const about = `Cuewalk rehearses a handling plan against a simulated dog.

Give it a course, a plan and a team as text files, in any order. Without files
it opens a demonstration. Without a team it takes a large dog and an average
handler.`

const examples = `  cuewalk                                     the demonstration, on the screen
  cuewalk course.toml plan.toml team.toml     your own files, on the screen
  cuewalk report course.toml plan.toml        what is likely to go wrong, as text
  cuewalk check *.toml                        are the files right?
  cuewalk demo mine                           files to start from, into the folder mine`

const exitCodes = `
Exit codes: 0 fine, 1 something is wrong with a file, 2 wrong use.
`

// rootCommand is the whole command line.
func rootCommand() *cobra.Command {
	var o screenOptions
	root := &cobra.Command{
		Use:           "cuewalk [FILE...]",
		Short:         "Rehearse a handling plan against a simulated dog",
		Long:          about,
		Example:       examples,
		Version:       version(),
		Args:          cobra.ArbitraryArgs,
		SilenceUsage:  true,
		SilenceErrors: true,
		RunE: func(cmd *cobra.Command, paths []string) error {
			return showScreen(cmd, paths, o)
		},
	}
	root.SetUsageTemplate(root.UsageTemplate() + exitCodes)
	root.SetVersionTemplate("cuewalk {{.Version}}\n")
	root.SuggestionsMinimumDistance = 2
	root.CompletionOptions.HiddenDefaultCmd = false
	o.flags(root)
	root.AddCommand(reportCommand(), compareCommand(), improveCommand(), proposeCommand(), sheetCommand(), newReadCommand(), rehearseCommand(), checkCommand(), demoCommand())
	root.AddCommand(topics()...)
	strictCompletion(root)
	return root
}

// strictCompletion makes "cuewalk completion" for no shell, or for one it does not
// know, wrong use; the library alone would show the help and call it fine.
func strictCompletion(root *cobra.Command) {
	root.InitDefaultCompletionCmd()
	for _, cmd := range root.Commands() {
		if cmd.Name() != "completion" {
			continue
		}
		cmd.Args = cobra.ArbitraryArgs
		cmd.RunE = func(*cobra.Command, []string) error {
			return errors.New("name the shell: cuewalk completion bash, zsh, fish or powershell")
		}
	}
}

// arguments checks that a command has from least to most arguments, and else says
// how it is used.
func arguments(least, most int) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if n := len(args); n >= least && n <= most {
			return nil
		}
		return fmt.Errorf("too few or too many arguments (%d); write: cuewalk %s", len(args), cmd.Use)
	}
}

// version is the version the program was built from, as far as the build knows.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" {
		return "(unknown version)"
	}
	return info.Main.Version
}
