package session

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"

	"cuewalk/plan"
	"cuewalk/plan/team"
)

// firstPlan is a first plan on its way: tried out, then written.
type firstPlan struct{ number int }

// triedEvent is a first plan that was tried out, startedEvent what became of its file.
type (
	triedEvent struct {
		number int
		plan   *plan.Plan
		path   string
		data   []byte
		err    error
	}
	startedEvent struct{ triedEvent }
)

func (triedEvent) isEvent()   {}
func (startedEvent) isEvent() {}

// FirstName proposes a file for a first plan: course.toml gives course-plan.toml, or the next
// number that is free.
func (s *Session) FirstName() string {
	if s.course.File == "" {
		return "plan.toml"
	}
	file := filepath.Clean(s.course.File)
	ext := filepath.Ext(file)
	name := file[:len(file)-len(ext)] + "-plan" + ext
	taken := func(name string) bool { return s.free(name) != nil || s.taken(name) }
	if !taken(name) {
		return name
	}
	return newName(name, taken)
}

// StartFirst tries out a first plan for a team, to be written to a new file. While one is on
// its way there is no second.
func (s *Session) StartFirst(t *team.Team, path string) Task {
	if s.first != nil {
		return nil
	}
	s.firsts++
	s.first = &firstPlan{s.firsts}
	number, c, first, free := s.firsts, s.course, s.c.First, s.free
	return func() Event {
		e := triedEvent{number: number, path: path}
		if e.err = free(path); e.err != nil { // said before some seconds of work, not after
			return e
		}
		e.data = plan.Format(first(c, t), c)
		if e.plan, e.err = plan.Parse(path, e.data, c, t); e.err != nil {
			e.path = ""
		}
		return e
	}
}

// free says whether a new file can have this name.
func (s *Session) free(path string) error {
	switch _, err := s.c.Read(path); {
	case err == nil:
		return fmt.Errorf("%s is there already: %w", path, fs.ErrExist)
	case errors.Is(err, fs.ErrNotExist):
		return nil
	default:
		return err
	}
}

// Starting reports whether a first plan is on its way.
func (s *Session) Starting() bool { return s.first != nil }

// StopFirst gives up the first plan that is tried out: no file is written.
func (s *Session) StopFirst() { s.first = nil }

// tried writes a first plan that was tried out.
func (s *Session) tried(e triedEvent) (News, Task) {
	if s.first == nil || e.number != s.first.number {
		return nil, nil
	}
	if e.err != nil {
		s.first = nil
		return NotStarted{e.path, e.err}, nil
	}
	create := s.c.Create
	return nil, func() Event {
		e.err = create(e.path, e.data)
		return startedEvent{e}
	}
}

func (s *Session) started(e startedEvent) (News, Task) {
	if s.first != nil && s.first.number == e.number {
		s.first = nil
	}
	if e.err != nil {
		return NotStarted{e.path, e.err}, nil
	}
	d := newDocument(PlanFile{Plan: e.plan, Raw: e.data})
	s.docs = append(s.docs, d)
	return Started{d, e.path}, s.rewatch()
}
