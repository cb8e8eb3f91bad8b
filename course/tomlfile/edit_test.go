package tomlfile

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const planFile = `# my plan
plan = "Wait at 2"      # the name
lead-out = [7, 10]

# the first cue ] [[cue]]
[[cue]]
when  = "2 take-off -1" # here
stand = [ 7.5, # x
          13 ]
more = { pace = "run", far.away = 1 }

[[cue]]
when = '''
[[cue]]
'''
# stand = [1, 2]

# the third
[[cue]]
when = "3 landing"
[cue.sub]
x = 1

[other]
`

// both runs f for a file with LF and with CRLF; fix turns an expected text into
// the same newlines.
func both(t *testing.T, src string, f func(t *testing.T, src []byte, fix func(string) string)) {
	t.Helper()
	for name, newline := range map[string]string{"LF": "\n", "CRLF": "\r\n"} {
		fix := func(s string) string { return strings.ReplaceAll(s, "\n", newline) }
		t.Run(name, func(t *testing.T) { f(t, []byte(fix(src)), fix) })
	}
}

// TestSetChangesOnlyTheValue: old text, new text, everything else equal.
func TestSetChangesOnlyTheValue(t *testing.T) {
	for _, c := range []struct {
		path     Path
		literal  string
		old, new string
	}{
		{Path{"plan"}, `"x"`, `plan = "Wait at 2"      #`, `plan = "x"      #`},
		{Path{"lead-out", 1}, "10.5", "[7, 10]", "[7, 10.5]"},
		{Path{"cue", 0, "stand"}, "[8, 13]", "[ 7.5, # x\n          13 ]", "[8, 13]"},
		{Path{"cue", 0, "more", "pace"}, `"jog"`, `{ pace = "run"`, `{ pace = "jog"`},
		{Path{"cue", 0, "more", "far", "away"}, "2", "far.away = 1", "far.away = 2"},
		{Path{"cue", 0, "more"}, "{}", `{ pace = "run", far.away = 1 }`, "{}"},
		{Path{"cue", 1, "when"}, `"z"`, "'''\n[[cue]]\n'''", `"z"`},
		{Path{"cue", 2, "sub", "x"}, "9", "[cue.sub]\nx = 1", "[cue.sub]\nx = 9"},
		// new keys
		{Path{"units"}, `"m"`, "lead-out = [7, 10]\n", "lead-out = [7, 10]\nunits = \"m\"\n"},
		{Path{"cue", 0, "arm"}, `"left"`, "far.away = 1 }\n", "far.away = 1 }\narm = \"left\"\n"},
		{Path{"cue", 1, "arm"}, `"left"`, "\n'''\n#", "\n'''\narm = \"left\"\n#"},
		{Path{"cue", 2, "arm"}, `"left"`, "\"3 landing\"\n", "\"3 landing\"\narm = \"left\"\n"},
		{Path{"other", "a b"}, "1", "[other]\n", "[other]\n\"a b\" = 1\n"},
		{Path{"cue", 0, "more", "arm"}, "1", "far.away = 1 }", "far.away = 1, arm = 1 }"},
		{Path{"team", "dog", "focus"}, "0.5", "[other]\n", "[other]\n\n[team.dog]\nfocus = 0.5\n"},
	} {
		require.Equal(t, 1, strings.Count(planFile, c.old), "%q must be there once", c.old)
		both(t, planFile, func(t *testing.T, src []byte, fix func(string) string) {
			before := string(src)
			out, err := Set(src, c.path, c.literal)
			require.NoError(t, err, "%s", c.path)
			assert.Equal(t, strings.Replace(before, fix(c.old), fix(c.new), 1), string(out), "%s", c.path)
			assert.Equal(t, before, string(src), "the input is left alone")
		})
	}
}

func TestSetAtTheEdges(t *testing.T) {
	for _, c := range []struct {
		src, want string
		path      Path
	}{
		{"a = 1", "a = 2", Path{"a"}},
		{"\ufeffa = 1", "\ufeffa = 2", Path{"a"}},
		{"a = 1", "a = 1\nb = 2", Path{"b"}},
		{"a = 1\r\nc = 1", "a = 1\r\nc = 1\r\nb = 2", Path{"b"}},
		{"a = 1", "a = 1\n\n[t]\nb = 2", Path{"t", "b"}},
		{"", "b = 2\n", Path{"b"}},
		{"# only this", "# only this\nb = 2", Path{"b"}},
		{"# top\n\n# of t\n[t]\n", "# top\n\nb = 2\n# of t\n[t]\n", Path{"b"}},
		{"t = {}\n", "t = { b = 2 }\n", Path{"t", "b"}},
		{"t = {\n a = 1, # one\n}\n", "t = {\n a = 1, b = 2, # one\n}\n", Path{"t", "b"}},
		{"t = [{ a = 1 }, {}]\n", "t = [{ a = 1 }, { b = 2 }]\n", Path{"t", 1, "b"}},
		{"[t.s]\nx = 1\n", "[t.s]\nx = 1\n\n[t]\nb = 2\n", Path{"t", "b"}},
		{"[t]\n[t.s]\nx = 1\n", "[t]\nb = 2\n[t.s]\nx = 1\n", Path{"t", "b"}},
		{"x=[1,2,]\n", "x=[1,2,]\nb = 2\n", Path{"b"}},
	} {
		out, err := Set([]byte(c.src), c.path, "2")
		if assert.NoError(t, err, "%q %s", c.src, c.path) {
			assert.Equal(t, c.want, string(out), "%q %s", c.src, c.path)
		}
	}
}

func TestSetRefuses(t *testing.T) {
	for _, c := range []struct {
		src     string
		path    Path
		literal string
		want    string
	}{
		{"a = 1", Path{}, "2", "empty"},
		{"a = 1", Path{"a"}, "2\nb = 3", "no TOML value"},
		{"a = 1", Path{"a"}, "2 # more", "no TOML value"},
		{"a = 1", Path{"a"}, "", "no TOML value"},
		{"a = 1", Path{"a"}, " 2", "no TOML value"},
		{"a = 1", Path{"a"}, "x", "no TOML value"},
		{"a = 1", Path{"a", "b"}, "2", "no table to hold b"},
		{"a = [1]", Path{"a", 1}, "2", "no element 1"},
		{"a = [1]", Path{"a", "b"}, "2", "no table to hold b"},
		{"a = 1", Path{"b", 0, "c"}, "2", "no element 0"},
		{"a = 1", Path{1.5}, "2", "whole numbers only"},
		{"[a]", Path{"a"}, "2", "lines of its own"},
		{"[[a]]", Path{"a"}, "2", "lines of its own"},
		{"[[a]]", Path{"a", 0}, "2", "lines of its own"},
		{"a.b = 1", Path{"a", "c"}, "2", "no line of its own"},
		{"a = ", Path{"a"}, "2", "mend them first"},
		{"a = 1\na = 2", Path{"a"}, "2", "mend them first"},
		{"a = 1e999", Path{"b"}, "2", "mend them first"},
		{strings.Repeat("#", MaxSize+1), Path{"b"}, "2", "1 MiB"},
	} {
		out, err := Set([]byte(c.src), c.path, c.literal)
		assert.Nil(t, out)
		assert.ErrorContains(t, err, c.want, "%s = %s", c.path, c.literal)
	}
}

func TestAddElement(t *testing.T) {
	const line = "when = \"new\""
	for _, c := range []struct {
		at       int
		old, new string
	}{
		{0, "# the first cue", "[[cue]]\nwhen = \"new\"\n\n# the first cue"},
		{1, "[[cue]]\nwhen = '''", "[[cue]]\nwhen = \"new\"\n\n[[cue]]\nwhen = '''"},
		{2, "# the third", "[[cue]]\nwhen = \"new\"\n\n# the third"},
		{3, "x = 1\n", "x = 1\n\n[[cue]]\nwhen = \"new\"\n"},
	} {
		both(t, planFile, func(t *testing.T, src []byte, fix func(string) string) {
			out, err := Add(src, "cue", c.at, line)
			require.NoError(t, err)
			assert.Equal(t, strings.Replace(string(src), fix(c.old), fix(c.new), 1), string(out), "at %d", c.at)
			back, err := Delete(out, Path{"cue", c.at})
			require.NoError(t, err)
			assert.Equal(t, string(src), string(back), "deleted again, at %d", c.at)
		})
	}
}

func TestAddAtTheEdges(t *testing.T) {
	for _, c := range []struct {
		src, want string
		at        int
	}{
		{"a = 1", "a = 1\n\n[[run]]\nx = 1\ny = 2", 0},
		{"a = 1\n", "a = 1\n\n[[run]]\nx = 1\ny = 2\n", 0},
		{"a = 1\n\n", "a = 1\n\n[[run]]\nx = 1\ny = 2\n", 0},
		{"", "[[run]]\nx = 1\ny = 2\n", 0},
		{"[[run]]\nx = 0\n# out", "[[run]]\nx = 0\n# out\n\n[[run]]\nx = 1\ny = 2", 1},
		{"[[run]]\nx = 0\n# of b\n[b]\n", "[[run]]\nx = 0\n\n[[run]]\nx = 1\ny = 2\n# of b\n[b]\n", 1},
		{"  [[run]]\n  x = 0\n", "[[run]]\nx = 1\ny = 2\n\n  [[run]]\n  x = 0\n", 0},
	} {
		out, err := Add([]byte(c.src), "run", c.at, "x = 1", "y = 2")
		require.NoError(t, err, "%q", c.src)
		assert.Equal(t, c.want, string(out), "%q", c.src)
	}
}

func TestAddRefuses(t *testing.T) {
	for _, c := range []struct {
		src   string
		at    int
		lines string
		want  string
	}{
		{"cue = [{}]", 1, "a = 1", "not written as [[cue]]"},
		{"[cue]", 0, "a = 1", "not written as [[cue]]"},
		{"[[cue]]", 2, "a = 1", "it has 1"},
		{"[[cue]]", -1, "a = 1", "it has 1"},
		{"[[cue]]", 1, "a = ", "cannot add"},
		{"[[cue]]", 1, "[[cue]]", "more than that"},
		{"[[cue]]", 1, "[x]", "more than that"},
		{"cue", 0, "a = 1", "mend them first"},
	} {
		out, err := Add([]byte(c.src), "cue", c.at, c.lines)
		assert.Nil(t, out)
		assert.ErrorContains(t, err, c.want, "%q", c)
	}
}

func TestDelete(t *testing.T) {
	for _, c := range []struct {
		path Path
		cut  string
	}{
		{Path{"plan"}, "plan = \"Wait at 2\"      # the name\n"},
		{Path{"cue", 0, "stand"}, "stand = [ 7.5, # x\n          13 ]\n"},
		{Path{"cue", 0, "more", "pace"}, "pace = \"run\", "},
		{Path{"cue", 0, "more", "far", "away"}, ", far.away = 1"},
		{Path{"cue", 0, "more"}, "more = { pace = \"run\", far.away = 1 }\n"},
		{Path{"cue", 1, "when"}, "when = '''\n[[cue]]\n'''\n"},
		{Path{"cue", 0}, "# the first cue ] [[cue]]\n" + planFile[strings.Index(planFile, "[[cue]]\nwhen  ="):strings.Index(planFile, "[[cue]]\nwhen = '''")]},
		{Path{"cue", 1}, "[[cue]]\nwhen = '''\n[[cue]]\n'''\n"},
		{Path{"cue", 2}, "# the third\n[[cue]]\nwhen = \"3 landing\"\n[cue.sub]\nx = 1\n\n"},
		{Path{"cue", 2, "sub"}, "[cue.sub]\nx = 1\n\n"},
		{Path{"other"}, "\n[other]\n"},
	} {
		require.Equal(t, 1, strings.Count(planFile, c.cut), "%q must be there once", c.cut)
		both(t, planFile, func(t *testing.T, src []byte, fix func(string) string) {
			out, err := Delete(src, c.path)
			require.NoError(t, err, "%s", c.path)
			assert.Equal(t, strings.Replace(string(src), fix(c.cut), "", 1), string(out), "%s", c.path)
		})
	}
}

func TestDeleteAtTheEdges(t *testing.T) {
	for _, c := range []struct {
		src, want string
		path      Path
	}{
		{"a = 1\nb = 2", "a = 1\n", Path{"b"}},
		{"a = {b = 1}", "a = {}", Path{"a", "b"}},
		{"a = {b = 1, c = 2,}", "a = {b = 1,}", Path{"a", "c"}},
		{"a = {b = 1,}", "a = {}", Path{"a", "b"}},
		{"a.b = 1\nc = 1\n", "c = 1\n", Path{"a", "b"}},
		{"[a.b]\n[c]\n", "[c]\n", Path{"a", "b"}},
		{"x = 1\n[[a]]\n", "x = 1\n", Path{"a", 0}},
		{"x = 1\n[[a.b]]\n", "x = 1\n", Path{"a", "b", 0}},
		{"\ufeff[[a]]\n[[a]]\nb = 1\n", "\ufeff[[a]]\nb = 1\n", Path{"a", 0}},
	} {
		out, err := Delete([]byte(c.src), c.path)
		if assert.NoError(t, err, "%q", c.src) {
			assert.Equal(t, c.want, string(out), "%q", c.src)
		}
	}
	for _, c := range []struct {
		src, want string
		path      Path
	}{
		{"a = 1", "no such thing", Path{"b"}},
		{"a = 1", "no such thing", Path{}},
		{"a = 1", "no such thing", Path{"a", 0}},
		{"a = [1]", "one by one", Path{"a", 0}},
		{"[[a]]", "no single place", Path{"a"}},
		{"a.b = 1", "no single place", Path{"a"}},
		{"[a]\n[b]\n[a.c]\n", "other tables stand between", Path{"a"}},
	} {
		_, err := Delete([]byte(c.src), c.path)
		assert.ErrorContains(t, err, c.want, "%q", c.src)
	}
}

// TestAddThenDeleteIsNothing: whatever the plan looks like, an element put in
// and taken out again leaves the file as it was, and Set then Set back too.
func TestAddThenDeleteIsNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		newline := rapid.SampledFrom([]string{"\n", "\r\n"}).Draw(t, "newline")
		src := "plan = \"x\"" + newline
		n := rapid.IntRange(1, 4).Draw(t, "cues")
		for i := range n {
			src += newline + rapid.SampledFrom([]string{"", "# why" + newline}).Draw(t, "remark") + "[[cue]]" + newline
			src += fmt.Sprintf("  when = %d # n%s", i, newline)
			src += rapid.SampledFrom([]string{"", "stand = [1," + newline + " 2]" + newline, "[cue.x]" + newline + "y = 1" + newline}).Draw(t, "more")
		}
		at := rapid.IntRange(0, n).Draw(t, "at")
		out, err := Add([]byte(src), "cue", at, "when = 99")
		require.NoError(t, err)
		require.Len(t, out, len(src)+len("[[cue]]when = 99")+3*len(newline))
		back, err := Delete(out, Path{"cue", at})
		require.NoError(t, err)
		require.Equal(t, src, string(back))
		k := rapid.IntRange(0, n-1).Draw(t, "set")
		out, err = Set([]byte(src), Path{"cue", k, "when"}, "1234")
		require.NoError(t, err)
		back, err = Set(out, Path{"cue", k, "when"}, fmt.Sprint(k))
		require.NoError(t, err)
		require.Equal(t, src, string(back))
	})
}
