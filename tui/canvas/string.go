package canvas

import (
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
)

// String is the frame: exactly as many lines as the canvas has rows (none for height 0),
// each at most its width and complete in itself, without blanks at the end that nobody
// would see. The bottom right cell is always left out: bubbletea 1.3.10 may
// wipe it when the window becomes lower.
func (c *Canvas) String(p *Palette) string {
	buf := c.buf[:0]
	for y := range c.h {
		if y > 0 {
			buf = append(buf, '\n')
		}
		row := c.cells[y*c.w : (y+1)*c.w]
		if y == c.h-1 {
			row = withoutCorner(row)
		}
		buf = c.appendRow(buf, row, p)
	}
	c.buf = buf
	return string(buf)
}

// Plain is the frame without any style.
func (c *Canvas) Plain() string { return c.String(&Palette{}) }

func withoutCorner(row []cell) []cell {
	n := len(row)
	if n > 0 && row[n-1].kind == tail {
		n--
	}
	return row[:max(n-1, 0)]
}

func (c *Canvas) appendRow(buf []byte, row []cell, p *Palette) []byte {
	for n := len(row); n > 0 && row[n-1].r == ' ' && row[n-1].kind == single && !p.inks[row[n-1].role]; n-- {
		row = row[:n-1]
	}
	now := Plain
	before := -1 // where the neighbour to the left starts in buf, if it might join with this one
	for _, e := range row {
		if e.kind == tail {
			continue
		}
		// A blank that shows nothing needs no change of style.
		if e.role != now && (e.r != ' ' || p.inks[e.role] || p.inks[now]) {
			buf = p.change(buf, now, e.role)
			now = e.role
		}
		if e.r >= 0 && e.r < utf8.RuneSelf {
			buf = append(buf, byte(e.r))
			before = -1
			continue
		}
		at := len(buf)
		buf = c.appendSign(buf, e)
		if joinable(e.r) {
			buf = part(buf, before, at, e.kind)
			before = at
		} else {
			before = -1
		}
	}
	if p.start[now] != "" {
		buf = append(buf, p.reset...)
	}
	return buf
}

func (p *Palette) change(buf []byte, from, to Role) []byte {
	switch {
	case p.start[from] == p.start[to]:
		return buf
	case p.start[to] == "":
		return append(buf, p.reset...)
	}
	return append(buf, p.start[to]...)
}

func (c *Canvas) appendSign(buf []byte, e cell) []byte {
	if e.r < 0 {
		return append(buf, c.clusters[-e.r-1]...)
	}
	return utf8.AppendRune(buf, e.r)
}

// joinable reports whether a sign could melt into its neighbour, as two halves of a flag do.
func joinable(r rune) bool { return r < 0 || r >= 0x300 && (r < 0x2000 || r >= 0x2900) }

// part replaces the sign at buf[at:] by question marks if it would melt into the one at
// buf[before:] and so shift the rest of the line.
func part(buf []byte, before, at int, k kind) []byte {
	if before < 0 {
		return buf
	}
	// An escape sequence between the two does not keep a terminal from joining them.
	var joined [64]byte
	j := append(joined[:0], signOnly(buf[before:at])...)
	n := len(j)
	j = append(j, buf[at:]...)
	if first, _ := ansi.FirstGraphemeCluster(j, ansi.GraphemeWidth); len(first) == n {
		return buf
	}
	buf = append(buf[:at], '?')
	if k == head {
		buf = append(buf, '?')
	}
	return buf
}

// signOnly cuts off the change of style that may follow a sign.
func signOnly(b []byte) []byte {
	for i, x := range b {
		if x == 0x1b {
			return b[:i]
		}
	}
	return b
}
