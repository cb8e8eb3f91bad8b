package tui

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/course/rulebook"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/sim/advice"
	"cuewalk/sim/dog"
	"cuewalk/sim/reading"
	"cuewalk/sim/search"
	"cuewalk/tui/eye"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/require"
)

// disk is files in memory: what the screen reads and writes in tests.
type disk map[string][]byte

func (d disk) read(path string) ([]byte, error) {
	if b, ok := d[path]; ok {
		return append([]byte(nil), b...), nil
	}
	return nil, fs.ErrNotExist
}

// fullDisk is the name of a file that fills the disk: nothing more can be written.
const fullDisk = "full"

func (d disk) save(path string, data []byte) error {
	if _, full := d[fullDisk]; full {
		return errors.New("the disk is full")
	}
	d[path] = data
	return nil
}

func (d disk) create(path string, data []byte) error {
	if _, ok := d[path]; ok {
		return fmt.Errorf("%s is there already: %w", path, fs.ErrExist)
	}
	return d.save(path, data)
}

// practice is the course, both plans and both teams of testdata, on a disk in memory.
func practice(t testing.TB) (Options, disk) {
	t.Helper()
	d := disk{}
	for _, f := range []string{"course.toml", "inside.toml", "outside.toml", "wren.toml", "moth.toml"} {
		b, err := os.ReadFile(filepath.Join("testdata", f))
		require.NoError(t, err)
		d[f] = b
	}
	c, err := course.Parse("course.toml", d["course.toml"])
	require.NoError(t, err)
	o := Options{Course: c, Seed: 1, Runs: -1, Profile: termenv.Ascii, Read: d.read, Save: d.save, Create: d.create,
		Tick: func(_ time.Duration, msg func(time.Time) tea.Msg) tea.Cmd {
			return func() tea.Msg { return msg(time.Time{}) }
		}}
	for _, f := range []string{"wren.toml", "moth.toml"} {
		tm, err := team.Parse(f, d[f])
		require.NoError(t, err)
		o.Teams = append(o.Teams, tm)
	}
	for _, f := range []string{"inside.toml", "outside.toml"} {
		p, err := plan.Parse(f, d[f], c, o.Teams[0])
		require.NoError(t, err)
		o.Plans = append(o.Plans, PlanFile{Plan: p, Raw: d[f]})
	}
	return o, d
}

// fixed puts figures that never change in the place of the simulator's, so that pictures
// of the screen change only when the drawing does.
func fixed(o Options) Options {
	o.rehearse = fakeRun
	o.look = fakeLook
	o.read = fakeReading
	o.first = anyPlan
	o.advise = fakeAdvice
	return o
}

// fakeAdvice advises three changes of the cue before a leg, at once, with made-up chances.
func fakeAdvice(_ context.Context, c *course.Course, p *plan.Plan, t *team.Team, n int, _ uint64, _ int) (advice.Found, error) {
	f := advice.Found{Number: n, Leg: .48, Run: .07}
	k := max(min(n-2, len(p.Cues)-1), 0)
	d := search.NewDraft(c, p, t)
	for kind, plans := range [][]plan.Plan{d.Ways(k, n), d.Stands(k), d.Shifts(k)} {
		if len(plans) > 0 {
			f.Advice = append(f.Advice, advice.Advice{Cue: k, Kind: advice.Kind(kind), Plan: plans[0], Leg: .9 - .1*float64(kind), Run: .3})
		}
	}
	return f, nil
}

// fakeRun is a dog that runs straight from obstacle to obstacle, three strides and a flight
// each, with made-up chances.
func fakeRun(c *course.Course, p *plan.Plan, t *team.Team) *sim.Rehearsal {
	s := sim.New(c, p, t)
	r := &sim.Rehearsal{Setup: s, Clean: 1, Low: .18, High: .23, Runs: 2000, Time10: 30, Time90: 34}
	from, now := c.Start, 0.0
	worse := float64(len(p.Name)%7) / 50
	for n := 1; n <= len(c.Order); n++ {
		e := c.Entry(n)
		leg := sim.Leg{Number: n, First: len(r.Trace.Samples), Speed: 5.1, Stride: 1.7, TakeOff: 1.3, Landing: 1.2, Flight: .3, Radius: 2.4,
			Clean: 1 - worse*float64(n%3) - .2*float64((n*n)%5)/float64(n), Time: 1.2}
		leg.Low, leg.High = max(leg.Clean-.02, 0), min(leg.Clean+.02, 1)
		heading := from.Towards(e.At)
		for k := range 32 {
			mode := dog.Ground
			if k >= 24 {
				mode = dog.Air
			}
			if k%8 == 0 {
				r.Trace.Strides = append(r.Trace.Strides, len(r.Trace.Samples))
				r.Trace.Paws = append(r.Trace.Paws, sim.PawPrint{At: from.Lerp(e.At, float64(k)/32), Sample: len(r.Trace.Samples)})
			}
			at := from.Lerp(e.At, float64(k)/32)
			r.Trace.Samples = append(r.Trace.Samples, sim.Sample{Time: now, Leg: n, Commit: -1, Survive: 1, Stride: len(r.Trace.Strides),
				Cue:  fakeCue(s, n),
				Dog:  dog.Body{At: at, Heading: heading, Speed: 5.1, Stride: 1.7, Mode: mode, Entry: -1},
				Hand: sim.Hand{At: at.Add(heading.Right().Mul(3)), Vel: heading.Unit().Mul(4), Chest: heading, Arm: plan.LeftArm}})
			now += .04
		}
		leg.Last = len(r.Trace.Samples) - 1
		if leg.Clean < .99 {
			leg.Faults = fakeFaults(s, n, 1-leg.Clean)
		}
		r.Legs = append(r.Legs, leg)
		r.Clean *= leg.Clean
		from = e.Exit.At
	}
	for a := 1; a < len(s.Actions); a++ {
		n := max(s.Actions[a].When.Number, 1)
		r.Cues = append(r.Cues, sim.CueTiming{Action: a, Sample: r.Legs[n-1].First, Given: r.Trace.Samples[r.Legs[n-1].First].Time,
			Late: .3 * float64(a%2), Off: .9, Obstacle: n, ReadInTime: a%3 > 0})
	}
	r.Time, r.Length = now, 5*now
	return r
}

// fakeReading is a straight line from obstacle to obstacle, with made-up traps, views and places.
func fakeReading(c *course.Course, t *team.Team, rules *rulebook.Rules) *reading.Reading {
	s := sim.New(c, &plan.Plan{LeadOut: c.Start}, t)
	r := &reading.Reading{Course: c, Team: t, Rules: rules, Entries: s.Entries, Length: 123.4,
		Cautions: []rulebook.Caution{{What: "a caution about this obstacle", Obstacles: []string{c.Obstacles[c.Order[1].Obstacle].ID}, Source: "a source"}}}
	if rules != nil {
		r.Findings = []rulebook.Finding{{Rule: "spacing", Edition: rules.Name, What: "too near"}}
	}
	from, now, odo := c.Start, 0.0, 0.0
	for n := 1; n <= len(c.Order); n++ {
		e := c.Entry(n)
		l := reading.Leg{Number: n, First: len(r.Line.Samples), Distance: from.Dist(e.At), Turn: geom.Deg(float64(n*25%90) - 40), Lead: reading.Right,
			Natural: geom.Pose{At: from, Heading: from.Towards(e.At) + geom.Deg(10)}, Meets: []reading.Meeting{{Obstacle: c.Order[n-1].Obstacle, Entry: -1, Range: 4}},
			Names: []reading.Challenge{{Kind: reading.ChallengeKind(n % 16), Note: "a note"}}}
		for k := range 30 {
			mode := dog.Ground
			if k >= 24 {
				mode = dog.Air
			}
			r.Line.Samples = append(r.Line.Samples, reading.Sample{At: from.Lerp(e.At, float64(k)/30), Heading: from.Towards(e.At), Odo: odo, Time: now,
				Speed: 5, Mode: mode, Leg: n, Committed: mode == dog.Air})
			now, odo = now+.04, odo+.2
		}
		l.Last = len(r.Line.Samples) - 1
		fakeViews(r, &l, s.Right(n))
		r.Legs = append(r.Legs, l)
		from = e.Exit.At
	}
	fakeReach(r)
	slices.SortStableFunc(r.Traps, func(a, b reading.Trap) int { return cmp.Compare(b.Pull, a.Pull) })
	return r
}

// fakeViews are three things to see on a leg, of which one is a trap.
func fakeViews(r *reading.Reading, l *reading.Leg, right int) {
	for i := right; i < right+3; i++ {
		e := i % len(r.Entries)
		v := reading.View{Entry: e, Right: e == right, Bearing: geom.Deg(float64(20*i%70) - 30), Range: 4.2, InView: .7, Separation: geom.Deg(33), Farther: -1}
		v.Wrong = !v.Right && r.Entries[e].Obstacle == r.Entries[right].Obstacle
		if i == right+2 && l.Number%3 > 0 {
			v.Pull = .03 * float64(l.Number)
			at := l.Natural.Ahead(3)
			r.Traps = append(r.Traps, reading.Trap{Leg: l.Number, Entry: e, Pull: v.Pull, Bearing: v.Bearing, Range: 4.2, Why: "4.2 m off, straight on",
				Cover: reading.Cover{Cell: .5, Places: []reading.CoverPlace{{At: at, Trap: .7}, {At: at.Add(geom.Point{X: .5}), Trap: .9}}}})
		}
		l.Views = append(l.Views, v)
	}
}

// fakeReach is everywhere left of a line that moves with the legs.
func fakeReach(r *reading.Reading) {
	g := &r.Reach
	g.Cell, g.W, g.H = 1, int(r.Course.Ring.X), int(r.Course.Ring.Y)
	for n := range r.Legs {
		leg := reading.ReachLeg{Cells: make([]bool, g.W*g.H), Nearest: float64(n % 4), Ahead: n%3 == 0, Handling: true}
		for i := range leg.Cells {
			leg.Cells[i] = i%g.W < 4+2*n
		}
		g.Legs = append(g.Legs, leg)
	}
}

func fakeCue(s *sim.Setup, n int) int {
	at := 0
	for a := range s.Actions {
		if s.Actions[a].When.Number <= n {
			at = a
		}
	}
	return at
}

func fakeFaults(s *sim.Setup, n int, chance float64) []sim.Fault {
	for i, e := range s.Entries {
		if e.Obstacle != s.Course.Order[n-1].Obstacle && (e.Obstacle+n)%4 == 0 {
			return []sim.Fault{
				{Kind: sim.OffCourse, Entry: i, Obstacle: e.Obstacle, Chance: chance * .8, Bearing: geom.Deg(-14), Range: 5.2, InView: .8, Off: geom.Deg(12), Strength: 1, Leaves: -1},
				{Kind: sim.Refusal, Entry: -1, Obstacle: s.Course.Order[n-1].Obstacle, Chance: chance * .2, Bearing: geom.Deg(50), Range: 2.1, InView: .4, Leaves: -1},
			}
		}
	}
	return nil
}

func fakeLook(s *sim.Setup, at sim.Sample, buf []dog.Seen) eye.Strip {
	buf = buf[:0]
	for i, e := range s.Entries {
		b := at.Dog.At.Towards(e.At).Off(at.Dog.Heading)
		if d := at.Dog.At.Dist(e.At); b.Abs() < geom.Deg(100) && d > .5 && d < 14 {
			buf = append(buf, dog.Seen{Entry: i, Bearing: b, Range: d, Width: geom.Angle(1 / d), Visible: 1, Pull: 1 / d})
		}
	}
	return eye.Strip{Course: s.Course, Entries: s.Entries, Dog: at.Dog, Seen: buf, Hand: at.Hand, Handler: true, Right: -1,
		Told: -1, Commit: -1, Labels: eye.Labels(s.Course, at.Leg), Lead: at.Dog.Heading, Strength: 1}
}

// screen is a model under test with the messages it still has to be given.
type screen struct {
	t testing.TB
	*Model
}

func open(t testing.TB, o Options, w, h int) *screen {
	t.Helper()
	s := opening(t, o, w, h)
	if s.mode == judging {
		s.mode, s.stale = rehearsing, true // most tests are about the leg
		s.View()
	}
	return s
}

// opening is a screen on its first view.
func opening(t testing.TB, o Options, w, h int) *screen {
	t.Helper()
	s := &screen{t, New(o).(*Model)}
	s.send(tea.WindowSizeMsg{Width: w, Height: h})
	return s
}

// send gives the model a message and then whatever its commands answer at once.
func (s *screen) send(msg tea.Msg) {
	s.t.Helper()
	_, cmd := s.Update(msg)
	s.View()
	s.finish(cmd)
}

func (s *screen) finish(cmd tea.Cmd) {
	s.t.Helper()
	if cmd == nil {
		return
	}
	switch msg := cmd().(type) {
	case nil, tickMsg, noteOver:
	case tea.BatchMsg:
		for _, c := range msg {
			s.finish(c)
		}
	default:
		s.send(msg)
	}
}

// keys types keys, named as bubbletea names them.
func (s *screen) keys(names ...string) {
	s.t.Helper()
	for _, n := range names {
		s.send(keyOf(n))
	}
}

var named = map[string]tea.KeyType{
	"left": tea.KeyLeft, "right": tea.KeyRight, "up": tea.KeyUp, "down": tea.KeyDown, "enter": tea.KeyEnter, "esc": tea.KeyEsc,
	"tab": tea.KeyTab, "shift+tab": tea.KeyShiftTab, "home": tea.KeyHome, "end": tea.KeyEnd, "pgup": tea.KeyPgUp, "pgdown": tea.KeyPgDown,
	"shift+left": tea.KeyShiftLeft, "shift+right": tea.KeyShiftRight, "backspace": tea.KeyBackspace, "ctrl+c": tea.KeyCtrlC,
	"ctrl+u": tea.KeyCtrlU, "ctrl+s": tea.KeyCtrlS, "ctrl+r": tea.KeyCtrlR, "ctrl+left": tea.KeyCtrlLeft, "ctrl+down": tea.KeyCtrlDown, "f1": tea.KeyF1,
}

func keyOf(name string) tea.KeyMsg {
	if k, ok := named[name]; ok {
		return tea.KeyMsg{Type: k}
	}
	if name == " " {
		return tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}
	}
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(name)}
}

// typeText types a text letter by letter.
func (s *screen) typeText(text string) {
	s.t.Helper()
	for _, r := range text {
		s.keys(string(r))
	}
}
