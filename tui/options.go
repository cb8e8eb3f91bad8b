// Package tui is the screen on which a plan is rehearsed, altered and compared, and a plain
// mode that says the same in lines of text.
//
// Everything that touches a disk, a clock or a terminal comes in through Options, so that
// the Model can be driven by messages alone. The screen computes no rule of the sport and
// no chance: it asks the simulator and shows the answer.
package tui

import (
	"context"
	"errors"
	"fmt"
	"os"
	"time"

	"cuewalk/course"
	"cuewalk/course/rulebook"
	"cuewalk/course/tomlfile"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/sim/advice"
	"cuewalk/sim/dog"
	"cuewalk/sim/reading"
	"cuewalk/tui/eye"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/muesli/termenv"
)

// PlanFile is a checked plan and the bytes of the file it was read from, which a save keeps
// but for what was changed. Raw is nil for a plan that came from no file.
type PlanFile struct {
	Plan *plan.Plan
	Raw  []byte
}

// Options are what a screen is opened with. Course and one team are needed; all else has a
// default. Without a plan the screen reads the course.
type Options struct {
	Course *course.Course
	Teams  []*team.Team
	Plans  []PlanFile

	Runs int    // seeded runs behind each chance; 0: 2,000, below 0: none
	Seed uint64 // luck of the first run

	Profile termenv.Profile // colours of the terminal; Ascii writes no escape sequence
	Mono    bool            // styles but no colour, as when NO_COLOR is set
	Light   bool            // the terminal's background is light
	Fine    bool            // draw with block and braille signs from the start

	// Read reads a file again after it changed. Save replaces a file, Create makes one that
	// was not there. Where nil, they use the disk.
	Read         func(path string) ([]byte, error)
	Save, Create func(path string, data []byte) error
	// ParseCourse reads a course that changed outside; where nil it is course.Parse.
	ParseCourse func(name string, src []byte) (*course.Course, error)
	// Watch calls changed with the path of a file of the list each time it is written, until ctx
	// ends. Where nil, Run watches the folders the files are in and a bare Model watches nothing.
	Watch func(ctx context.Context, paths []string, changed func(path string)) error
	// Tick sends msg after d; where nil it is tea.Tick.
	Tick func(d time.Duration, msg func(time.Time) tea.Msg) tea.Cmd

	// What is asked of the simulator; tests of the drawing put fixed answers in its place.
	rehearse func(c *course.Course, p *plan.Plan, t *team.Team) *sim.Rehearsal
	look     func(s *sim.Setup, at sim.Sample, buf []dog.Seen) eye.Strip
	read     func(c *course.Course, t *team.Team, rules *rulebook.Rules) *reading.Reading
	first    func(c *course.Course, t *team.Team) *plan.Plan
	advise   func(ctx context.Context, c *course.Course, p *plan.Plan, t *team.Team, n int, seed uint64, runs int) (advice.Found, error)
}

// quickRuns are made before the full number, so that an interval is there at once.
const (
	quickRuns   = 200
	defaultRuns = 2000
)

func (o *Options) fill() {
	if o.Runs == 0 {
		o.Runs = defaultRuns
	}
	if o.Read == nil {
		o.Read = os.ReadFile
	}
	if o.Save == nil {
		o.Save = tomlfile.Save
	}
	if o.Create == nil {
		o.Create = tomlfile.Create
	}
	if o.ParseCourse == nil {
		o.ParseCourse = course.Parse
	}
	if o.rehearse == nil {
		o.rehearse = rehearser()
	}
	if o.read == nil {
		o.read = reading.Read
	}
	if o.first == nil {
		o.first = reading.FirstPlan
	}
	if o.advise == nil {
		o.advise = advice.ForLeg
	}
	if o.look == nil {
		o.look = eye.Look
	}
	if o.Tick == nil {
		o.Tick = func(d time.Duration, msg func(time.Time) tea.Msg) tea.Cmd { return tea.Tick(d, msg) }
	}
}

// rehearser returns what rehearses a plan. An alteration is another plan for the course and
// team of the one before.
func rehearser() func(*course.Course, *plan.Plan, *team.Team) *sim.Rehearsal {
	var last *sim.Setup
	return func(c *course.Course, p *plan.Plan, t *team.Team) *sim.Rehearsal {
		if last == nil || last.Course != c || last.Team != t {
			last = sim.New(c, p, t)
		} else {
			last = last.WithPlan(p)
		}
		return last.Rehearse()
	}
}

func (o *Options) check() error {
	switch {
	case o.Course == nil:
		return fmt.Errorf("no course to show: give a course file")
	case len(o.Teams) == 0:
		return fmt.Errorf("no team to show: give a team file")
	}
	return nil
}

// Run opens the screen on the terminal and returns when it is left; without a plan it opens on
// the course as the dog reads it. Plans that were changed
// and not saved are asked about before.
func Run(o Options) error {
	if err := o.check(); err != nil {
		return err
	}
	if o.Watch == nil {
		o.Watch = WatchFolders
	}
	m := New(o).(*Model)
	defer m.close()
	p := tea.NewProgram(m, tea.WithAltScreen(), tea.WithMouseCellMotion(), tea.WithFPS(120))
	defer hangUp(p)()
	_, err := p.Run()
	return errors.Join(err, m.rescue())
}
