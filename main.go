// Cuewalk rehearses a handling plan against a simulated dog; see README.md.
package main

import (
	"os"

	"cuewalk/tui/command"
)

func main() { os.Exit(command.Run(os.Args[1:], os.Stdout, os.Stderr)) }
