// Package command is the command line: one file for each command, which reads the
// files named, calls what does the work, and prints. A new command is a function of
// its own file that returns a *cobra.Command, named once more in [rootCommand].
package command

import (
	"errors"
	"fmt"
	"io"
	"os/signal"
	"strings"
	"syscall"

	"cuewalk/course/tomlfile"
	_ "cuewalk/tui/background" // before anything asks the terminal for its colours
)

// Exit codes.
const (
	fine     = 0
	problems = 1 // something is wrong with a file
	wrongUse = 2 // the command cannot be carried out as given
)

// Run carries out the command line args and returns the exit code: 0 fine, 1 something
// is wrong with a file, 2 wrong use.
func Run(args []string, out, errs io.Writer) int {
	signal.Ignore(syscall.SIGPIPE) // a closed pipe then comes as an error
	root := rootCommand()
	root.SetArgs(args)
	root.SetOut(out)
	root.SetErr(errs)
	return exit(root.Execute(), errs)
}

// exit tells errs what err means to the user and returns the exit code.
func exit(err error, errs io.Writer) int {
	var one tomlfile.Problem
	var all tomlfile.Problems
	switch {
	case err == nil, errors.Is(err, syscall.EPIPE):
		return fine
	case errors.As(err, &all):
		fmt.Fprintln(errs, all.Long())
		return problems
	case errors.As(err, &one):
		fmt.Fprintln(errs, one.Long())
		return problems
	}
	for line := range strings.Lines(strings.TrimSpace(err.Error())) {
		fmt.Fprintln(errs, "cuewalk: "+tomlfile.Plain(strings.TrimSpace(line)))
	}
	return wrongUse
}
