package tomlfile

import (
	"io/fs"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// places gives "line:column text" of every problem.
func places(err error) []string {
	var out []string
	if err != nil {
		for _, p := range err.(Problems) {
			out = append(out, strings.TrimPrefix(p.Error(), "a.toml:"))
		}
	}
	return out
}

const brokenLines = `course = "Quarry
ring = [24 40]
units = m
length = 1,2
surface = "grass" # fine
facing = 90°
start = [1, 2
order = "a b"
= 3
élan = 3
[obstacles
x = 1
y =
z = 05
t = "\q"
u = {a = 1 b = 2}
two words = 1
name = 'open
`

func TestEveryBrokenLineIsReported(t *testing.T) {
	want := []string{
		`1:17: text without closing quotes`,
		`2:12: expected , or ] in the list, found "4"`,
		`3:9: "m" is no value`,
		`4:11: expected the end of the line, found ","`,
		`6:12: expected the end of the line, found "°"`,
		`7:1: the value that begins here is never closed`,
		`9:1: there is no key before =`,
		`10:1: a key cannot begin with "é"`,
		`11:11: expected ] after the table's name, found the end of the line`,
		`13:4: there is no value after =`,
		`14:5: integers cannot have leading zeroes`,
		`15:6: invalid escape character U+0071 'q'`,
		`16:12: expected , or } in the table, found "b"`,
		`17:5: expected = after the key, found "w"`,
		`18:13: text without closing quotes`,
	}
	for _, newline := range []string{"\n", "\r\n"} {
		for _, mark := range []string{"", "\ufeff"} {
			doc, err := Parse("a.toml", []byte(mark+strings.ReplaceAll(brokenLines, "\n", newline)))
			assert.Nil(t, doc)
			assert.Equal(t, want, places(err), "newline %q, mark %q", newline, mark)
		}
	}
}

func TestOpenValues(t *testing.T) {
	for _, c := range []struct{ name, src, want, hint string }{
		{"list to the end", "a = 1\nb = [1,\n 2\n", "2:1", "]"},
		{"list, then a header", "a = 1\nb = [1,\n 2\n[x]\nc = 1\n", "2:1", "]"},
		{"text over lines", "a = 1\nb = \"\"\"x\n y\n", "2:1", `"""`},
		{"table over lines", "a = 1\nb = {c = 1\nd = 2\n", "2:1", "}"},
		{"quotes in the last line", "a = 1\nb = \"x", "2:6", `"`},
		{"after a header", "[a]\nb = [1,\n 2\n", "2:1", "]"},
		{"header in the last line", "a = 1\n[b", "2:2", "[name]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Parse("a.toml", []byte(c.src))
			require.Error(t, err)
			ps := err.(Problems)
			assert.True(t, strings.HasPrefix(places(ps)[0], c.want+":"), "got %s", ps)
			assert.Contains(t, ps[0].Hint, c.hint)
		})
	}
}

// TestWording: one broken line each, what is said and what to write.
func TestWording(t *testing.T) {
	for src, want := range map[string]string{
		"a = True":        "1:5: \"True\" is no value\n  hint: write true or false, or put text in quotes",
		"a = .5":          "1:5: \".5\" is no value\n  hint: write 0 before the point",
		"a = # later":     "1:5: there is no value after =\n  hint: write one, or delete the line",
		"a = = 1":         "1:5: \"= 1\" is no value\n  hint: write = only once",
		"a = 5m":          "1:6: expected the end of the line, found \"m\"\n  hint: write the number alone, without its unit",
		"a = 1,":          "1:6: expected the end of the line, found \",\"\n  hint: delete the comma: each key has its own line",
		"a = 5.":          "1:6: this number is not written in full\n  hint: write a number such as 0.5 or 2",
		"a = [,]":         "1:6: there is no value after =\n  hint: write one, or delete the line",
		"a = [1":          "1:6: a bracket is never closed\n  hint: write ] after the last value, } after the last key",
		"a = 1\rb = 2":    "1:6: control character \"\\r\" in the file\n  hint: delete it",
		"a = \"\x1b[2J\"": "1:6: control character \"\\x1b\" in the file\n  hint: delete it",
		"a = ‘x’":         "1:5: \"‘x’\" is no value\n  hint: put text in quotes: key = \"text\"",
		"a":               "1:1: expected = after the key, found the end of the file\n  hint: write key = value; a key with blanks or accents needs quotes",
		"[a]\n[]":         "2:2: a key cannot begin with \"]\"\n  hint: use letters, digits, - and _, or put the key in quotes",
		"a = 'b\n":        "1:7: text without closing quotes\n  hint: write ' at its end",
	} {
		_, err := Parse("a.toml", []byte(src))
		if assert.Error(t, err, "%q", src) {
			assert.Equal(t, "a.toml:"+want, err.(Problems).Long(), "%q", src)
		}
	}
}

func TestBrokenListHidesNoLaterLine(t *testing.T) {
	src := "a = [[1, 2],\n  [3 4],\n  [5, 6]]\nb = x\nc = 1\n"
	_, err := Parse("a.toml", []byte(src))
	require.Error(t, err)
	got := places(err)
	require.Len(t, got, 2)
	assert.Equal(t, `4:5: "x" is no value`, got[1])
}

func TestManyBrokenLinesStop(t *testing.T) {
	_, err := Parse("a.toml", []byte(strings.Repeat("no toml\n", 1000)))
	assert.Len(t, err, mostFaults+1)
	assert.ErrorContains(t, err, "too many broken lines")
}

func TestNoText(t *testing.T) {
	for _, c := range []struct{ name, src, want string }{
		{"empty", "", "a.toml: the file is empty"},
		{"blank", " \n\t\r\n", "a.toml: the file is empty"},
		{"only a mark", "\ufeff", "a.toml: the file is empty"},
		{"remarks", "# one\n# two\n", "a.toml: the file holds nothing but remarks"},
		{"NUL", "a = 1\nb\x00c", "a.toml:2:2: this is a binary file, not text"},
		{"Latin-1", "a = 1\nb = \"é\xe9\"", `a.toml:2:7: byte \xe9 is not UTF-8: a binary file, or text in another encoding`},
		{"UTF-16", "\xff\xfea\x00", "a.toml: is saved as UTF-16"},
		{"large", "a = 1\n" + strings.Repeat("#", MaxSize), "a.toml: is larger than 1 MiB"},
	} {
		t.Run(c.name, func(t *testing.T) {
			doc, err := Parse("a.toml", []byte(c.src))
			assert.Nil(t, doc)
			assert.EqualError(t, err, c.want)
			assert.NotEmpty(t, err.(Problems)[0].Hint)
		})
	}
}

func TestLargestFileIsTaken(t *testing.T) {
	src := "a = 1\n"
	src += strings.Repeat("#", MaxSize-len(src))
	_, err := Parse("a.toml", []byte(src))
	assert.NoError(t, err)
}

// TestDoubles: what is there twice is reported, the first one counts, and the
// rest is still checked.
func TestDoubles(t *testing.T) {
	src := `a = 1
b = 2
a = "x"
[t]
k = {x = 1, x = 2}
[[list]]
[t]
k = 3
m = 4
[b]
[list]
[[t]]
`
	doc, err := Parse("a.toml", []byte(src))
	require.NoError(t, err)
	a, ok := doc.Root().Int("a", 0, 9)
	assert.True(t, ok)
	assert.Equal(t, 1, a)
	doc.Root().Int("b", 5, 9)
	tab, ok := doc.Root().Table("t")
	require.True(t, ok)
	assert.Equal(t, []string{"k"}, tab.Keys())
	doc.Root().Tables("list")
	doc.Done()
	assert.Equal(t, []string{
		`2:5: b is out of range: 2`,
		`3:1: key "a" is there twice`,
		`5:1: unknown key "k"`,
		`5:13: key "x" is there twice`,
		`7:1: table "t" is there twice`,
		`10:1: table "b" is there twice`,
		`11:1: table "list" is there twice`,
		`12:1: table "t" is there twice`,
	}, places(doc.Err()))
	assert.Contains(t, doc.Problems()[1].Hint, "line 1")
}

// A number too large for the machine is said in words of the file, not of the program.
func TestNumberTooLarge(t *testing.T) {
	doc, err := Parse("a.toml", []byte("a = 1e400\nb = 99999999999999999999\n"))
	require.NoError(t, err)
	doc.Root().Float("a", 0, 1)
	doc.Root().Int("b", 0, 9)
	assert.Equal(t, []string{"1:5: 1e400 is out of range", "2:5: 99999999999999999999 is out of range"}, places(doc.Err()))
}

func TestNearestFileName(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, Save(dir+"/quarry.toml", []byte("a = 1\n")))
	_, err := Load(dir + "/quary.toml")
	require.ErrorIs(t, err, fs.ErrNotExist)
	assert.Contains(t, err.(Problem).Hint, `quarry.toml"`)
}

func TestControlCharactersStayOut(t *testing.T) {
	src := "a = \"\\u001b[31mred\\u202e\"\n'\x09b' = 1\n\"\\u001bc\" = 2\n"
	doc, err := Parse("a\x1b]0;x\x07.toml", []byte(src))
	require.NoError(t, err)
	doc.Root().Word("a", "blue")
	doc.Root().Done()
	long := doc.Problems().Long()
	assert.Contains(t, long, `unknown a "\x1b[31mred\u202e"`)
	for _, r := range long {
		assert.True(t, r == '\n' || r >= ' ' && r != 0x7f && r != 0x202e, "%q in %q", r, long)
	}
}
