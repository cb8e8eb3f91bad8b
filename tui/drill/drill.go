// Package drill lets a handler learn a plan: recall it cue by cue, give its cues in time to
// a running dog, and say them to oneself at the run's speed. It is a screen of its own, a
// plain mode in sentences, and a script for paper.
package drill

import (
	"errors"
	"fmt"
	"time"

	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/tui/canvas"
	"cuewalk/tui/progress"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/muesli/termenv"
)

// Options is what is learnt and how. Course, Plan and Team must be set.
type Options struct {
	Course  *course.Course
	Plan    *plan.Plan
	Team    *team.Team
	Store   progress.Store
	Seed    uint64 // luck of the timing drill's runs
	Light   bool
	Fine    bool
	Mono    bool
	Bell    bool // Say it rings at each cue
	Nested  bool // opened from another screen: leaving goes back there
	Profile termenv.Profile

	Now  func() time.Time                                           // where nil, time.Now
	Tick func(d time.Duration, msg func(time.Time) tea.Msg) tea.Cmd // where nil, tea.Tick
	Ring func()                                                     // rings the terminal's bell; where nil nothing rings
}

func (o *Options) fill() error {
	if o.Course == nil || o.Plan == nil || o.Team == nil {
		return errors.New("give one course and one plan, and at most one team")
	}
	if len(o.Plan.Cues) == 0 {
		return fmt.Errorf("the plan %q has no cues: there is nothing to learn", o.Plan.Name)
	}
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.Tick == nil {
		o.Tick = tea.Tick
	}
	return nil
}

type mode uint8

const (
	choosing mode = iota
	recalling
	timing
	saying
)

// Model is the whole screen. It is changed by Update alone.
type Model struct {
	o        Options
	setup    *sim.Setup
	run      *sim.Rehearsal
	kept     progress.Progress
	canvas   *canvas.Canvas
	palette  *canvas.Palette
	w, h     int
	mode     mode
	paused   bool
	left     bool
	clock    clock
	beats    int // number of the present row of ticks
	note     string
	noteRole canvas.Role
	recall   recall
	timing   timingDrill
	say      sayIt
}

// New returns the screen as a bubbletea model.
func New(o Options) (*Model, error) {
	if err := o.fill(); err != nil {
		return nil, err
	}
	m := &Model{o: o, canvas: canvas.New(0, 0)}
	m.canvas.Fine = o.Fine && canvas.FineFits()
	m.palette = canvas.NewPalette(o.Profile, !o.Light)
	if o.Mono && o.Profile != termenv.Ascii {
		m.palette = canvas.NewMono()
	}
	m.setup = sim.New(o.Course, o.Plan, o.Team)
	m.run = m.setup.Rehearse()
	m.load()
	m.say.ahead = 1
	m.timing.speed = 0.5
	return m, nil
}

// load reads what was learnt before.
func (m *Model) load() {
	var err error
	if m.kept, err = m.o.Store.Load(m.o.Course, m.o.Plan); err != nil {
		m.tell(canvas.Caution, err.Error())
	}
}

// keep notes something learnt, here and in the user's data.
func (m *Model) keep(change func(*progress.Progress)) {
	change(&m.kept)
	if err := m.o.Store.Change(m.o.Course, m.o.Plan, change); err != nil {
		m.tell(canvas.Caution, err.Error())
	}
}

func (m *Model) tell(role canvas.Role, text string) { m.note, m.noteRole = words.Safe(text), role }

// Init implements tea.Model.
func (m *Model) Init() tea.Cmd { return nil }

// Update implements tea.Model.
func (m *Model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		m.w, m.h = max(msg.Width, 0), max(msg.Height, 0)
		m.canvas.Resize(m.w, m.h)
	case tea.KeyMsg:
		return m, m.key(msg)
	case tea.MouseMsg:
		if m.mode == recalling && msg.Action == tea.MouseActionPress && msg.Button == tea.MouseButtonLeft {
			m.recall.click(m, msg.X, msg.Y)
		}
	case tickMsg:
		return m, m.ticked(msg)
	case chanceMsg:
		m.timing.chance = &msg
	}
	return m, nil
}

func (m *Model) key(k tea.KeyMsg) tea.Cmd {
	s := k.String()
	if s == "ctrl+c" || s == "q" && !m.typing() {
		return m.leave()
	}
	if m.paused {
		m.pause(false)
		return m.ticking()
	}
	if (s == "p" && !m.typing() || s == "ctrl+p") && m.mode != choosing {
		m.pause(true)
		return nil
	}
	m.note = ""
	if s == "esc" && m.mode != choosing {
		m.timing.store(m)
		m.clock.stop()
		m.mode = choosing
		return nil
	}
	switch m.mode {
	case recalling:
		return m.recall.key(m, k)
	case timing:
		return m.timing.key(m, s)
	case saying:
		return m.say.key(m, s)
	}
	return m.choose(s)
}

func (m *Model) typing() bool { return m.mode == recalling && m.recall.typing() }

// Left reports whether the drills were left for the screen that they were opened from.
func (m *Model) Left() bool { return m.left }

func (m *Model) leave() tea.Cmd {
	m.timing.store(m)
	m.clock.stop()
	if m.o.Nested {
		m.left = true
		return nil
	}
	return tea.Quit
}

func (m *Model) choose(s string) tea.Cmd {
	switch s {
	case "1", "enter":
		m.mode = recalling
		return m.recall.start(m)
	case "2":
		m.mode = timing
		return m.timing.start(m)
	case "3":
		m.mode = saying
		return m.say.start(m)
	case "esc":
		return m.leave()
	}
	return nil
}

// pause holds or lets go whatever runs.
func (m *Model) pause(on bool) {
	m.paused = on
	if on {
		m.clock.hold(m.o.Now())
	} else {
		m.clock.resume(m.o.Now())
	}
}
