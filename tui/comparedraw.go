package tui

import (
	"fmt"
	"strconv"

	"cuewalk/sim"
	"cuewalk/tui/canvas"
	"cuewalk/tui/words"
)

// compareLayout is where everything stands while comparing.
type compareLayout struct {
	head, broken, table, doing, where, foot rect
	rings, eyes                             [2]rect
}

func layCompare(w, h, lit int, broken bool, legs int) compareLayout {
	var l compareLayout
	c := column{rect{0, 0, w, h}}
	l.head = c.top(2)
	l.foot = c.foot(1)
	if broken {
		l.broken = c.top(1)
	}
	l.where = c.foot(step(h, [2]int{22, 5}, [2]int{16, 3}, [2]int{0, 1}))
	each := 1 + step(h, [2]int{56, 8}, [2]int{50, 6}, [2]int{0, 5})
	switch {
	case h >= 46:
		l.eyes[1] = c.foot(each)
		l.eyes[0] = c.foot(each)
	case h >= 34: // there is room for the lit one alone
		l.eyes[lit] = c.foot(each)
	}
	l.table = c.rect
	if w >= 110 {
		l.table.w = 52
	} else if w >= 66 {
		l.table.w = 36
	}
	left := column{l.table}
	l.table = left.top(legs + 2)
	left.top(1)
	if left.h >= 5 {
		l.doing = left.rect
	}
	if w < 66 {
		return l
	}
	rest := rect{l.table.w + 1, c.y, w - l.table.w - 1, c.h}
	l.rings = halves(rest)
	return l
}

// halves divides a rectangle between two rings: side by side where that leaves them wide.
func halves(r rect) [2]rect {
	if r.w >= 4*r.h {
		w := (r.w - 1) / 2
		return [2]rect{{r.x, r.y, w, r.h}, {r.x + w + 1, r.y, r.w - w - 1, r.h}}
	}
	h := r.h / 2
	return [2]rect{{r.x, r.y, r.w, h}, {r.x, r.y + h, r.w, r.h - h}}
}

// letters name the two sides.
var letters = [2]string{"A", "B"}

func (m *Model) drawCompare(canvas.View) {
	r := [2]*sim.Rehearsal{m.s.Ask(m.question(0)), m.s.Ask(m.question(1))}
	l := layCompare(m.w, m.h, m.lit, len(m.s.Broken()) > 0, len(r[0].Legs))
	at := [2]int{}
	at[m.lit] = within(r[m.lit], m.at)
	at[1-m.lit] = joined(r[m.lit], r[1-m.lit], m.at)
	for i := range 2 {
		m.drawSideHead(m.sub(rect{0, l.head.y + i, l.head.w, 1}), i, r[i])
		m.click(rect{0, l.head.y + i, l.head.w, 1}, onSide, i)
		if l.rings[i].shown() {
			m.drawTitled(l.rings[i], i, func(box rect) { m.drawRing(box, i, at[i]) })
		}
		if l.eyes[i].shown() {
			m.drawTitled(l.eyes[i], i, func(box rect) { m.drawEye(box, r[i], at[i]) })
		}
	}
	if l.broken.shown() {
		m.drawBroken(m.sub(l.broken))
	}
	if l.rings[0].shown() {
		m.canvas.All().Post(l.table.w, l.table.y, l.rings[0].h+max(l.rings[1].y-l.rings[0].y, 0), canvas.Quiet)
	}
	if l.rings[1].y == l.rings[0].y {
		m.canvas.All().Post(l.rings[1].x-1, l.rings[1].y, l.rings[1].h, canvas.Quiet)
	}
	m.drawTable(l.table, r, at[0])
	m.drawDoing(m.sub(l.doing), r, at)
	m.drawDifference(m.sub(l.where), r, at)
}

// drawTitled draws a panel under a row with the letter and plan of its side.
func (m *Model) drawTitled(box rect, i int, draw func(box rect)) {
	v := m.sub(box)
	v.Rule(0, 0, box.w, canvas.Quiet)
	m.drawLetter(v, 1, 0, i)
	v.TextFit(5, 0, box.w-6, " "+words.Safe(m.question(i).Plan.Name)+" ", canvas.Quiet)
	draw(rect{box.x, box.y + 1, box.w, box.h - 1})
}

func (m *Model) drawLetter(v canvas.View, x, y, i int) int {
	role, text := canvas.Title, " "+letters[i]+" "
	if i == m.lit {
		role, text = canvas.Title|canvas.Chosen, "["+letters[i]+"]"
	}
	return v.Text(x, y, text, role)
}

func (m *Model) drawSideHead(v canvas.View, i int, r *sim.Rehearsal) {
	w, _ := v.Size()
	chance := "clean run " + words.Percent(r.Clean)
	if s := words.Interval(r.Low, r.High); s != "" && w >= 72 {
		chance += " (" + s + ")"
	}
	if w >= 72 {
		chance += "  " + words.Seconds(r.Time)
	}
	if done, of, going := m.s.Progress(m.question(i)); going && w >= 100 {
		chance += fmt.Sprintf("  %d of %d runs", done, of)
	}
	end := v.TextEnd(w-1, 0, chance, canvas.Plain|canvas.Strong)
	x := m.drawLetter(v, 0, 0, i)
	q := m.question(i)
	name := words.Safe(q.Plan.Name)
	if m.sides[i].AsSaved {
		name += " (as saved)"
	} else if m.s.Docs()[m.sides[i].Doc].Altered() {
		name += " *"
	}
	v.TextFit(x+1, 0, end-x-2, name+" | "+words.Safe(q.Team.Name), canvas.Plain)
}

// drawTable lists the legs with both chances, the difference with a "*" where it is more than
// chance, and the difference in time.
func (m *Model) drawTable(box rect, r [2]*sim.Rehearsal, at int) {
	v := m.sub(box)
	times := box.w >= 50
	v.TextFit(0, 0, box.w, "leg to", canvas.Title)
	heads := []string{"A", "B", "B - A"}
	ends := []int{14, 21, 27}
	for i, h := range heads {
		v.TextEnd(ends[i], 0, h, canvas.Title)
	}
	if times {
		v.TextEnd(36, 0, "A", canvas.Title)
		v.TextEnd(43, 0, "B", canvas.Title)
	}
	v.TextEnd(box.w-1, 0, "time", canvas.Title)
	now, n, room := legIndex(r[0], at), len(r[0].Legs), box.h-2
	from := max(0, min(now-room/2, n-room))
	for i := from; i < n && i-from < room; i++ {
		b, ok := words.LegByNumber(r[1], r[0].Legs[i].Number)
		if !ok {
			continue
		}
		y := 1 + i - from
		m.drawRow(v, y, r[0].Legs[i], b, times, i == now)
		m.click(rect{box.x, box.y + y, box.w, 1}, onLeg, r[0].Legs[i].Number)
	}
	m.drawTotal(v, min(box.h-1, n+1), r, times)
}

func (m *Model) drawRow(v canvas.View, y int, a, b sim.Leg, times, now bool) {
	w, _ := v.Size()
	role := canvas.Quiet
	if legsDiffer(a, b) {
		role = canvas.Plain
	}
	sign, second := "  ", canvas.Quiet
	if now {
		sign, role, second = "> ", canvas.Plain, canvas.Plain
	}
	v.Text(0, y, sign+strconv.Itoa(a.Number), canvas.Plain)
	figures(v, y, a.Clean, b.Clean, legsDiffer(a, b), role)
	if times {
		v.TextEnd(36, y, words.Seconds(a.Time), second)
		v.TextEnd(43, y, words.Seconds(b.Time), second)
	}
	v.TextEnd(w-1, y, timeDifference(b.Time-a.Time), second)
	if now {
		v.Add(0, y, w-1, 1, canvas.Chosen)
	}
}

func figures(v canvas.View, y int, a, b float64, sure bool, role canvas.Role) {
	v.TextEnd(14, y, words.Percent(a), role)
	v.TextEnd(21, y, words.Percent(b), role)
	if sure {
		v.TextEnd(27, y, words.Points(b-a), canvas.Altered)
		v.Text(27, y, "*", canvas.Altered)
		return
	}
	v.TextEnd(27, y, words.Points(b-a), role)
}

func (m *Model) drawTotal(v canvas.View, y int, r [2]*sim.Rehearsal, times bool) {
	w, _ := v.Size()
	v.Text(0, y, "run", canvas.Title)
	figures(v, y, r[0].Clean, r[1].Clean, differs(r[0].Clean, r[0].Low, r[0].High, r[1].Clean, r[1].Low, r[1].High), canvas.Plain)
	if times {
		v.TextEnd(36, y, words.Seconds(r[0].Time), canvas.Plain)
		v.TextEnd(43, y, words.Seconds(r[1].Time), canvas.Plain)
	}
	v.TextEnd(w-1, y, timeDifference(r[1].Time-r[0].Time), canvas.Plain)
}

func timeDifference(d float64) string {
	s := words.Seconds(d)
	if s[0] != '-' && s[0] != '0' || s[0] == '0' && s[:3] != "0.0" {
		return "+" + s
	}
	return s
}

// drawDoing says what the handler does at this moment of each plan: the cue that is on,
// how it comes, and the next.
func (m *Model) drawDoing(v canvas.View, r [2]*sim.Rehearsal, at [2]int) {
	w, h := v.Size()
	v.TextFit(0, 0, w, "What the handler does here", canvas.Title)
	each := (h - 1) / 2
	for i := range 2 {
		y := 1 + i*each
		x := m.drawLetter(v, 0, y, i) + 1
		m.writeCue(&writer{v: v.Sub(x, y, w-x-1, each)}, r[i], cueAt(r[i], at[i]))
	}
}

// drawDifference says what the two plans make of the leg under the cursor.
func (m *Model) drawDifference(v canvas.View, r [2]*sim.Rehearsal, at [2]int) {
	w, h := v.Size()
	i := legIndex(r[0], at[0])
	if i < 0 || h == 0 {
		return
	}
	a := r[0].Legs[i]
	b, ok := words.LegByNumber(r[1], a.Number)
	if !ok {
		return
	}
	p := writer{v: v}
	x := v.TextFit(0, 0, w, words.Leg(a.Number)+": "+telling(a, b), canvas.Title)
	if s := words.ModelShort; w < 100 && w-x > len(s)+2 {
		v.TextEnd(w-1, 0, s, canvas.Quiet)
	}
	p.y = 1
	each := max((h-1)/2, 1)
	for k, leg := range [2]sim.Leg{a, b} {
		y := 1 + k*each
		if y >= h {
			return
		}
		x := m.drawLetter(v, 0, y, k) + 1
		role, text := canvas.Quiet, "nothing goes wrong here once in a hundred"
		if shownFaults(leg.Faults) > 0 {
			f := leg.Faults[0]
			role = canvas.Plain
			text = "x " + words.Percent(f.Chance) + " " + words.Kind(f.Kind) + ". " + words.Why(r[k], leg, f)
		}
		v.Sub(x, y, w-x, each).Wrap(text, role)
	}
}

func telling(a, b sim.Leg) string {
	d := words.Points(b.Clean - a.Clean)
	switch {
	case !legsDiffer(a, b):
		return "no difference that is more than chance"
	case b.Clean > a.Clean:
		return "B is safer by " + d[1:] + " points, more than chance *"
	}
	return "A is safer by " + d[1:] + " points, more than chance *"
}
