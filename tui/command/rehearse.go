package command

import (
	"os"

	"github.com/charmbracelet/x/term"
	"github.com/muesli/termenv"
	"github.com/spf13/cobra"

	"cuewalk/tui/drill"
	"cuewalk/tui/progress"
)

// rehearseFlags are those of "cuewalk rehearse".
type rehearseFlags struct {
	plain, script, noHistory, light, fine, bell bool
	seed                                        uint64
}

// rehearseCommand is "cuewalk rehearse".
func rehearseCommand() *cobra.Command {
	var o rehearseFlags
	cmd := &cobra.Command{
		Use:   "rehearse COURSE PLAN [TEAM]",
		Short: "Learn a plan by heart, and to give its cues in time",
		Long: `Rehearse asks a plan cue by cue, where and what, until two whole recalls are
without a mistake; lets you give the cues by key to a running dog that answers to
your moment; and shows the next cue in large letters to be said as on the line.
What you have learnt is kept in your data folder and taken up again the next time.`,
		Example: `  cuewalk rehearse course.toml plan.toml team.toml
  cuewalk rehearse course.toml plan.toml --plain
  cuewalk rehearse course.toml plan.toml --script`,
		Args: arguments(2, 3),
		RunE: func(cmd *cobra.Command, paths []string) error {
			opened, err := o.open(paths)
			if err != nil {
				return err
			}
			switch {
			case o.script:
				return drill.Script(cmd.OutOrStdout(), opened)
			case o.plain:
				return drill.Plain(opened, cmd.InOrStdin(), cmd.OutOrStdout())
			case !term.IsTerminal(os.Stdin.Fd()) || !term.IsTerminal(os.Stdout.Fd()):
				return errNoTerminal
			}
			return drill.Run(opened)
		},
	}
	cmd.Flags().BoolVar(&o.plain, "plain", false, "sentences instead of pictures, a line typed for each answer; needs no terminal")
	cmd.Flags().BoolVar(&o.script, "script", false, "write the plan as a script for paper and end")
	cmd.Flags().BoolVar(&o.noHistory, "no-history", false, "keep nothing and leave no trace")
	cmd.Flags().BoolVar(&o.bell, "bell", false, "ring at each cue of the third drill, Say it")
	cmd.Flags().BoolVar(&o.light, "light", false, "the terminal's background is light")
	cmd.Flags().BoolVar(&o.fine, "fine", false, "draw with block and braille signs instead of plain letters")
	cmd.Flags().Uint64Var(&o.seed, "seed", 1, "luck of the timing drill's runs")
	return cmd
}

// open is what the drills are opened with.
func (o *rehearseFlags) open(paths []string) (drill.Options, error) {
	f, err := readFiles(paths)
	if err != nil {
		return drill.Options{}, err
	}
	if err := f.oneOfEach(); err != nil {
		return drill.Options{}, err
	}
	t, err := f.team()
	if err != nil {
		return drill.Options{}, err
	}
	opened := drill.Options{
		Course: f.courses[0], Plan: f.plans[0].Plan, Team: t, Seed: o.seed, Light: o.light, Fine: o.fine, Bell: o.bell,
		Profile: termenv.NewOutput(os.Stdout).ColorProfile(), Mono: os.Getenv("NO_COLOR") != "",
		Ring: func() { _, _ = os.Stdout.WriteString("\a") },
	}
	if !o.noHistory {
		opened.Store.Dir = progress.UsersFolder()
	}
	return opened, nil
}
