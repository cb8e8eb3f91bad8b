package tui

import (
	"testing"

	"cuewalk/course/geom"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func (s *screen) click(x, y int) {
	s.send(tea.MouseMsg{X: x, Y: y, Action: tea.MouseActionPress, Button: tea.MouseButtonLeft})
}

func (s *screen) release(x, y int) {
	s.send(tea.MouseMsg{X: x, Y: y, Action: tea.MouseActionRelease, Button: tea.MouseButtonLeft})
}

// cell is where a place of the map is on the screen.
func (s *screen) cell(p geom.Point) (x, y int) {
	s.t.Helper()
	for _, at := range s.places {
		if at.kind == onRing {
			q := s.camera.last[at.n].ToView(p)
			require.True(s.t, q.X >= 0 && q.Y >= 0 && int(q.X) < at.w && int(q.Y) < at.h, "%v is in the picture", p)
			return at.x + int(q.X), at.y + int(q.Y)
		}
	}
	s.t.Fatal("no ring on the screen")
	return 0, 0
}

func (s *screen) leg() int { return s.run().Legs[legIndex(s.run(), s.at)].Number }

func TestClickObstacle(t *testing.T) {
	o, _ := practice(t)
	s := open(t, fixed(o), 120, 40)
	s.keys("home", "z")
	oak := s.s.Course().Obstacles[s.s.Course().Find("oak")].At
	s.click(s.cell(oak))
	assert.Equal(t, 4, s.leg())
	s.click(s.cell(oak))
	assert.Equal(t, 9, s.leg(), "an obstacle taken twice: the next of its numbers")
	s.click(s.cell(s.s.Course().Obstacles[s.s.Course().Find("lure")].At))
	assert.Contains(t, s.View(), "has no number")
}

func TestClickLegCueAndKey(t *testing.T) {
	o, _ := practice(t)
	s := open(t, fixed(o), 120, 40)
	for _, kind := range []placeKind{onLeg, onCue} {
		found := false
		for _, p := range append([]place(nil), s.places...) {
			if p.kind == kind && p.n == 3 {
				found = true
				s.click(p.x, p.y)
			}
		}
		assert.True(t, found, "there is a place to click")
	}
	assert.Equal(t, 3, cueAt(s.run(), s.at))
	for _, p := range s.places {
		if p.kind == onKey && s.Model.keys[p.n].foot == "alter" {
			s.click(p.x, p.y)
			break
		}
	}
	assert.Equal(t, altering, s.mode)
}

// A stand is dragged, dropped, and one undo brings it back.
func TestDragStand(t *testing.T) {
	o, _ := practice(t)
	s := open(t, o, 200, 60)
	s.keys("home", "z")
	from := s.doc().Plan().Cues[2].Stand
	x, y := s.cell(from)
	s.click(x, y)
	for dx := 1; dx <= 6; dx++ {
		s.send(tea.MouseMsg{X: x + dx, Y: y, Action: tea.MouseActionMotion, Button: tea.MouseButtonLeft})
	}
	s.release(x+6, y)
	to := s.doc().Plan().Cues[2].Stand
	want := 6 / s.camera.last[0].Scale
	assert.InDelta(t, want, from.Dist(to), 1/s.camera.last[0].Scale+.1, "six columns")
	assert.Equal(t, altering, s.mode)
	assert.Equal(t, 3, s.alter.action)
	s.keys("u")
	assert.Equal(t, from, s.doc().Plan().Cues[2].Stand)
	assert.False(t, s.doc().Altered())
}

func TestWheelZoomsWhereItPoints(t *testing.T) {
	o, _ := practice(t)
	s := open(t, fixed(o), 120, 40)
	oak := s.s.Course().Obstacles[s.s.Course().Find("oak")].At
	s.keys("home", "z")
	x, y := s.cell(oak)
	scale := s.camera.last[0].Scale
	s.send(tea.MouseMsg{X: x, Y: y, Action: tea.MouseActionPress, Button: tea.MouseButtonWheelUp})
	assert.InDelta(t, scale*zoomStep, s.camera.last[0].Scale, 1e-9)
	nx, ny := s.cell(oak)
	assert.InDelta(t, x, nx, 1)
	assert.InDelta(t, y, ny, 1)
	s.keys("esc")
	assert.Nil(t, s.camera.own)
}
