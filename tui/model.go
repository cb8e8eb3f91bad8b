package tui

import (
	"time"

	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/sim/dog"
	"cuewalk/tui/canvas"
	"cuewalk/tui/drill"
	"cuewalk/tui/session"
	"cuewalk/tui/verdict"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/muesli/termenv"
)

// mode is which of the views is open.
type mode uint8

const (
	rehearsing mode = iota
	altering        // rehearsing with the fields of a cue open
	comparing
	walking // reading the course without a plan
	judging // the verdict in words
)

// question is what a rehearsal is the answer to; side is a plan with a team on the screen.
type (
	question = session.Question
	side     = session.Pick
)

// Model is the whole screen. It is changed by Update alone.
type Model struct {
	o       Options
	w, h    int
	canvas  *canvas.Canvas
	palette *canvas.Palette
	keys    keyMap
	frame   string // what View returned last
	stale   bool   // something changed since

	s     *session.Session
	walks map[*team.Team]*walk

	mode  mode
	sides [2]side // the plan shown, and the one it is compared with
	lit   int     // which of the two keys act on while comparing
	at    int     // place on the axis of the lit side

	fault  int // which fault of the leg is shown
	camera camera
	play   play
	alter  alter
	prompt *prompt
	page   page
	scroll int // first line of the page shown
	typed  string
	note   note
	notes  int // said so far
	judge  judge
	drag   drag
	places []place // what a click can hit, as drawn last
	seen   []dog.Seen

	learning *drill.Model // the drills, while they are open

	quitting bool // the program is left after a save
}

// note is one line said to the user until the next key.
type note struct {
	text string
	role canvas.Role
}

// New returns the screen as a bubbletea model. Without a plan it reads the course. Options
// without course or team give a screen that says so.
func New(o Options) tea.Model {
	o.fill()
	m := &Model{o: o, canvas: canvas.New(0, 0), palette: palette(o), keys: newKeyMap(), stale: true, s: session.New(o.session())}
	if m.ready() {
		m.sides[1] = m.other(m.sides[0])
	}
	m.canvas.Fine = o.Fine && canvas.FineFits()
	switch {
	case !m.ready():
	case len(m.s.Docs()) == 0:
		m.mode = walking
	default:
		m.mode = judging
		m.toWorst()
	}
	return m
}

func palette(o Options) *canvas.Palette {
	if o.Mono && o.Profile != termenv.Ascii {
		return canvas.NewMono()
	}
	return canvas.NewPalette(o.Profile, !o.Light)
}

func (m *Model) ready() bool { return m.s.Ready() == nil }

// toWorst opens on the leg that goes wrong most: what the screen is looked at for.
func (m *Model) toWorst() {
	r := m.run()
	if w := r.Worst(1); len(w) > 0 {
		m.at = m.crisis(r, w[0])
	}
}

// Init starts watching the files and making runs.
func (m *Model) Init() tea.Cmd {
	if !m.ready() {
		return nil
	}
	return tea.Batch(m.watch(), m.keepRunning())
}

// Update takes one message. Whatever changed, the next View shows it.
func (m *Model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if cmd, theirs := m.learn(msg); theirs {
		return m, cmd
	}
	if size, ok := msg.(tea.WindowSizeMsg); ok {
		m.w, m.h = max(size.Width, 0), max(size.Height, 0)
		m.canvas.Resize(m.w, m.h)
		m.stale = true
		return m, nil
	}
	if !m.ready() {
		if _, ok := msg.(tea.KeyMsg); ok {
			return m, tea.Quit
		}
		return m, nil
	}
	return m, m.take(msg)
}

func (m *Model) take(msg tea.Msg) tea.Cmd {
	m.stale = true
	switch msg := msg.(type) {
	case tea.KeyMsg:
		return m.key(msg)
	case tea.MouseMsg:
		return m.mouse(msg)
	case tickMsg:
		return m.tick(msg)
	case session.Event:
		return m.happened(msg)
	case noteOver:
		if msg.number == m.notes {
			m.note = note{}
		}
		return nil
	case tea.ResumeMsg: // bubbletea 1.3.10 takes back all but the mouse, and draws what has changed only
		return tea.Sequence(tea.EnableMouseCellMotion, tea.ClearScreen)
	}
	m.stale = false
	return nil
}

// question is what side i asks.
func (m *Model) question(i int) question { return m.s.Question(m.sides[i]) }

// team is the team of the side that keys act on.
func (m *Model) team() *team.Team { return m.s.Teams()[m.sides[m.active()].Team] }

// shown lists what is on the screen, the lit side first.
func (m *Model) shown() []question {
	if m.mode == walking {
		return nil
	}
	if m.mode == judging {
		return verdict.Wanted(m.s, m.question(0))
	}
	if m.mode != comparing {
		return []question{m.question(0)}
	}
	return []question{m.question(m.lit), m.question(1 - m.lit)}
}

// active is the side that keys act on.
func (m *Model) active() int {
	if m.mode == comparing {
		return m.lit
	}
	return 0
}

// run is the rehearsal that the axis belongs to.
func (m *Model) run() *sim.Rehearsal { return m.runOf(m.active()) }

// runOf is the rehearsal of side i; while the course is read, the dog's best line.
func (m *Model) runOf(i int) *sim.Rehearsal {
	if m.mode == walking {
		return m.walked().run
	}
	return m.s.Ask(m.question(i))
}

func (m *Model) doc() *session.Document { return m.s.Docs()[m.sides[m.active()].Doc] }

func (m *Model) say(role canvas.Role, text string) {
	m.note = note{words.Safe(text), role}
	m.notes++
}

// move goes to a place on the axis.
func (m *Model) move(at int) {
	r := m.run()
	was := legIndex(r, m.at)
	m.at = within(r, at)
	if legIndex(r, m.at) != was {
		m.camera.own, m.fault = nil, 0
		if m.mode != altering {
			m.alter.base = nil // moved on: the old chances are let go
		}
	}
}

// place is what a click in a rectangle of the screen means.
type place struct {
	rect
	kind placeKind
	n    int
}

type placeKind uint8

const (
	onLeg placeKind = iota // course number n
	onCue                  // action n
	onField
	onRing // side n
	onSide
	onKey
	onChange // piece of advice n
)

// seconds is the time of the sample under the cursor.
func (m *Model) seconds() float64 {
	if ss := m.run().Trace.Samples; len(ss) > 0 {
		return ss[within(m.run(), m.at)].Time
	}
	return 0
}

// tickMsg is one beat of playing; those of an earlier play are told by their number.
type tickMsg struct {
	number int
	now    time.Time
}
