package tomlfile

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
)

// freshStart is a line with which reading can begin again after a broken one.
var freshStart = regexp.MustCompile(`^[ \t]*([A-Za-z0-9_.-]+[ \t]*=|"[^"]*"[ \t]*=|\[\[?[A-Za-z_][A-Za-z0-9_. "-]*\]\]?[ \t\r]*(#.*)?$)`)

// faultAt words the parser's message about the byte at an offset, in a line
// (or several) that began at start, and gives the offset to go on from.
func faultAt(src []byte, start, at int, message string) (f fault, resume int) {
	resume = lineEnd(src, at)
	overLines := bytes.IndexByte(src[start:at], '\n') >= 0
	if overLines {
		resume = nextStart(src, lineStart(src, at))
	}
	if overLines && (at >= len(src)-1 || neverClosed(message)) {
		return fault{start, "the value that begins here is never closed", "write the missing " + closer(src, start, at)}, resume
	}
	text, hint := wording(src, at, message)
	return fault{at, text, hint}, resume
}

// neverClosed: a value over several lines ran into what looks like more file.
func neverClosed(message string) bool {
	return strings.Contains(message, "after array value") || strings.Contains(message, "after inline table") ||
		strings.Contains(message, "incomplete") || strings.Contains(message, "not terminated")
}

// nextStart is the offset of the first line from at on that is a fresh start.
func nextStart(src []byte, at int) int {
	for at < len(src) && !freshStart.Match(lineAt(src, at)) {
		at = lineEnd(src, at)
	}
	return at
}

// closer guesses what closes the value that begins in the line at start.
func closer(src []byte, start, at int) string {
	_, value, _ := bytes.Cut(src[start:at], []byte("="))
	value = bytes.TrimSpace(value)
	for _, c := range []struct{ open, closed string }{{`"""`, `"""`}, {"'''", "'''"}, {"[", "]"}, {"{", "}"}} {
		if bytes.HasPrefix(value, []byte(c.open)) {
			return c.closed
		}
	}
	return "bracket or quotes"
}

// wording turns the parser's message about the byte at an offset into what is
// wrong and what to write.
func wording(src []byte, at int, message string) (text, hint string) {
	newline := src[at] == '\n' || src[at] == '\r' && at+1 < len(src) && src[at+1] == '\n'
	has := func(part string) bool { return strings.Contains(message, part) }
	switch {
	case has("basic string") && (newline || has("unterminated")):
		return "text without closing quotes", `write " at its end`
	case has("literal string") && (newline || has("unterminated")):
		return "text without closing quotes", "write ' at its end"
	case has("control character"), has("carriage return"):
		return "control character " + Show(string(src[at])) + " in the file", "delete it"
	case has("at start of value") && newline, has("expected value, not end"):
		return "there is no value after =", "write one, or delete the line"
	case has("at start of value"), has("expected keyword"), has("strings must be quoted"):
		return fmt.Sprintf("%s is no value", Show(wordAt(src, at))), "put text in quotes: key = \"text\""
	case has("at start of key") && src[at] == '=':
		return "there is no key before =", "write key = value"
	case has("at start of key"), has("expected key"):
		return fmt.Sprintf("a key cannot begin with %s", Show(charAt(src, at))), `use letters, digits, - and _, or put the key in quotes`
	case has("expected '=' after key"):
		return fmt.Sprintf("expected = after the key, found %s", found(src, at)), `write key = value; a key with blanks or accents needs quotes`
	case has("expected newline"):
		return fmt.Sprintf("expected the end of the line, found %s", found(src, at)), afterValueHint(src, at)
	case has("after array value"):
		return fmt.Sprintf("expected , or ] in the list, found %s", found(src, at)), "put commas between values and ] at the end"
	case has("after inline table"):
		return fmt.Sprintf("expected , or } in the table, found %s", found(src, at)), "put commas between keys and } at the end"
	case has("close table name"), has("close array table name"):
		return fmt.Sprintf("expected ] after the table's name, found %s", found(src, at)), "write [name] or [[name]]"
	case has("leading zeroes"):
		return message, "write the number without the 0 in front"
	case has("decimal point"):
		return message, "write a number such as 0.5 or 2"
	case has("escape"):
		return message, `write \\ for a backslash, or put the text in '...'`
	}
	return message, "write key = value, text in quotes, numbers with a decimal point"
}

// afterValueHint knows the slips that leave something behind a value.
func afterValueHint(src []byte, at int) string {
	digit := func(i int) bool { return i >= 0 && i < len(src) && src[i] >= '0' && src[i] <= '9' }
	switch {
	case src[at] == ',' && digit(at-1) && digit(at+1):
		return "write decimals with a point, lists in [ ]"
	case src[at] == ',':
		return "delete the comma: each key has its own line"
	case digit(at - 1):
		return "write the number alone, without its unit"
	}
	return "put each key on its own line, and # before a remark"
}

// found shows the character at an offset, or says that the line or file ends.
func found(src []byte, at int) string {
	if at >= len(src) {
		return "the end of the file"
	}
	if src[at] == '\n' || src[at] == '\r' {
		return "the end of the line"
	}
	return Show(charAt(src, at))
}

func charAt(src []byte, at int) string {
	for _, r := range string(src[at:min(at+4, len(src))]) {
		return string(r)
	}
	return ""
}

// wordAt is the unquoted word at an offset, up to a blank, comma or bracket.
func wordAt(src []byte, at int) string {
	rest := lineAt(src, at)[at-lineStart(src, at):]
	if i := bytes.IndexAny(rest, ",]}#= \t"); i > 0 {
		rest = rest[:i]
	}
	return string(rest)
}
