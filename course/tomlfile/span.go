package tomlfile

import (
	"bytes"
	"strings"
)

// skipBlanks is the offset of the first byte from at on that is no blank.
func skipBlanks(src []byte, at int) int {
	for at < len(src) && (src[at] == ' ' || src[at] == '\t') {
		at++
	}
	return at
}

// skip goes over blanks, newlines, comments and the bytes in also.
func skip(src []byte, at int, also string) int {
	for at < len(src) {
		switch c := src[at]; {
		case c == '#':
			at = lineEnd(src, at)
		case c == ' ' || c == '\t' || c == '\r' || c == '\n' || strings.IndexByte(also, c) >= 0:
			at++
		default:
			return at
		}
	}
	return at
}

// lineStart is the offset of the first byte of the line that holds at.
func lineStart(src []byte, at int) int { return bytes.LastIndexByte(src[:at], '\n') + 1 }

// lineEnd is the offset behind the newline of the line that holds at.
func lineEnd(src []byte, at int) int {
	if i := bytes.IndexByte(src[at:], '\n'); i >= 0 {
		return at + i + 1
	}
	return len(src)
}

// wholeLines is s made wider to whole lines, with the newline at the end.
func wholeLines(src []byte, s span) span {
	return span{lineStart(src, s.from), lineEnd(src, s.to)}
}

// lineAt is the line that holds at, without its newline.
func lineAt(src []byte, at int) []byte {
	return bytes.TrimRight(src[lineStart(src, at):lineEnd(src, at)], "\r\n")
}
