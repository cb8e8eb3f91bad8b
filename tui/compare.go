package tui

import (
	"math"

	"cuewalk/sim"
	"cuewalk/tui/canvas"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
)

// other is what to compare a with when nothing was chosen: the next plan, else the next team,
// else the same plan as its file has it.
func (m *Model) other(a side) side {
	switch {
	case len(m.s.Docs()) > 1:
		return side{Doc: (a.Doc + 1) % len(m.s.Docs()), Team: a.Team}
	case len(m.s.Teams()) > 1:
		return side{Doc: a.Doc, Team: (a.Team + 1) % len(m.s.Teams())}
	}
	return side{Doc: a.Doc, Team: a.Team, AsSaved: true}
}

func (m *Model) compare() tea.Cmd {
	if m.sides[1] == m.sides[0] || m.sides[1].AsSaved {
		m.sides[1] = m.other(m.sides[0])
	}
	if m.question(0) == m.question(1) {
		m.say(canvas.Caution, "! nothing to compare with: open a second plan or team, or alter this one")
		return nil
	}
	m.play.on = false
	m.mode, m.lit, m.fault = comparing, 0, 0
	m.alter.base, m.camera.own = nil, nil
	return m.keepRunning()
}

// leaveCompare goes on with the plan that was lit.
func (m *Model) leaveCompare() tea.Cmd {
	if m.lit == 1 && !m.sides[1].AsSaved {
		m.sides[0], m.sides[1] = m.sides[1], m.sides[0]
	} else if m.lit == 1 {
		m.at = joined(m.s.Ask(m.question(1)), m.s.Ask(m.question(0)), m.at)
	}
	m.mode, m.lit = rehearsing, 0
	return m.keepRunning()
}

// otherSide lights the other plan; the axis goes on at the same course number.
func (m *Model) otherSide(int) {
	from := m.run()
	m.lit = 1 - m.lit
	m.at, m.fault = joined(from, m.run(), m.at), 0
}

func (m *Model) nextPlan(dir int) {
	s := &m.sides[m.active()]
	s.Doc = (s.Doc + dir + len(m.s.Docs())) % len(m.s.Docs())
	m.switched()
}

func (m *Model) nextTeam(dir int) {
	s := &m.sides[m.active()]
	s.Team = (s.Team + dir + len(m.s.Teams())) % len(m.s.Teams())
	m.switched()
}

// sideBefore remembers where the axis was, for a change of plan or team.
func (m *Model) switched() {
	s := &m.sides[m.active()]
	s.AsSaved = false
	m.alter.base = nil
	m.at = within(m.run(), m.at)
	if m.mode == altering {
		m.choose(cueAt(m.run(), m.at))
	}
}

// differs reports whether two chances of being clean differ by more than the luck of the
// runs: the normal test on two proportions at 5 %, with the spread of each taken from its 95 %
// interval. Where no runs were made the figures carry no luck, and two points count.
func differs(a, aLow, aHigh, b, bLow, bHigh float64) bool {
	if aLow == aHigh && bLow == bHigh {
		return math.Abs(a-b) >= .02
	}
	const z = 1.96
	sa, sb := (aHigh-aLow)/(2*z), (bHigh-bLow)/(2*z)
	return math.Abs(a-b) > z*math.Hypot(sa, sb)
}

// legsDiffer reports whether two legs differ by more than luck, and by what can be seen.
func legsDiffer(a, b sim.Leg) bool {
	return differs(a.Clean, a.Low, a.High, b.Clean, b.Low, b.High) && words.Points(b.Clean-a.Clean) != words.Points(0)
}
