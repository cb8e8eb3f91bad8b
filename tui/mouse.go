package tui

import (
	"cuewalk/tui/ring"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
)

// drag is a stand held by the mouse.
type drag struct {
	on     bool
	moved  bool // a version of the plan was made for it, which the next place replaces
	action int
}

func (m *Model) mouse(msg tea.MouseMsg) tea.Cmd {
	if m.prompt != nil {
		m.stale = false
		return nil
	}
	if m.page != noPage {
		if dir := wheel(msg); dir != 0 {
			m.scroll = max(m.scroll-3*dir, 0)
		}
		return nil
	}
	switch {
	case wheel(msg) != 0:
		return m.wheeled(msg, wheel(msg))
	case msg.Action == tea.MouseActionPress && msg.Button == tea.MouseButtonLeft:
		m.note = note{}
		return m.clicked(msg.X, msg.Y)
	case msg.Action == tea.MouseActionMotion && m.drag.on:
		return m.dragged(msg.X, msg.Y)
	case msg.Action == tea.MouseActionMotion && msg.Button == tea.MouseButtonLeft:
		return m.scrubbed(msg.X, msg.Y)
	case msg.Action == tea.MouseActionRelease && m.drag.on:
		m.drag = drag{}
		return m.keepRunning()
	}
	m.stale = false
	return nil
}

// wheel is +1 for a turn away from the user, -1 towards him, 0 for none.
func wheel(msg tea.MouseMsg) int {
	switch {
	case msg.Action != tea.MouseActionPress:
		return 0
	case msg.Button == tea.MouseButtonWheelUp:
		return 1
	case msg.Button == tea.MouseButtonWheelDown:
		return -1
	}
	return 0
}

// under is what was drawn last at a cell.
func (m *Model) under(x, y int) (place, bool) {
	for i := len(m.places) - 1; i >= 0; i-- {
		if m.places[i].holds(x, y) {
			return m.places[i], true
		}
	}
	return place{}, false
}

func (m *Model) wheeled(msg tea.MouseMsg, dir int) tea.Cmd {
	p, ok := m.under(msg.X, msg.Y)
	switch {
	case ok && p.kind == onRing && m.mode != comparing:
		m.zoomAt(dir, msg.X-p.x, msg.Y-p.y)
	case ok && p.kind == onField:
		m.alter.field = p.n
		return m.changeField(dir)
	case m.mode == judging:
		m.markChange(-dir)
	case ok && p.kind == onLeg:
		m.move(legStep(m.run(), m.at, -dir))
	default:
		m.move(stride(m.run(), m.at, -dir))
	}
	return nil
}

func (m *Model) clicked(x, y int) tea.Cmd {
	p, ok := m.under(x, y)
	if !ok {
		return nil
	}
	switch p.kind {
	case onChange:
		return m.takeChange(p.n)
	case onLeg:
		if m.mode == judging {
			m.mode = rehearsing
		}
		if at, ok := atNumber(m.run(), p.n); ok {
			m.move(at)
		}
	case onCue:
		m.toCue(p.n)
	case onField:
		m.alter.field = p.n
	case onSide:
		m.light(p.n)
	case onKey:
		return m.press(p.n)
	case onRing:
		return m.clickedRing(p, x, y)
	}
	return nil
}

// scrubbed moves along the axis with a button held over the legs.
func (m *Model) scrubbed(x, y int) tea.Cmd {
	p, ok := m.under(x, y)
	l, found := words.LegByNumber(m.run(), p.n)
	if !ok || p.kind != onLeg || !found {
		m.stale = false
		return nil
	}
	m.move(l.First + (l.Last-l.First)*(x-p.x)/max(p.w, 1))
	return nil
}

// press obeys a key of the footer.
func (m *Model) press(i int) tea.Cmd {
	if i < 0 || i >= len(m.keys) || m.keys[i].live != nil && !m.keys[i].live(m) {
		return nil
	}
	b := &m.keys[i]
	return b.do(m, 1, b.keys[0])
}

func (m *Model) light(side int) {
	if m.mode == comparing && m.lit != side {
		m.otherSide(1)
	}
}

// toCue goes to the moment of an action and opens it where one is open.
func (m *Model) toCue(action int) {
	if t, ok := timingOf(m.run(), action); action == 0 || ok && t.Sample >= 0 {
		m.move(max(t.Sample, 0))
	}
	if m.mode == altering {
		m.choose(action)
	}
}

func (m *Model) clickedRing(p place, x, y int) tea.Cmd {
	m.light(p.n)
	scene := ring.Scene{Setup: m.run().Setup, Camera: m.camera.last[p.n], Layers: ring.LegLayers()}
	if scene.Camera.W == 0 {
		return nil
	}
	obstacle, stand, _ := scene.At(x-p.x, y-p.y)
	switch {
	case stand >= 0:
		m.toCue(stand)
		if m.mode == rehearsing && !m.sides[0].AsSaved {
			m.drag = drag{on: true, action: stand}
		} else if m.mode == altering {
			m.choose(stand)
			m.drag = drag{on: true, action: stand}
		}
	case obstacle >= 0:
		m.toObstacle(obstacle)
	}
	return nil
}

// toObstacle goes to the next number at which the obstacle is taken.
func (m *Model) toObstacle(i int) {
	ns := m.s.Course().Numbers(i)
	if len(ns) == 0 {
		m.say(0, words.Obstacle(m.s.Course(), i)+" has no number on this course")
		return
	}
	r, to := m.run(), ns[0]
	if l := legIndex(r, m.at); l >= 0 {
		for k := len(ns) - 1; k >= 0; k-- {
			if ns[k] > r.Legs[l].Number {
				to = ns[k]
			}
		}
	}
	if at, ok := atNumber(r, to); ok {
		m.move(at)
	}
}

// dragged moves the stand that is held, to a tenth of a metre. However far it goes, undo
// brings it back in one step.
func (m *Model) dragged(x, y int) tea.Cmd {
	c := m.camera.last[0]
	p, ok := m.under(x, y)
	if !ok || p.kind != onRing || c.W == 0 || m.mode == comparing {
		m.stale = false
		return nil
	}
	if m.mode != altering {
		m.startAltering()
		m.choose(m.drag.action)
	}
	m.camera.own = &c // the view stays while something is held
	e := m.editing()
	to := m.s.Course().Units.Tenths(c.ToMap(x-p.x, y-p.y))
	if e.cue.Stand == to {
		return nil
	}
	e.cue.Stand, e.cue.HasStand = to, true
	d := m.doc()
	if !m.fits(e) {
		return nil
	}
	q := e.changedPlan()
	if m.drag.moved {
		old := m.run()
		d.Replace(q)
		m.at = joined(old, m.run(), m.at)
		return m.keepRunning()
	}
	m.drag.moved = true
	return m.apply(q, "drag the stand of "+words.CueName(e.action))
}
