// Cuewalk rehearses a handling plan against a simulated dog; see README.md.
package main

import (
	"os"

	_ "cuewalk/tui/background" // before anything asks the terminal for its colours
	"cuewalk/tui/command"
)

func main() { os.Exit(command.Run(os.Args[1:], os.Stdout, os.Stderr)) }
