// Package session is what a person works on while cuewalk is open: the course, the teams and
// the plans with all their versions, the answers of the simulator, the runs made in the
// background, the advice, saving and reading again. It draws nothing and knows no key: the
// screen and the plain mode are its clients.
//
// A Session belongs to one goroutine. What takes time is handed out as a Task, which may run
// on any goroutine and touches nothing of the session; what it returns is given to Take.
package session

import (
	"context"
	"errors"
	"slices"

	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim/reading"
)

// Task is work that must not hold up whoever asked for it. A nil Task is none.
type Task func() Event

// Event is what came of a task; only Take knows what is in it. A nil Event is nothing.
type Event interface{ isEvent() }

// PlanFile is a checked plan and the bytes of the file it was read from, which a save keeps
// but for what was changed. Raw is nil for a plan that came from no file.
type PlanFile struct {
	Plan *plan.Plan
	Raw  []byte
}

// Question is what a rehearsal is the answer to: a plan run by a team. Neither is ever changed
// once asked about, so their addresses tell questions apart.
type Question struct {
	Plan *plan.Plan
	Team *team.Team
}

// Pick names a plan and a team of the session by their places.
type Pick struct {
	Doc, Team int
	AsSaved   bool // the plan as its file has it, not as it stands now
}

// Session is everything that is open. Make one with New.
type Session struct {
	c        Config
	course   *course.Course
	teams    []*team.Team
	docs     []*Document
	answers  answers
	readings map[*team.Team]*reading.Reading
	broken   map[string]error // files that could not be read again, by path

	wanted   []Question // what figures are wanted of, most wanted first
	batch    *batch
	batches  int
	resting  bool // runs were stopped; they wait until asked for
	search   *search
	searches int
	found    map[sought]*Advice
	first    *firstPlan
	firsts   int

	events   chan string
	watched  int // number of the present watch
	watching context.Context
	unwatch  func()
}

// New opens a session. A course and a team are needed; Ready says whether they are there.
func New(c Config) *Session {
	c.fill()
	s := &Session{c: c, course: c.Course, teams: c.Teams, broken: map[string]error{}}
	for _, f := range c.Plans {
		s.docs = append(s.docs, newDocument(f))
	}
	return s
}

// ErrNoCourse and ErrNoTeam are what Ready returns.
var (
	ErrNoCourse = errors.New("no course to show: give a course file")
	ErrNoTeam   = errors.New("no team to show: give a team file")
)

// Ready is nil where there is a course and a team.
func (s *Session) Ready() error {
	switch {
	case s.course == nil:
		return ErrNoCourse
	case len(s.teams) == 0:
		return ErrNoTeam
	}
	return nil
}

// Course is the course as read last.
func (s *Session) Course() *course.Course { return s.course }

// Teams are the teams in the order given. The slice is the session's.
func (s *Session) Teams() []*team.Team { return s.teams }

// Docs are the plans in the order given, then those started here. The slice is the session's.
func (s *Session) Docs() []*Document { return s.docs }

// Runs is how many seeded runs settle a figure; below 1 none are made.
func (s *Session) Runs() int { return s.c.Runs }

// Seed is the luck of the first run.
func (s *Session) Seed() uint64 { return s.c.Seed }

// Question is what p asks.
func (s *Session) Question(p Pick) Question {
	d := s.docs[p.Doc]
	q := Question{d.Plan(), s.teams[p.Team]}
	if p.AsSaved {
		q.Plan = d.disk
	}
	return q
}

// Unsaved is the first plan with changes that leaving would lose; nil for none.
func (s *Session) Unsaved() *Document {
	if i := slices.IndexFunc(s.docs, (*Document).Unsaved); i >= 0 {
		return s.docs[i]
	}
	return nil
}

// Faults checks a plan as the team would read it.
func (s *Session) Faults(p *plan.Plan, t *team.Team) []plan.Fault { return p.Check(s.course, t) }

// Hard leaves out the faults that a plan can be rehearsed with: what a cross is called.
func Hard(faults []plan.Fault) []plan.Fault {
	return slices.DeleteFunc(slices.Clone(faults), func(f plan.Fault) bool {
		return f.Key == "cross" || f.Key == "arm" || f.Key == "plan" || f.Key == "for"
	})
}

// Close ends everything that goes on in the background.
func (s *Session) Close() {
	s.stopRunning()
	s.StopAdvice()
	s.StopFirst()
	if s.unwatch != nil {
		s.unwatch()
		s.unwatch = nil
	}
}
