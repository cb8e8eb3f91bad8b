package tui

import (
	"fmt"
	"strconv"

	"cuewalk/sim"
	"cuewalk/tui/canvas"
	"cuewalk/tui/ring"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
)

func (m *Model) toEnd(dir int) {
	if dir < 0 {
		m.move(0)
		return
	}
	m.move(last(m.run()))
}

// nextWorst goes to the next leg in the order of how badly it goes, or back in that order.
func (m *Model) nextWorst(dir int) {
	r := m.run()
	ws := r.Worst(len(r.Legs))
	if len(ws) == 0 {
		m.say(canvas.Quiet, words.Worst(r, 1)[0])
		return
	}
	to := 0
	if i := legIndex(r, m.at); i >= 0 {
		for k, n := range ws {
			if n == r.Legs[i].Number {
				to = (k + dir + len(ws)) % len(ws)
			}
		}
	}
	m.move(m.crisis(r, ws[to]))
}

// typeDigit collects a course number, at most four figures.
func (m *Model) typeDigit(k string) {
	switch {
	case k == "backspace" && m.typed != "":
		m.typed = m.typed[:len(m.typed)-1]
	case isDigit(k) && len(m.typed) < 4:
		m.typed += k
	}
}

func (m *Model) goTyped() {
	n, _ := strconv.Atoi(m.typed)
	m.typed = ""
	at, ok := atNumber(m.run(), n)
	if !ok {
		m.say(canvas.Caution, fmt.Sprintf("! no number %d: the course has 1 to %d", n, len(m.s.Course().Order)))
		return
	}
	m.move(at)
	if m.mode == altering {
		m.choose(cueAt(m.run(), m.at))
	}
}

// nextFault shows the next thing that goes wrong on the leg.
func (m *Model) nextFault(dir int) {
	r := m.run()
	if i := legIndex(r, m.at); i >= 0 {
		if n := shownFaults(r.Legs[i].Faults); n > 0 {
			m.fault = (m.fault + dir + n) % n
		}
	}
}

// camera is how the user looks at the ring: at the leg, the whole, after the dog, or
// where he has moved it by hand, until the leg is left.
type camera struct {
	whole, follow bool
	turn          ring.Turn
	layers        *ring.Layers // chosen by key; nil for the usual ones
	own           *ring.Camera
	last          [2]ring.Camera // as drawn, by side
}

// turnRing turns the ring a quarter.
func (m *Model) turnRing() {
	m.camera.turn, m.camera.own = m.camera.turn.Next(), nil
	what := m.camera.turn.String()
	if what == "" {
		what = "the paper's way up"
	}
	m.say(canvas.Quiet, "the ring is "+what)
}

// layer shows one more layer of the ring, or one less.
func (m *Model) layer(dir int) {
	now, one := m.layers(), ring.LayerCount
	if dir > 0 {
		now, one = now.More()
	} else {
		now, one = now.Fewer()
	}
	switch {
	case one == ring.LayerCount:
		m.say(canvas.Quiet, "there is nothing more to show or to take away")
		return
	case dir > 0:
		m.say(canvas.Quiet, "shown too: "+one.String())
	default:
		m.say(canvas.Quiet, "left out: "+one.String())
	}
	m.camera.layers = &now
}

// layers are those that the ring shows.
func (m *Model) layers() ring.Layers {
	switch {
	case m.camera.layers != nil:
		return *m.camera.layers
	case m.camera.whole:
		return ring.WholeLayers()
	}
	return ring.LegLayers().With(ring.Shadow).With(ring.Sight)
}

func (m *Model) wholeRing() { m.camera = camera{whole: !m.camera.whole, turn: m.camera.turn} }

func (m *Model) follow() { m.camera = camera{follow: !m.camera.follow, turn: m.camera.turn} }

const zoomStep = 1.25

func (m *Model) zoom(dir int) {
	c := m.camera.last[0]
	m.zoomAt(dir, c.W/2, c.H/2)
}

func (m *Model) zoomAt(dir, x, y int) {
	factor := zoomStep
	if dir < 0 {
		factor = 1 / zoomStep
	}
	if c := m.camera.last[0]; c.W > 0 {
		c = c.Zoom(factor, x, y)
		m.camera.own = &c
	}
}

func (m *Model) pan(x, y int) {
	if c := m.camera.last[0]; c.W > 0 {
		c = c.Pan(x, y)
		m.camera.own = &c
	}
}

// span is the metres that following the dog shows.
const span = 14

// cameraFor is how side i of the screen looks at the ring in w by h cells. Both sides of a
// comparison look alike, so that what differs shows.
func (m *Model) cameraFor(i, w, h, at int) ring.Camera {
	r := m.runOf(i)
	ss := r.Trace.Samples
	k := &m.camera
	var c ring.Camera
	switch l := legIndex(r, at); {
	case k.own != nil:
		c = k.own.Sized(w, h)
	case k.whole || l < 0 || len(ss) == 0:
		c = ring.Whole(m.s.Course(), k.turn, w, h)
	case k.follow:
		c = ring.Follow(ss[within(r, at)], span, k.turn, w, h)
	default:
		runs := []*sim.Rehearsal{r}
		if m.mode == comparing {
			runs = append(runs, m.runOf(1-i))
		}
		c = ring.Leg(m.s.Course(), r.Legs[l].Number, k.turn, w, h, runs...)
	}
	k.last[i] = c
	return c
}

// finer switches between plain signs and the finer drawing.
func (m *Model) finer() {
	switch {
	case m.canvas.Fine:
		m.canvas.Fine = false
	case canvas.FineFits():
		m.canvas.Fine = true
	default:
		m.say(canvas.Caution, "! this terminal makes the finer signs two cells wide")
	}
}

func (m *Model) quit() tea.Cmd {
	for _, d := range m.s.Docs() {
		if d.Unsaved() {
			m.askBeforeQuit(d)
			return nil
		}
	}
	m.s.Close()
	return tea.Quit
}
