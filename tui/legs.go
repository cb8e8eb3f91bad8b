package tui

import (
	"math"
	"slices"
	"strconv"

	"cuewalk/sim"
	"cuewalk/tui/canvas"
	"cuewalk/tui/words"
)

// drawLegs draws one column for each leg, as high as its chance of not being clean against
// the worst one's, over the number it leads to. The worst ones' numbers have an "!".
func (m *Model) drawLegs(box rect, r *sim.Rehearsal) {
	n := len(r.Legs)
	if n == 0 || !box.shown() {
		return
	}
	v := m.sub(box)
	now := legIndex(r, m.at)
	left := 0
	if box.w >= 72 {
		left = 8
	}
	c := columns{each: min(max((box.w-left-1)/n, 3), 7), bars: box.h - 1, top: legsTop}
	if c.each > 3 && box.h >= 3 { // room for the figures
		c.bars--
	}
	for i := range r.Legs {
		c.top = max(c.top, 1-r.Legs[i].Clean)
	}
	if left > 0 {
		m.drawLegWords(v, c)
	}
	room := max((box.w-left-1)/c.each, 1)
	from := max(0, min(now-room/2, n-room))
	worst := r.Worst(3)
	for i := from; i < min(from+room, n); i++ {
		x := left + (i-from)*c.each
		m.drawLeg(v, x, c, r.Legs[i], i == now, slices.Contains(worst, r.Legs[i].Number))
		m.click(rect{box.x + x, box.y, c.each, box.h}, onLeg, r.Legs[i].Number)
	}
}

// legsTop is the least chance that the highest column may stand for.
const legsTop = 0.1

// columns is how the legs' columns are drawn.
type columns struct {
	each int     // cells from one to the next
	bars int     // rows of the columns; the figures stand two below where there is room
	top  float64 // chance that the highest stands for
}

// drawLegWords says what the columns and the figures under them are.
func (m *Model) drawLegWords(v canvas.View, c columns) {
	what, figure := "risk", "clean %"
	if m.mode == walking {
		what, figure = "pull", "pull %"
	}
	if c.bars >= 2 {
		v.Text(0, 0, words.Percent(c.top), canvas.Quiet)
	}
	v.Text(0, c.bars-1, what, canvas.Quiet)
	v.Text(0, c.bars, "leg to", canvas.Quiet)
	if _, h := v.Size(); c.bars+1 < h {
		v.Text(0, c.bars+1, figure, canvas.Quiet)
	}
}

func (m *Model) drawLeg(v canvas.View, x int, c columns, l sim.Leg, now, worst bool) {
	_, h := v.Size()
	role := canvas.Quiet
	switch {
	case worst:
		role = canvas.Wrong
	case l.Clean < .9:
		role = canvas.Caution
	}
	if wrong := 1 - l.Clean; wrong >= 0.01 {
		for i := range max(c.each-2, 1) {
			v.Column(x+1+i, 0, c.bars, wrong/c.top, role)
		}
	}
	num := strconv.Itoa(l.Number)
	if worst {
		num = "!" + num
	} else if len(num) < c.each {
		num = " " + num
	}
	numRole := canvas.Plain
	if worst {
		numRole = canvas.Wrong
	}
	if now {
		numRole |= canvas.Chosen
		if len(num)+1 <= c.each && len(num) <= 3 && !worst {
			num = ">" + num[1:]
		}
	}
	v.Text(x, c.bars, num, numRole)
	share := l.Clean
	if m.mode == walking {
		share = 1 - l.Clean
	}
	if c.bars < h-1 {
		v.Text(x+1, c.bars+1, strconv.Itoa(int(math.Round(100*share))), role)
	}
}
