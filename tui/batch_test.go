package tui

import (
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRunsFollowAChange(t *testing.T) {
	o, _ := practice(t)
	o.Runs = 210
	s := open(t, o, 120, 40)
	s.finish(s.Init())
	assert.Equal(t, 210, s.run().Runs)
	assert.False(t, s.s.Running())
	s.keys("5", "enter", "a", "left")
	assert.Equal(t, 210, s.run().Runs, "the altered plan has runs of its own")
	assert.Less(t, s.run().Low, s.run().High)
}

// Keys are answered while runs go on: nothing waits for a series.
func TestKeysStayLive(t *testing.T) {
	o, _ := practice(t)
	o.Runs = 1 << 20
	s := open(t, o, 120, 40)
	s.Init()
	start := time.Now()
	for range 20 {
		s.Update(keyOf("right"))
		s.View()
	}
	assert.Less(t, time.Since(start), 2*time.Second, "twenty steps beside a million runs")
	s.s.Close()
}

func TestPlay(t *testing.T) {
	o, _ := practice(t)
	s := open(t, o, 120, 40)
	s.keys("home", " ")
	require.True(t, s.play.on)
	beat := func(ms int) {
		s.send(tickMsg{s.play.number, time.Unix(1, 0).Add(time.Duration(ms) * time.Millisecond)})
	}
	beat(0)
	from := s.seconds()
	for ms := 100; ms <= 1000; ms += 100 {
		beat(ms)
	}
	assert.InDelta(t, 1, s.seconds()-from, .15, "a second of the run in a second")
	s.keys("<", "<")
	from = s.seconds()
	for ms := 1100; ms <= 3000; ms += 100 {
		beat(ms)
	}
	assert.InDelta(t, .5, s.seconds()-from, .15, "quarter speed")
	at := s.at
	s.send(tickMsg{s.play.number - 1, time.Unix(9, 0)})
	assert.Equal(t, at, s.at, "a beat of an earlier play")
	s.send(tea.WindowSizeMsg{Width: 90, Height: 30})
	assert.True(t, s.play.on, "a resize does not stop it")
	s.keys(" ")
	assert.False(t, s.play.on)
	s.keys("end", " ")
	assert.Zero(t, s.at, "from the end it plays from the start")
}

// View is kept until something changes.
func TestViewIsKept(t *testing.T) {
	o, _ := practice(t)
	s := open(t, o, 120, 40)
	s.View()
	s.Update(tea.MouseMsg{X: 3, Y: 3, Action: tea.MouseActionMotion})
	assert.False(t, s.stale, "a mouse that only moves changes nothing")
	s.Update(keyOf("right"))
	assert.True(t, s.stale)
}
