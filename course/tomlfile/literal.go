package tomlfile

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Quote writes text as a TOML string on one line. Control and invisible
// characters become escapes, broken UTF-8 becomes U+FFFD.
func Quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case r == utf8.RuneError || strconv.IsPrint(r):
			b.WriteRune(r)
		case r <= 0xffff:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			fmt.Fprintf(&b, `\U%08X`, r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// Number writes a number with the fewest decimals that give it back exactly:
// 3, 7.5, 0.05. x must be finite.
func Number(x float64) string {
	if x == 0 {
		return "0" // not -0
	}
	if math.Abs(x) >= 1e15 { // no TOML integer beyond 64 bits
		return strconv.FormatFloat(x, 'e', -1, 64)
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// Length writes a length rounded to thousandths, which takes away what adding
// halves and feet leaves behind: 7.3, not 7.300000000000001.
func Length(x float64) string { return Number(math.Round(x*1000) / 1000) }

// Pair writes two lengths as a list: [7.5, 13].
func Pair(p [2]float64) string { return "[" + Length(p[0]) + ", " + Length(p[1]) + "]" }

// bareKey reports whether a key can be written without quotes.
func bareKey(key string) bool {
	for _, r := range key {
		if (r < 'a' || r > 'z') && (r < 'A' || r > 'Z') && (r < '0' || r > '9') && r != '-' && r != '_' {
			return false
		}
	}
	return key != ""
}

// Key writes a key, in quotes when it needs them.
func Key(key string) string {
	if bareKey(key) {
		return key
	}
	return Quote(key)
}
