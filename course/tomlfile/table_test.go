package tomlfile

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func parse(t *testing.T, src string) *Doc {
	t.Helper()
	doc, err := Parse("a.toml", []byte(src))
	require.NoError(t, err)
	return doc
}

const good = `
text = "Wren"
yes = true
whole = 7
real = -1.5
many = [1, 2.5, -3]
pair = [24, 40.5]
line = [[10, 18], [13, 20]]
words = ["here", "go"]
day = 2026-05-31
at = 2026-05-31T10:00:00Z
far.near = 1
box = { a = 1 }
rows = [{ a = 1 }, { a = 2 }]
none = []

[part]
b = 2

[[cue]]
c = 1
[[cue]]
c = 2
`

func TestGetters(t *testing.T) {
	doc := parse(t, good)
	r := doc.Root()
	inf := math.Inf(1)
	check := func(want, got any, ok bool) {
		t.Helper()
		assert.True(t, ok)
		assert.Equal(t, want, got)
	}
	text, ok := r.String("text")
	check("Wren", text, ok)
	word, ok := r.Word("text", "Tern", "Wren")
	check("Wren", word, ok)
	yes, ok := r.Bool("yes")
	check(true, yes, ok)
	whole, ok := r.Int("whole", 7, 7)
	check(7, whole, ok)
	x, ok := r.Float("whole", -inf, inf)
	check(7.0, x, ok)
	x, ok = r.Float("real", -1.5, -1.5)
	check(-1.5, x, ok)
	many, ok := r.Floats("many", -3, 2.5)
	check([]float64{1, 2.5, -3}, many, ok)
	none, ok := r.Floats("none", 0, 1)
	check([]float64{}, none, ok)
	pair, ok := r.Point("pair")
	check([2]float64{24, 40.5}, pair, ok)
	line, ok := r.Points("line")
	check([][2]float64{{10, 18}, {13, 20}}, line, ok)
	words, ok := r.Strings("words")
	check([]string{"here", "go"}, words, ok)
	day, ok := r.Date("day")
	check("2026-05-31", day.Format(time.DateOnly), ok)
	_, ok = r.Date("at")
	assert.True(t, ok)
	for _, c := range []struct{ table, key string }{{"far", "near"}, {"box", "a"}, {"part", "b"}} {
		sub, ok := r.Table(c.table)
		require.True(t, ok, c.table)
		assert.Equal(t, c.table, sub.Name())
		_, ok = sub.Int(c.key, 0, 9)
		assert.True(t, ok, c.table)
		again, _ := r.Table(c.table)
		assert.Same(t, sub, again)
	}
	for _, c := range []struct{ list, key string }{{"rows", "a"}, {"cue", "c"}} {
		subs, ok := r.Tables(c.list)
		require.True(t, ok, c.list)
		require.Len(t, subs, 2)
		for i, sub := range subs {
			v, ok := sub.Int(c.key, 0, 9)
			check(i+1, v, ok)
		}
	}
	empty, ok := r.Tables("none")
	check([]*Table{}, empty, ok)
	doc.Done()
	assert.NoError(t, doc.Err())
	assert.Equal(t, strings.Fields("text yes whole real many pair line words day at far box rows none part cue"), r.Keys())
	assert.Equal(t, "a.toml", doc.Name())
	assert.Same(t, doc, r.Doc())
}

func TestAbsentIsNoProblem(t *testing.T) {
	doc := parse(t, "a = 1")
	r := doc.Root()
	var oks [11]bool
	_, oks[0] = r.String("x")
	_, oks[1] = r.Word("x", "y")
	_, oks[2] = r.Bool("x")
	_, oks[3] = r.Int("x", 0, 1)
	_, oks[4] = r.Float("x", 0, 1)
	_, oks[5] = r.Floats("x", 0, 1)
	_, oks[6] = r.Point("x")
	_, oks[7] = r.Points("x")
	_, oks[8] = r.Strings("x")
	_, oks[9] = r.Table("x")
	_, oks[10] = r.Tables("x")
	assert.Equal(t, [11]bool{}, oks)
	assert.NoError(t, doc.Err())
}

// TestWrongValues: one file per case, exact place, words and hint.
func TestWrongValues(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		src  string
		ask  func(r *Table)
		want []string
		hint string
	}{
		{`k = 3`, func(r *Table) { r.String("k") }, []string{"1:5: k must be text, not 3"}, `put it in quotes: k = "3"`},
		{`k = [3]`, func(r *Table) { r.String("k") }, []string{"1:5: k must be text, not a list"}, `write k = "text"`},
		{`k = "tunel"`, func(r *Table) { r.Word("k", "jump", "tunnel") }, []string{`1:5: unknown k "tunel"`}, `did you mean "tunnel"? known here: jump, tunnel`},
		{`k = 1`, func(r *Table) { r.Word("k", "jump") }, []string{"1:5: k must be text, not 1"}, `put it in quotes: k = "1"`},
		{`k = "true"`, func(r *Table) { r.Bool("k") }, []string{`1:5: k must be true or false, not "true"`}, "write k = true or k = false, without quotes"},
		{`k = 1.0`, func(r *Table) { r.Int("k", 0, 9) }, []string{"1:5: k must be a whole number, not 1.0"}, "write a number without quotes and without decimals"},
		{`k = 10`, func(r *Table) { r.Int("k", 0, 9) }, []string{"1:5: k is out of range: 10"}, "write a number from 0 to 9"},
		{`k = " 1,5 "`, func(r *Table) { r.Float("k", 0, 9) }, []string{`1:5: k must be a number, not " 1,5 "`}, "write 1.5 without quotes"},
		{`k = "long"`, func(r *Table) { r.Float("k", 0, 9) }, []string{`1:5: k must be a number, not "long"`}, "write a number from 0 to 9 without quotes"},
		{`k = "NaN"`, func(r *Table) { r.Float("k", 0, 9) }, []string{`1:5: k must be a number, not "NaN"`}, "write a number from 0 to 9 without quotes"},
		{`k = nan`, func(r *Table) { r.Float("k", 0, inf) }, []string{"1:5: k must be a finite number, not nan"}, "write a number not below 0"},
		{`k = -inf`, func(r *Table) { r.Float("k", -inf, 0) }, []string{"1:5: k must be a finite number, not -inf"}, "write a number not above 0"},
		{`k = 1.01`, func(r *Table) { r.Float("k", 0, 1) }, []string{"1:5: k is out of range: 1.01"}, "write a number from 0 to 1"},
		{`k = -0.1`, func(r *Table) { r.Float("k", 0, 1) }, []string{"1:5: k is out of range: -0.1"}, "write a number from 0 to 1"},
		{`k = 3`, func(r *Table) { r.Floats("k", 0, 1) }, []string{"1:5: k must be a list of numbers, not 3"}, "write k = [1, 2.5]"},
		{`k = [0, "1", 2, true]`, func(r *Table) { r.Floats("k", 0, 1) }, []string{
			`1:9: number 2 of k must be a number, not "1"`, "1:14: number 3 of k is out of range: 2", "1:17: number 4 of k must be a number, not true",
		}, "write 1 without quotes"},
		{`k = 3`, func(r *Table) { r.Point("k") }, []string{"1:5: k must be a pair of numbers, not 3"}, "write k = [3, 8.5]"},
		{`k = [1, 2, 3]`, func(r *Table) { r.Point("k") }, []string{"1:5: k must have 2 numbers, not 3"}, "write k = [3, 8.5]"},
		{`k = [1, inf]`, func(r *Table) { r.Point("k") }, []string{"1:9: number 2 of k must be a finite number, not inf"}, "write a number such as 1.5"},
		{`k = { x = 1 }`, func(r *Table) { r.Point("k") }, []string{"1:5: k must be a pair of numbers, not a table"}, "write k = [3, 8.5]"},
		{`k = [1, 2]`, func(r *Table) { r.Points("k") }, []string{"1:5: k must be a list of points, not of numbers"}, "write k = [[10, 18], [13, 20]]"},
		{"k = [[1, 2], # one [\n  [3], 4,\n\n  [\"a\", 5]]", func(r *Table) { r.Points("k") }, []string{
			"2:3: point 2 of k must have 2 numbers, not 1", "2:8: point 3 of k must be a pair of numbers, not 4", `4:4: number 1 of point 4 of k must be a number, not "a"`,
		}, "write [13, 20.5]"},
		{`k = "a"`, func(r *Table) { r.Strings("k") }, []string{`1:5: k must be a list of texts, not "a"`}, `write k = ["one", "two"]`},
		{`k = ["a", 1]`, func(r *Table) { r.Strings("k") }, []string{"1:11: text 2 of k must be text, not 1"}, "put it in quotes"},
		{`k = "day"`, func(r *Table) { r.Date("k") }, []string{`1:5: k must be a date, not "day"`}, "write it as year-month-day without quotes: k = 2026-05-31"},
		{`k = 10:00:00`, func(r *Table) { r.Date("k") }, []string{`1:5: k must be a date, not 10:00:00`}, "write it as year-month-day without quotes: k = 2026-05-31"},
		{`k = 1`, func(r *Table) { r.Table("k") }, []string{"1:5: k must be a table, not 1"}, "write k = { ... }, or [k] with its keys below"},
		{"[[k]]\n[[k]]", func(r *Table) { r.Table("k") }, []string{"1:3: k must be a table, not several tables"}, "write k = { ... }, or [k] with its keys below"},
		{`[k]`, func(r *Table) { r.Tables("k") }, []string{"1:1: k must be a list of tables, not a table"}, "write [[k]] with its keys below, once for each"},
		{`k = [{}, 1]`, func(r *Table) { r.Tables("k") }, []string{"1:10: element 2 of k must be a table, not 1"}, "write { key = value }"},
		{`"a b" = 1`, func(r *Table) { r.String("a b") }, []string{`1:9: "a b" must be text, not 1`}, `put it in quotes: "a b" = "1"`},
	} {
		for _, newline := range []string{"\n", "\r\n"} {
			doc := parse(t, strings.ReplaceAll(c.src, "\n", newline))
			c.ask(doc.Root())
			doc.Done()
			assert.Equal(t, c.want, places(doc.Err()), c.src)
			require.NotEmpty(t, doc.Problems())
			assert.Equal(t, c.hint, doc.Problems()[0].Hint, c.src)
		}
	}
}

func TestDoneNamesTheNearestKnownKey(t *testing.T) {
	doc := parse(t, "plan = \"x\"\nledout = 1\nzzz = 1\n[dog]\nfocsu = 1\n[[cue]]\nwehn = 1\n[[cue]]\nstand=1\n")
	r := doc.Root()
	r.String("plan")
	r.Point("lead-out")
	dog, _ := r.Table("dog")
	dog.Float("focus", 0, 1)
	cues, _ := r.Tables("cue")
	for _, c := range cues {
		c.String("when")
		c.Missing("when", "write when = \"2 landing\"")
		c.Done("stand")
	}
	doc.Done()
	assert.Equal(t, []string{
		`2:1: unknown key "ledout"`, `3:1: unknown key "zzz"`, `5:1: unknown key "focsu"`,
		`6:1: missing key "when"`, `7:1: unknown key "wehn"`, `8:1: missing key "when"`, `9:1: unknown key "stand"`,
	}, places(doc.Err()))
	hints := doc.Problems()
	assert.Equal(t, `did you mean "lead-out"? known here: plan, lead-out, dog, cue`, hints[0].Hint)
	assert.Equal(t, "known here: plan, lead-out, dog, cue", hints[1].Hint)
	assert.Equal(t, `did you mean "when"? known here: when, stand`, hints[4].Hint)
	doc.Done()
	assert.Len(t, doc.Problems(), 7, "a second Done reports nothing new")
}

// TestMissing: at its table's place; silent when the key is there but wrong.
func TestMissing(t *testing.T) {
	doc := parse(t, "# remark\na = 1\n  [dog]\nb = 1\n[o]\ngate = { k = 1 }\nelm.k = 1\n[[cue]]\nlist = [{}, {}]\n")
	r := doc.Root()
	r.String("a")
	r.Missing("a", "")
	r.Missing("z", "")
	dog, _ := r.Table("dog")
	dog.Missing("z", "")
	o, _ := r.Table("o")
	for _, k := range o.Keys() {
		kid, _ := o.Table(k)
		kid.Missing("z", "")
	}
	cues, _ := r.Tables("cue")
	cues[0].Missing("z", "")
	list, _ := cues[0].Tables("list")
	list[1].Missing("z", "")
	assert.Equal(t, []string{
		`1:1: missing key "z"`, `2:5: a must be text, not 1`, `3:3: missing key "z" in "dog"`, `6:1: missing key "z" in "gate"`,
		`7:1: missing key "z" in "elm"`, `8:1: missing key "z"`, `9:13: missing key "z"`,
	}, places(doc.Err()))
}

func TestOwnProblems(t *testing.T) {
	doc := parse(t, "k = [1, [2, 3]]\n[t]\nx = 1\ny = 2\n")
	tab, _ := doc.Root().Table("t")
	tab.Problem("x", "wrong value", "h")
	tab.KeyProblem("y", "wrong key", "h")
	tab.Problem("", "wrong table", "h")
	tab.Problem("none", "not there", "h")
	doc.Root().ElementProblem("k", 1, "wrong element", "h")
	assert.Equal(t, Pos{"a.toml", 1, 13}, doc.Root().ValuePos("k", 1, 1))
	assert.Equal(t, Pos{"a.toml", 1, 9}, doc.Root().ValuePos("k", 1, 7), "the nearest parent")
	assert.Equal(t, 4, tab.Line("y"))
	assert.Equal(t, 2, tab.Line("none"))
	doc.Done()
	assert.Equal(t, []string{
		"1:9: wrong element", "2:1: wrong table", "2:1: not there", "3:5: wrong value", "4:1: wrong key",
	}, places(doc.Err()))
	assert.Equal(t, "a.toml:3:5: wrong value\n  hint: h", doc.Problems()[3].Long())
}

func TestProblemsAcrossFiles(t *testing.T) {
	ps := Problems{Pos{"b", 1, 1}.Problem("one", ""), Pos{"a", 2, 1}.Problem("two", "do"), Pos{"a", 1, 9}.Problem("three", ""), Pos{"a", 2, 1}.Problem("two", "do")}
	assert.Equal(t, "a:1:9: three\na:2:1: two\n  hint: do\nb:1:1: one", ps.Sorted().Long())
	assert.EqualError(t, ps.Err(), "a:1:9: three\na:2:1: two\nb:1:1: one")
	assert.NoError(t, Problems{}.Err())
	var p Problem
	require.ErrorAs(t, ps.Err(), &p)
	assert.Equal(t, "three", p.Text)
}

// TestImpossibleValues: numbers and dates that do not exist do not hide the
// other problems, and their keys are neither missing nor unknown.
func TestImpossibleValues(t *testing.T) {
	doc := parse(t, "a = 1e999\nb = 99999999999999999999\nc = [1, 1e999, \"x\"]\nd = 2026-02-30\ne = 1\nf = \"x\"\n")
	r := doc.Root()
	_, ok := r.Float("a", 0, 1)
	assert.False(t, ok)
	r.Missing("a", "")
	r.Int("b", 0, 1)
	r.Floats("c", 1, 2)
	r.Date("d")
	r.Float("f", 0, 1)
	doc.Done()
	got := places(doc.Err())
	require.Len(t, got, 7, "%s", got)
	for i, want := range []string{"1:5: ", "2:5: ", "3:9: ", "3:16: number 3 of c", "4:5: ", "5:1: unknown key", "6:5: f must be"} {
		assert.True(t, strings.HasPrefix(got[i], want), "want %s, got %s", want, got[i])
	}
}
