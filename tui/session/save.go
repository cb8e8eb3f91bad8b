package session

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"

	"cuewalk/plan"
)

// Writing is how a plan is written.
type Writing uint8

// The ways of writing.
const (
	Keep  Writing = iota // to its file, unless that is no longer as it was read
	Over                 // to its file, whatever is in it now
	Fresh                // to a new file
)

// writtenEvent says what became of a save.
type writtenEvent struct {
	doc     *Document
	plan    *plan.Plan // the version written
	path    string
	data    []byte
	outside bool // not written: the file is no longer as it was read
	err     error
}

func (writtenEvent) isEvent() {}

// Write saves the version shown of d to path. The error says why that cannot even be tried.
func (s *Session) Write(d *Document, path string, how Writing) (Task, error) {
	p := d.Plan()
	data, err := d.contents(p, s.course)
	if err != nil {
		return nil, err
	}
	before, c := d.raw, s.c
	return func() Event {
		e := writtenEvent{doc: d, plan: p, path: path, data: data}
		switch how {
		case Fresh:
			e.err = c.Create(path, data)
		case Over:
			e.err = c.Save(path, data)
		case Keep:
			now, err := c.Read(path)
			switch {
			case err != nil && !os.IsNotExist(err):
				e.err = err
			case err == nil && before != nil && !bytes.Equal(now, before):
				e.outside = true
			default:
				e.err = c.Save(path, data)
			}
		}
		return e
	}, nil
}

func (s *Session) written(e writtenEvent) (News, Task) {
	d := e.doc
	if e.outside || e.err != nil {
		return NotWritten{Doc: d, Path: e.path, Outside: e.outside, Err: e.err}, nil
	}
	moved := d.file != e.path
	d.file, d.raw, d.disk, d.outside = e.path, e.data, e.plan, nil
	delete(s.broken, filepath.Clean(e.path))
	news := Written{Doc: d, Path: e.path, Moved: moved}
	if moved {
		return news, s.rewatch()
	}
	return news, nil
}

// NewName proposes a name beside the file of a plan: plan.toml gives plan-2.toml.
func (s *Session) NewName(file string) string { return newName(file, s.taken) }

func newName(file string, taken func(string) bool) string {
	if file == "" {
		file = "plan.toml"
	}
	ext := filepath.Ext(file)
	for i := 2; ; i++ {
		if name := fmt.Sprintf("%s-%d%s", file[:len(file)-len(ext)], i, ext); i > 99 || !taken(name) {
			return name
		}
	}
}

func (s *Session) taken(name string) bool {
	for _, d := range s.docs {
		if d.file == name {
			return true
		}
	}
	return false
}
