package tui

import (
	"fmt"
	"math"
	"strconv"

	"cuewalk/course/geom"
	"cuewalk/sim/reading"
	"cuewalk/tui/canvas"
	"cuewalk/tui/eye"
	"cuewalk/tui/ring"
	"cuewalk/tui/words"
)

// drawWalk draws the course as the dog reads it: the leg under the cursor large, its traps,
// what comes before the dog's eyes, and where the handler can be.
func (m *Model) drawWalk(v canvas.View) {
	l := lay(m.w, m.h, len(m.s.Broken()) > 0)
	w := m.walked()
	m.drawWalkHead(m.sub(l.head), w)
	if l.broken.shown() {
		m.drawBroken(m.sub(l.broken))
	}
	m.drawLegs(l.legs, w.run)
	leg := w.leg(m.at)
	if leg == nil {
		m.sub(l.where).Wrap("This course has no legs to read.", canvas.Caution)
		return
	}
	m.drawWalkRing(l.ring, w, leg)
	m.drawTrap(m.sub(l.where), w, leg)
	if l.cue.shown() {
		m.sub(l.cue).Wrap(joinWords("you "+whereabouts(w.read, leg), turnOf(leg)), canvas.Handler)
	}
	m.drawWalkEye(l.eye, w)
	if l.side.shown() {
		v.Post(l.side.x-1, l.side.y, l.side.h, canvas.Quiet)
		m.drawWalkSide(l, w, leg)
	}
}

// drawWalkHead names course and team, and says how long the course is.
func (m *Model) drawWalkHead(v canvas.View, w *walk) {
	width, _ := v.Size()
	text := words.Length(m.s.Course().Units, w.read.Length)
	if width < 72 || width >= 100 {
		text += " at its best"
	}
	if n := len(w.read.Findings); n > 0 && width >= 72 {
		text += ", " + counted(n, "finding")
	}
	if n := len(w.read.Cautions); n > 0 && width >= 72 {
		text += ", " + counted(n, "caution")
	}
	end := v.TextEnd(width-1, 0, text, canvas.Plain|canvas.Strong)
	sep := " | "
	if m.canvas.Fine {
		sep = " · "
	}
	name := words.Safe(m.s.Course().Name)
	x := v.TextFit(0, 0, min(end-2, max(canvas.Width(name), end-2-width/3)), name, canvas.Title)
	v.TextFit(x, 0, end-2-x, sep+"no plan"+sep+words.Safe(w.read.Team.Name), canvas.Quiet)
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}

// drawWalkRing draws the leg with its traps on the ground it lies on.
func (m *Model) drawWalkRing(box rect, w *walk, leg *reading.Leg) {
	if !box.shown() {
		return
	}
	v := m.sub(box)
	ring.Draw(v, ring.Scene{Setup: w.run.Setup, Run: w.run, Sample: within(w.run, m.at), Leg: leg.Number, Told: []int{m.faultOf(w, leg.Number)},
		Camera: m.cameraFor(0, box.w, box.h, m.at), Layers: ring.LayersOf(ring.Course, ring.Rulers, ring.Line, ring.WrongWays, ring.Strides),
		All: m.camera.whole, Chosen: ring.None, Ground: groundOf(w.read, leg, w.trap(leg.Number, m.fault))})
	m.click(box, onRing, 0)
}

func (m *Model) faultOf(w *walk, n int) int {
	if n < 1 || n > len(w.traps) || len(w.traps[n-1]) == 0 {
		return 0
	}
	return m.fault % len(w.traps[n-1])
}

// drawWalkEye draws what the dog sees where nobody handles it.
func (m *Model) drawWalkEye(box rect, w *walk) {
	ss := w.run.Trace.Samples
	if !box.shown() || len(ss) == 0 {
		return
	}
	s := ss[within(w.run, m.at)]
	s.Hand.At = nowhere
	strip := m.o.look(w.run.Setup, s, m.seen[:0])
	m.seen = strip.Seen
	strip.Handler = false
	if l := legIndex(w.run, m.at); l >= 0 {
		if t := w.trap(w.run.Legs[l].Number, m.fault); t != nil {
			strip.Told = w.run.Setup.Entries[t.Entry].Obstacle
		}
	}
	eye.Draw(m.sub(box), strip)
}

// drawTrap names the challenges of the leg, and the trap that is chosen with its reason.
func (m *Model) drawTrap(v canvas.View, w *walk, leg *reading.Leg) {
	width, h := v.Size()
	x := v.Text(0, 0, words.Leg(leg.Number), canvas.Title)
	t := w.trap(leg.Number, m.fault)
	if t == nil {
		v.TextFit(x+2, 0, width-x-2, "no trap: nothing wrong pulls an unhandled dog here", canvas.Quiet)
		v.Sub(0, 1, width, h-1).Wrap(challengesOf(leg), canvas.Plain|canvas.Strong)
		return
	}
	end := width - 1
	if n := len(w.traps[leg.Number-1]); n > 1 {
		end = v.TextEnd(end, 0, fmt.Sprintf("trap %d of %d", m.fault%n+1, n), canvas.Quiet) - 1
	}
	what := "x " + words.Percent(t.Pull) + " " + trapName(w.read, t)
	if width >= 72 {
		what += " gets an unhandled dog"
	}
	v.TextFit(x+2, 0, end-x-2, what, trapRole(t.Pull))
	v.Sub(0, 1, width, h-1).Wrap(hiding(w.read, t)+" "+upperFirst(words.Safe(t.Why))+".", canvas.Plain)
}

// drawWalkSide says what the leg asks, and in which order things come before the dog's eyes.
func (m *Model) drawWalkSide(l layout, w *walk, leg *reading.Leg) {
	box := rect{l.side.x + 1, l.side.y, l.side.w - 2, l.side.h}
	if l.mini.shown() && !m.camera.whole {
		box.h -= l.mini.h + 1
		m.drawMini(l.mini, w.run)
	}
	p := writer{v: m.sub(box)}
	p.put(challengesOf(leg), canvas.Plain|canvas.Strong)
	facts := []string{words.Length(m.s.Course().Units, leg.Distance), turnOf(leg)}
	if box.h >= 14 {
		facts = append(facts, approachOf(leg), leadOf(leg))
	}
	p.put(joinWords(facts...), canvas.Dog)
	if leg.Blocked {
		p.put("! no line free of other obstacles was found", canvas.Caution)
	}
	p.put("you "+whereabouts(w.read, leg), canvas.Handler)
	m.drawViews(&p, w, leg)
	if s := straightOn(w.read, leg); s != "" {
		p.put("straight on: "+s, canvas.Quiet)
	}
	for _, c := range cautionsFor(w.read, leg) {
		p.put("! "+c, canvas.Caution)
	}
}

// drawViews lists what comes before the dog's eyes, in that order.
func (m *Model) drawViews(p *writer, w *walk, leg *reading.Leg) {
	width, h := p.v.Size()
	if len(leg.Views) == 0 || h-p.y < 2 {
		return
	}
	end := width
	apart, during := width >= 44, width >= 36
	cols := func(name string, role canvas.Role, bearing, rng, secs, sep string, quiet canvas.Role) {
		x := end
		if apart {
			p.v.TextEnd(x, p.y, sep, quiet)
			x -= 7
		}
		if during {
			p.v.TextEnd(x, p.y, secs, quiet)
			x -= 6
		}
		p.v.TextEnd(x, p.y, rng, quiet)
		p.v.TextEnd(x-7, p.y, bearing, quiet)
		p.v.TextFit(0, p.y, x-15, name, role)
		p.y++
	}
	cols("Before its eyes", canvas.Title, "bearing", "off", "for", "apart", canvas.Quiet)
	for i := range leg.Views {
		if p.y >= h || p.y == h-1 && i < len(leg.Views)-1 {
			if p.y < h {
				p.put(fmt.Sprintf("and %d more (e)", len(leg.Views)-i), canvas.Quiet)
			}
			return
		}
		v := &leg.Views[i]
		name, role := viewName(w.read, leg, v), canvas.Obstacle
		sep := fmt.Sprintf("%.0f deg", v.Separation.Degrees())
		switch {
		case v.Right:
			name, role, sep = "["+name+"]", canvas.Right|canvas.Strong, "right"
		case v.Pull >= .1:
			name, role = "x "+name, canvas.Wrong
		case v.Pull >= .01:
			name, role = "! "+name, canvas.Caution
		}
		cols(name, role, shortBearing(v.Bearing), words.Length(m.s.Course().Units, v.Range), words.Seconds(v.InView), sep, canvas.Plain)
	}
}

// shortBearing is a bearing in few cells: "12 R".
func shortBearing(a geom.Angle) string {
	switch d := int(math.Round(a.Degrees())); {
	case d > 0:
		return strconv.Itoa(d) + " R"
	case d < 0:
		return strconv.Itoa(-d) + " L"
	}
	return "0"
}
