package tui

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"cuewalk/course/tomlfile"
	"cuewalk/sim"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
)

// spot is a place on the axis of a run, to be found again in another run.
type spot struct {
	run *sim.Rehearsal
	at  int
}

func (m *Model) place() spot { return spot{m.run(), m.at} }

func (p spot) in(r *sim.Rehearsal) int { return joined(p.run, r, p.at) }

func (m *Model) takeOutside() tea.Cmd {
	was := m.place()
	m.doc().TakeOutside()
	m.at = was.in(m.run())
	return m.keepRunning()
}

// brokenText is the first problem of the files that could not be read again.
func (m *Model) brokenText() string {
	for _, f := range m.s.Files() {
		err, ok := m.s.Broken()[f]
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
