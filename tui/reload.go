package tui

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"cuewalk/course/tomlfile"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/tui/canvas"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/fsnotify/fsnotify"
)

// changedMsg says that a file was written, readMsg what is in it now.
type (
	changedMsg struct {
		path  string
		watch int // which series of events it belongs to
	}
	readMsg struct {
		path string
		data []byte
		err  error
	}
)

// files lists the files that the screen shows, cleaned.
func (m *Model) files() []string {
	var out []string
	add := func(f string) {
		if f != "" && !slices.Contains(out, filepath.Clean(f)) {
			out = append(out, filepath.Clean(f))
		}
	}
	add(m.course.File)
	for _, t := range m.teams {
		add(t.File)
	}
	for _, d := range m.docs {
		add(d.file)
	}
	return out
}

// watch begins to wait for changes of the files shown, and ends the wait before.
func (m *Model) watch() tea.Cmd {
	if m.cancel != nil {
		m.cancel()
		m.cancel = nil
	}
	files := m.files()
	if m.o.Watch == nil || len(files) == 0 {
		return nil
	}
	ctx, cancel := context.WithCancel(context.Background())
	events := make(chan string, 16)
	err := m.o.Watch(ctx, files, func(path string) {
		select {
		case events <- path:
		case <-ctx.Done():
		}
	})
	if err != nil {
		cancel()
		m.say(canvas.Caution, "! changes of the files will not be seen: "+err.Error())
		return nil
	}
	m.cancel, m.watched, m.events = cancel, m.watched+1, events
	m.watching = ctx
	return m.nextChange()
}

func (m *Model) nextChange() tea.Cmd {
	if m.cancel == nil {
		return nil
	}
	ctx, events, number := m.watching, m.events, m.watched
	return func() tea.Msg {
		select {
		case path := <-events:
			return changedMsg{path, number}
		case <-ctx.Done():
			return nil
		}
	}
}

// changed reads a file that was written, and waits for the next.
func (m *Model) changed(msg changedMsg) tea.Cmd {
	if msg.watch != m.watched {
		return nil
	}
	read := m.o.Read
	return tea.Batch(m.nextChange(), func() tea.Msg {
		data, err := read(msg.path)
		return readMsg{filepath.Clean(msg.path), data, err}
	})
}

// reload takes over a file that was read again. What cannot be read leaves everything as it
// was, and the error stays on the screen until the file is mended.
func (m *Model) reload(msg readMsg) tea.Cmd {
	before, at := m.run(), m.at
	err := msg.err
	if err == nil {
		err = m.takeFile(msg.path, msg.data)
	}
	if err != nil {
		m.broken[msg.path] = err
		return nil
	}
	delete(m.broken, msg.path)
	m.at = joined(before, m.run(), at)
	return m.keepRunning()
}

func (m *Model) takeFile(path string, data []byte) error {
	if m.course.File != "" && filepath.Clean(m.course.File) == path {
		return m.takeCourse(data)
	}
	for i, t := range m.teams {
		if t.File != "" && filepath.Clean(t.File) == path {
			return m.takeTeam(i, data)
		}
	}
	for _, d := range m.docs {
		if d.file != "" && filepath.Clean(d.file) == path {
			return m.takePlan(d, data)
		}
	}
	return nil
}

// takeCourse takes over a course that all plans still fit; what was run on the old one
// is forgotten.
func (m *Model) takeCourse(data []byte) error {
	c, err := m.o.ParseCourse(m.course.File, data)
	if err != nil {
		return err
	}
	for _, d := range m.docs {
		if faults := hard(d.plan().Check(c, m.teams[0])); len(faults) > 0 {
			return fmt.Errorf("%s: the plan %q does not fit any more: %s", c.File, d.plan().Name, faults[0])
		}
	}
	m.stopRunning()
	m.course, m.o.Course = c, c
	m.answers.forget()
	m.walks = nil
	m.camera = camera{}
	m.say(canvas.Quiet, "the course was changed outside and is taken over")
	return nil
}

func (m *Model) takeTeam(i int, data []byte) error {
	t, err := team.Parse(m.teams[i].File, data)
	if err != nil {
		return err
	}
	m.teams = slices.Clone(m.teams)
	m.teams[i] = t
	m.say(canvas.Quiet, "the team was changed outside and is taken over")
	return nil
}

// takePlan takes over a plan, unless changes made here would go with it: then it is kept
// beside them until the user decides.
func (m *Model) takePlan(d *document, data []byte) error {
	if bytes.Equal(data, d.raw) {
		d.outside = nil
		return nil
	}
	p, err := plan.Parse(d.file, data, m.course, m.teams[m.sides[m.active()].team])
	if err != nil {
		return err
	}
	f := PlanFile{Plan: p, Raw: data}
	if d.unsaved() {
		d.outside = &f
		m.say(canvas.Caution, "! "+filepath.Base(d.file)+" was changed outside: R takes that, u then brings yours back")
		return nil
	}
	d.take(f)
	m.say(canvas.Quiet, "the plan was changed outside and is taken over; u goes back")
	return nil
}

func (m *Model) takeOutside() tea.Cmd {
	before := m.run()
	m.doc().take(*m.doc().outside)
	m.at = joined(before, m.run(), m.at)
	return m.keepRunning()
}

// brokenText is the first problem of the files that could not be read again.
func (m *Model) brokenText() string {
	for _, f := range m.files() {
		err, ok := m.broken[f]
		if !ok {
			continue
		}
		var ps tomlfile.Problems
		text := err.Error()
		if errors.As(err, &ps) && len(ps) > 0 {
			text = ps[0].Error()
			if len(ps) > 1 {
				text += fmt.Sprintf(" (and %d more)", len(ps)-1)
			}
			if ps[0].Hint != "" {
				text += ": " + ps[0].Hint
			}
		}
		text = strings.TrimPrefix(text, filepath.Dir(f)+string(filepath.Separator))
		return words.Safe(text)
	}
	return ""
}

// settle is how long a file must be quiet before it is read: editors write in several steps.
const settle = 80 * time.Millisecond

// WatchFolders calls changed with each of the files that is written, until ctx ends. It watches
// the folders they are in, because many editors save by putting another file in the place.
func WatchFolders(ctx context.Context, paths []string, changed func(path string)) error {
	w, err := fsnotify.NewWatcher()
	if err != nil {
		return err
	}
	for _, p := range paths {
		if err := w.Add(filepath.Dir(p)); err != nil && !os.IsNotExist(err) {
			w.Close()
			return err
		}
	}
	go pass(ctx, w, paths, changed)
	return nil
}

func pass(ctx context.Context, w *fsnotify.Watcher, paths []string, changed func(path string)) {
	defer w.Close()
	waiting := map[string]bool{}
	timer := time.NewTimer(time.Hour)
	defer timer.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case e, ok := <-w.Events:
			if !ok {
				return
			}
			for _, p := range paths {
				if filepath.Clean(p) == filepath.Clean(e.Name) && e.Op != fsnotify.Chmod {
					waiting[p] = true
					timer.Reset(settle)
				}
			}
		case <-timer.C:
			for _, p := range paths {
				if waiting[p] {
					delete(waiting, p)
					changed(p)
				}
			}
		case <-w.Errors:
		}
	}
}
