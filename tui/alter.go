package tui

import (
	"fmt"
	"slices"
	"strings"

	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/tui/canvas"
	"cuewalk/tui/session"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
)

// alter is the cue that is open and the field under the cursor.
type alter struct {
	action int // index in the actions; 0 is the lead-out
	field  int
	base   *sim.Rehearsal // what it was before the changes; nil before the first
}

func alterKeys() keyMap {
	const g = "Altering a cue"
	return keyMap{
		{group: g, back: []string{"left", "h"}, keys: []string{"right", "l"}, label: "left right", fine: "← →", what: "change the value", foot: "change", rank: 1, live: inAlter,
			do: func(m *Model, dir int, _ string) tea.Cmd { return m.changeField(dir) }},
		{group: g, back: []string{"up", "k", "shift+tab"}, keys: []string{"down", "j", "tab"}, label: "up down", fine: "↑ ↓", what: "another field", foot: "field", rank: 2, live: inAlter, do: turn((*Model).otherField)},
		{group: g, back: []string{"[", "shift+left", "pgup"}, keys: []string{"]", "shift+right", "pgdown"}, label: "[ ]", what: "another cue (also shift with left, right)", foot: "cue", rank: 5, live: inAlter, do: turn((*Model).otherCue)},
		{group: g, keys: []string{"enter"}, label: "enter", what: "type the value as a plan file has it", foot: "type", rank: 8, live: func(m *Model) bool { return inAlter(m) && !typing(m) }, do: plain((*Model).typeField)},
		{group: g, keys: []string{"x", "backspace", "delete"}, label: "x", what: "leave the field as it was before the cue", live: func(m *Model) bool { return inAlter(m) && !typing(m) }, do: act((*Model).clearField)},
		{group: g, keys: []string{"i", "insert"}, label: "i", what: "add a cue at this moment", foot: "add", rank: 6, live: inAlter, do: act((*Model).addCue)},
		{group: g, keys: []string{"d"}, label: "d", what: "delete the cue; u brings it back", live: func(m *Model) bool { return inAlter(m) && m.alter.action > 0 }, do: act((*Model).deleteCue)},
	}
}

func (m *Model) startAltering() {
	if m.mode == comparing {
		m.sides[0] = m.sides[m.lit]
		m.mode = rehearsing
	}
	if m.mode == judging {
		m.toWorst()
	}
	if m.sides[0].AsSaved {
		m.say(canvas.Caution, "! this is the plan as saved: tab to the other side to alter")
		return
	}
	m.play.on = false
	m.mode = altering
	m.alter = alter{}
	m.choose(cueAt(m.run(), m.at))
}

// choose opens another cue; the old chances are let go.
func (m *Model) choose(action int) {
	was := m.alter.action
	m.alter.action = min(max(action, 0), len(m.run().Setup.Actions)-1)
	switch {
	case m.alter.action == 0:
		m.alter.field = 0
	case was == 0:
		m.alter.field = shiftField
	}
	m.alter.base = nil
}

// shiftField is the field that one comes to alter most: how many strides before or after.
const shiftField = 2

func (m *Model) otherCue(dir int) {
	m.choose(m.alter.action + dir)
	if t, ok := timingOf(m.run(), m.alter.action); m.alter.action == 0 || ok && t.Sample >= 0 {
		m.move(max(t.Sample, 0))
	}
}

func (m *Model) fields() []field {
	if m.alter.action == 0 {
		return standFields
	}
	return cueFields
}

func (m *Model) otherField(dir int) {
	n := len(m.fields())
	m.alter.field = (m.alter.field + dir + n) % n
}

// editing opens the chosen cue for a change.
func (m *Model) editing() *editing {
	p := m.doc().Plan()
	r := m.run()
	e := &editing{m: m, action: m.alter.action}
	if e.action > 0 && e.action <= len(p.Cues) {
		e.cue = p.Cues[e.action-1]
	} else {
		e.cue = plan.Cue{Stand: p.LeadOut, HasStand: true}
	}
	if e.action < len(r.Setup.Actions) {
		e.solved = r.Setup.Actions[e.action]
	}
	e.here = p.LeadOut
	if t, ok := timingOf(r, e.action); ok && t.Sample >= 0 {
		e.here = t.Where
	}
	return e
}

// changedPlan is the plan with the edited cue in its place.
func (e *editing) changedPlan() *plan.Plan {
	p := e.m.doc().Plan()
	if e.action == 0 {
		q := p.WithLeadOut(e.cue.Stand)
		return &q
	}
	q := p.WithCue(e.action-1, e.cue)
	return &q
}

// fits reports whether the handler can be where the cue wants him.
func (m *Model) fits(e *editing) bool { return len(session.Hard(m.faultsOf(e.changedPlan()))) == 0 }

func (m *Model) changeField(dir int) tea.Cmd {
	f, e := &m.fields()[m.alter.field], m.editing()
	if !f.step(e, dir) {
		m.say(canvas.Quiet, "that is as far as it goes")
		return nil
	}
	return m.apply(e.changedPlan(), f.what+" "+words.CueName(e.action))
}

func (m *Model) clearField() tea.Cmd {
	f, e := &m.fields()[m.alter.field], m.editing()
	if f.clear == nil || e.action == 0 {
		m.say(canvas.Quiet, "this must be said")
		return nil
	}
	f.clear(e)
	return m.apply(e.changedPlan(), f.what+" "+words.CueName(e.action))
}

func (m *Model) typeField() {
	f, e := &m.fields()[m.alter.field], m.editing()
	value := strings.Trim(f.show(e), `"`)
	switch {
	case strings.HasPrefix(value, before) || value == "none" || value == "by the cross":
		value = ""
	case strings.HasPrefix(f.what, "move the stand"):
		value = strings.Trim(words.Place(m.s.Course().Units, e.cue.Stand), "()")
	case strings.Contains(f.what, "moment") || f.what == "shift":
		value = e.cue.When.String()
	}
	m.prompt = &prompt{text: strings.ToUpper(f.what[:1]) + f.what[1:] + " " + words.CueName(e.action) + ":", value: value,
		done: func(m *Model, s string) tea.Cmd {
			e := m.editing()
			if s == "" && f.clear != nil && e.action > 0 {
				f.clear(e)
			} else if err := f.set(e, s); err != nil {
				m.say(canvas.Caution, "! "+err.Error())
				return nil
			}
			return m.apply(e.changedPlan(), f.what+" "+words.CueName(e.action))
		}}
}

// apply makes p the plan, unless nobody could run it; then it says why.
func (m *Model) apply(p *plan.Plan, what string) tea.Cmd {
	faults := m.faultsOf(p)
	if h := session.Hard(faults); len(h) > 0 {
		m.say(canvas.Caution, "! "+h[0].String())
		return nil
	}
	if len(faults) > 0 {
		m.say(canvas.Caution, "! "+faults[0].String())
	}
	return m.shift(func(d *session.Document) { d.Push(p, what) })
}

// shift changes the document shown and keeps the place on the axis.
func (m *Model) shift(change func(d *session.Document)) tea.Cmd {
	old := m.run()
	if m.alter.base == nil {
		m.alter.base = old
	}
	change(m.doc())
	m.at = joined(old, m.run(), m.at)
	m.alter.action = min(m.alter.action, len(m.run().Setup.Actions)-1)
	m.alter.field = min(m.alter.field, len(m.fields())-1)
	return tea.Batch(command(m.s.Resume()), m.keepRunning())
}

// before is the chance of the leg to number n before the changes, where it differs.
func (m *Model) before(n int) (float64, bool) {
	if m.alter.base == nil || m.mode == comparing {
		return 0, false
	}
	was, ok := words.LegByNumber(m.alter.base, n)
	now, ok2 := words.LegByNumber(m.run(), n)
	return was.Clean, ok && ok2 && words.Percent(was.Clean) != words.Percent(now.Clean)
}

// addCue adds an empty cue at the moment under the cursor, or as soon after it as there is
// room, and opens it.
func (m *Model) addCue() tea.Cmd {
	p, r := m.doc().Plan(), m.run()
	w := momentAt(r, m.s.Course(), m.at)
	for range 40 {
		q, i := p.Insert(plan.Cue{When: w})
		if len(session.Hard(m.faultsOf(&q))) == 0 {
			m.alter.action, m.alter.field, m.alter.base = i+1, shiftField, nil
			return m.apply(&q, fmt.Sprintf("add cue %d", i+1))
		}
		w.Strides += .5
	}
	m.say(canvas.Caution, "! there is no room for a cue here")
	return nil
}

// momentAt is the moment of the run nearest to a place on the axis, in strides before the next
// take-off or entry, or after the last landing or exit where that is nearer.
func momentAt(r *sim.Rehearsal, c *course.Course, at int) plan.Moment {
	i := legIndex(r, at)
	if i < 0 {
		return plan.Moment{Event: plan.Release}
	}
	leg := r.Legs[i]
	before, since := 0, 0
	for _, s := range r.Trace.Strides {
		if s > at && s <= leg.Last {
			before++
		}
		if s > leg.First && s <= at {
			since++
		}
	}
	if since < before && leg.Number == 1 {
		return plan.Moment{Event: plan.Release, Strides: float64(since)}
	}
	if since < before {
		n := leg.Number - 1
		return plan.Moment{Number: n, Event: eventOf(c.Obstacles[c.Order[n-1].Obstacle].Kind, true), Strides: float64(max(since-1, 0))}
	}
	n := leg.Number
	return plan.Moment{Number: n, Event: eventOf(c.Obstacles[c.Order[n-1].Obstacle].Kind, false), Strides: -float64(before)}
}

func (m *Model) deleteCue() tea.Cmd {
	p := m.doc().Plan()
	i := m.alter.action - 1
	if i < 0 || i >= len(p.Cues) {
		return nil
	}
	q := p.Delete(i)
	return m.apply(&q, fmt.Sprintf("delete cue %d", i+1))
}

func (m *Model) undo() tea.Cmd { return m.goVersion(-1, "undone: ") }
func (m *Model) redo() tea.Cmd { return m.goVersion(1, "done again: ") }

func (m *Model) goVersion(dir int, said string) tea.Cmd {
	cmd := m.shift(func(d *session.Document) {
		if what := d.Step(dir); what != "" {
			m.say(canvas.Quiet, said+what)
		}
	})
	return cmd
}

// wordsKnown lists what the handler can say, his own words first, in a fixed order.
func (m *Model) wordsKnown() []string {
	t := m.s.Teams()[m.sides[m.active()].Team]
	var own []string
	for w := range t.Words {
		own = append(own, w)
	}
	slices.Sort(own)
	for s := team.Come; s < team.Name; s++ {
		own = append(own, s.String())
	}
	return own
}
