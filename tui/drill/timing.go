package drill

import (
	"context"
	"fmt"
	"math"

	"cuewalk/plan"
	"cuewalk/plan/learn"
	"cuewalk/sim"
	"cuewalk/tui/canvas"
	"cuewalk/tui/progress"
	"cuewalk/tui/ring"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
)

// The beat that is tapped along with before the drill: seconds from one to the next, and
// how long it is seen.
const (
	beatEvery = 0.8
	beatShown = 0.12
	unsure    = 0.05 // seconds of a press's spread from which the line is called slow (C)
	chanceOf  = 400  // seeded runs behind the chance with a measured spread
)

type stage uint8

const (
	tapping stage = iota
	ready
	running
	stopped // by a fault: the dog waits to be taken on
	table
)

// timingDrill is the plan's cues given by key to a running dog.
type timingDrill struct {
	stage   stage
	taps    []float64
	delay   learn.Delay
	old     bool    // the delay is from another day
	speed   float64 // of the run: 0.5, 0.75, 1
	runs    int
	live    *sim.Live
	press   []press
	chance  *chanceMsg
	camera  ring.Camera
	slowest float64 // seconds by which the slowest tick came late
	lastAt  float64
	asked   bool // whether the measured figure is to be written
}

// press is a cue given in this run.
type press struct {
	action int
	ahead  float64 // seconds its moment was still off then, as it looked
	late   float64
	known  bool // late is measured; else its moment has not come
	kept   bool
}

// chanceMsg is the chance of a clean run with the measured spread.
type chanceMsg struct {
	spread       float64
	clean, usual float64 // with the spread, and with the team's own timing
}

func (t *timingDrill) start(m *Model) tea.Cmd {
	if t.delay == (learn.Delay{}) && m.kept.Delay != nil {
		t.delay, t.old = *m.kept.Delay, true
	}
	t.stage = ready
	if t.delay == (learn.Delay{}) {
		return t.tap(m)
	}
	return nil
}

// tap begins the taps along with a beat.
func (t *timingDrill) tap(m *Model) tea.Cmd {
	t.stage, t.taps = tapping, nil
	m.clock.start(m.o.Now(), 0, 1)
	return m.ticking()
}

func (t *timingDrill) key(m *Model, s string) tea.Cmd {
	now := m.o.Now()
	cue := s == " " || s == "enter"
	switch t.stage {
	case tapping:
		if cue {
			t.tapped(m, m.clock.at(now))
		}
	case ready, table:
		return t.readyKey(m, s, cue)
	case running:
		switch {
		case cue:
			t.give(m, m.clock.at(now))
		case s == "r":
			return t.run(m)
		}
	case stopped:
		switch {
		case cue:
			return t.goOn(m)
		case s == "r":
			t.store(m)
			return t.run(m)
		}
	}
	return nil
}

// tapped takes one tap in; the last of them ends the taps.
func (t *timingDrill) tapped(m *Model, at float64) {
	t.taps = append(t.taps, learn.NearestBeat(at, 0, beatEvery))
	d, ok := learn.Calibrate(t.taps)
	if !ok {
		return
	}
	t.delay, t.old, t.stage = d, false, ready
	m.clock.stop()
	m.keep(func(g *progress.Progress) { g.Delay = &d })
}

func (t *timingDrill) readyKey(m *Model, s string, cue bool) tea.Cmd {
	if t.asked {
		if t.asked = false; s == "y" {
			t.write(m)
		}
		return nil
	}
	switch {
	case cue:
		return t.run(m)
	case s == "c":
		return t.tap(m)
	case s == "s":
		t.speed = map[float64]float64{0.5: 0.75, 0.75: 1, 1: 0.5}[t.speed]
	case s == "w" && t.stage == table && t.chance != nil:
		t.asked = true
	}
	return nil
}

// run lets the dog go. Each run has other luck.
func (t *timingDrill) run(m *Model) tea.Cmd {
	t.runs++
	t.live = m.setup.Live(m.o.Seed, t.runs)
	t.press, t.stage, t.chance, t.slowest = nil, running, nil, 0
	t.camera = ring.Camera{}
	for k, ok := t.live.Next(); ok && m.setup.Actions[k].When == (plan.Moment{}); k, ok = t.live.Next() {
		t.live.Give(0) // the key that releases the dog
	}
	m.clock.start(m.o.Now(), 0, t.speed)
	t.lastAt = 0
	return m.ticking()
}

// give gives the next cue at the moment that the key means.
func (t *timingDrill) give(m *Model, at float64) {
	t.live.To(at)
	moment := max(0, at-t.delay.Seconds*t.speed)
	for {
		next, ok := t.live.Next()
		if !ok {
			return
		}
		forgotten := t.forgotten(m, next, moment)
		ahead := t.live.Ahead(next) + (at - moment)
		k, ok := t.live.Give(moment)
		if !ok {
			return
		}
		t.press = append(t.press, press{action: k, ahead: ahead})
		t.measure()
		if !forgotten {
			return
		}
	}
}

// forgotten reports whether a press at a moment is not for cue k, long due, but for the
// one after it, which is nearer: then it gives both.
func (t *timingDrill) forgotten(m *Model, k int, moment float64) bool {
	came, ok := t.live.Came(k)
	if !ok || k+1 >= len(m.setup.Actions) || !learn.Try(moment-came).Forgotten() {
		return false
	}
	off := t.live.Ahead(k + 1)
	if next, ok := t.live.Came(k + 1); ok {
		off = moment - next
	}
	return math.Abs(off) < moment-came
}

// measure looks which presses can be told late or early by now.
func (t *timingDrill) measure() {
	for i := range t.press {
		p := &t.press[i]
		if late, ok := t.live.Late(p.action); ok && !p.kept {
			p.late, p.known = late, true
		}
	}
}

func (t *timingDrill) tick(m *Model, at float64) tea.Cmd {
	if t.stage != running {
		return nil
	}
	t.slowest = max(t.slowest, (at-t.lastAt)/t.speed-frame.Seconds())
	t.lastAt = at
	t.live.To(at)
	t.measure()
	switch {
	case t.live.Over():
		t.stage = table
		m.clock.stop()
		t.store(m)
		return t.ask(m)
	case t.live.Stopped():
		t.stage = stopped
		m.clock.stop()
	}
	return nil
}

// goOn takes the dog on from the next number.
func (t *timingDrill) goOn(m *Model) tea.Cmd {
	t.store(m)
	if !t.live.GoOn() {
		t.stage = table
		return t.ask(m)
	}
	t.stage = running
	t.lastAt = t.live.Time()
	m.clock.start(m.o.Now(), t.lastAt, t.speed)
	return m.ticking()
}

// store keeps the tries of this run that have not been kept yet.
func (t *timingDrill) store(m *Model) {
	var now []press
	for i := range t.press {
		if p := &t.press[i]; p.known && !p.kept {
			p.kept = true
			if !learn.Try(p.late).Forgotten() {
				now = append(now, *p)
			}
		}
	}
	if len(now) == 0 {
		return
	}
	m.keep(func(g *progress.Progress) {
		g.Runs++
		for _, p := range now {
			g.Timed(m.o.Plan, p.action-1, learn.Try(p.late))
		}
	})
}

// all are the tries of every cue.
func (m *Model) all() learn.Tries {
	var all learn.Tries
	for k := range m.o.Plan.Cues {
		all = append(all, m.kept.Tries(m.o.Plan, k)...)
	}
	return all
}

// ask counts, in the background, how often a handler with the measured spread runs clean.
func (t *timingDrill) ask(m *Model) tea.Cmd {
	spread, ok := m.all().Spread()
	if !ok {
		return nil
	}
	setup, seed := m.setup, m.o.Seed
	return func() tea.Msg {
		with := *setup.Team
		with.Handler.Timing = min(spread, 1)
		a, err := sim.New(setup.Course, setup.Plan, &with).RunMany(context.Background(), seed, chanceOf, nil)
		if err != nil {
			return nil
		}
		b, err := setup.RunMany(context.Background(), seed, chanceOf, nil)
		if err != nil {
			return nil
		}
		return chanceMsg{spread, float64(a.Clean) / chanceOf, float64(b.Clean) / chanceOf}
	}
}

// write puts the measured figure into the team's file.
func (t *timingDrill) write(m *Model) {
	if err := writeTiming(m.o.Team.File, t.chance.spread); err != nil {
		m.tell(canvas.Caution, err.Error())
		return
	}
	m.tell(canvas.Plain, fmt.Sprintf("timing = %.2f is in %s now.", t.chance.spread, m.o.Team.File))
}

// lateness says how late a press was, in tenths and strides.
func lateness(m *Model, p *press) string {
	if !p.known {
		return "its moment has not come: about " + words.Seconds(max(0, p.ahead)) + " early"
	}
	x := learn.Try(p.late)
	if x.InTime() {
		return "in time"
	}
	text := words.Seconds(math.Abs(x.Tenths())) + " late"
	if x < 0 {
		text = words.Seconds(math.Abs(x.Tenths())) + " early"
	}
	if x.Forgotten() {
		return "forgotten, " + text
	}
	if s := strides(m, p); s != "" {
		text += ", " + s
	}
	return text
}

// strides is a time at a cue in strides of the dog there.
func strides(m *Model, p *press) string {
	c := m.run.Cues[p.action].Sample
	if c < 0 {
		return ""
	}
	d := &m.run.Trace.Samples[c].Dog
	if d.Stride <= 0 || d.Speed <= 0 {
		return ""
	}
	return fmt.Sprintf("%.1f strides", math.Abs(p.late)*d.Speed/d.Stride)
}

// fault says how the dog left the course.
func (t *timingDrill) fault(m *Model) string {
	n := t.live.Legs()
	kind, obstacle, _, _ := t.live.Leg(n)
	return upper(words.Kind(kind)) + ": " + words.Obstacle(m.o.Course, obstacle) + ", on the way to " + words.Target(m.o.Course, n) + "."
}
