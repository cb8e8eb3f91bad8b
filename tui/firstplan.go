package tui

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"

	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/tui/canvas"

	tea "github.com/charmbracelet/bubbletea"
)

// startedMsg says what became of the file of a first plan.
type startedMsg struct {
	plan *plan.Plan
	path string
	data []byte
	team *team.Team
	err  error
}

// mostNames is how many names are tried for a first plan before the user is asked for one.
const mostNames = 99

// startPlan writes a first plan into a new file beside the course's and opens it.
func (m *Model) startPlan() tea.Cmd {
	if m.course.File == "" {
		m.askStart("plan.toml")
		return nil
	}
	file := filepath.Clean(m.course.File)
	ext := filepath.Ext(file)
	base := file[:len(file)-len(ext)] + "-plan"
	names := []string{base + ext}
	for i := 2; i <= mostNames; i++ {
		names = append(names, fmt.Sprintf("%s-%d%s", base, i, ext))
	}
	return m.writeFirst(names)
}

func (m *Model) askStart(value string) {
	m.prompt = &prompt{text: "Write a first plan to which new file?", value: value, done: func(m *Model, name string) tea.Cmd {
		if name == "" {
			m.say(canvas.Caution, "! no plan was written: no name was given")
			return nil
		}
		return m.writeFirst([]string{name})
	}}
}

// writeFirst makes the first plan and writes it, in a command, to the first of the names that
// no file has yet.
func (m *Model) writeFirst(names []string) tea.Cmd {
	if m.starting {
		m.say(canvas.Quiet, "a first plan is being tried out already")
		return nil
	}
	m.starting = true
	c, t, create, first := m.course, m.teams[m.sides[m.active()].team], m.o.Create, m.o.first
	m.say(canvas.Quiet, "a first plan is being tried out; this takes a few seconds")
	return func() tea.Msg {
		data := plan.Format(first(c, t), c)
		msg := startedMsg{data: data, team: t}
		for _, msg.path = range names {
			if msg.plan, msg.err = plan.Parse(msg.path, data, c, t); msg.err != nil {
				return msg
			}
			if msg.err = create(msg.path, data); !errors.Is(msg.err, fs.ErrExist) {
				return msg
			}
		}
		return msg
	}
}

// started opens a first plan that was written, at the same course number.
func (m *Model) started(msg startedMsg) tea.Cmd {
	m.starting = false
	switch {
	case msg.plan == nil:
		m.say(canvas.Wrong, "! no plan was written: "+msg.err.Error())
		return nil
	case msg.err != nil:
		m.askStart(filepath.Base(msg.path))
		m.prompt.text = "Not written: " + msg.err.Error() + ". To which new file instead?"
		return nil
	}
	from, at := m.run(), m.at
	m.docs = append(m.docs, newDocument(PlanFile{Plan: msg.plan, Raw: msg.data}))
	m.mode, m.lit, m.fault, m.camera, m.play.on = rehearsing, 0, 0, camera{}, false
	m.sides[0].doc, m.sides[0].asSaved = len(m.docs)-1, false
	m.sides[1] = m.other(m.sides[0])
	m.at = joined(from, m.run(), at)
	m.say(canvas.Quiet, "a first plan was written to "+msg.path+"; alter it as you like")
	return tea.Batch(m.watch(), m.keepRunning())
}
