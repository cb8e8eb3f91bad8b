// Package canvas is the drawing ground of a screen: a grid of cells, each a sign and the
// Role it plays, turned into one string per frame.
//
// Columns count from 0 at the left, rows from 0 at the top. Drawing outside is allowed and
// shows nothing. Nothing here reads or writes a terminal, and a canvas belongs to one
// goroutine.
package canvas

import (
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
)

// Aspect is how much higher than wide a cell is taken to be.
const Aspect = 2.0

// Canvas is a grid of cells kept from frame to frame: Clear it, draw, take its String.
type Canvas struct {
	// Fine allows line, block and braille signs in what the canvas itself draws (boxes,
	// bars, planes, the mark of a cut text). Otherwise that is pure ASCII. Text given
	// by the caller stays as it is.
	Fine bool

	w, h     int
	cells    []cell
	clusters []string // signs of more than one rune
	buf      []byte
	planes   []*braille // reused after Clear
	used     int        // planes given out since Clear
	narrow   bool       // line and block signs take one cell each
}

// cell is one place of the grid. A sign of two cells has its head left and a tail right.
type cell struct {
	r    rune // the sign; below 0: clusters[-r-1]
	role Role
	kind kind
}

type kind uint8

const (
	single kind = iota
	head
	tail
)

var blank = cell{r: ' '}

// New returns a blank canvas of w by h cells; what is below 0 counts as 0.
func New(w, h int) *Canvas {
	c := &Canvas{narrow: FineFits()}
	c.Resize(w, h)
	return c
}

// FineFits reports whether the signs of a fine drawing count as one cell each. They do not
// where RUNEWIDTH_EASTASIAN asks for wide ones: leave Fine off there.
func FineFits() bool { return ansi.StringWidth("│█…") == 3 }

// Resize gives the canvas another size and blanks it. Views and planes made before
// must not be used any more.
func (c *Canvas) Resize(w, h int) {
	c.w, c.h = max(w, 0), max(h, 0)
	n := c.w * c.h
	if cap(c.cells) < n {
		c.cells = make([]cell, n)
	}
	c.cells = c.cells[:n]
	c.Clear()
}

// Clear blanks all cells and ends the life of planes made before.
func (c *Canvas) Clear() {
	for i := range c.cells {
		c.cells[i] = blank
	}
	clear(c.clusters)
	c.clusters = c.clusters[:0]
	c.used = 0
}

// Size is the width and height in cells.
func (c *Canvas) Size() (w, h int) { return c.w, c.h }

// At is the sign in a cell and its role. The right half of a wide sign reads "", what
// lies outside a blank.
func (c *Canvas) At(x, y int) (string, Role) {
	if x < 0 || y < 0 || x >= c.w || y >= c.h {
		return " ", Plain
	}
	e := c.cells[y*c.w+x]
	if e.kind == tail {
		return "", e.role
	}
	return c.sign(e), e.role
}

func (c *Canvas) sign(e cell) string {
	if e.r < 0 {
		return c.clusters[-e.r-1]
	}
	return string(e.r)
}

// put stores a sign of one or two cells, which must lie inside. Of a wide sign that it cuts
// the other half becomes a blank.
func (c *Canvas) put(x, y, width int, r rune, role Role) {
	row := c.cells[y*c.w : (y+1)*c.w]
	if row[x].kind == tail {
		row[x-1].r, row[x-1].kind = ' ', single
	}
	if last := x + width - 1; row[last].kind == head {
		row[last+1].r, row[last+1].kind = ' ', single
	}
	row[x] = cell{r: r, role: role}
	if width == 2 {
		row[x].kind = head
		row[x+1] = cell{r: ' ', role: role, kind: tail}
	}
}

// keep stores a sign of several runes and returns what stands for it in a cell.
func (c *Canvas) keep(cluster string) rune {
	if r, n := utf8.DecodeRuneInString(cluster); n == len(cluster) {
		return r
	}
	c.clusters = append(c.clusters, cluster)
	return -rune(len(c.clusters))
}
