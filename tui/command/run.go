// Package command is the command line: one file for each command, which reads the
// files named, calls what does the work, and prints. A new command is a function of
// its own file that returns a *cobra.Command, named once more in [rootCommand].
package command

import (
	"errors"
	"fmt"
	"io"
	"os/signal"
	"runtime/debug"
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
func Run(args []string, out, errs io.Writer) (code int) {
	defer func() {
		if r := recover(); r != nil {
			ownFault(args, r, errs)
			code = wrongUse
		}
	}()
	signal.Ignore(syscall.SIGPIPE) // a closed pipe then comes as an error
	root := rootCommand()
	root.SetArgs(args)
	root.SetOut(out)
	root.SetErr(errs)
	return exit(root.Execute(), errs)
}

// ownFault says that the program itself has failed, and with which files.
func ownFault(args []string, what any, errs io.Writer) {
	fmt.Fprintln(errs, "cuewalk: the program itself has failed; nothing is wrong with what you did.")
	fmt.Fprintln(errs, "cuewalk: please send its makers these words, with the files: "+tomlfile.Plain(strings.Join(args, " ")))
	fmt.Fprintf(errs, "%v\n%s", what, debug.Stack())
}

// mostProblems is how many problems are written out.
const mostProblems = 100

// listed returns the problems with their hints, the first hundred of them.
func listed(all tomlfile.Problems) string {
	if more := len(all) - mostProblems; more > 0 {
		return fmt.Sprintf("%s\nand %d more like these", all[:mostProblems].Long(), more)
	}
	return all.Long()
}

// exit tells errs what err means to the user and returns the exit code.
func exit(err error, errs io.Writer) int {
	var one tomlfile.Problem
	var all tomlfile.Problems
	switch {
	case err == nil, errors.Is(err, syscall.EPIPE):
		return fine
	case errors.As(err, &all):
		fmt.Fprintln(errs, listed(all))
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
