package tui

import (
	"fmt"
	"path/filepath"

	"cuewalk/plan"
	"cuewalk/tui/canvas"
	"cuewalk/tui/session"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
)

// save writes the plan to the file it came from, every byte kept but for what changed.
func (m *Model) save() tea.Cmd { return m.saveDoc(m.doc()) }

func (m *Model) saveDoc(d *session.Document) tea.Cmd {
	if d.File() == "" {
		m.askName(d)
		return nil
	}
	if faults := m.faultsOf(d.Plan()); len(faults) > 0 {
		m.prompt = &prompt{text: "This plan will not be read again as it is: " + faults[0].String() + ".", choices: []choice{
			{"s", "save anyway", "", func(m *Model) tea.Cmd { return m.write(d, d.File(), session.Keep) }}}}
		return nil
	}
	return m.write(d, d.File(), session.Keep)
}

// faultsOf checks a plan with the team it is shown with.
func (m *Model) faultsOf(p *plan.Plan) []plan.Fault { return m.s.Faults(p, m.team()) }

func (m *Model) saveAs() tea.Cmd {
	m.quitting = false
	m.askName(m.doc())
	return nil
}

func (m *Model) askName(d *session.Document) {
	m.prompt = &prompt{text: "Save as which new file?", value: m.s.NewName(d.File()), done: func(m *Model, name string) tea.Cmd {
		if name == "" {
			m.say(canvas.Caution, "! not saved: no name was given")
			return nil
		}
		return m.write(d, name, session.Fresh)
	}}
}

// write saves the version shown of d.
func (m *Model) write(d *session.Document, path string, how session.Writing) tea.Cmd {
	t, err := m.s.Write(d, path, how)
	if err != nil {
		m.say(canvas.Wrong, "! not saved: "+err.Error())
	}
	return command(t)
}

func (m *Model) notWritten(n session.NotWritten) {
	if !n.Outside {
		m.quitting = false
		m.say(canvas.Wrong, "! not saved: "+n.Err.Error())
		return
	}
	m.prompt = &prompt{text: filepath.Base(n.Doc.File()) + " was changed outside since it was read.", choices: []choice{
		{"o", "write over it", "", func(m *Model) tea.Cmd { return m.write(n.Doc, n.Doc.File(), session.Over) }},
		{"n", "new file", "", func(m *Model) tea.Cmd { m.askName(n.Doc); return nil }},
	}}
}

func (m *Model) written(n session.Written) tea.Cmd {
	m.say(canvas.Quiet, "saved to "+n.Path)
	if m.quitting {
		return m.quit()
	}
	return nil
}

// askBeforeQuit asks about d, which is not saved; the next one is asked about after it.
func (m *Model) askBeforeQuit(d *session.Document) {
	m.prompt = &prompt{text: fmt.Sprintf("Changes to %q are not saved.", words.Safe(d.Plan().Name)), choices: []choice{
		{"s", "save", "", func(m *Model) tea.Cmd {
			m.quitting = true
			return m.saveDoc(d)
		}},
		{"d", "drop them", "", func(m *Model) tea.Cmd {
			d.Drop()
			return m.quit()
		}},
	}}
}
