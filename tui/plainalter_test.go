package tui

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// say types lines into the plain mode and returns what it says after the opening, and its error.
func say(t *testing.T, o Options, lines ...string) (string, error) {
	t.Helper()
	var out strings.Builder
	err := Plain(o, strings.NewReader(strings.Join(lines, "\n")+"\n"), &out)
	_, said, ok := strings.Cut(out.String(), "q ends.\n")
	require.True(t, ok)
	return said, err
}

// Every value of a cue can be altered in words; the file then differs in those values alone.
func TestPlainAlters(t *testing.T) {
	for _, c := range []struct{ line, was, is string }{
		{"shift -0.5", `when  = "1 landing"`, `when  = "1 landing -0.5"`},
		{"when 1 landing +1", `when  = "1 landing"`, `when  = "1 landing +1"`},
		{"stand 8.5 17.5", "stand = [8, 17]", "stand = [8.5, 17.5]"},
	} {
		o, d := practice(t)
		before := string(d["inside.toml"])
		require.Contains(t, before, c.was)
		said, err := say(t, o, "home", "c", c.line, "save", "q")
		require.NoError(t, err)
		assert.Contains(t, said, "Saved to inside.toml", c.line)
		assert.Equal(t, strings.Replace(before, c.was, c.is, 1), string(d["inside.toml"]), c.line)
	}
}

// A change says what the leg was before; undo says the same the other way round.
func TestPlainSaysBeforeAndNow(t *testing.T) {
	o, d := practice(t)
	before := string(d["inside.toml"])
	said, err := say(t, o, "5", "shift -1", "undo", "undo", "redo", "undo", "q")
	require.NoError(t, err)
	whole := regexp.MustCompile(`The whole run: clean ([^,(]*%)[^,]*, before (.*%)\.`).FindAllStringSubmatch(said, -1)
	require.Len(t, whole, 4)
	for i := 1; i < len(whole); i++ {
		assert.Equal(t, whole[i-1][1], whole[i][2], "what was is what is said to have been")
	}
	assert.Contains(t, said, "There is nothing to undo.")
	assert.Contains(t, said, "Done again: shift cue")
	assert.Equal(t, before, string(d["inside.toml"]))
}

// What cannot be is said, and changes nothing.
func TestPlainRefuses(t *testing.T) {
	for line, want := range map[string]string{
		"pace fast":     `"fast" is none of run, jog, walk, stop`,
		"stand x":       "write two numbers",
		"shift much":    "is no number of strides",
		"shift 0.3":     "halves",
		"pace":          "Say what to make of it: pace jog.",
		"shoulders up":  "is none of next, way, dog",
		"save sub/none": "Not saved",
		"when never":    "never",
		"hop 3":         `Unknown word "hop 3"`,
	} {
		o, d := practice(t)
		before := string(d["inside.toml"])
		if strings.HasPrefix(line, "save") {
			o.Create = func(string, []byte) error { return assert.AnError }
		}
		said, err := say(t, o, "5", line, "q")
		require.NoError(t, err, line)
		assert.Contains(t, said, want, line)
		assert.NotContains(t, said, "The whole run:", line)
		assert.Equal(t, before, string(d["inside.toml"]))
	}
	o, _ := practice(t)
	said, err := say(t, o, "home", "pace jog", "delete", "q")
	require.NoError(t, err)
	assert.Contains(t, said, "The lead-out is a place only")
	assert.Contains(t, said, "The lead-out cannot go.")
}

func TestPlainAddsAndDeletes(t *testing.T) {
	o, d := practice(t)
	said, err := say(t, o, "5", "add", "pace jog", "save with.toml", "delete", "save without.toml", "q")
	require.NoError(t, err)
	assert.Contains(t, said, "Saved to with.toml")
	n := strings.Count(string(d["inside.toml"]), "[[cue]]")
	assert.Equal(t, n+1, strings.Count(string(d["with.toml"]), "[[cue]]"))
	assert.Equal(t, n, strings.Count(string(d["without.toml"]), "[[cue]]"))
}

// Ending asks about what is not saved; where nobody can be asked any more it is kept.
func TestPlainLosesNothing(t *testing.T) {
	o, _ := practice(t)
	said, err := say(t, o, "5", "shift -1", "q", "save", "q")
	require.NoError(t, err)
	assert.Contains(t, said, `Changes to "Inside, front cross at 4" are not saved`)

	o, d := practice(t)
	_, err = say(t, o, "5", "shift -1", "q", "q")
	require.NoError(t, err)
	assert.NotContains(t, d, "inside-2.toml", "the second q drops them")

	o, d = practice(t)
	_, err = say(t, o, "5", "shift -1")
	require.ErrorContains(t, err, "inside-2.toml")
	assert.Contains(t, string(d["inside-2.toml"]), "[[cue]]")

	o, _ = practice(t)
	said, err = say(t, o, "5", "shift -1", "save", "shift 0.5", "q", "undo", "q")
	require.NoError(t, err)
	assert.Contains(t, said, "not saved: save keeps them")

	o, d = practice(t)
	own := d.read
	o.Read = func(path string) ([]byte, error) {
		b, err := own(path)
		return append(b, '\n'), err
	}
	said, err = say(t, o, "5", "shift -1", "save", "q", "q")
	require.NoError(t, err)
	assert.Contains(t, said, "was changed outside")
}
