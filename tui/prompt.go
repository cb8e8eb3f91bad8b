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
	listed  bool // a row for each choice, with its effect at the end
	// With done set it asks for a line of text instead.
	value string
	done  func(m *Model, value string) tea.Cmd
}

// choice is one answer: its key, what it does in a word or two, what comes of it where that
// is known, and the deed.
type choice struct {
	key, what, effect string
	do                func(m *Model) tea.Cmd
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
	n := 1 + min(canvas.Lines(words.Safe(p.text), w), 3)
	if p.listed {
		n += len(p.choices)
	}
	return n
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
	if p.listed {
		p.drawList(v, w)
		return
	}
	v.Sub(0, 0, w, h-1).Wrap(words.Safe(p.text), canvas.Caution)
	x := 0
	for _, c := range append(p.choices, choice{key: "esc", what: "back"}) {
		x = v.Text(x, h-1, c.key, canvas.Key)
		x = v.Text(x+1, h-1, c.what, canvas.Plain) + 3
	}
}

// drawList draws the choices one below the other, their effects at the end of the rows.
func (p *prompt) drawList(v canvas.View, w int) {
	_, h := v.Size()
	y := max(h-1-len(p.choices), 0)
	v.Sub(0, 0, w, y).Wrap(words.Safe(p.text), canvas.Plain|canvas.Strong)
	for _, c := range p.choices {
		effect := c.effect
		if w < 64 { // its first part is what counts
			effect, _, _ = strings.Cut(effect, ",")
		}
		end := v.TextEnd(w, y, effect, canvas.Plain|canvas.Strong)
		x := v.Text(0, y, c.key, canvas.Key)
		v.TextFit(x+1, y, end-x-2, c.what, canvas.Handler)
		y++
	}
	x := v.TextFit(0, y, w, p.choices[0].key+" to "+p.choices[len(p.choices)-1].key, canvas.Key)
	x = v.Text(x+1, y, "take it", canvas.Plain) + 3
	x = v.Text(x, y, "esc", canvas.Key)
	v.Text(x+1, y, "back", canvas.Plain)
}
