package command

import (
	"github.com/spf13/cobra"

	"cuewalk/plan"
	"cuewalk/sim"
	"cuewalk/tui/drill"
	"cuewalk/tui/report"
)

// topics are the pages of the manual that "cuewalk help TOPIC" shows: the same texts that
// stand beside what they explain.
func topics() []*cobra.Command {
	page := func(name, short, text string) *cobra.Command {
		return &cobra.Command{Use: name, Short: short, Long: text}
	}
	return []*cobra.Command{
		page("files", "the keys of course, team and plan files", plan.Manual),
		page("commands", "every command with its flags and exit codes", Manual),
		page("learning", "the drills of rehearse", drill.Manual),
		page("json", "the keys of all that is written as JSON", report.Manual),
		page("model", "what the model does and does not claim, and its sources", sim.Manual),
	}
}
