// Package tui is the screen on which a plan is rehearsed, altered and compared, and a plain
// mode that says the same in lines of text.
//
// Everything that touches a disk, a clock or a terminal comes in through Options, so that
// the Model can be driven by messages alone. The screen computes no rule of the sport and
// no chance: it asks the simulator and shows the answer.
package tui

import (
	"context"
	"time"

	"cuewalk/course"
	"cuewalk/course/rulebook"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/sim/advice"
	"cuewalk/sim/dog"
	"cuewalk/sim/reading"
	"cuewalk/tui/eye"
	"cuewalk/tui/progress"
	"cuewalk/tui/session"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/muesli/termenv"
)

// PlanFile is a checked plan and the bytes of the file it was read from.
type PlanFile = session.PlanFile

// Options are what a screen is opened with. Course and one team are needed; all else has a
// default. Without a plan the screen reads the course.
type Options struct {
	Course *course.Course
	Teams  []*team.Team
	Plans  []PlanFile

	Runs int    // seeded runs behind each chance; 0: 1,000, below 0: none
	Seed uint64 // luck of the first run

	Profile termenv.Profile // colours of the terminal; Ascii writes no escape sequence
	Mono    bool            // styles but no colour, as when NO_COLOR is set
	Light   bool            // the terminal's background is light
	Fine    bool            // draw with block and braille signs from the start

	Progress progress.Store // where what is learnt of plans is kept; the zero one keeps nothing

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

func (o *Options) fill() {
	if o.look == nil {
		o.look = eye.Look
	}
	if o.Tick == nil {
		o.Tick = func(d time.Duration, msg func(time.Time) tea.Msg) tea.Cmd { return tea.Tick(d, msg) }
	}
}

// session is what of the options a session is opened with.
func (o *Options) session() session.Config {
	return session.Config{Course: o.Course, Teams: o.Teams, Plans: o.Plans, Runs: o.Runs, Seed: o.Seed,
		Read: o.Read, Save: o.Save, Create: o.Create, ParseCourse: o.ParseCourse, Watch: o.Watch,
		Rehearse: o.rehearse, Reading: o.read, First: o.first, Advise: o.advise}
}
