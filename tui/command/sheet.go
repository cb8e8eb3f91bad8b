package command

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"time"

	"github.com/spf13/cobra"

	"cuewalk/course/tomlfile"
	"cuewalk/sim"
	"cuewalk/tui/sheet"
)

// sheetOptions are the flags of "cuewalk sheet".
type sheetOptions struct {
	luck
	file, date       string
	svg, text, force bool
}

// sheetCommand is "cuewalk sheet".
func sheetCommand() *cobra.Command {
	var o sheetOptions
	cmd := &cobra.Command{
		Use:   "sheet COURSE PLAN [PLAN] [TEAM] -o FILE",
		Short: "Write a page to take to the ring: the drawing, the cues, what to pace out",
		Long: `Sheet writes one file that opens in any browser, prints on one page of A4 or
Letter and reads well on a telephone: the ring to scale with the dog's line, the
handler's way and where the wrong obstacles pull; the cues to learn; where each
stand is, told by things on the ground; where to be careful. With two plans it
puts them side by side. The files may come in any order; without a team it takes
a large dog and an average handler.`,
		Example: `  cuewalk sheet course.toml plan.toml team.toml -o sheet.html
  cuewalk sheet course.toml plan-a.toml plan-b.toml team.toml -o both.html
  cuewalk sheet course.toml plan.toml --svg -o ring.svg
  cuewalk sheet course.toml plan.toml --text -o -`,
		Args: arguments(2, 4),
		RunE: func(cmd *cobra.Command, paths []string) error {
			return o.run(cmd, paths)
		},
	}
	f := cmd.Flags()
	f.StringVarP(&o.file, "output", "o", "", `the file to write; "-" for the standard output`)
	f.BoolVar(&o.svg, "svg", false, "write the drawing alone, as SVG")
	f.BoolVar(&o.text, "text", false, "write a list of at most 40 columns, to paste into a message")
	f.BoolVar(&o.force, "force", false, "replace the file if it is there")
	f.StringVar(&o.date, "date", "", "the date on the sheet; else today's")
	o.luck.flags(cmd)
	return cmd
}

func (o *sheetOptions) run(cmd *cobra.Command, paths []string) error {
	if err := o.check(); err != nil {
		return err
	}
	if o.file == "" {
		return errors.New(`name the file to write: -o sheet.html, or -o - for the standard output`)
	}
	if o.svg && o.text {
		return errors.New("--svg and --text are two different files; give one of them")
	}
	setups, err := setupsOf(paths)
	if err != nil {
		return err
	}
	if o.svg && len(setups) > 1 {
		return errors.New("--svg draws one plan; give one plan")
	}
	var runs []*sim.Rehearsal
	for _, s := range setups {
		r, err := o.rehearse(cmd, s)
		if err != nil {
			return err
		}
		runs = append(runs, r)
	}
	if o.date == "" {
		o.date = time.Now().Format(time.DateOnly)
	}
	data, err := o.page(sheet.Of(o.date, version(), runs...))
	if err != nil {
		return err
	}
	return o.write(cmd.OutOrStdout(), data)
}

// page is what the flags ask for.
func (o *sheetOptions) page(p sheet.Page) ([]byte, error) {
	switch {
	case o.svg:
		return sheet.SVG(p, 0), nil
	case o.text:
		return []byte(sheet.Text(p)), nil
	}
	return sheet.HTML(p)
}

// write writes the file whole or not at all, and never over another one unless told to.
func (o *sheetOptions) write(out io.Writer, data []byte) error {
	if o.file == "-" {
		_, err := out.Write(data)
		return err
	}
	if o.force {
		return tomlfile.Save(o.file, data)
	}
	err := tomlfile.Create(o.file, data)
	if errors.Is(err, fs.ErrExist) {
		return tomlfile.Pos{File: o.file}.Problem("is there already, and was left as it is", "choose another name, or write it over with --force")
	}
	return err
}

// setupsOf makes the course, the one or two plans and the team in the files at paths ready to run.
func setupsOf(paths []string) ([]*sim.Setup, error) {
	f, err := readFiles(paths)
	if err != nil {
		return nil, err
	}
	if n := len(f.plans); len(f.courses) != 1 || n < 1 || n > 2 || len(f.teams) > 1 {
		return nil, fmt.Errorf("give one course, one or two plans and at most one team; these are %s, %s and %s",
			several(len(f.courses), "course"), several(n, "plan"), several(len(f.teams), "team"))
	}
	t, err := f.team()
	if err != nil {
		return nil, err
	}
	s := sim.New(f.courses[0], f.plans[0].Plan, t)
	setups := []*sim.Setup{s}
	if len(f.plans) == 2 {
		setups = append(setups, s.WithPlan(f.plans[1].Plan))
	}
	return setups, nil
}
