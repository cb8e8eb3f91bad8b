package session

import (
	"bytes"
	"context"
	"fmt"
	"path/filepath"
	"slices"

	"cuewalk/plan"
	"cuewalk/plan/team"
)

// changedEvent says that a file was written, readEvent what is in it now.
type (
	changedEvent struct {
		path  string
		watch int // which series of events it belongs to
	}
	readEvent struct {
		path string
		data []byte
		err  error
	}
)

func (changedEvent) isEvent() {}
func (readEvent) isEvent()    {}

// Files lists the files that are open, cleaned.
func (s *Session) Files() []string {
	var out []string
	add := func(f string) {
		if f != "" && !slices.Contains(out, filepath.Clean(f)) {
			out = append(out, filepath.Clean(f))
		}
	}
	add(s.course.File)
	for _, t := range s.teams {
		add(t.File)
	}
	for _, d := range s.docs {
		add(d.file)
	}
	return out
}

// Watch begins to wait for changes of the files that are open. The error says why they will
// not be seen.
func (s *Session) Watch() (Task, error) {
	if s.unwatch != nil {
		s.unwatch()
		s.unwatch = nil
	}
	files := s.Files()
	if s.c.Watch == nil || len(files) == 0 {
		return nil, nil
	}
	ctx, cancel := context.WithCancel(context.Background())
	events := make(chan string, 16)
	err := s.c.Watch(ctx, files, func(path string) {
		select {
		case events <- path:
		case <-ctx.Done():
		}
	})
	if err != nil {
		cancel()
		return nil, err
	}
	s.unwatch, s.watched, s.events, s.watching = cancel, s.watched+1, events, ctx
	return s.nextChange(), nil
}

// rewatch begins again after another file was opened; that it fails was said the first time.
func (s *Session) rewatch() Task {
	t, _ := s.Watch()
	return t
}

func (s *Session) nextChange() Task {
	if s.unwatch == nil {
		return nil
	}
	ctx, events, number := s.watching, s.events, s.watched
	return func() Event {
		select {
		case path := <-events:
			return changedEvent{path, number}
		case <-ctx.Done():
			return nil
		}
	}
}

// changed reads a file that was written, and waits for the next.
func (s *Session) changed(e changedEvent) (News, []Task) {
	if e.watch != s.watched {
		return nil, nil
	}
	tasks := []Task{s.Reread(e.path)}
	if next := s.nextChange(); next != nil {
		tasks = append(tasks, next)
	}
	return nil, tasks
}

// Reread reads a file that is open again.
func (s *Session) Reread(path string) Task {
	read := s.c.Read
	return func() Event {
		data, err := read(path)
		return readEvent{filepath.Clean(path), data, err}
	}
}

// Broken are the files that could not be read again, by path; the last good state of each
// stays until it is mended.
func (s *Session) Broken() map[string]error { return s.broken }

// reload takes over a file that was read again. What cannot be read leaves everything as it
// was.
func (s *Session) reload(e readEvent) (News, Task) {
	news, err := News(nil), e.err
	if err == nil {
		news, err = s.takeFile(e.path, e.data)
	}
	if err != nil {
		s.broken[e.path] = err
		return Broken{e.path}, nil
	}
	if _, was := s.broken[e.path]; was && news == nil {
		news = Broken{e.path}
	}
	delete(s.broken, e.path)
	return news, nil
}

func (s *Session) takeFile(path string, data []byte) (News, error) {
	if s.course.File != "" && filepath.Clean(s.course.File) == path {
		return s.takeCourse(data)
	}
	for i, t := range s.teams {
		if t.File != "" && filepath.Clean(t.File) == path {
			return s.takeTeam(i, data)
		}
	}
	for _, d := range s.docs {
		if d.file != "" && filepath.Clean(d.file) == path {
			return s.takePlan(d, data)
		}
	}
	return nil, nil
}

// takeCourse takes over a course that all plans still fit; what was run on the old one
// is forgotten.
func (s *Session) takeCourse(data []byte) (News, error) {
	c, err := s.c.ParseCourse(s.course.File, data)
	if err != nil {
		return nil, err
	}
	for _, d := range s.docs {
		if faults := Hard(d.Plan().Check(c, s.teams[0])); len(faults) > 0 {
			return nil, fmt.Errorf("%s: the plan %q does not fit any more: %s", c.File, d.Plan().Name, faults[0])
		}
	}
	s.stopRunning()
	s.StopAdvice()
	s.course = c
	s.answers.forget()
	s.readings, s.found = nil, nil
	return Reloaded{Kind: CourseFile}, nil
}

func (s *Session) takeTeam(i int, data []byte) (News, error) {
	t, err := team.Parse(s.teams[i].File, data)
	if err != nil {
		return nil, err
	}
	s.teams = slices.Clone(s.teams)
	s.teams[i] = t
	return Reloaded{Kind: TeamFile}, nil
}

// takePlan takes over a plan, unless changes made here would go with it: then it is kept
// beside them until the user decides.
func (s *Session) takePlan(d *Document, data []byte) (News, error) {
	if bytes.Equal(data, d.raw) {
		d.outside = nil
		return nil, nil
	}
	p, err := s.parsePlan(d.file, data)
	if err != nil {
		return nil, err
	}
	f := PlanFile{Plan: p, Raw: data}
	if d.Unsaved() {
		d.outside = &f
		return Held{d}, nil
	}
	d.take(f)
	return Reloaded{PlanOfFile, d}, nil
}

// parsePlan reads a plan for the first team that it fits.
func (s *Session) parsePlan(file string, data []byte) (p *plan.Plan, err error) {
	for _, t := range s.teams {
		var e error
		if p, e = plan.Parse(file, data, s.course, t); e == nil {
			return p, nil
		}
		if err == nil {
			err = e
		}
	}
	return nil, err
}
