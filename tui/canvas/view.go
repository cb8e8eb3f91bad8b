package canvas

import "unicode/utf8"

// View is a window on a canvas with its own origin, width and height. What is drawn
// outside of it shows nothing. It is a small value: pass it on, cut it with Sub.
type View struct {
	c      *Canvas
	x, y   int // of its origin on the canvas
	w, h   int
	x0, y0 int // the part that may be drawn, on the canvas: x0 <= x < x1
	x1, y1 int
}

// All is the view of the whole canvas.
func (c *Canvas) All() View { return View{c: c, w: c.w, h: c.h, x1: c.w, y1: c.h} }

// Sub is the view of a part of the canvas.
func (c *Canvas) Sub(x, y, w, h int) View { return c.All().Sub(x, y, w, h) }

// Sub is the part of a view that begins at column x, row y. It may reach beyond the view; it
// keeps its size then, but nothing is drawn there.
func (v View) Sub(x, y, w, h int) View {
	s := View{c: v.c, x: v.x + x, y: v.y + y, w: max(w, 0), h: max(h, 0)}
	s.x0, s.x1 = max(v.x0, s.x), min(v.x1, s.x+s.w)
	s.y0, s.y1 = max(v.y0, s.y), min(v.y1, s.y+s.h)
	return s
}

// Size is the width and height in cells.
func (v View) Size() (w, h int) { return v.w, v.h }

// Fine reports whether the canvas allows more than ASCII signs.
func (v View) Fine() bool { return v.c.Fine }

// Set puts one sign into a cell. A rune two cells wide also takes the next one; one that
// cannot stand alone is shown as a question mark.
func (v View) Set(x, y int, r rune, role Role) {
	width := v.c.runeWidth(r)
	if width == 0 {
		r, width = '?', 1
	}
	v.put(x, y, width, r, role)
}

// runeWidth is 1 or 2, or 0 for a rune that cannot stand in a cell of its own.
func (c *Canvas) runeWidth(r rune) int {
	if r >= ' ' && r < 0x7f || r >= 0x2800 && r < 0x2900 || c.narrow && r >= 0x2500 && r < 0x25a0 {
		return 1
	}
	if r < ' ' || !utf8.ValidRune(r) {
		return 0
	}
	s := string(r)
	if sign, width, _ := piece(s); sign == s {
		return width
	}
	return 0
}

// put draws a sign, or the blanks in its place where only one half of it is inside.
func (v View) put(x, y, width int, r rune, role Role) {
	x, y = v.x+x, v.y+y
	if y < v.y0 || y >= v.y1 || x >= v.x1 || x+width <= v.x0 || v.x0 >= v.x1 {
		return
	}
	if x >= v.x0 && x+width <= v.x1 {
		v.c.put(x, y, width, r, role)
		return
	}
	v.c.put(min(max(x, v.x0), v.x1-1), y, 1, ' ', role)
}

// Text draws a text in one row from column x and returns the column after it, also where
// the end is cut off. Control characters show as escapes; a wide sign is never cut in half.
func (v View) Text(x, y int, s string, role Role) int {
	for s != "" {
		var sign string
		var width int
		sign, width, s = piece(s)
		x = v.sign(x, y, sign, width, role)
	}
	return x
}

func (v View) sign(x, y int, sign string, width int, role Role) int {
	if sign[0] < utf8.RuneSelf && len(sign) == width { // ASCII, an escape too
		for i := range len(sign) {
			v.put(x+i, y, 1, rune(sign[i]), role)
		}
		return x + width
	}
	// Do not collect the clusters of what is not seen.
	if cx, cy := v.x+x, v.y+y; cy >= v.y0 && cy < v.y1 && cx < v.x1 && cx+width > v.x0 {
		v.put(x, y, width, v.c.keep(sign), role)
	}
	return x + width
}

// TextEnd draws a text that ends before column end and returns the column where it begins.
func (v View) TextEnd(end, y int, s string, role Role) int {
	x := end - Width(s)
	v.Text(x, y, s, role)
	return x
}

// TextFit draws a text in at most w cells and returns the column after it. Where it is too
// long its end is replaced by "…", in an ASCII canvas by "..".
func (v View) TextFit(x, y, w int, s string, role Role) int {
	if _, rest := cut(s, w); rest == "" {
		return v.Text(x, y, s, role)
	}
	return v.cutText(x, y, w, s, role)
}

// cutText draws the beginning of a text and the mark of a cut in at most w cells.
func (v View) cutText(x, y, w int, s string, role Role) int {
	if w <= 0 {
		return x
	}
	mark := ".."
	if v.c.Fine {
		mark = "…"
	}
	if Width(mark) > w {
		mark = "."
	}
	fits, _ := cut(s, w-Width(mark))
	return v.Text(v.Text(x, y, fits, role), y, mark, role)
}

// Wrap draws a text from the top of the view, broken at blanks, and returns the rows used.
// Where the view is too low the last row ends with the mark of a cut text.
func (v View) Wrap(text string, role Role) int {
	rows, _ := v.WrapEnd(text, role)
	return rows
}

// WrapEnd is Wrap that also returns the column after the text in its last row.
func (v View) WrapEnd(text string, role Role) (rows, end int) {
	lines := wrap(text, v.w)
	rows = min(len(lines), v.h)
	for y, line := range lines[:rows] {
		if y == v.h-1 && len(lines) > v.h {
			end = v.cutText(0, y, v.w, line, role)
		} else {
			end = v.Text(0, y, line, role)
		}
	}
	return rows, end
}

// Fill puts the same sign into all cells of a rectangle; ' ' blanks it.
func (v View) Fill(x, y, w, h int, r rune, role Role) {
	step := max(v.c.runeWidth(r), 1)
	if step == 1 {
		x, w = max(x, v.x0-v.x), min(x+w, v.x1-v.x)-max(x, v.x0-v.x)
	}
	for j := max(y, v.y0-v.y); j < min(y+h, v.y1-v.y); j++ {
		for i := x; i+step <= x+w; i += step {
			v.Set(i, j, r, role)
		}
	}
}

// Tint gives the cells of a rectangle another role and leaves their signs.
func (v View) Tint(x, y, w, h int, role Role) { v.each(x, y, w, h, func(e *cell) { e.role = role }) }

// Add adds Strong or Chosen to the cells of a rectangle and leaves the rest, as for the
// row under the cursor.
func (v View) Add(x, y, w, h int, addition Role) {
	v.each(x, y, w, h, func(e *cell) { e.role |= addition & (Strong | Chosen) })
}

func (v View) each(x, y, w, h int, do func(*cell)) {
	for j := max(v.y+y, v.y0); j < min(v.y+y+h, v.y1); j++ {
		for i := max(v.x+x, v.x0); i < min(v.x+x+w, v.x1); i++ {
			do(&v.c.cells[j*v.c.w+i])
		}
	}
}
