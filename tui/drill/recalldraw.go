package drill

import (
	"fmt"
	"strings"

	"cuewalk/plan/learn"
	"cuewalk/tui/canvas"
	"cuewalk/tui/ring"
	"cuewalk/tui/words"
)

// sideWidth is the room for words beside the ring.
const sideWidth = 30

// mark is the sign of the place that is pointed at.
const mark = 'X'

func (r *recall) draw(m *Model, v canvas.View) {
	w, h := v.Size()
	m.head(v, passName(&r.session))
	if r.session.Done() && r.verdict == nil {
		r.drawDone(m, v.Sub(0, 2, w, h-4))
		m.foot(v, "enter once more  esc back  q leave")
		return
	}
	box := v.Sub(0, 1, w-sideWidth-1, h-3)
	r.seen = [4]int{0, 1, w - sideWidth - 1, h - 3}
	r.drawRing(m, box)
	v.Post(w-sideWidth-1, 1, h-3, canvas.Quiet)
	r.drawSide(m, v.Sub(w-sideWidth, 1, sideWidth, h-3))
	switch {
	case r.run:
		m.foot(v, "p pause  esc back  q leave")
	case r.verdict != nil:
		m.foot(v, "enter go on  p pause  esc back  q leave")
	default:
		m.foot(v, "arrows place  space choose  tab next  enter say  ? hint  p pause  esc back")
	}
}

// passName says what is being walked: "sections 1 to 3 of 4, 5 to come".
func passName(s *learn.Session) string {
	p := s.Now()
	name := fmt.Sprintf("section %d of %d", p.First+1, len(s.Sections))
	switch {
	case s.Done():
		return "learnt"
	case p.Whole:
		name = fmt.Sprintf("whole recall, %d of 2 without a mistake", s.Clean)
	case p.Last > p.First:
		name = fmt.Sprintf("sections %d to %d of %d", p.First+1, p.Last+1, len(s.Sections))
	}
	return name + fmt.Sprintf(", %d to come", s.Left())
}

func (r *recall) drawRing(m *Model, v canvas.View) {
	w, h := v.Size()
	samples := m.run.Trace.Samples
	scene := ring.Scene{Setup: m.setup, Run: upTo(m.run, r.sample), Sample: r.sample, Chosen: ring.None, Layers: ring.LayersOf(ring.Course, ring.Rulers, ring.Handler)}
	switch {
	case r.run:
		scene.Sample = sampleAt(m.run, m.clock.at(m.o.Now()))
		scene.Run = upTo(m.run, scene.Sample)
	case r.verdict != nil:
		if c := m.run.Cues[r.q.Cue+1].Sample; c >= 0 {
			scene.Sample = c
		}
		scene.Run = m.run
		scene.Layers = scene.Layers.With(ring.Line).With(ring.Stands)
		scene.Chosen.Stand = r.q.Cue + 1
	}
	if scene.Sample < len(samples) {
		if at := samples[scene.Sample]; r.camera.W != w || r.camera.H != h || r.run {
			r.camera = ring.Follow(at, 26, 0, w, h)
		}
	}
	r.keepInView(w, h)
	scene.Camera = r.camera
	ring.Draw(v, scene)
	if r.q.HasPlace && !r.run {
		p := r.camera.ToView(r.answer.Place)
		role := canvas.Handler | canvas.Chosen
		if r.verdict != nil && !r.verdict.Place {
			role = canvas.Wrong
		}
		v.Set(int(p.X), int(p.Y), mark, role)
	}
}

// keepInView moves the picture along with the place that is pointed at.
func (r *recall) keepInView(w, h int) {
	p := r.camera.ToView(r.answer.Place)
	dx := min(int(p.X)-2, 0) + max(int(p.X)-(w-3), 0)
	dy := min(int(p.Y)-1, 0) + max(int(p.Y)-(h-2), 0)
	if r.q.HasPlace && !r.run && (dx != 0 || dy != 0) {
		r.camera = r.camera.Pan(dx, dy)
	}
}

func (r *recall) drawSide(m *Model, v canvas.View) {
	p := writer{v: v}
	if r.run {
		p.put("The dog runs. Go with it, small steps; the next cue is asked when it is there.", canvas.Plain)
		p.put(words.Seconds(m.clock.at(m.o.Now()))+" of "+words.Seconds(m.run.Time), canvas.Quiet)
		return
	}
	p.put(r.q.Ask, canvas.Title)
	p.gap()
	if r.q.HasPlace {
		r.drawPlace(m, &p)
	}
	for i := range r.q.Fields {
		r.drawField(i, &p)
	}
	if r.verdict == nil {
		return
	}
	p.gap()
	if r.verdict.Right {
		p.put("Right.", canvas.Right|canvas.Strong)
	} else {
		p.put("Not so; it comes again soon. It is:", canvas.Caution)
	}
	p.put(cueText(m.setup, r.q.Cue)+".", canvas.Plain)
}

func (r *recall) drawPlace(m *Model, p *writer) {
	role, lead := canvas.Plain, "  "
	if r.verdict == nil && r.field() < 0 {
		role, lead = canvas.Plain|canvas.Chosen, "> "
	}
	u := m.o.Course.Units
	text := "where: X at " + words.Place(u, r.answer.Place)
	if r.verdict == nil {
		p.put(lead+text, role)
		p.put("    right within "+words.Length(u, learn.Radius), canvas.Quiet)
		return
	}
	if r.verdict.Place {
		p.put("  "+text+": right", canvas.Right)
	} else {
		p.put("! "+text+": "+words.Length(u, r.verdict.Off)+" off", canvas.Wrong)
	}
}

func (r *recall) drawField(i int, p *writer) {
	f := &r.q.Fields[i]
	said := words.Safe(r.answer.Words[i])
	if r.verdict != nil {
		if r.verdict.Words[i] {
			p.put("  "+f.Name+": "+said+": right", canvas.Right)
		} else {
			p.put("! "+f.Name+": "+said+", not "+words.Safe(f.Right), canvas.Wrong)
		}
		return
	}
	lead, role := "  ", canvas.Plain
	if r.field() == i {
		lead, role = "> ", canvas.Plain|canvas.Chosen
	}
	switch {
	case said == "" && len(f.Options) > 0:
		said = "?"
	case len(f.Options) == 0 && r.field() == i:
		said += "_"
	}
	p.put(lead+f.Name+": "+said, role)
	if r.field() == i && len(f.Options) > 0 {
		p.put("    "+strings.Join(f.Options, ", "), canvas.Quiet)
	} else if r.field() == i {
		p.put("    type what you say", canvas.Quiet)
	}
}

func (r *recall) drawDone(m *Model, v canvas.View) {
	p := writer{v: v}
	s := &r.session
	p.put("You know this plan: two whole recalls without a mistake.", canvas.Title)
	p.put(fmt.Sprintf("%d questions, %d wrong, %d hints.", s.Asked, s.Wrong, s.Hints), canvas.Plain)
	p.gap()
	p.put("Next: the timing drill, and walk it once with the dog's line under your feet. What you know here is where and what, not yet how your feet get there.", canvas.Plain)
}
