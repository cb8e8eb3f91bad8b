package tomlfile

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestInsidePos: the place of the word "elm" in an order, however it is quoted.
func TestInsidePos(t *testing.T) {
	for _, c := range []struct {
		src          string
		line, column int
	}{
		{`order = "gate elm -tube"`, 1, 15},
		{`order = 'gate elm -tube'`, 1, 15},
		{`order = "élan elm"`, 1, 15},
		{`order = "a\tb elm"`, 1, 15},
		{`order = "\u00e9\U0001F415\x41\"\\ elm"`, 1, 35},
		{"order = \"\"\"\ngate\n  elm\n\"\"\"", 3, 3},
		{"order = '''gate\nelm'''", 2, 1},
		{"order = \"\"\"gate \\\n\n   \\\n   elm\"\"\"", 4, 4},
		{"x = 1\norder=\"elm\"", 2, 8},
	} {
		for _, newline := range []string{"\n", "\r\n"} {
			doc := parse(t, strings.ReplaceAll(c.src, "\n", newline))
			s, ok := doc.Root().String("order")
			require.True(t, ok)
			got := doc.Root().InsidePos("order", strings.Index(s, "elm"))
			assert.Equal(t, Pos{"a.toml", c.line, c.column}, got, "%q %q", c.src, newline)
		}
	}
}

// TestInsidePosEnds: the end of the text has a place, past it the value has.
func TestInsidePosEnds(t *testing.T) {
	doc := parse(t, "order = \"gate elm\"\nn = 1\nr = '''\n\n'''\n")
	r := doc.Root()
	assert.Equal(t, Pos{"a.toml", 1, 18}, r.InsidePos("order", 8))
	assert.Equal(t, Pos{"a.toml", 1, 9}, r.InsidePos("order", 9))
	assert.Equal(t, Pos{"a.toml", 1, 9}, r.InsidePos("order", -1))
	assert.Equal(t, Pos{"a.toml", 2, 5}, r.InsidePos("n", 0))
	assert.Equal(t, Pos{"a.toml", 1, 1}, r.InsidePos("none", 0))
	r.InsideProblem("order", 5, "no obstacle \"elm\"", "h")
	assert.Equal(t, []string{`1:15: no obstacle "elm"`}, places(doc.Err()))
}
