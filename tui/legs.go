package tui

import (
	"math"
	"slices"
	"strconv"

	"cuewalk/sim"
	"cuewalk/tui/canvas"
)

// drawLegs draws one column for each leg, as high as its chance of not being clean, over the
// number it leads to: the worst one is the highest. Its number has an "!".
func (m *Model) drawLegs(box rect, r *sim.Rehearsal) {
	n := len(r.Legs)
	if n == 0 || !box.shown() {
		return
	}
	v := m.sub(box)
	now := legIndex(r, m.at)
	left, bars := 0, box.h-1
	if box.h >= 4 {
		bars--
	}
	if box.w >= 72 {
		left = 8
		v.Text(0, bars, "leg to", canvas.Quiet)
		if bars < box.h-1 {
			v.Text(0, bars+1, m.legWords()[2], canvas.Quiet)
		}
		if box.h >= 3 {
			v.Text(0, 0, m.legWords()[0], canvas.Quiet)
			v.Text(0, 1, m.legWords()[1], canvas.Quiet)
		}
	}
	each := min(max((box.w-left-1)/n, 3), 7)
	room := max((box.w-left-1)/each, 1)
	from := max(0, min(now-room/2, n-room))
	worst := r.Worst(3)
	for i := from; i < min(from+room, n); i++ {
		x := left + (i-from)*each
		m.drawLeg(v, x, each, bars, r.Legs[i], i == now, slices.Contains(worst, r.Legs[i].Number))
		m.click(rect{box.x + x, box.y, each, box.h}, onLeg, r.Legs[i].Number)
	}
}

// legWords say what the columns and the figures under them are.
func (m *Model) legWords() [3]string {
	if m.mode == walking {
		return [3]string{"traps'", "pull", "pull %"}
	}
	return [3]string{"fault", "chance", "clean %"}
}

func (m *Model) drawLeg(v canvas.View, x, each, bars int, l sim.Leg, now, worst bool) {
	_, h := v.Size()
	role := canvas.Quiet
	switch {
	case worst:
		role = canvas.Wrong
	case l.Clean < .9:
		role = canvas.Caution
	}
	for i := range max(each-2, 1) {
		v.Column(x+1+i, 0, bars, 1-l.Clean, role)
	}
	num := strconv.Itoa(l.Number)
	if worst {
		num = "!" + num
	} else if each > 3 || len(num) == 1 {
		num = " " + num
	}
	numRole := canvas.Plain
	if worst {
		numRole = canvas.Wrong
	}
	if now {
		numRole |= canvas.Chosen
		if len(num)+1 <= each && len(num) <= 3 && !worst {
			num = ">" + num[1:]
		}
	}
	v.Text(x, bars, num, numRole)
	share := l.Clean
	if m.mode == walking {
		share = 1 - l.Clean
	}
	if bars < h-1 {
		v.Text(x+1, bars+1, strconv.Itoa(int(math.Round(100*share))), role)
	}
}
