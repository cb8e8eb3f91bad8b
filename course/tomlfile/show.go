package tomlfile

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// showMost is how many characters of a text Show quotes; a longer one ends in
// "..." so that a message stays a line.
const showMost = 60

// Show quotes text from a file so that it can go to a terminal: control
// characters, escape sequences, invisible and text-turning characters appear
// as escapes such as \x1b or \u202e. Long text is cut.
func Show(s string) string {
	cut, more := clip(s, showMost)
	return strconv.Quote(cut) + more
}

// Plain is text from a file without quotes around it, made safe for a terminal
// in the same way as [Show] but never cut. Ordinary text comes back unchanged.
func Plain(s string) string {
	for i, r := range s {
		if unsafeAt(s, i, r) {
			return escapeUnsafe(s)
		}
	}
	return s
}

func escapeUnsafe(s string) string {
	var b strings.Builder
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		if unsafeAt(s, i, r) {
			q := strconv.Quote(s[i : i+n])
			b.WriteString(q[1 : len(q)-1])
		} else {
			b.WriteString(s[i : i+n])
		}
		i += n
	}
	return b.String()
}

// unsafeAt reports whether the character r at s[i:] must not reach a terminal.
func unsafeAt(s string, i int, r rune) bool {
	if r == utf8.RuneError {
		_, n := utf8.DecodeRuneInString(s[i:])
		return n == 1 // broken UTF-8; a written U+FFFD is fine
	}
	return !strconv.IsPrint(r)
}

// clip cuts s after most characters and says with "..." that it did.
func clip(s string, most int) (cut, more string) {
	n := 0
	for i := range s {
		if n == most {
			return s[:i], "..."
		}
		n++
	}
	return s, ""
}
