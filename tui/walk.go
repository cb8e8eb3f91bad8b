package tui

import (
	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/sim/reading"
	"cuewalk/tui/canvas"

	tea "github.com/charmbracelet/bubbletea"
)

// walk is a course read by one team, and the dog's best line through it as a run, so that
// the same keys step along it as along a rehearsal.
type walk struct {
	read  *reading.Reading
	run   *sim.Rehearsal
	traps [][]*reading.Trap // by leg, strongest first
}

// walked is the course as the team shown reads it.
func (m *Model) walked() *walk {
	t := m.team()
	if w := m.walks[t]; w != nil && w.read == m.s.Reading(t) {
		return w
	}
	r := m.s.Reading(t)
	w := &walk{read: r, traps: make([][]*reading.Trap, len(r.Legs))}
	for i := range r.Traps {
		if k := r.Traps[i].Leg - 1; k >= 0 && k < len(w.traps) {
			w.traps[k] = append(w.traps[k], &r.Traps[i])
		}
	}
	w.run = bestRun(w)
	if m.walks == nil {
		m.walks = map[*team.Team]*walk{}
	}
	m.walks[t] = w
	return w
}

// leg is the leg under the cursor as it was read; nil for none.
func (w *walk) leg(at int) *reading.Leg {
	if i := legIndex(w.run, at); i >= 0 && i < len(w.read.Legs) {
		return &w.read.Legs[i]
	}
	return nil
}

// trap is the trap chosen on leg number n; nil where there is none.
func (w *walk) trap(n, chosen int) *reading.Trap {
	if n < 1 || n > len(w.traps) || len(w.traps[n-1]) == 0 {
		return nil
	}
	ts := w.traps[n-1]
	return ts[chosen%len(ts)]
}

// startWalking reads the course without a plan, at the same course number.
func (m *Model) startWalking() tea.Cmd {
	from, at := m.run(), m.at
	m.play.on = false
	m.mode, m.fault, m.camera = walking, 0, camera{}
	m.at = joined(from, m.run(), at)
	return m.keepRunning()
}

// leaveWalk goes back to the plan, at the same course number.
func (m *Model) leaveWalk() tea.Cmd {
	from, at := m.run(), m.at
	m.play.on = false
	m.mode, m.fault, m.camera = rehearsing, 0, camera{}
	m.at = joined(from, m.run(), at)
	return m.keepRunning()
}

func inWalk(m *Model) bool   { return m.mode == walking }
func walkBack(m *Model) bool { return m.mode == walking && len(m.s.Docs()) > 0 }

// planned reports whether keys act on a plan.
func planned(m *Model) bool { return m.mode != walking }

// both is live where all of its parts are.
func both(parts ...func(m *Model) bool) func(m *Model) bool {
	return func(m *Model) bool {
		for _, p := range parts {
			if !p(m) {
				return false
			}
		}
		return true
	}
}

func walkKeys() keyMap {
	const g = "Reading the course"
	return keyMap{
		{group: g, keys: []string{"s"}, label: "s", what: "start a plan: a first one, in a new file, to be altered", foot: "start a plan", walkRank: 3, live: inWalk, do: act((*Model).startPlan)},
		{group: g, back: []string{"shift+tab"}, keys: []string{"tab"}, label: "tab", what: "the next trap of this leg, with the places that hide it", foot: "trap", walkRank: 4, live: inWalk, do: turn((*Model).nextFault)},
		{group: g, keys: []string{"e"}, label: "e", what: "everything about this leg", foot: "all of this leg", walkRank: 6, live: inWalk, do: plain(func(m *Model) { m.openPage(legPage) })},
		{group: g, keys: []string{"r"}, label: "r", what: "findings of the rulebook, cautions, all traps", foot: "rules", walkRank: 5, live: inWalk, do: plain(func(m *Model) { m.openPage(coursePage) })},
		{group: g, keys: []string{"w"}, label: "w", what: "back to the plan", live: walkBack, do: act((*Model).leaveWalk)},
	}
}

// trapRole is how loud a pull is.
func trapRole(pull float64) canvas.Role {
	if pull >= .1 {
		return canvas.Wrong
	}
	return canvas.Caution
}
