package drill

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/learn"
	"cuewalk/plan/team"
	"cuewalk/tui/progress"
)

// desk is the screen with a clock that the test moves.
type desk struct {
	t   *testing.T
	m   *Model
	now time.Time
	cmd tea.Cmd
}

func options(t testing.TB, dir, c, p, tm string) Options {
	t.Helper()
	read := func(name string) []byte {
		data, err := os.ReadFile(filepath.Join("../..", dir, name))
		require.NoError(t, err)
		return data
	}
	var o Options
	var err error
	o.Course, err = course.Parse(c, read(c))
	require.NoError(t, err)
	o.Team, err = team.Parse(tm, read(tm))
	require.NoError(t, err)
	o.Plan, err = plan.Parse(p, read(p), o.Course, o.Team)
	require.NoError(t, err)
	o.Seed = 1
	return o
}

func demo(t testing.TB) Options {
	return options(t, "testdata/demo", "meadow-agility.toml", "meadow-agility-b.toml", "rook.toml")
}

func small(t *testing.T) Options {
	return options(t, "testdata/scripts/ring", "course.toml", "plan.toml", "team.toml")
}

func sit(t *testing.T, o Options) *desk {
	t.Helper()
	d := &desk{t: t, now: time.Unix(1_000_000, 0)}
	o.Now = func() time.Time { return d.now }
	o.Tick = func(_ time.Duration, msg func(time.Time) tea.Msg) tea.Cmd {
		return func() tea.Msg { return msg(d.now) }
	}
	m, err := New(o)
	require.NoError(t, err)
	d.m = m
	d.send(tea.WindowSizeMsg{Width: 80, Height: 24})
	return d
}

func (d *desk) send(msg tea.Msg) {
	_, cmd := d.m.Update(msg)
	if cmd != nil {
		d.cmd = cmd
	}
}

// keys types names of keys, with blanks between.
func (d *desk) keys(names ...string) {
	d.t.Helper()
	types := map[string]tea.KeyType{"enter": tea.KeyEnter, "esc": tea.KeyEsc, "tab": tea.KeyTab, "up": tea.KeyUp, "down": tea.KeyDown,
		"left": tea.KeyLeft, "right": tea.KeyRight, "space": tea.KeySpace, "ctrl+p": tea.KeyCtrlP}
	for _, n := range names {
		k := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(n)}
		if typ, ok := types[n]; ok {
			k = tea.KeyMsg{Type: typ}
			if n == "space" {
				k.Runes = []rune{' '}
			}
		}
		d.send(k)
	}
}

// pass lets time go by, frame by frame.
func (d *desk) pass(x time.Duration) {
	d.t.Helper()
	for end := d.now.Add(x); d.now.Before(end); {
		d.now = d.now.Add(min(frame, end.Sub(d.now)))
		d.send(tickMsg{d.m.beats})
	}
}

func (d *desk) sees(texts ...string) {
	d.t.Helper()
	plain := d.m.View()
	screen := strings.Join(strings.Fields(plain), " ")
	for _, text := range texts {
		assert.Contains(d.t, screen, text, plain)
	}
}

// answer answers the question as the plan does, or wrongly.
func (d *desk) answer(right bool) {
	d.t.Helper()
	r := &d.m.recall
	require.Nil(d.t, r.verdict)
	r.answer.Place, r.answer.Placed = r.q.Place, true
	for i, f := range r.q.Fields {
		r.answer.Words[i] = f.Right
	}
	if !right {
		if r.q.HasPlace {
			r.answer.Place.X += learn.Radius + 0.1
		} else {
			r.answer.Words[0] = "nothing"
		}
	}
	r.focus = r.parts() - 1
	d.keys("enter")
	require.NotNil(d.t, r.verdict)
	require.Equal(d.t, right, r.verdict.Right)
}

// A whole recall of the demonstration to its end, with a wrong answer, at the run's clock
// where that is asked for.
func TestRecallToTheEnd(t *testing.T) {
	o := demo(t)
	o.Store.Dir = t.TempDir()
	d := sit(t, o)
	d.keys("1")
	d.sees("The dog is released: what now?", "section 1 of 4")
	d.answer(false)
	d.sees("Not so; it comes again soon.")
	d.keys("enter")
	waited := 0.0
	for n := 0; !d.m.recall.session.Done(); n++ {
		require.Less(t, n, 500)
		if d.m.recall.run {
			from := d.now
			d.sees("The dog runs.")
			d.pass(10 * time.Second)
			require.False(t, d.m.recall.run, "the dog never gets there")
			waited += d.now.Sub(from).Seconds()
		}
		d.answer(true)
		d.keys("enter")
	}
	d.sees("You know this plan")
	s := &d.m.recall.session
	assert.Equal(t, 1, s.Wrong)
	wholes := 2 * len(o.Plan.Cues)
	assert.Greater(t, s.Asked, wholes)
	assert.Greater(t, waited, d.m.run.Time, "the whole recalls took the run's time")
	g, err := o.Store.Load(o.Course, o.Plan)
	require.NoError(t, err)
	assert.Equal(t, 1, g.Learnt)
	d.keys("enter")
	d.sees("whole recall, 0 of 2")
	d.answer(true)
	d.keys("enter")
	d.sees("The dog runs.")
	d.pass(10 * time.Second)
	d.sees("what now?")
}

// The question does not show its answer: no stand, no way of the handler after now.
func TestQuestionHidesTheCue(t *testing.T) {
	d := sit(t, demo(t))
	d.keys("1")
	d.answer(true)
	d.keys("enter")
	r := &d.m.recall
	require.Equal(t, "The dog is at 3: what now?", r.q.Ask)
	d.m.View()
	shown := upTo(d.m.run, r.sample).Trace.Samples
	c := d.m.run.Cues[r.q.Cue+1]
	require.Less(t, len(shown)-1, c.Sample, "the run is shown to before the cue alone")
	for y := 1; y < 22; y++ { // no sign of a stand on the ring
		for x := range 80 - sideWidth {
			sign, _ := d.m.canvas.At(x, y)
			assert.NotEqual(t, "h", sign, "%d %d", x, y)
		}
	}
}

// Leaving, coming back, a hint, a pause.
func TestLeaveAndComeBack(t *testing.T) {
	o := demo(t)
	o.Store.Dir = t.TempDir()
	d := sit(t, o)
	d.keys("1", "?")
	d.sees("pace begins with r.")
	d.keys("p")
	d.sees("Paused.")
	d.keys("x", "space", "enter")
	require.NotNil(t, d.m.recall.verdict)
	assert.True(t, d.m.recall.verdict.Right, "space chose run, the first")
	d.keys("enter", "esc", "q")
	again := sit(t, o)
	again.sees("1 cue of 15 cues known")
	again.keys("1")
	again.sees("The dog is at 3: what now?", "You go on where you left.")
	assert.Equal(t, 1, again.m.recall.session.Hints)
}

// The keys and the mouse point at a place.
func TestPointing(t *testing.T) {
	d := sit(t, demo(t))
	d.keys("1")
	d.answer(true)
	d.keys("enter")
	was := d.m.recall.answer.Place
	d.keys("up", "up", "right")
	d.send(tea.KeyMsg{Type: tea.KeyShiftLeft})
	now := d.m.recall.answer.Place
	assert.InDelta(t, was.X+0.5-2.5, now.X, 1e-9)
	assert.InDelta(t, was.Y+1, now.Y, 1e-9)
	d.m.View()
	d.send(tea.MouseMsg{X: 10, Y: 5, Action: tea.MouseActionPress, Button: tea.MouseButtonLeft})
	assert.Equal(t, d.m.recall.camera.ToMap(10, 4), d.m.recall.answer.Place)
}

// What is missing is asked for and is no answer yet.
func TestMissing(t *testing.T) {
	d := sit(t, demo(t))
	d.keys("1", "enter")
	assert.Nil(t, d.m.recall.verdict)
	d.sees("Still to say: pace.")
	assert.Zero(t, d.m.recall.session.Asked)
}

// tapAlong makes the eight taps, each late by so much.
func (d *desk) tapAlong(late time.Duration) {
	d.t.Helper()
	d.keys("2")
	d.sees("Tap the space bar")
	start := d.now
	for n := range learn.Taps {
		at := start.Add(time.Duration(float64(n+1)*beatEvery*1000)*time.Millisecond + late)
		d.pass(at.Sub(d.now))
		d.keys("space")
	}
}

// With a clock handed in, every press is told to the millisecond: what the taps came late
// by is off, at half speed half as much of it.
func TestTimingToTheMillisecond(t *testing.T) {
	o := demo(t)
	o.Store.Dir = t.TempDir()
	d := sit(t, o)
	d.tapAlong(110 * time.Millisecond)
	assert.InDelta(t, 0.110, d.m.timing.delay.Seconds, 1e-9)
	assert.InDelta(t, 0, d.m.timing.delay.Spread, 1e-9)
	d.sees("Your keys come 0.11 s late")
	d.keys("enter")
	t0 := d.now
	tm := &d.m.timing
	k, ok := tm.live.Next()
	require.True(t, ok)
	require.Equal(t, 2, k, "the first is given with the release")
	// Go on until the moment of cue 2 is known, then press so that it means 0.237 s late.
	var came float64
	for came, ok = tm.live.Came(2); !ok; came, ok = tm.live.Came(2) {
		require.Less(t, d.now.Sub(t0), 30*time.Second)
		d.pass(frame)
	}
	wall := time.Duration((came+0.237)/0.5*1e9) + 110*time.Millisecond
	d.pass(t0.Add(wall).Sub(d.now))
	d.keys("space")
	require.True(t, tm.press[0].known)
	assert.InDelta(t, 0.237, tm.press[0].late, 0.0005)
	d.sees("cue 2: 0.2 s late")
	// A pause takes nothing off and adds nothing.
	before := tm.live.Time()
	d.keys("p")
	d.now = d.now.Add(time.Hour)
	d.keys("x")
	d.pass(frame)
	assert.InDelta(t, before+2*frame.Seconds()*0.5, tm.live.Time(), 0.08)
}

// A run in which every key is pressed at its moment, to its end, with the table, what is
// kept, and the figure offered and written only when it is said so.
func TestTimingRun(t *testing.T) {
	o := small(t)
	o.Store.Dir = t.TempDir()
	o.Team.File = filepath.Join(t.TempDir(), "team.toml")
	was := []byte("team = \"Own\"\n\n[handler]\nlike = \"average\" # as ever\n")
	require.NoError(t, os.WriteFile(o.Team.File, was, 0o600))
	d := sit(t, o)
	d.tapAlong(60 * time.Millisecond)
	d.keys("s", "s") // true speed
	for range 8 {
		d.keys("enter")
		for n := 0; d.m.timing.stage != table; n++ {
			require.Less(t, n, 4000)
			tm := &d.m.timing
			if tm.stage == stopped {
				d.sees("enter go on from the next number")
				d.keys("enter")
			}
			d.pass(frame)
			if k, ok := tm.live.Next(); ok && tm.stage == running {
				if at, come := tm.live.Came(k); come && d.m.clock.at(d.now) >= at+0.06 {
					d.keys("space")
				}
			}
		}
	}
	all := d.m.all()
	require.GreaterOrEqual(t, len(all), learn.SpreadFrom)
	for _, x := range all {
		assert.InDelta(t, 0.02, float64(x), 0.03, "pressed at the first frame after its moment and the delay")
	}
	require.NotNil(t, d.cmd)
	found := false
	for _, msg := range results(d.cmd) {
		if c, ok := msg.(chanceMsg); ok {
			d.send(c)
			found = true
			assert.InDelta(t, c.usual, c.clean, 0.15, "so small a spread changes little")
		}
	}
	require.True(t, found, "the chance was not asked for")
	d.sees("A handler whose moments spread by")
	d.keys("w")
	d.sees("y yes, any other key no")
	d.keys("n")
	now, err := os.ReadFile(o.Team.File)
	require.NoError(t, err)
	assert.Equal(t, string(was), string(now), "never by itself")
	d.keys("w", "y")
	now, err = os.ReadFile(o.Team.File)
	require.NoError(t, err)
	assert.Contains(t, string(now), "timing = 0.0")
	assert.Contains(t, string(now), `like = "average" # as ever`)
}

// A cue that was forgotten does not make all after it late: the press belongs to the one
// whose moment is nearer, and gives both.
func TestForgottenCue(t *testing.T) {
	d := sit(t, demo(t))
	d.m.mode, d.m.timing.stage = timing, ready
	d.keys("s", "s", "enter")
	tm := &d.m.timing
	const seesaw = 7 // the cue at its entry; the next is at its exit, more than a second later
	for n := 0; ; n++ {
		require.Less(t, n, 2000)
		d.pass(frame)
		if tm.stage == stopped {
			d.keys("enter")
		}
		k, _ := tm.live.Next()
		if k == seesaw {
			k++
		}
		if at, come := tm.live.Came(k); come && d.m.clock.at(d.now) >= at {
			d.keys("space")
			if k > seesaw {
				break
			}
		}
	}
	last := tm.press[len(tm.press)-2:]
	assert.True(t, last[0].action == seesaw && learn.Try(last[0].late).Forgotten())
	assert.True(t, last[1].action == seesaw+1 && learn.Try(last[1].late).InTime())
	d.sees("cue 8: in time", "cue 7: forgotten")
}

// results runs a command and those in it.
func results(cmd tea.Cmd) []tea.Msg {
	if cmd == nil {
		return nil
	}
	msg := cmd()
	if batch, ok := msg.(tea.BatchMsg); ok {
		var all []tea.Msg
		for _, c := range batch {
			all = append(all, results(c)...)
		}
		return all
	}
	return []tea.Msg{msg}
}

// Over a slow line the drill says how unsure it is.
func TestSlowLine(t *testing.T) {
	d := sit(t, demo(t))
	d.keys("2")
	start := d.now
	for n := range learn.Taps {
		late := time.Duration(50+n%4*120) * time.Millisecond
		d.pass(start.Add(time.Duration(float64(n+1)*beatEvery*1000)*time.Millisecond + late).Sub(d.now))
		d.keys("space")
	}
	d.sees("a slow line or screen")
	d.keys("esc", "q")
}

// A delay kept from another day is said to be one.
func TestOldDelay(t *testing.T) {
	o := demo(t)
	o.Store.Dir = t.TempDir()
	d := sit(t, o)
	d.tapAlong(70 * time.Millisecond)
	assert.NotContains(t, d.m.View(), "measured before")
	again := sit(t, o)
	again.keys("2")
	again.sees("Your keys come 0.07 s late", "That was measured before")
}

// The next cue is shown a chosen time ahead, with the bell where it is wanted.
func TestSayIt(t *testing.T) {
	o := demo(t)
	rung := 0
	o.Ring = func() { rung++ }
	d := sit(t, o)
	d.keys("3", "b", "+")
	d.sees("1.25 s ahead, bell", "Get ready.")
	c := d.m.run.Cues[4] // "go"
	d.pass(time.Duration((3 + c.Given - 1.25 - 0.05) * 1e9))
	assert.Equal(t, 3, d.m.say.shown)
	d.pass(100 * time.Millisecond)
	assert.Equal(t, 4, d.m.say.shown)
	assert.Equal(t, 4, rung)
	d.sees("#### ###", `"6 entry -2": "go"`)
	d.pass(time.Minute)
	d.sees("That was the run.")
	assert.Equal(t, len(o.Plan.Cues), rung)
}

func TestScript(t *testing.T) {
	o := demo(t)
	var b bytes.Buffer
	require.NoError(t, Script(&b, o))
	for k := range o.Plan.Cues {
		assert.Contains(t, b.String(), fmt.Sprintf("%3d  %s", k+1, o.Plan.Cues[k].When))
	}
	for _, line := range strings.Split(b.String(), "\n") {
		assert.LessOrEqual(t, len(line), 80, line)
	}
	assert.Equal(t, 5, strings.Count(b.String(), "-----\n"), "a rule before each section and one at the end")
}

// The recall in sentences, to its end: what is typed is what the plan says.
func TestPlainRecall(t *testing.T) {
	o := small(t)
	sections := learn.Sections(o.Course, o.Plan)
	session := learn.Start(sections, nil)
	lines := []string{"1", "hint", "where"}
	for !session.Done() {
		k, _ := session.Cue()
		q := learn.Ask(o.Course, o.Plan, k)
		if q.HasPlace {
			lines = append(lines, fmt.Sprintf("%.2f %.2f", q.Place.X/o.Course.Units.Factor(), q.Place.Y/o.Course.Units.Factor()))
		}
		for _, f := range q.Fields {
			lines = append(lines, f.Right)
		}
		session.Answer(true)
	}
	lines = append(lines, "q")
	var out bytes.Buffer
	o.Store = progress.Store{Dir: t.TempDir()}
	require.NoError(t, Plain(o, strings.NewReader(strings.Join(lines, "\n")), &out))
	assert.Contains(t, out.String(), "You know this plan: two whole recalls without a mistake.")
	assert.Contains(t, out.String(), "You stand about 3.2 m from jump 2.")
	g, err := o.Store.Load(o.Course, o.Plan)
	require.NoError(t, err)
	assert.Equal(t, 1, g.Learnt)
}

func TestNoCues(t *testing.T) {
	o := demo(t)
	p := *o.Plan
	p.Cues = nil
	o.Plan = &p
	_, err := New(o)
	assert.ErrorContains(t, err, "no cues")
}

// Any keys at any size: it neither panics nor draws outside.
func TestAnyKeys(t *testing.T) {
	d := sit(t, small(t))
	all := []string{"1", "2", "3", "enter", "space", "tab", "up", "left", "?", "x", "p", "esc", "r", "s", "c", "w", "b", "+", "-"}
	n := 7
	for i := range 3000 {
		n = (n*1103515245 + 12345) % (1 << 31)
		d.keys(all[n/65536%len(all)])
		if i%5 == 0 {
			d.pass(200 * time.Millisecond)
		}
		if i%50 == 0 {
			d.send(tea.WindowSizeMsg{Width: n % 100, Height: n / 128 % 40})
		}
		for _, line := range strings.Split(d.m.View(), "\n") {
			require.LessOrEqual(t, ansi.StringWidth(line), max(d.m.w, 0))
		}
	}
}

// A frame of the timing drill: there are thirty a second.
func BenchmarkTimingFrame(b *testing.B) {
	d := &desk{now: time.Unix(1_000_000, 0)}
	o := demo(b)
	o.Now = func() time.Time { return d.now }
	m, err := New(o)
	require.NoError(b, err)
	d.m = m
	m.Update(tea.WindowSizeMsg{Width: 80, Height: 24})
	m.mode, m.timing.delay.Seconds = timing, 0.05
	for range b.N {
		if m.timing.stage != running {
			m.timing.run(m)
		}
		d.now = d.now.Add(frame)
		m.Update(tickMsg{m.beats})
		m.View()
	}
}
