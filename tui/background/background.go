// Package background keeps the program from asking the terminal for its background.
//
// The screen library asks at its own start, and a terminal that does not answer
// then costs every command five seconds, even those that draw nothing. Packages
// start in the order of their import paths, so this one, which imports only the
// style library, comes before it. Whether the terminal is light is a flag instead.
package background

import "github.com/charmbracelet/lipgloss"

func init() { lipgloss.SetHasDarkBackground(true) }
