package tomlfile

import (
	"bytes"
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
	case has("control character"), has("carriage return"), !newline && src[at] < ' ' && src[at] != '\t':
		return "control character " + Show(string(src[at])) + " in the file", "delete it"
	case has("at start of value") && (newline || src[at] == '#'), has("expected value"):
		return "there is no value after =", "write one, or delete the line"
	case has("strings must be quoted") && at > 0 && src[at-1] >= '0' && src[at-1] <= '9':
		return "expected the end of the line, found " + found(src, at), afterValueHint(src, at)
	case has("at start of value"), has("expected keyword"), has("strings must be quoted"):
		word := wordAt(src, at)
		return Show(word) + " is no value", valueHint(word)
	case has("incomplete"):
		return "a bracket is never closed", "write ] after the last value, } after the last key"
	case has("at start of key") && src[at] == '=':
		return "there is no key before =", "write key = value"
	case has("at start of key"), has("expected key"):
		return "a key cannot begin with " + found(src, at), `use letters, digits, - and _, or put the key in quotes`
	case has("expected '=' after key"):
		return "expected = after the key, found " + foundOrEnd(src, at), `write key = value; a key with blanks or accents needs quotes`
	case has("expected newline"):
		return "expected the end of the line, found " + found(src, at), afterValueHint(src, at)
	case has("after array value"):
		return "expected , or ] in the list, found " + found(src, at), "put commas between values and ] at the end"
	case has("after inline table"):
		return "expected , or } in the table, found " + found(src, at), "put commas between keys and } at the end"
	case has("close table name"), has("close array table name"):
		return "expected ] after the table's name, found " + foundOrEnd(src, at), "write [name] or [[name]]"
	case has("leading zeroes"):
		return message, "write the number without the 0 in front"
	case has("decimal point"), has("expected digit"), has("exponent"), has("between underscores"), has("radix prefix"), has(`"inf"`), has(`"nan"`):
		return "this number is not written in full", "write a number such as 0.5 or 2"
	case has("escape"):
		return message, `write \\ for a backslash, or put the text in '...'`
	}
	return message, "write key = value, text in quotes, numbers with a decimal point"
}

// valueHint knows the slips that make a word of a value.
func valueHint(word string) string {
	switch low := strings.ToLower(word); {
	case Nearest(low, []string{"true", "false"}) != "":
		return "write true or false, or put text in quotes"
	case len(word) > 1 && word[0] == '.' && word[1] >= '0' && word[1] <= '9':
		return "write 0 before the point"
	case strings.HasPrefix(word, "="):
		return "write = only once"
	}
	return `put text in quotes: key = "text"`
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

// foundOrEnd is found after a key. The parser puts an error at the end of the
// file on the last byte, which then belongs to the key.
func foundOrEnd(src []byte, at int) string {
	if at == len(src)-1 && bareKey(string(src[at])) {
		return "the end of the file"
	}
	return found(src, at)
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
