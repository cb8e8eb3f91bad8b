package canvas

import "math"

// Rule draws a level line of w cells.
func (v View) Rule(x, y, w int, role Role) {
	v.Fill(x, y, w, 1, v.pick('-', '─'), role)
}

// Post draws an upright line of h cells.
func (v View) Post(x, y, h int, role Role) {
	v.Fill(x, y, 1, h, v.pick('|', '│'), role)
}

// Box draws a frame just inside the rectangle, with a title in its upper edge if it is not
// empty, and returns the view inside it.
func (v View) Box(x, y, w, h int, title string, role Role) View {
	if w >= 2 && h >= 2 {
		v.Rule(x+1, y, w-2, role)
		v.Rule(x+1, y+h-1, w-2, role)
		v.Post(x, y+1, h-2, role)
		v.Post(x+w-1, y+1, h-2, role)
		v.Set(x, y, v.pick('+', '┌'), role)
		v.Set(x+w-1, y, v.pick('+', '┐'), role)
		v.Set(x, y+h-1, v.pick('+', '└'), role)
		v.Set(x+w-1, y+h-1, v.pick('+', '┘'), role)
	}
	if title != "" && w >= 7 {
		end := v.TextFit(x+3, y, w-6, title, Title)
		v.Set(x+2, y, ' ', role)
		v.Set(end, y, ' ', role)
	}
	return v.Sub(x+1, y+1, w-2, h-2)
}

func (v View) pick(ascii, fine rune) rune {
	if v.c.Fine {
		return fine
	}
	return ascii
}

// Bar draws a share of 0 to 1 as a level bar of w cells, its rest in Quiet: "####----", or
// in eighths of a cell on a fine canvas. More than 0 always shows something and less than
// 1 always lacks something. NaN shows as question marks.
func (v View) Bar(x, y, w int, share float64, role Role) {
	if math.IsNaN(share) {
		v.Fill(x, y, w, 1, '?', Quiet)
		return
	}
	steps := 1
	if v.c.Fine {
		steps = 8
	}
	n := units(share, w*steps)
	for i := range w {
		switch full := n - i*steps; {
		case full >= steps:
			v.Set(x+i, y, v.pick('#', '█'), role)
		case full > 0:
			v.Set(x+i, y, rune(0x2590-full), role) // ▏ 258f to ▉ 2589
		default:
			v.Set(x+i, y, v.pick('-', '─'), Quiet)
		}
	}
}

// Column draws a share of 0 to 1 as an upright bar of h cells that grows from its foot at
// the lower end of the rectangle at x, y. Partly full cells show '.' or ':', on a fine canvas
// eighths; the rest stays untouched. More than 0 always shows something.
func (v View) Column(x, y, h int, share float64, role Role) {
	if math.IsNaN(share) {
		v.Set(x, y+h-1, '?', Quiet)
		return
	}
	steps := 3
	if v.c.Fine {
		steps = 8
	}
	n := units(share, h*steps)
	for i := range h {
		full := min(n-i*steps, steps)
		if full <= 0 {
			return
		}
		r := rune(0x2580 + full) // ▁ 2581 to █ 2588
		if !v.c.Fine {
			r = rune(".:#"[full-1])
		}
		v.Set(x, y+h-1-i, r, role)
	}
}

// units rounds a share to n steps, but to 0 and n only what is exactly 0 and 1.
func units(share float64, n int) int {
	switch {
	case n <= 0 || share <= 0:
		return 0
	case share >= 1:
		return n
	case n == 1:
		return int(math.Round(share))
	}
	return min(max(int(math.Round(share*float64(n))), 1), n-1)
}
