package session

import "fmt"

// News is what an event has changed, for the client to tell; nil for nothing.
type News interface{ isNews() }

type (
	// Running: runs went on, or were given up.
	Running struct{}
	// Counted: there are new figures for the question.
	Counted struct{ Question Question }
	// Advised: what would help was found for the question, or Err says why not.
	Advised struct {
		Advice *Advice
		Err    error
	}
	// Written: the plan was saved to Path, a new file where Moved.
	Written struct {
		Doc   *Document
		Path  string
		Moved bool
	}
	// NotWritten: it was not, and why. Where Outside, the file is no longer as it was read and
	// nothing was tried.
	NotWritten struct {
		Doc     *Document
		Path    string
		Outside bool
		Err     error
	}
	// Reloaded: a file that was changed outside is taken over.
	Reloaded struct {
		Kind FileKind
		Doc  *Document // of a plan
	}
	// Held: a plan's file was changed outside while it has changes here; TakeOutside takes it.
	Held struct{ Doc *Document }
	// Broken: a file could not be read again, or is whole again; see Session.Broken.
	Broken struct{ Path string }
	// Started: a first plan was written and is the last of the Docs.
	Started struct {
		Doc  *Document
		Path string
	}
	// NotStarted: no first plan was written. Where Path is set another name may do.
	NotStarted struct {
		Path string
		Err  error
	}
	// Unwatched: changes of the files will not be seen, and why.
	Unwatched struct{ Err error }
)

func (Running) isNews()    {}
func (Counted) isNews()    {}
func (Advised) isNews()    {}
func (Written) isNews()    {}
func (NotWritten) isNews() {}
func (Reloaded) isNews()   {}
func (Held) isNews()       {}
func (Broken) isNews()     {}
func (Started) isNews()    {}
func (NotStarted) isNews() {}
func (Unwatched) isNews()  {}

// FileKind is what a file holds.
type FileKind uint8

// The kinds of files.
const (
	NoFile FileKind = iota
	CourseFile
	TeamFile
	PlanOfFile
)

// Take takes what a task returned, and says what has changed and what to do next. A panic in
// the background goes on here.
func (s *Session) Take(e Event) (News, []Task) {
	switch e := e.(type) {
	case progressEvent:
		return one(s.progressed(e))
	case talliedEvent:
		return one(s.tallied(e))
	case advisedEvent:
		return one(s.advised(e))
	case changedEvent:
		return s.changed(e)
	case readEvent:
		return one(s.reload(e))
	case writtenEvent:
		return one(s.written(e))
	case triedEvent:
		return one(s.tried(e))
	case startedEvent:
		return one(s.started(e))
	case panicEvent:
		panic(e.what)
	case nil:
		return nil, nil
	}
	panic(fmt.Sprintf("session: unknown event %T", e))
}

func one(n News, t Task) (News, []Task) {
	if t == nil {
		return n, nil
	}
	return n, []Task{t}
}
