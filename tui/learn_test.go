package tui

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The drills open on the plan as it stands and leave the screen as it was; the size
// goes to both.
func TestLearningFromTheScreen(t *testing.T) {
	o, _ := practice(t)
	s := open(t, o, 80, 24)
	before := s.View()
	s.keys("v")
	require.NotNil(t, s.learning)
	assert.Contains(t, s.View(), "learn it by heart")
	s.keys("1")
	assert.Contains(t, s.View(), "what now?")
	s.send(tea.WindowSizeMsg{Width: 100, Height: 30})
	s.send(tea.WindowSizeMsg{Width: 80, Height: 24})
	s.keys("esc", "q")
	assert.Nil(t, s.learning)
	assert.Equal(t, before, s.View())
}
