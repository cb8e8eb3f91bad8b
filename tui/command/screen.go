package command

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"

	"github.com/charmbracelet/x/term"
	"github.com/muesli/termenv"
	"github.com/spf13/cobra"

	"cuewalk/course/tomlfile"
	"cuewalk/tui"
	"cuewalk/tui/progress"
)

// screenOptions are the flags of the screen.
type screenOptions struct {
	luck
	light, dark, fine, plain, noHistory bool
}

func (o *screenOptions) flags(cmd *cobra.Command) {
	o.luck.flags(cmd)
	screenRuns := cmd.Flags().Lookup("runs") // a screen is waited for
	screenRuns.DefValue = "1000"
	o.runs = 1000
	cmd.Flags().BoolVar(&o.light, "light", false, "the terminal's background is light")
	cmd.Flags().BoolVar(&o.dark, "dark", false, "the terminal's background is dark (the default)")
	cmd.Flags().BoolVar(&o.fine, "fine", false, "draw with block and braille signs instead of plain letters")
	cmd.Flags().BoolVar(&o.plain, "plain", false, "sentences instead of pictures, a line typed for each step; needs no terminal")
	cmd.Flags().BoolVar(&o.noHistory, "no-history", false, "keep nothing of what is learnt")
	cmd.MarkFlagsMutuallyExclusive("light", "dark")
}

// errNoTerminal is what is said where there is no screen to draw on.
var errNoTerminal = errors.New("there is no terminal to draw on here\n" +
	`use "cuewalk report COURSE PLAN [TEAM]", or --plain for sentences line by line`)

// showScreen opens the screen on the files at paths, or on the demonstration.
func showScreen(cmd *cobra.Command, paths []string, o screenOptions) error {
	if err := o.check(); err != nil {
		return err
	}
	f, err := screenFiles(paths)
	if err != nil {
		return mistyped(cmd, paths, err)
	}
	opened, err := o.open(f)
	if err != nil {
		return err
	}
	if o.plain {
		return tui.Plain(opened, cmd.InOrStdin(), cmd.OutOrStdout())
	}
	if !term.IsTerminal(os.Stdin.Fd()) || !term.IsTerminal(os.Stdout.Fd()) {
		return errNoTerminal
	}
	return tui.Run(opened)
}

// demoTeam is the team that the demonstration opens with: the one that more goes wrong for.
const demoTeam = "rook.toml"

// screenFiles reads the files at paths; without any, those of the demonstration.
func screenFiles(paths []string) (*files, error) {
	if len(paths) > 0 {
		return readFiles(paths)
	}
	sources, err := demoSources()
	if err != nil {
		return nil, err
	}
	slices.SortStableFunc(sources, func(a, b source) int {
		switch demoTeam {
		case a.name:
			return -1
		case b.name:
			return 1
		}
		return 0
	})
	f, err := parse(sources)
	if err != nil {
		return nil, err
	}
	f.forget()
	return f, nil
}

// mistyped adds to err, where the first of paths is no file but nearly a command,
// that the command may have been meant.
func mistyped(cmd *cobra.Command, paths []string, err error) error {
	var all tomlfile.Problems
	if len(paths) == 0 || !errors.As(err, &all) {
		return err
	}
	var names []string
	for _, c := range cmd.Commands() {
		names = append(names, c.Name())
	}
	near := tomlfile.Nearest(paths[0], names)
	for i := range all {
		if near != "" && all[i].File == paths[0] && errors.Is(all[i], fs.ErrNotExist) {
			all[i].Hint = "did you mean the command " + tomlfile.Show(near) + "?"
		}
	}
	return all
}

// forget makes f the first course alone, from no file: what is altered in the
// demonstration is saved under a new name and never over somebody's file.
func (f *files) forget() {
	f.courses = f.courses[:1]
	f.courses[0].File = ""
	plans := f.plans
	f.plans = nil
	for _, p := range plans {
		if p.course == f.courses[0] {
			p.Plan.File, p.Raw = "", nil
			f.plans = append(f.plans, p)
		}
	}
	for _, t := range f.teams {
		t.File = ""
	}
}

// open is what the screen is opened with. Without a plan it reads the course.
func (o screenOptions) open(f *files) (tui.Options, error) {
	if len(f.courses) != 1 {
		return tui.Options{}, fmt.Errorf("give one course, with plans for it or alone; these are %s and %s",
			several(len(f.courses), "course"), several(len(f.plans), "plan"))
	}
	if o.plain && len(f.plans) == 0 {
		return tui.Options{}, errors.New("give a plan with --plain; for a course alone, write: cuewalk read COURSE [TEAM]")
	}
	if len(f.teams) == 0 {
		t, err := f.team()
		if err != nil {
			return tui.Options{}, err
		}
		f.teams = append(f.teams, t)
	}
	opened := tui.Options{
		Course: f.courses[0], ParseCourse: parseCourse, Teams: f.teams, Runs: o.runs, Seed: o.seed, Light: o.light, Fine: o.fine,
		Profile: termenv.NewOutput(os.Stdout).ColorProfile(), Mono: os.Getenv("NO_COLOR") != "",
	}
	if o.runs == 0 {
		opened.Runs = -1
	}
	if !o.noHistory {
		opened.Progress.Dir = progress.UsersFolder()
	}
	for _, p := range f.plans {
		opened.Plans = append(opened.Plans, p.PlanFile)
	}
	return opened, nil
}
