package tui

import (
	"fmt"

	"cuewalk/sim"
	"cuewalk/tui/canvas"
	"cuewalk/tui/ring"
	"cuewalk/tui/session"
	"cuewalk/tui/verdict"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
)

// judge is the opening screen: the verdict in words, and what to change.
type judge struct {
	chosen int            // the change that Enter takes
	base   *sim.Rehearsal // the run before the last change taken here; nil for none
}

func inJudge(m *Model) bool { return m.mode == judging }

func judgeKeys() keyMap {
	const g = "The verdict"
	digits := []string{"1", "2", "3", "4", "5", "6", "7", "8", "9"}
	return keyMap{
		{group: g, keys: []string{"enter"}, label: "enter", what: "take the change that is marked", foot: "take it", rank: 0, live: canTake, do: act(func(m *Model) tea.Cmd { return m.takeChange(m.judge.chosen) })},
		{group: g, keys: []string{"enter", "right", "l", " "}, label: "enter", what: "look at the leg where it goes wrong", foot: "the leg", rank: 1, live: cannotTake, do: act((*Model).lookCloser)},
		{group: g, keys: digits, label: "1 2 3", what: "take that change", live: canTake, do: func(m *Model, _ int, k string) tea.Cmd { return m.takeChange(int(k[0] - '1')) }},
		{group: g, back: []string{"up", "k"}, keys: []string{"down", "j"}, label: "up down", fine: "↑ ↓", what: "mark another change", foot: "mark", rank: 2, live: canTake, do: turn((*Model).markChange)},
		{group: g, keys: []string{"right", "l", " "}, label: "right", fine: "→", what: "look at the leg where it goes wrong", foot: "the leg", rank: 1, live: canTake, do: act((*Model).lookCloser)},
	}
}

func canTake(m *Model) bool    { return m.mode == judging && len(m.verdict().Changes) > 0 }
func cannotTake(m *Model) bool { return m.mode == judging && len(m.verdict().Changes) == 0 }

func (m *Model) verdict() verdict.Verdict { return verdict.Of(m.s, m.question(0)) }

// openVerdict goes back to the verdict.
func (m *Model) openVerdict() tea.Cmd {
	m.mode, m.play.on, m.camera, m.fault = judging, false, camera{}, 0
	m.judge.chosen = 0
	return m.keepRunning()
}

// lookCloser opens the leg where it goes wrong.
func (m *Model) lookCloser() tea.Cmd {
	m.mode = rehearsing
	m.toWorst()
	return m.keepRunning()
}

func (m *Model) markChange(dir int) {
	if n := len(m.verdict().Changes); n > 0 {
		m.judge.chosen = min(max(m.judge.chosen+dir, 0), n-1)
	}
}

// takeChange makes change i the plan; undo takes it back.
func (m *Model) takeChange(i int) tea.Cmd {
	cs := m.verdict().Changes
	if i < 0 || i >= len(cs) {
		m.say(canvas.Quiet, fmt.Sprintf("there is no change %d here", i+1))
		return nil
	}
	c := cs[i]
	m.judge = judge{base: m.run()}
	m.say(canvas.Quiet, "taken; u takes it back: "+c.What)
	return m.shift(func(d *session.Document) { d.Push(c.Plan, "advice, "+c.What) })
}

// drawJudge draws the verdict, and below or beside it, where there is room, the leg it tells of.
func (m *Model) drawJudge(v canvas.View) {
	m.drawHead(m.sub(rect{0, 0, m.w, 1}))
	c := column{rect{0, 1, m.w, m.h - 2}}
	if len(m.s.Broken()) > 0 {
		m.drawBroken(m.sub(c.top(1)))
	}
	if c.h >= 20 {
		c.top(1)
	}
	text := c.rect
	var picture rect
	switch {
	case m.w >= 120 && m.h < 50:
		text.w = max(72, m.w*45/100)
		picture = rect{text.w + 1, text.y, m.w - text.w - 1, text.h}
		v.Post(text.w, text.y, text.h, canvas.Quiet)
	case m.h >= 32:
		text = c.top(20)
		picture = c.rect
	}
	m.writeVerdict(rect{text.x + 1, text.y, min(text.w-2, mostMeasure), text.h})
	if picture.shown() {
		m.drawVerdictRing(picture)
	}
}

// mostMeasure is the widest that a sentence is set: longer lines are hard to read back from.
const mostMeasure = 100

func (m *Model) writeVerdict(box rect) {
	v := m.sub(box)
	d := m.verdict()
	p := writer{v: v}
	p.put(d.Clean+m.cleanBefore(d), canvas.Title)
	if d.Runs != verdict.Known {
		p.y++
		p.put(runsText(d), canvas.Quiet)
		return
	}
	roomy := box.h >= 18
	gap := func() {
		if roomy {
			p.y++
		}
	}
	gap()
	role := canvas.Plain | canvas.Strong
	p.put(d.Where, role)
	m.click(rect{box.x, box.y + p.y - 1, box.w, 1}, onLeg, d.Leg)
	for _, h := range d.Happens {
		text := h.What
		x := v.Text(2, p.y, h.Chance, canvas.Wrong|canvas.Strong)
		v.TextFit(x+2, p.y, box.w-x-2, text, canvas.Wrong)
		p.y++
		m.indented(&p, h.Why, 4, canvas.Plain)
	}
	if d.Part != "" {
		m.indented(&p, d.Part, 2, canvas.Handler)
	}
	if d.Leg == 0 {
		return
	}
	gap()
	m.writeChanges(&p, box, d)
}

// indented puts a text some cells to the right.
func (m *Model) indented(p *writer, text string, by int, role canvas.Role) {
	w, h := p.v.Size()
	if p.y < h {
		p.y += p.v.Sub(by, p.y, w-by, h-p.y).Wrap(text, role)
	}
}

// cleanBefore says how often it was clean before the last change taken.
func (m *Model) cleanBefore(d verdict.Verdict) string {
	if m.judge.base == nil || d.Runs != verdict.Known || m.judge.base.Setup.Plan == d.Question.Plan {
		return ""
	}
	return "  Before the change: " + words.Percent(m.judge.base.Clean) + "."
}

func runsText(d verdict.Verdict) string {
	if d.Runs == verdict.Stopped {
		return fmt.Sprintf("The runs were stopped after %d of %d; r makes them again.", d.Done, d.Of)
	}
	return fmt.Sprintf("Where it goes wrong, why and what to change follows when enough runs are made: %d of %d.", d.Done, d.Of)
}

// writeChanges lists what to change, with the chances before and after.
func (m *Model) writeChanges(p *writer, box rect, d verdict.Verdict) {
	w, h := p.v.Size()
	switch {
	case d.Advice == verdict.Stopped:
		p.put("What to change: the search was stopped; r goes on with it.", canvas.Quiet)
		return
	case d.Advice != verdict.Known:
		p.put("What to change: changes are being tried, and run as often as the plan ...", canvas.Quiet)
		return
	case len(d.Changes) == 0:
		p.put("What to change: "+words.NoAdvice+". Look at the leg and alter its cues.", canvas.Plain)
		return
	}
	const run, leg = 13, 13
	p.v.TextFit(0, p.y, w-run-leg-2, "What to change, best first", canvas.Plain|canvas.Strong)
	p.v.TextEnd(w-run-1, p.y, "that leg", canvas.Quiet)
	p.v.TextEnd(w, p.y, "whole run", canvas.Quiet)
	p.y++
	for i, c := range d.Changes {
		if p.y >= h {
			return
		}
		sign, role := " ", canvas.Plain
		if i == m.judge.chosen {
			sign, role = ">", canvas.Plain|canvas.Strong
		}
		x := p.v.Text(0, p.y, fmt.Sprintf("%s%d ", sign, i+1), canvas.Key)
		p.v.TextFit(x, p.y, w-run-leg-x-1, c.What, role)
		p.v.TextEnd(w-run-1, p.y, c.Leg.String(), canvas.Plain)
		p.v.TextEnd(w, p.y, c.Run.String(), canvas.Plain|canvas.Strong)
		m.click(rect{box.x, box.y + p.y, w, 1}, onChange, i)
		p.y++
	}
}

// drawVerdictRing draws the leg that the verdict tells of, the whole ring until it tells of one.
func (m *Model) drawVerdictRing(box rect) {
	d := m.verdict()
	r := d.Run
	scene := ring.Scene{Setup: r.Setup, Run: r, Camera: ring.Whole(m.s.Course(), m.camera.turn, box.w, box.h), Layers: ring.WholeLayers(), Chosen: ring.None, All: true}
	if d.Leg > 0 {
		scene.Leg, scene.Sample = d.Leg, m.crisis(r, d.Leg)
		scene.Camera = ring.Leg(m.s.Course(), d.Leg, m.camera.turn, box.w, box.h, r)
		scene.Layers, scene.All = ring.LegLayers(), false
		for _, h := range d.Happens {
			scene.Told = append(scene.Told, h.Fault)
		}
	}
	ring.Draw(m.sub(box), scene)
}
