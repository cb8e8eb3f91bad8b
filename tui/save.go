package tui

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"

	"cuewalk/plan"
	"cuewalk/tui/canvas"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
)

// writtenMsg says what became of a save.
type writtenMsg struct {
	doc     *document
	plan    *plan.Plan // the version written
	path    string
	data    []byte
	outside bool // not written: the file is no longer as it was read
	err     error
	quit    bool // the program was to be left after it
}

// save writes the plan to the file it came from, every byte kept but for what changed.
func (m *Model) save() tea.Cmd { return m.saveDoc(m.doc(), false) }

func (m *Model) saveDoc(d *document, quit bool) tea.Cmd {
	if d.file == "" {
		m.askName(d, quit)
		return nil
	}
	if faults := m.faultsOf(d.plan()); len(faults) > 0 {
		m.prompt = &prompt{text: "This plan will not be read again as it is: " + faults[0].String() + ".", choices: []choice{
			{"s", "save anyway", "", func(m *Model) tea.Cmd { return m.write(d, d.file, false, false, quit) }}}}
		return nil
	}
	return m.write(d, d.file, false, false, quit)
}

// faultsOf checks a plan with the team it is shown with.
func (m *Model) faultsOf(p *plan.Plan) []plan.Fault {
	return p.Check(m.course, m.teams[m.sides[m.active()].team])
}

func (m *Model) saveAs() tea.Cmd {
	m.askName(m.doc(), false)
	return nil
}

func (m *Model) askName(d *document, quit bool) {
	m.prompt = &prompt{text: "Save as which new file?", value: newName(d.file, m.taken), done: func(m *Model, name string) tea.Cmd {
		if name == "" {
			m.say(canvas.Caution, "! not saved: no name was given")
			return nil
		}
		return m.write(d, name, true, false, quit)
	}}
}

// newName proposes a name beside the file: plan.toml gives plan-2.toml.
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

func (m *Model) taken(name string) bool {
	for _, d := range m.docs {
		if d.file == name {
			return true
		}
	}
	return false
}

// write saves the version shown of d in a command. Unless told to write over it, a file that
// is no longer as it was read stays as it is.
func (m *Model) write(d *document, path string, create, over, quit bool) tea.Cmd {
	p := d.plan()
	data, err := d.contents(p, m.course)
	if err != nil {
		m.say(canvas.Wrong, "! not saved: "+err.Error())
		return nil
	}
	before, o := d.raw, m.o
	return func() tea.Msg {
		msg := writtenMsg{doc: d, plan: p, path: path, data: data, quit: quit}
		switch {
		case create:
			msg.err = o.Create(path, data)
		case over:
			msg.err = o.Save(path, data)
		default:
			now, err := o.Read(path)
			switch {
			case err != nil && !os.IsNotExist(err):
				msg.err = err
			case err == nil && before != nil && !bytes.Equal(now, before):
				msg.outside = true
			default:
				msg.err = o.Save(path, data)
			}
		}
		return msg
	}
}

func (m *Model) written(msg writtenMsg) tea.Cmd {
	d := msg.doc
	switch {
	case msg.outside:
		m.prompt = &prompt{text: filepath.Base(d.file) + " was changed outside since it was read.", choices: []choice{
			{"o", "write over it", "", func(m *Model) tea.Cmd { return m.write(d, d.file, false, true, msg.quit) }},
			{"n", "new file", "", func(m *Model) tea.Cmd { m.askName(d, msg.quit); return nil }},
		}}
		return nil
	case msg.err != nil:
		m.say(canvas.Wrong, "! not saved: "+msg.err.Error())
		return nil
	}
	moved := d.file != msg.path
	d.file, d.raw, d.disk, d.outside = msg.path, msg.data, msg.plan, nil
	delete(m.broken, filepath.Clean(msg.path))
	m.say(canvas.Quiet, "saved to "+msg.path)
	if msg.quit {
		return m.quit()
	}
	if moved {
		return m.watch()
	}
	return nil
}

// askBeforeQuit asks about d, which is not saved; the next one is asked about after it.
func (m *Model) askBeforeQuit(d *document) {
	m.prompt = &prompt{text: fmt.Sprintf("Changes to %q are not saved.", words.Safe(d.plan().Name)), choices: []choice{
		{"s", "save", "", func(m *Model) tea.Cmd { return m.saveDoc(d, true) }},
		{"d", "drop them", "", func(m *Model) tea.Cmd {
			d.dropped = true
			return m.quit()
		}},
	}}
}
