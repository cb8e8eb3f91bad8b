package drill

import (
	"slices"
	"strings"

	"cuewalk/course/geom"
	"cuewalk/plan/learn"
	"cuewalk/sim"
	"cuewalk/tui/canvas"
	"cuewalk/tui/progress"
	"cuewalk/tui/ring"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
)

// recall is the plan asked cue by cue.
type recall struct {
	session learn.Session
	q       learn.Question
	sample  int // of the likely run, at which the question is asked
	answer  learn.Answer
	focus   int            // 0 the place where one is asked, then the fields
	verdict *learn.Verdict // nil while it is being answered
	run     bool           // the dog runs up to the question, in a whole recall
	until   float64        // seconds at which it is there
	begun   bool
	camera  ring.Camera
	seen    [4]int // where the ring was drawn last: x, y, w, h
}

func (r *recall) start(m *Model) tea.Cmd {
	if !r.begun {
		var changed bool
		r.session, changed = m.kept.Resume(m.o.Course, m.o.Plan)
		r.begun = true
		switch {
		case changed:
			m.tell(canvas.Plain, "The plan has changed since: what you knew of it still counts.")
		case r.session.Asked > 0:
			m.tell(canvas.Plain, "You go on where you left.")
		default:
			m.tell(canvas.Plain, "On your feet, with arms and steps in small: it stays better so.")
		}
	}
	return r.ask(m)
}

// ask puts the next question.
func (r *recall) ask(m *Model) tea.Cmd {
	r.verdict, r.run = nil, false
	m.clock.stop()
	k, ok := r.session.Cue()
	if !ok {
		return nil
	}
	r.q = learn.Ask(m.o.Course, m.o.Plan, k)
	r.sample = questionSample(m.run, k)
	r.answer = learn.Answer{Words: make([]string, len(r.q.Fields))}
	r.focus = 0
	if s := m.run.Trace.Samples; r.sample < len(s) {
		r.answer.Place = tenths(s[r.sample].Hand.At)
		r.camera = ring.Follow(s[r.sample], 26, 0, 1, 1)
	}
	if r.session.Now().Whole {
		return r.watch(m, k)
	}
	return nil
}

func tenths(p geom.Point) geom.Point {
	half := func(x float64) float64 { return float64(int(x*2+0.5)) / 2 }
	return geom.Point{X: half(p.X), Y: half(p.Y)}
}

// watch runs the dog from the question before cue k up to its own at true speed: whole
// recalls keep the clock of the run, since people imagine it too fast (A15).
func (r *recall) watch(m *Model, k int) tea.Cmd {
	s, from := m.run.Trace.Samples, 0
	if k > 0 {
		from = questionSample(m.run, k-1)
	}
	if from >= r.sample || r.sample >= len(s) {
		return nil
	}
	r.run, r.until = true, s[r.sample].Time
	m.clock.start(m.o.Now(), s[from].Time, 1)
	return m.ticking()
}

func (r *recall) tick(m *Model, at float64) {
	if at >= r.until {
		r.run = false
		m.clock.stop()
	}
}

// questionSample is where the dog is when cue k is asked: what comes before it is done.
func questionSample(run *sim.Rehearsal, k int) int {
	when := run.Setup.Plan.Cues[k].When
	leg := when.Number - 1 // number that is done
	if when.Event.After() {
		leg = when.Number
	}
	at := 0
	if leg >= 1 && leg <= len(run.Legs) {
		at = run.Legs[leg-1].Last
	}
	if c := run.Cues[k+1].Sample; c >= 0 { // never after the cue itself
		at = min(at, max(c-1, 0))
	}
	return at
}

func (r *recall) typing() bool {
	f := r.field()
	return r.verdict == nil && f >= 0 && len(r.q.Fields[f].Options) == 0
}

// field is the field in focus, -1 for the place.
func (r *recall) field() int {
	if r.q.HasPlace {
		return r.focus - 1
	}
	if len(r.q.Fields) == 0 {
		return -1
	}
	return r.focus
}

func (r *recall) parts() int {
	n := len(r.q.Fields)
	if r.q.HasPlace {
		n++
	}
	return n
}

func (r *recall) key(m *Model, k tea.KeyMsg) tea.Cmd {
	s := k.String()
	switch {
	case r.run:
		m.tell(canvas.Plain, "The dog is on its way: the question comes when it is there.")
		return nil
	case r.session.Done() && r.verdict == nil:
		if s == "enter" {
			return r.again(m)
		}
		return nil
	case r.verdict != nil:
		if s == "enter" || s == " " {
			return r.ask(m)
		}
		return nil
	}
	f := r.field()
	switch s {
	case "tab":
		r.leavePlace()
		r.focus = (r.focus + 1) % max(r.parts(), 1)
		return nil
	case "shift+tab":
		r.leavePlace()
		r.focus = (r.focus + r.parts() - 1) % max(r.parts(), 1)
		return nil
	case "?":
		r.hint(m)
		return nil
	case "enter":
		r.leavePlace()
		if r.focus+1 < r.parts() {
			r.focus++
			return nil
		}
		r.give(m)
		return nil
	}
	switch {
	case f < 0 && r.q.HasPlace:
		r.move(s)
	case f >= 0 && len(r.q.Fields[f].Options) > 0:
		r.turn(f, s)
	case f >= 0:
		r.typed(f, k)
	}
	return nil
}

func (r *recall) leavePlace() {
	if r.field() < 0 && r.q.HasPlace {
		r.answer.Placed = true
	}
}

// move takes the place along the map: half a metre, with shift two and a half.
func (r *recall) move(s string) {
	step := 0.5
	if rest, ok := strings.CutPrefix(s, "shift+"); ok {
		step, s = 2.5, rest
	}
	d := map[string]geom.Point{"up": {Y: 1}, "down": {Y: -1}, "left": {X: -1}, "right": {X: 1}}[s]
	if d != (geom.Point{}) {
		r.answer.Place = r.answer.Place.Add(d.Mul(step))
		r.answer.Placed = true
	}
}

// click points at a place with the mouse.
func (r *recall) click(m *Model, x, y int) {
	x, y = x-r.seen[0], y-r.seen[1]
	if r.verdict != nil || r.run || !r.q.HasPlace || x < 0 || y < 0 || x >= r.seen[2] || y >= r.seen[3] {
		return
	}
	r.answer.Place, r.answer.Placed, r.focus = r.camera.ToMap(x, y), true, 0
}

// turn chooses the next or the one before of a field's options.
func (r *recall) turn(f int, s string) {
	options := r.q.Fields[f].Options
	i := slices.Index(options, r.answer.Words[f])
	switch s {
	case " ", "right", "down":
		i++
	case "left", "up":
		i--
		if i < 0 {
			i = len(options) - 1
		}
	default:
		return
	}
	r.answer.Words[f] = options[(i+len(options))%len(options)]
}

func (r *recall) typed(f int, k tea.KeyMsg) {
	w := &r.answer.Words[f]
	switch {
	case k.Type == tea.KeyBackspace:
		if n := len([]rune(*w)); n > 0 {
			*w = string([]rune(*w)[:n-1])
		}
	case k.Type == tea.KeyRunes || k.Type == tea.KeySpace:
		*w += string(k.Runes)
	}
}

// hint tells something of what is in focus. It costs nothing and is counted.
func (r *recall) hint(m *Model) {
	r.session.Hint()
	if f := r.field(); f >= 0 {
		right := []rune(r.q.Fields[f].Right)
		m.tell(canvas.Plain, r.q.Fields[f].Name+" begins with "+string(right[:1])+".")
		return
	}
	best, at := -1, 0.0
	for i := range m.o.Course.Obstacles {
		if d := m.o.Course.Obstacles[i].At.Dist(r.q.Place); best < 0 || d < at {
			best, at = i, d
		}
	}
	m.tell(canvas.Plain, "You stand about "+words.Length(m.o.Course.Units, at)+" from "+words.Short(m.o.Course, best)+".")
}

// give judges the answer; what is still missing is asked for first.
func (r *recall) give(m *Model) {
	for i, w := range r.answer.Words {
		if strings.TrimSpace(w) == "" {
			m.tell(canvas.Caution, "Still to say: "+r.q.Fields[i].Name+".")
			if r.focus = i; r.q.HasPlace {
				r.focus++
			}
			return
		}
	}
	v := r.q.Judge(r.answer)
	r.verdict = &v
	r.session.Answer(v.Right)
	cue, session := r.q.Cue, r.session
	m.keep(func(g *progress.Progress) {
		g.Answered(m.o.Plan, cue, v.Right)
		g.Keep(m.o.Plan, session)
		if session.Done() {
			g.Learnt++
		}
	})
}

// again begins another session over a plan that is learnt: whole recalls alone.
func (r *recall) again(m *Model) tea.Cmd {
	r.session = learn.Start(r.session.Sections, func(int) bool { return true })
	return r.ask(m)
}
