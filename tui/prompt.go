package tui

import (
	"strings"
	"unicode/utf8"

	"cuewalk/tui/canvas"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
)

// prompt is a question that takes all keys until it is answered. Esc always leaves
// everything as it is.
type prompt struct {
	text    string
	choices []choice
	// With done set it asks for a line of text instead.
	value string
	done  func(m *Model, value string) tea.Cmd
}

// choice is one answer: its key, what it does in a word or two, and the deed.
type choice struct {
	key, what string
	do        func(m *Model) tea.Cmd
}

// longest text that can be typed.
const longestLine = 200

func (p *prompt) key(m *Model, msg tea.KeyMsg) tea.Cmd {
	k := msg.String()
	if k == "esc" || k == "ctrl+c" {
		m.prompt = nil
		return nil
	}
	if p.done != nil {
		return p.edit(m, msg)
	}
	for _, c := range p.choices {
		if c.key == k {
			m.prompt = nil
			return c.do(m)
		}
	}
	m.stale = false
	return nil
}

func (p *prompt) edit(m *Model, msg tea.KeyMsg) tea.Cmd {
	switch msg.Type {
	case tea.KeyEnter:
		m.prompt = nil
		return p.done(m, strings.TrimSpace(p.value))
	case tea.KeyBackspace, tea.KeyDelete:
		_, n := utf8.DecodeLastRuneInString(p.value)
		p.value = p.value[:len(p.value)-n]
	case tea.KeyCtrlU:
		p.value = ""
	case tea.KeyRunes, tea.KeySpace:
		if !msg.Alt && len(p.value)+len(msg.Runes) <= longestLine {
			p.value += string(msg.Runes)
		}
	}
	return nil
}

// rows is how many rows the prompt needs in w cells.
func (p *prompt) rows(w int) int {
	if p.done != nil {
		return 2
	}
	return 1 + min(canvas.Lines(words.Safe(p.text), w), 3)
}

func (p *prompt) draw(v canvas.View) {
	w, h := v.Size()
	v.Fill(0, 0, w, h, ' ', canvas.Plain)
	w-- // the last cell of the screen stays empty
	if p.done != nil {
		v.TextFit(0, 0, w, p.text+"   enter done   esc back", canvas.Plain)
		x := v.Text(0, 1, "> ", canvas.Key)
		value := p.value
		for canvas.Width(value) > w-x-1 {
			_, n := utf8.DecodeRuneInString(value)
			value = value[n:]
		}
		x = v.Text(x, 1, value, canvas.Plain|canvas.Strong)
		v.Text(x, 1, "_", canvas.Chosen)
		return
	}
	v.Sub(0, 0, w, h-1).Wrap(words.Safe(p.text), canvas.Caution)
	x := 0
	for _, c := range append(p.choices, choice{key: "esc", what: "back"}) {
		x = v.Text(x, h-1, c.key, canvas.Key)
		x = v.Text(x+1, h-1, c.what, canvas.Plain) + 3
	}
}
