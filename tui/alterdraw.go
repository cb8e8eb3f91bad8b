package tui

import (
	"strings"

	"cuewalk/sim"
	"cuewalk/tui/canvas"
	"cuewalk/tui/words"
)

// drawFields draws the fields of the chosen cue as rows, the one under the cursor between
// brackets, and the chances before and after below.
func (m *Model) drawFields(box rect) {
	v := m.sub(box)
	e := m.editing()
	v.TextFit(0, 0, box.w, "Alter "+words.CueName(e.action), canvas.Title)
	y, x := 0, 0
	for i, f := range m.fields() {
		if f.name != "" {
			y++
			x = 10
			v.TextFit(0, y, 9, f.name, canvas.Quiet)
		}
		if y >= box.h {
			break
		}
		role, text := canvas.Handler, f.show(e)
		if strings.HasPrefix(text, before) || text == "none" {
			role = canvas.Quiet
		}
		if i == m.alter.field {
			text, role = "["+text+"]", role|canvas.Chosen
		} else {
			text = " " + text + " "
		}
		from := x
		x = v.TextFit(x, y, box.w-x, text, role)
		m.click(rect{box.x + from, box.y + y, max(x-from, 1), 1}, onField, i)
	}
	m.drawEffect(v.Sub(0, y+1, box.w, box.h-y-1))
}

// drawEffect says what the changes did to the leg and to the whole run, how the cue comes
// now, and which other legs the changes touched.
func (m *Model) drawEffect(v canvas.View) {
	w, h := v.Size()
	r := m.run()
	p := writer{v: v}
	if h > 4 {
		p.y++
	}
	i := legIndex(r, m.at)
	if i < 0 {
		return
	}
	line := func(name string, now float64, was float64, changed bool) {
		if p.y >= h {
			return
		}
		x := v.TextFit(0, p.y, w, name+" ", canvas.Quiet)
		x = v.Text(max(x, 10), p.y, " "+words.Percent(now), canvas.Plain|canvas.Strong)
		if changed {
			v.TextFit(x, p.y, w-x, "  was "+words.Percent(was), canvas.Altered)
		}
		p.y++
	}
	was, changed := m.before(r.Legs[i].Number)
	line(words.Leg(r.Legs[i].Number), r.Legs[i].Clean, was, changed)
	if b := m.alter.base; b != nil {
		line("whole run", r.Clean, b.Clean, words.Percent(b.Clean) != words.Percent(r.Clean))
	} else {
		line("whole run", r.Clean, 0, false)
	}
	if t, ok := timingOf(r, m.alter.action); ok && m.alter.action > 0 {
		role, text := timingText(r, t)
		p.put(text, role)
	}
	for k := range r.Legs {
		n := r.Legs[k].Number
		if was, changed := m.before(n); changed && k != i && words.Points(was-r.Legs[k].Clean) != words.Points(0) {
			line(words.Leg(n), r.Legs[k].Clean, was, true)
		}
	}
}

// timingText says how a cue came, with its role and sign.
func timingText(r *sim.Rehearsal, t sim.CueTiming) (canvas.Role, string) {
	text := joinWords(words.Lateness(r, t), words.Read(r, t))
	if t.Late >= .05 || t.Obstacle > 0 && !t.ReadInTime {
		return canvas.Caution, "! " + text
	}
	return canvas.Quiet, text
}

// drawFieldLine draws the fields in running text where there is no room beside the ring.
func (m *Model) drawFieldLine(v canvas.View) {
	w, h := v.Size()
	e := m.editing()
	f := m.fields()[m.alter.field]
	name := f.name
	if name == "" {
		name = m.fields()[m.alter.field-1].name
	}
	x := v.Text(0, 0, words.CueName(e.action)+" "+name+" ", canvas.Title)
	v.TextFit(x, 0, w-x, "["+f.show(e)+"]", canvas.Handler|canvas.Chosen)
	if h > 1 {
		v.TextFit(0, 1, w, words.CueRest(m.run().Setup, e.action), canvas.Quiet)
	}
}
