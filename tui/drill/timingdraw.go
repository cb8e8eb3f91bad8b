package drill

import (
	"fmt"
	"math"

	"cuewalk/plan"
	"cuewalk/plan/learn"
	"cuewalk/sim"
	"cuewalk/tui/canvas"
	"cuewalk/tui/eye"
	"cuewalk/tui/ring"
	"cuewalk/tui/words"
)

const eyeHeight = 6

func (t *timingDrill) draw(m *Model, v canvas.View) {
	w, h := v.Size()
	switch t.stage {
	case tapping:
		m.head(v, "tap along")
		t.drawTaps(m, v.Sub(2, 2, w-4, h-5))
		m.foot(v, "space at each beat  esc back  q leave")
	case ready:
		m.head(v, "timing")
		t.drawReady(m, v.Sub(2, 2, w-4, h-5))
		m.foot(v, "enter release the dog  s speed  c tap again  esc back  q leave")
	case table:
		m.head(v, "timing, cue by cue")
		t.drawTable(m, v.Sub(0, 2, w, h-4))
		m.foot(v, "enter again  s speed  c tap again  w into the team's file  esc back  q leave")
	default:
		t.drawRun(m, v)
	}
}

func (t *timingDrill) drawTaps(m *Model, v canvas.View) {
	at := m.clock.at(m.o.Now())
	p := writer{v: v}
	p.put("Tap the space bar with the beat, eight times.", canvas.Title)
	p.put("What keyboard, terminal, screen and finger add together is taken off your cues afterwards.", canvas.Plain)
	p.gap()
	beat := "      "
	if math.Abs(learn.NearestBeat(at-beatShown/2, 0, beatEvery)) <= beatShown/2 {
		beat = "######"
	}
	p.put(beat, canvas.Right|canvas.Strong)
	p.put(beat, canvas.Right|canvas.Strong)
	p.gap()
	p.put(fmt.Sprintf("%d of %d", len(t.taps), learn.Taps), canvas.Plain)
}

func (t *timingDrill) drawReady(m *Model, v canvas.View) {
	p := writer{v: v}
	p.put("Press space or enter at the moment of each cue. The dog does what it does with your moment.", canvas.Title)
	p.put("Enter releases the dog and gives what the plan says of the release. It waits for no cue.", canvas.Plain)
	p.gap()
	p.put("Speed: "+speedName(t.speed)+".", canvas.Plain)
	p.put(t.doubt(), canvas.Plain)
	if t.old {
		p.put("That was measured before: on another keyboard, screen or line, tap again (c).", canvas.Caution)
	}
	p.gap()
	p.put("This measures a finger on a key, not a cue on the run.", canvas.Quiet)
}

func speedName(x float64) string {
	switch x {
	case 0.5:
		return "half"
	case 0.75:
		return "three quarters"
	}
	return "full"
}

// doubt says what is taken off and how unsure each press is.
func (t *timingDrill) doubt() string {
	text := fmt.Sprintf("Your keys come %.2f s late", t.delay.Seconds)
	if t.delay.Seconds < 0 {
		text = fmt.Sprintf("You tap %.2f s before the beat", -t.delay.Seconds)
	}
	text += fmt.Sprintf("; that is taken off. Each press is unsure by %.2f s.", max(t.delay.Spread, t.slowest/2))
	if max(t.delay.Spread, t.slowest/2) > unsure {
		text += " That is much: a slow line or screen. Read the figures with it in mind, or tap again."
	}
	return text
}

func (t *timingDrill) drawRun(m *Model, v canvas.View) {
	w, h := v.Size()
	m.head(v, "run "+fmt.Sprint(t.runs)+" at "+speedName(t.speed)+" speed, "+words.Seconds(t.live.Time()))
	left := w - sideWidth - 1
	now := t.live.Rehearsal()
	t.drawRing(m, v.Sub(0, 1, left, h-3-eyeHeight), now)
	v.Post(left, 1, h-3-eyeHeight, canvas.Quiet)
	t.drawSide(m, v.Sub(w-sideWidth, 1, sideWidth, h-3-eyeHeight))
	last := now.Trace.Samples[len(now.Trace.Samples)-1]
	if last.Leg <= len(m.o.Course.Order) {
		eye.Draw(v.Sub(0, h-2-eyeHeight, w, eyeHeight), eye.Look(m.setup, last, nil))
	}
	if t.stage == stopped {
		m.foot(v, "enter go on from the next number  r again  p pause  esc back  q leave")
	} else {
		m.foot(v, "space gives the next cue  r again  p pause  esc back  q leave")
	}
}

// drawRing follows the dog by leaps: the picture stands while it runs through it.
func (t *timingDrill) drawRing(m *Model, v canvas.View, now *sim.Rehearsal) {
	w, h := v.Size()
	at := now.Trace.Samples[len(now.Trace.Samples)-1]
	if p := t.camera.ToView(at.Dog.At); t.camera.W != w || t.camera.H != h ||
		p.X < 6 || p.Y < 2 || p.X > float64(w)-6 || p.Y > float64(h)-2 {
		t.camera = ring.Follow(at, 24, 0, w, h)
	}
	ring.Draw(v, ring.Scene{Setup: m.setup, Run: now, Sample: len(now.Trace.Samples) - 1, Leg: at.Leg, Chosen: ring.None,
		Camera: t.camera, Layers: ring.LayersOf(ring.Course, ring.Rulers, ring.Line, ring.Handler)})
}

func (t *timingDrill) drawSide(m *Model, v canvas.View) {
	p := writer{v: v}
	if t.stage == stopped {
		p.put(t.fault(m), canvas.Wrong)
		p.gap()
	} else if k, ok := t.live.Next(); ok {
		p.put("next: "+cueText(m.setup, k-1), canvas.Plain|canvas.Strong)
		p.gap()
	} else {
		p.put("all cues are given", canvas.Quiet)
	}
	for i := len(t.press) - 1; i >= 0; i-- {
		q := &t.press[i]
		role := canvas.Right
		if !q.known || !learn.Try(q.late).InTime() {
			role = canvas.Caution
		}
		p.put(words.CueName(q.action)+": "+lateness(m, q), role)
	}
}

func (t *timingDrill) drawTable(m *Model, v canvas.View) {
	w, h := v.Size()
	v.Text(0, 0, "cue  moment            this time                  mean    spread", canvas.Title)
	row := 1
	for k := range m.o.Plan.Cues {
		if m.o.Plan.Cues[k].When == (plan.Moment{}) {
			continue // given with the release
		}
		if row >= h-6 {
			v.Text(0, row, "and more", canvas.Quiet)
			row++
			break
		}
		t.drawCue(m, v, row, k)
		row++
	}
	p := writer{v: v.Sub(0, row+1, w, h-row-1)}
	p.put(t.verdict(m), canvas.Plain)
	p.put(t.doubt()+" It measures a finger on a key; what your feet, arm and voice add cannot be known here.", canvas.Quiet)
	if t.asked {
		p.put(t.question(m), canvas.Caution)
	}
}

func (t *timingDrill) drawCue(m *Model, v canvas.View, row, k int) {
	v.Text(0, row, fmt.Sprintf("%3d", k+1), canvas.Plain)
	v.TextFit(5, row, 17, m.o.Plan.Cues[k].When.String(), canvas.Plain)
	text, role := "not given", canvas.Quiet
	for i := range t.press {
		if p := &t.press[i]; p.action == k+1 {
			text, role = lateness(m, p), canvas.Caution
			if p.known && learn.Try(p.late).InTime() {
				role = canvas.Right
			}
		}
	}
	v.TextFit(23, row, 26, text, role)
	tries := m.kept.Tries(m.o.Plan, k)
	if len(tries) > 0 {
		v.Text(50, row, fmt.Sprintf("%+.1f s", learn.Try(tries.Mean()).Tenths()), canvas.Plain)
	}
	if spread, ok := tries.Spread(); ok {
		v.Text(58, row, fmt.Sprintf("%.2f s", spread), canvas.Plain)
	} else {
		v.Text(58, row, fmt.Sprintf("from %d tries on: %d", learn.SpreadFrom, len(tries)), canvas.Quiet)
	}
}

// verdict says what the presses come to.
func (t *timingDrill) verdict(m *Model) string {
	in, n := 0, 0
	for i := range t.press {
		if n++; t.press[i].known && learn.Try(t.press[i].late).InTime() {
			in++
		}
	}
	text := fmt.Sprintf("In time, that is within %.2f s: %d of %d. More than %.0f s off counts as forgotten, not as a try.", learn.InTime, in, n, learn.Missed)
	if c := t.chance; c != nil {
		return text + fmt.Sprintf(" A handler whose moments spread by %.2f s as yours do runs clean %s of the time; with the team's %.2f s, %s.",
			c.spread, words.Percent(c.clean), m.o.Team.Handler.Timing, words.Percent(c.usual))
	}
	return text
}

func (t *timingDrill) question(m *Model) string {
	if m.o.Team.File == "" {
		return "This team is in no file: there is nothing to write into. Any key."
	}
	return fmt.Sprintf("Write timing = %.2f into %s? It is a finger's, not a handler's. y yes, any other key no.", t.chance.spread, words.Safe(m.o.Team.File))
}
