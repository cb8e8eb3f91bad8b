package canvas

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
)

// piece cuts the first sign from s: what to draw for it, how many cells that takes, and
// the rest. What has no width of its own, is a control character or would melt into its
// neighbours comes as a visible escape such as \n or \u200b.
func piece(s string) (sign string, width int, rest string) {
	if b := s[0]; b >= ' ' && b < 0x7f && (len(s) == 1 || s[1] < utf8.RuneSelf) {
		return s[:1], 1, s[1:]
	}
	r, n := utf8.DecodeRuneInString(s)
	if r == utf8.RuneError && n == 1 {
		return fmt.Sprintf(`\x%02x`, s[0]), 4, s[1:]
	}
	if r < ' ' || r >= 0x7f && r < 0xa0 {
		return escaped(r, s[n:])
	}
	cluster, width := ansi.FirstGraphemeCluster(s, ansi.GraphemeWidth)
	// A broken byte belongs to no sign.
	if !utf8.ValidString(cluster) {
		cluster = cluster[:validPrefix(cluster)]
		width = ansi.StringWidth(cluster)
	}
	// An open joiner would draw in the next cell; it comes as an escape of its own.
	if bare := strings.TrimRight(cluster, "\u200d"); bare != cluster && bare != "" {
		cluster, width = bare, ansi.StringWidth(bare)
	}
	if width < 1 || width > 2 || !standsAlone(cluster) {
		return escaped(r, s[n:])
	}
	return cluster, width, s[len(cluster):]
}

func escaped(r rune, rest string) (string, int, string) {
	var e string
	switch {
	case r == '\n':
		e = `\n`
	case r == '\t':
		e = `\t`
	case r == '\r':
		e = `\r`
	case r < 0x100:
		e = fmt.Sprintf(`\x%02x`, r)
	case r < 0x10000:
		e = fmt.Sprintf(`\u%04x`, r)
	default:
		e = fmt.Sprintf(`\U%08x`, r)
	}
	return e, len(e), rest
}

func validPrefix(s string) int {
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		if r == utf8.RuneError && n == 1 {
			return i
		}
		i += n
	}
	return len(s)
}

// standsAlone reports whether a sign keeps its cells next to letters.
func standsAlone(cluster string) bool {
	if r, n := utf8.DecodeRuneInString(cluster); n == len(cluster) && !joinable(r) {
		return true
	}
	var room [64]byte
	b := append(append(append(room[:0], 'x'), cluster...), 'x')
	if first, _ := ansi.FirstGraphemeCluster(b, ansi.GraphemeWidth); len(first) != 1 {
		return false
	}
	first, _ := ansi.FirstGraphemeCluster(b[1:], ansi.GraphemeWidth)
	return len(first) == len(cluster)
}

// Width is how many cells a text takes when drawn, its escapes included.
func Width(s string) int {
	n := 0
	for s != "" {
		var w int
		_, w, s = piece(s)
		n += w
	}
	return n
}

// cut is the longest beginning of s that takes at most w cells, and what is left.
func cut(s string, w int) (fits, rest string) {
	for rest = s; rest != ""; {
		_, pw, after := piece(rest)
		if pw > w {
			break
		}
		w -= pw
		rest = after
	}
	return s[:len(s)-len(rest)], rest
}

// wrap breaks text into lines of at most w cells at blanks and line ends; a word longer than
// a line is broken where it must be. A sign wider than w is dropped.
func wrap(text string, w int) []string {
	text = strings.TrimSpace(text)
	if w < 1 || text == "" {
		return nil
	}
	var lines []string
	for _, para := range strings.Split(text, "\n") {
		line, used := "", 0
		for _, word := range strings.FieldsFunc(para, isBlank) {
			n := Width(word)
			if line != "" && used+1+n <= w {
				line, used = line+" "+word, used+1+n
				continue
			}
			if line != "" {
				lines = append(lines, line)
			}
			for n > w {
				fits, rest := cut(word, w)
				if fits == "" {
					_, _, rest = piece(word)
				} else {
					lines = append(lines, fits)
				}
				word, n = rest, Width(rest)
			}
			line, used = word, n
		}
		lines = append(lines, line)
	}
	return lines
}

// isBlank leaves out the no-break space, unlike unicode.IsSpace.
func isBlank(r rune) bool { return r == ' ' || r == '\t' || r == '\r' }

// Lines is how many rows View.Wrap needs for a text in a view w cells wide.
func Lines(text string, w int) int { return len(wrap(text, w)) }
