package tui

import (
	"strings"
	"testing"

	"cuewalk/tui/verdict"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// unwrapped is a frame as running text.
func unwrapped(frame string) string { return strings.Join(strings.Fields(frame), " ") }

// The opening says how often it is clean, where it goes wrong, what happens there with its
// chance, and what to change.
func TestOpensOnTheVerdict(t *testing.T) {
	o, _ := practice(t)
	s := opening(t, fixed(o), 80, 24)
	s.finish(s.Init())
	d := s.verdict()
	require.Equal(t, verdict.Known, d.Runs)
	require.NotEmpty(t, d.Changes)
	text := unwrapped(s.View())
	for _, want := range []string{d.Clean, d.Where, d.Happens[0].What, d.Happens[1].Chance, "What to change"} {
		assert.Contains(t, text, want)
	}
	assert.Equal(t, d.Leg, s.run().Worst(1)[0])
	golden(t, "verdict-80x24", s.View())
}

// Before the runs are made nothing is said that may change: a range, and no leg.
func TestVerdictIsHeldBack(t *testing.T) {
	o, _ := practice(t)
	o.Runs = 2000
	s := opening(t, o, 80, 24)
	d := s.verdict()
	assert.NotEqual(t, verdict.Known, d.Runs)
	assert.Zero(t, d.Leg)
	assert.NotContains(t, s.View(), "It goes wrong most")
}

// Enter takes the first change, a digit another, u takes it back.
func TestTakeAChange(t *testing.T) {
	o, _ := practice(t)
	s := opening(t, fixed(o), 80, 24)
	s.finish(s.Init())
	before, cs := s.doc().Plan(), s.verdict().Changes
	require.GreaterOrEqual(t, len(cs), 2)
	s.keys("enter")
	assert.Same(t, cs[0].Plan, s.doc().Plan())
	assert.Contains(t, s.View(), "u takes it back")
	s.keys("u")
	assert.Same(t, before, s.doc().Plan())
	s.keys("2")
	assert.Same(t, cs[1].Plan, s.doc().Plan())
	s.keys("u", "down", "enter")
	assert.Same(t, cs[1].Plan, s.doc().Plan())
	s.keys("u", "9")
	assert.Same(t, before, s.doc().Plan())
	assert.Contains(t, s.View(), "no change 9")
	for y, line := range strings.Split(s.View(), "\n") {
		if strings.Contains(line, cs[1].What[:20]) {
			s.send(tea.MouseMsg{X: 6, Y: y, Button: tea.MouseButtonLeft, Action: tea.MouseActionPress})
		}
	}
	assert.Same(t, cs[1].Plan, s.doc().Plan(), "a click takes it")
}

func TestFromTheVerdictToTheLegAndBack(t *testing.T) {
	o, _ := practice(t)
	s := opening(t, fixed(o), 80, 24)
	s.finish(s.Init())
	n := s.verdict().Leg
	s.keys("right")
	assert.Equal(t, rehearsing, s.mode)
	assert.Equal(t, n, s.leg())
	s.keys("down", "esc")
	assert.Equal(t, judging, s.mode)
	s.keys("esc")
	assert.Contains(t, s.View(), "esc does nothing here")
}

// A key that does nothing says so, and only for a moment.
func TestIdleKeySaysSo(t *testing.T) {
	o, _ := practice(t)
	s := opening(t, fixed(o), 80, 24)
	_, cmd := s.Update(keyOf("€"))
	assert.Contains(t, s.View(), "€ does nothing here")
	s.send(cmd())
	assert.NotContains(t, s.View(), "does nothing here")
	s.keys("€")
	_, late := s.Update(keyOf("!"))
	s.keys("b")
	s.send(late())
	assert.NotContains(t, s.View(), "does nothing here")
}

// Whatever the size, what the verdict says keeps to its window.
func TestVerdictSizes(t *testing.T) {
	o, _ := practice(t)
	for _, size := range [][2]int{{40, 12}, {41, 13}, {60, 16}, {72, 20}, {80, 24}, {119, 31}, {120, 32}, {120, 40}, {200, 60}, {300, 100}} {
		s := opening(t, fixed(o), size[0], size[1])
		s.finish(s.Init())
		wellFormed(t, s.View(), size[0], size[1])
		assert.Contains(t, unwrapped(s.View()), words.Share(s.run().Clean, "runs"), "%v", size)
	}
}
