package tui

import (
	"strings"

	"cuewalk/course"
	"cuewalk/sim"
	"cuewalk/sim/dog"
	"cuewalk/tui/canvas"
	"cuewalk/tui/eye"
	"cuewalk/tui/ring"
	"cuewalk/tui/words"
)

// drawRehearse draws the view of one plan: the leg under the cursor large, why it goes wrong,
// what the handler does, and what the dog sees.
func (m *Model) drawRehearse(v canvas.View) {
	l := lay(m.w, m.h, len(m.s.Broken()) > 0)
	r := m.run()
	m.drawHead(m.sub(l.head))
	if l.broken.shown() {
		m.drawBroken(m.sub(l.broken))
	}
	m.drawLegs(l.legs, r)
	m.drawRing(l.ring, 0, m.at)
	m.drawWhere(m.sub(l.where), r)
	m.drawCueLine(m.sub(l.cue), r)
	m.drawEye(l.eye, r, m.at)
	if l.side.shown() {
		v.Post(l.side.x-1, l.side.y, l.side.h, canvas.Quiet)
		m.drawSide(l, r)
	}
}

func (m *Model) drawSide(l layout, r *sim.Rehearsal) {
	inner := func(r rect) rect { return rect{r.x + 1, r.y, r.w - 2, r.h} }
	if m.mode == altering {
		l.now = l.side
		if l.cues.shown() {
			l.now = rect{l.side.x, l.side.y, l.side.w, l.side.h - l.mini.h - 1}
		}
		l.cues = rect{}
		m.drawFields(inner(l.now))
	} else {
		m.drawNow(m.sub(inner(l.now)), r)
	}
	if m.camera.whole && l.mini.shown() {
		l.cues.h += l.mini.h + 1
	}
	if l.model.shown() && m.mode != altering {
		m.sub(inner(l.model)).TextFit(0, 0, l.model.w-2, words.ModelShort, canvas.Quiet)
	}
	if l.cues.shown() {
		m.drawCues(inner(l.cues), r)
	}
	if l.mini.shown() {
		m.drawMini(l.mini, r)
	}
}

// drawRing draws the ring of side i at a place of its axis.
func (m *Model) drawRing(box rect, i, at int) {
	if !box.shown() {
		return
	}
	r := m.s.Ask(m.question(i))
	scene := ring.Scene{Setup: r.Setup, Run: r, Sample: within(r, at), Camera: m.cameraFor(i, box.w, box.h, at),
		Layers: m.layers(), Chosen: ring.None, All: m.camera.whole}
	if l := legIndex(r, at); l >= 0 {
		scene.Leg = r.Legs[l].Number
		scene.Told = toldOf(r.Legs[l], m.fault)
	}
	if ss := r.Trace.Samples; len(ss) > 0 {
		m.seen = m.o.look(r.Setup, ss[within(r, at)], m.seen[:0]).Seen
		scene.Seen = m.seen
	}
	if m.mode == altering {
		scene.Chosen.Stand = m.alter.action
	}
	ring.Draw(m.sub(box), scene)
	m.click(box, onRing, i)
}

// toldOf is the fault that the words of a leg tell of, for the ring; the two likeliest where no
// other was asked for.
func toldOf(l sim.Leg, chosen int) []int {
	if n := shownFaults(l.Faults); n > 0 && chosen%n > 0 {
		return []int{chosen % n}
	}
	return ring.Named(&l)
}

// drawMini draws the whole ring, small.
func (m *Model) drawMini(box rect, r *sim.Rehearsal) {
	if m.camera.whole {
		return
	}
	v := m.sub(box)
	scene := ring.Scene{Setup: r.Setup, Run: r, Sample: within(r, m.at), Camera: ring.Whole(m.s.Course(), 0, box.w, box.h),
		Layers: ring.LayersOf(ring.Course, ring.Handler), Bare: true, All: true, Chosen: ring.None}
	if m.mode == walking {
		scene.Layers = scene.Layers.Without(ring.Handler)
	}
	if l := legIndex(r, m.at); l >= 0 {
		scene.Leg = r.Legs[l].Number
	}
	ring.Draw(v, scene)
}

// drawEye draws what the dog sees.
func (m *Model) drawEye(box rect, r *sim.Rehearsal, at int) {
	if !box.shown() || len(r.Trace.Samples) == 0 {
		return
	}
	at = within(r, at)
	out := outside(r, at, last(r))
	strip := m.o.look(r.Setup, r.Trace.Samples[out], m.seen[:0])
	m.seen = strip.Seen
	if l := legIndex(r, at); l >= 0 {
		if t := toldOf(r.Legs[l], m.fault); len(t) > 0 {
			strip.Told = r.Legs[l].Faults[t[0]].Obstacle
		}
	}
	if e := r.Trace.Samples[at].Dog.Entry; out != at && e >= 0 && e < len(r.Setup.Entries) {
		strip.Coming = r.Setup.Entries[e].Kind
	}
	eye.Draw(m.sub(box), strip)
}

// drawWhere says how likely the leg is clean, what goes wrong on it, and why.
func (m *Model) drawWhere(v canvas.View, r *sim.Rehearsal) {
	w, h := v.Size()
	i := legIndex(r, m.at)
	if i < 0 || h == 0 {
		return
	}
	leg := r.Legs[i]
	x := v.Text(0, 0, words.Leg(leg.Number), canvas.Title)
	x = v.Text(x, 0, "  clean ", canvas.Plain)
	x = v.Text(x, 0, words.Percent(leg.Clean), canvas.Plain|canvas.Strong)
	if s := words.Interval(leg.Low, leg.High); s != "" && w >= 72 {
		x = v.Text(x, 0, " ("+s+")", canvas.Quiet)
	}
	if was, ok := m.before(leg.Number); ok {
		x = v.Text(x, 0, " was "+words.Percent(was), canvas.Altered)
	}
	n := shownFaults(leg.Faults)
	if n == 0 {
		v.TextFit(x+2, 0, w-x-2, "nothing goes wrong here once in a hundred", canvas.Quiet)
		v.Sub(0, 1, w, h-1).Wrap(words.Measures(r, leg)+". "+words.Covered(r, leg), canvas.Quiet)
		return
	}
	f := leg.Faults[m.fault%n]
	x = v.TextFit(x+2, 0, w-x-2, "x "+words.Percent(f.Chance)+" "+words.Fault(r.Setup, f), canvas.Wrong)
	if rest := others(leg.Faults[:n], m.fault%n); canvas.Width(rest) < w-x-3 {
		v.TextEnd(w-1, 0, rest, canvas.Quiet)
	}
	rows, end := v.Sub(0, 1, w, h-1).WrapEnd(words.Why(r, leg, f), canvas.Plain)
	if rows > 0 && !m.sides[0].AsSaved {
		hintAdvice(v, rows, end)
	}
}

// hintAdvice says how to ask for advice: below a reason whose last row is row last, or
// behind it, after column end, where that is the last of the view.
func hintAdvice(v canvas.View, last, end int) {
	const key, what = "o", "what would help here"
	w, h := v.Size()
	x, y := 0, last+1
	if y == h {
		x, y = w-len(key+" "+what), last
		if x < end+3 {
			return
		}
	}
	v.Text(v.Text(x, y, key, canvas.Key)+1, y, what, canvas.Quiet)
}

// shownFaults is how many of a leg's faults, likeliest first, are worth a word.
func shownFaults(fs []sim.Fault) int {
	n := 0
	for n < len(fs) && fs[n].Chance >= 0.01 {
		n++
	}
	return n
}

// others names the faults beside the one that is shown.
func others(fs []sim.Fault, but int) string {
	var parts []string
	for i, f := range fs {
		if i != but && len(parts) < 3 {
			parts = append(parts, words.Kind(f.Kind)+" "+words.Percent(f.Chance))
		}
	}
	return joinWords(parts...)
}

// drawCueLine says the cue in a row or two where there is no room beside the ring.
func (m *Model) drawCueLine(v canvas.View, r *sim.Rehearsal) {
	if m.mode == altering {
		m.drawFieldLine(v)
		return
	}
	v.Wrap(words.Cue(r.Setup, cueAt(r, m.at)), canvas.Handler)
}

// drawNow says what the handler does at this instant, and the dog.
func (m *Model) drawNow(v canvas.View, r *sim.Rehearsal) {
	p := writer{v: v}
	m.writeCue(&p, r, cueAt(r, m.at))
	ss := r.Trace.Samples
	if len(ss) == 0 {
		return
	}
	s := ss[within(r, m.at)]
	p.pair(words.Seconds(s.Time), m.dogNow(r, s), canvas.Dog)
	p.pair("handler", words.Speed(s.Hand.Speed())+", "+s.Hand.Arm.String()+" arm", canvas.Handler)
}

// writeCue says what the handler does from a cue on, how it comes, and the next cue.
func (m *Model) writeCue(p *writer, r *sim.Rehearsal, a int) {
	if a >= len(r.Setup.Actions) {
		return
	}
	title := words.CueName(a)
	if a > 0 {
		title += `  "` + r.Setup.Actions[a].When.String() + `"`
	}
	p.put(title, canvas.Title)
	p.put(joinWords(words.Does(r.Setup, a)...), canvas.Handler)
	if t, ok := timingOf(r, a); ok && a > 0 {
		role, text := timingText(r, t)
		p.put(text, role)
	}
	if a+1 < len(r.Setup.Actions) {
		p.pair("next", `"`+r.Setup.Actions[a+1].When.String()+`" `+joinWords(words.Does(r.Setup, a+1)...), canvas.Quiet)
	}
}

func (m *Model) dogNow(r *sim.Rehearsal, s sim.Sample) string {
	t := "dog " + words.Speed(s.Dog.Speed)
	if s.Dog.Mode == dog.Ground {
		t += ", stride " + words.Length(m.s.Course().Units, s.Dog.Stride)
	} else {
		t += ", " + s.Dog.Mode.String()
	}
	if s.Commit >= 0 && s.Commit < len(r.Setup.Entries) {
		t += ", bound for " + words.Short(m.s.Course(), r.Setup.Entries[s.Commit].Obstacle)
	}
	return t
}

// drawCues lists the plan's cues around the one that is on.
func (m *Model) drawCues(box rect, r *sim.Rehearsal) {
	v := m.sub(box)
	v.TextFit(0, 0, box.w, "Cues: when, where, what", canvas.Title)
	now := cueAt(r, m.at)
	n := len(r.Setup.Actions)
	from := max(0, min(now-(box.h-1)/2, n-(box.h-1)))
	for i := from; i < n && i-from < box.h-1; i++ {
		y := 1 + i - from
		role, sign := canvas.Plain, "  "
		if t, ok := timingOf(r, i); ok && i > 0 && (t.Sample < 0 || t.Late >= .05 || t.Obstacle > 0 && !t.ReadInTime) {
			role, sign = canvas.Caution, " !"
		}
		if i == now {
			sign = ">" + sign[1:]
			role |= canvas.Chosen
		}
		text := "lead-out"
		if i > 0 {
			text = r.Setup.Actions[i].When.String()
		}
		x := v.Text(0, y, sign+" ", role)
		x = v.TextFit(x, y, min(18, box.w-x), text, role)
		does := strings.TrimPrefix(joinWords(words.Does(r.Setup, i)...), "stand ")
		v.TextFit(max(x+1, 22), y, box.w-max(x+1, 22), does, canvas.Quiet)
		m.click(rect{box.x, box.y + y, box.w, 1}, onCue, i)
	}
}

// kindOf is the kind of the obstacle with number n.
func (m *Model) kindOf(n int) course.Kind {
	if n < 1 || n > len(m.s.Course().Order) {
		return course.Jump
	}
	return m.s.Course().Obstacles[m.s.Course().Order[n-1].Obstacle].Kind
}
