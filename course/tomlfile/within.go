package tomlfile

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// InsidePos is the place of a byte inside a text, such as one word of a list
// of words in quotes. at counts bytes of the text as [Table.String] gave it.
// Where it cannot be told, it is the place of the value.
func (t *Table) InsidePos(key string, at int) Pos {
	n, ok := t.node.byKey[key]
	s, isText := t.values[key].(string)
	if !ok || !isText || n.form != scalar || at < 0 || at > len(s) {
		return t.ValuePos(key)
	}
	off, ok := rawOffset(t.raw(n), s, at)
	if !ok {
		return t.ValuePos(key)
	}
	return t.doc.pos(n.val.from + off)
}

// InsideProblem is [Table.Problem] at a byte inside a text; see [Table.InsidePos].
func (t *Table) InsideProblem(key string, at int, text, hint string) {
	t.read[key] = true
	t.doc.Note(t.InsidePos(key, at).Problem(text, hint))
}

// rawOffset finds in raw, a TOML string as written, the place of byte at of its
// text s. It walks both side by side and gives up when they do not agree.
func rawOffset(raw, s string, at int) (off int, ok bool) {
	basic := strings.HasPrefix(raw, `"`)
	i, end, multi := 1, len(raw)-1, false
	if strings.HasPrefix(raw, `"""`) || strings.HasPrefix(raw, "'''") {
		i, end, multi = 3, len(raw)-3, true
		i += newlineLength(raw[i:])
	}
	for j := 0; ; {
		for n := 1; multi && basic && n > 0 && i < end; i += n {
			n = joinedLines(raw[i:end])
		}
		if j >= at || i >= end {
			return i, j == at && i <= end
		}
		text, n := nextPiece(raw[i:end], basic)
		if newlineLength(raw[i:]) == 2 && !strings.HasPrefix(s[j:], "\r") {
			text, n = "\n", 2 // the reader turned CRLF into LF
		}
		if !strings.HasPrefix(s[j:], text) {
			return 0, false
		}
		if j+len(text) > at {
			return i, true
		}
		i, j = i+n, j+len(text)
	}
}

func newlineLength(s string) int {
	switch {
	case strings.HasPrefix(s, "\r\n"):
		return 2
	case strings.HasPrefix(s, "\n"):
		return 1
	}
	return 0
}

// joinedLines is the length of a backslash at a line's end with all blanks and
// newlines after it, which mean nothing; 0 when there is none.
func joinedLines(s string) int {
	if !strings.HasPrefix(s, `\`) {
		return 0
	}
	rest := strings.TrimLeft(s[1:], " \t")
	if newlineLength(rest) == 0 {
		return 0
	}
	return len(s) - len(strings.TrimLeft(rest, " \t\r\n"))
}

// nextPiece is the first character of a string as written: what it means, and
// how many bytes it takes.
func nextPiece(raw string, escapes bool) (text string, n int) {
	if !escapes || raw[0] != '\\' || len(raw) < 2 {
		_, n = utf8.DecodeRuneInString(raw)
		return raw[:n], n
	}
	digits := map[byte]int{'x': 2, 'u': 4, 'U': 8}[raw[1]]
	if digits > 0 && len(raw) >= 2+digits {
		code, err := strconv.ParseUint(raw[2:2+digits], 16, 32)
		if err == nil {
			return string(rune(code)), 2 + digits
		}
	}
	short := map[byte]string{'b': "\b", 't': "\t", 'n': "\n", 'f': "\f", 'r': "\r", 'e': "\x1b", '"': `"`, '\\': `\`}
	return short[raw[1]], 2
}
