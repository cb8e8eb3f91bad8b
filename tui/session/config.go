package session

import (
	"context"
	"os"

	"cuewalk/course"
	"cuewalk/course/rulebook"
	"cuewalk/course/tomlfile"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/sim/advice"
	"cuewalk/sim/options"
	"cuewalk/sim/reading"
)

// Config is what a session is opened with. All that touches a disk comes in here. Course and
// one team are needed; all else has a default.
type Config struct {
	Course *course.Course
	Teams  []*team.Team
	Plans  []PlanFile

	Runs int    // seeded runs that settle a figure; 0: 1,000, below 0: none
	Seed uint64 // luck of the first run

	// Read reads a file. Save replaces one, Create makes one that was not there and refuses
	// with fs.ErrExist if it was. Where nil, they use the disk.
	Read         func(path string) ([]byte, error)
	Save, Create func(path string, data []byte) error
	// ParseCourse reads a course that changed outside; where nil it is course.Parse.
	ParseCourse func(name string, src []byte) (*course.Course, error)
	// Watch calls changed with the path of a file of the list each time it is written, until ctx
	// ends. Where nil, nothing is watched.
	Watch func(ctx context.Context, paths []string, changed func(path string)) error

	// What is asked of the simulator; where nil, the simulator itself.
	Rehearse func(c *course.Course, p *plan.Plan, t *team.Team) *sim.Rehearsal
	Reading  func(c *course.Course, t *team.Team, rules *rulebook.Rules) *reading.Reading
	First    func(c *course.Course, t *team.Team) *plan.Plan
	Advise   func(ctx context.Context, c *course.Course, p *plan.Plan, t *team.Team, n int, seed uint64, runs int) (advice.Found, error)
}

// quickRuns are made before the full number, so that a range is there at once.
const (
	quickRuns   = 200
	defaultRuns = 1000
)

func (c *Config) fill() {
	if c.Runs == 0 {
		c.Runs = defaultRuns
	}
	if c.Read == nil {
		c.Read = os.ReadFile
	}
	if c.Save == nil {
		c.Save = tomlfile.Save
	}
	if c.Create == nil {
		c.Create = tomlfile.Create
	}
	if c.ParseCourse == nil {
		c.ParseCourse = course.Parse
	}
	if c.Rehearse == nil {
		c.Rehearse = rehearser()
	}
	if c.Reading == nil {
		c.Reading = reading.Read
	}
	if c.First == nil {
		c.First = options.First
	}
	if c.Advise == nil {
		c.Advise = advice.ForLeg
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
