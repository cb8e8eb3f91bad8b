package tomlfile

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

// TestHostileFiles: a file of half a megabyte, made to be slow, is still read
// or refused, and edited. The bound is far above what any of them needs and only
// catches work that grows with the square of the size, which took minutes.
func TestHostileFiles(t *testing.T) {
	if testing.Short() {
		t.Skip("ten seconds, and a minute under the race detector")
	}
	fill := func(piece func(i int) string) string {
		var b strings.Builder
		for i := 0; b.Len() < MaxSize/2; i++ {
			b.WriteString(piece(i))
		}
		return b.String()
	}
	repeat := func(s string) string { return fill(func(int) string { return s }) }
	for name, src := range map[string]string{
		"open brackets":   "a = " + repeat("["),
		"open braces":     "a = " + repeat("{a="),
		"long key":        repeat("a.") + "a = 1",
		"long header":     "[" + repeat("a.") + "a]",
		"long array":      "a = [" + repeat("1,") + "]",
		"points":          "a = [" + repeat("[1,2],") + "]",
		"broken lines":    repeat("no\n"),
		"one doubled key": repeat("a = 1\n"),
		"doubled tables":  repeat("[a]\n"),
		"elements":        repeat("[[a]]\n"),
		"keys":            fill(func(i int) string { return fmt.Sprintf("k%d = 1\n", i) }),
		"tables":          fill(func(i int) string { return fmt.Sprintf("[k%d]\n", i) }),
		"braces":          fill(func(i int) string { return fmt.Sprintf("k%d = {a=1}\n", i) }),
		"too large":       fill(func(i int) string { return fmt.Sprintf("k%d = 1e999\n", i) }),
		"quotes":          repeat("\""),
		"escapes":         "a = \"" + repeat(`\u0007`) + "\"",
		"remarks":         repeat("#\n"),
	} {
		t.Run(name, func(t *testing.T) {
			start := time.Now()
			doc, err := Parse("a.toml", []byte(src))
			if err == nil {
				for _, k := range doc.Root().Keys() {
					doc.Root().Points(k) // wrong everywhere: the most problems
				}
				doc.Root().Floats("a", 2, 3)
				doc.Done()
				_ = doc.Err().Error()
				_, _ = Set([]byte(src), Path{"zz"}, "1")
				_, _ = Add([]byte(src), "a", 1, "x = 1")
			}
			took := time.Since(start)
			t.Log(took.Round(time.Millisecond))
			if took > 10*time.Second {
				t.Errorf("%d bytes took %s", len(src), took)
			}
		})
	}
}
