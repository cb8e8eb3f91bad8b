package report

import (
	"slices"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"cuewalk/tui/words"
)

// page collects lines of at most Columns cells, safe for a terminal.
type page struct{ b strings.Builder }

// String is the page so far.
func (p *page) String() string { return p.b.String() }

// heading starts a section.
func (p *page) heading(title string) {
	p.line("")
	p.line(strings.ToUpper(title))
}

// line writes one line, blanks at its end left out. It must fit and be safe.
func (p *page) line(s string) {
	p.b.WriteString(strings.TrimRight(s, " "))
	p.b.WriteByte('\n')
}

// text writes a paragraph, indented by indent cells and broken where it must be.
func (p *page) text(indent int, s string) { p.hang("", indent, s) }

// hang writes a paragraph indented by indent cells with label, which is cut to
// that, before its first line.
func (p *page) hang(label string, indent int, s string) {
	for _, l := range broken(words.Safe(s), Columns-indent) {
		p.line(pad(ansi.Truncate(label, indent, "~"), indent) + l)
		label = ""
	}
}

// ends writes left and right at the two ends of a line, or one below the other
// where they do not fit on one.
func (p *page) ends(left, right string) {
	left, right = words.Safe(left), words.Safe(right)
	if gap := Columns - ansi.StringWidth(left) - ansi.StringWidth(right); gap >= 2 {
		p.line(left + strings.Repeat(" ", gap) + right)
		return
	}
	p.text(0, left)
	p.text(4, right)
}

// pad fills s with blanks up to w cells; a longer one stays as it is.
func pad(s string, w int) string { return s + strings.Repeat(" ", max(0, w-ansi.StringWidth(s))) }

// column is s safe, cut to w-1 cells and filled up to w.
func column(s string, w int) string { return pad(ansi.Truncate(words.Safe(s), w-1, "~"), w) }

// units are words that stay on the line of the figure before them.
var units = []string{"%", "m", "ft", "cm", "s", "m/s", "m/s2", "degrees"}

// unbroken gives the words of s, a figure and its unit as one.
func unbroken(s string) []string {
	var out []string
	for _, word := range strings.Fields(s) {
		last := len(out) - 1
		bare := strings.TrimRight(word, ".,;:)")
		if last >= 0 && slices.Contains(units, bare) && strings.ContainsAny(out[last][len(out[last])-1:], "0123456789") {
			out[last] += " " + word
			continue
		}
		out = append(out, word)
	}
	return out
}

// broken breaks s at blanks into lines of at most w cells; a longer word is cut.
func broken(s string, w int) []string {
	var lines []string
	line := ""
	for _, word := range unbroken(s) {
		if line != "" && ansi.StringWidth(line)+1+ansi.StringWidth(word) <= w {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for ansi.StringWidth(word) > w {
			head := ansi.Truncate(word, w, "")
			lines, word = append(lines, head), strings.TrimPrefix(word, head)
		}
		line = word
	}
	return append(lines, line)
}
