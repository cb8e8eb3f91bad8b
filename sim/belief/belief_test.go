package belief

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course/tomlfile"
)

const twoJumps = `A dog beside its handler.
manoeuvre: straight line
source: common practice, no source
-- course.toml --
course = "Two"
ring = [30, 40]
start = [15, 5]
order = "a b"
[obstacles]
a    = { kind = "jump", at = [15, 9], facing = 0 }
b    = { kind = "jump", at = [15, 15], facing = 0 }
trap = { kind = "jump", at = [22, 20], facing = 0 }
-- one.toml --
plan = "one"
lead-out = [16.4, 10.2]
[[cue]]
when = "release"
pace = "run"
-- two.toml --
plan = "two"
lead-out = [16.6, 10.2]
[[cue]]
when = "release"
pace = "run"
-- slow.toml --
team = "slow"
-- quick.toml --
team = "quick"
[dog]
like = "small"
-- beliefs --
`

func withBeliefs(t *testing.T, beliefs string) *Case {
	t.Helper()
	c, err := Parse("two.txtar", []byte(twoJumps+beliefs))
	require.NoError(t, err)
	return c
}

// made up figures: leg 2 of plan one is clean 0.6 and 0.7, of plan two 0.5 and 0.8.
func handedIn() Measured {
	run := func(clean float64, time float64) Run {
		return Run{Clean: clean / 2, Time: time, HasTime: time > 0, Legs: []Leg{
			{Clean: 0.95, Time: 1},
			{Clean: clean, OffCourse: map[int]float64{2: 0.25, 0: 0.05}, WrongSide: 0.01, Refusal: 0.02, KnockedBar: 0.03, MissedContact: 0.04, Time: 1.5, Speed: 4},
		}}
	}
	return Measured{{run(0.6, 10), run(0.7, 9)}, {run(0.5, 10), run(0.8, 0)}}
}

// Every form of statement, once where it holds and once where it just does not.
func TestJudge(t *testing.T) {
	for text, held := range map[string]bool{
		"leg 2 clean: all: 0.5 to 0.8":                  true,
		"leg 2 clean: all: 0.5 to 0.79":                 false,
		"leg 2 clean: one: 0.6 to 0.7":                  true,
		"leg 2 clean: two: 0.6 to 0.8":                  false,
		"leg 2 clean: slow: 0.5 to 0.6":                 true,
		"leg 2 clean: quick: 0.5 to 0.6":                false,
		"leg 2 clean: two, quick: 0.8 to 0.8":           true,
		"leg 2 clean: quick > slow":                     true,
		"leg 2 clean: quick > slow by 0.1":              true,
		"leg 2 clean: quick > slow by 0.11":             false,
		"leg 2 clean: one > two by 0.05":                false, // not with the quick dog
		"leg 2 clean: one, slow > two, slow by 0.1":     true,
		"leg 2 clean: slow < quick by 0.1":              true,
		"leg 2 clean: quick < slow":                     false,
		"leg 2 clean: one ~ two within 0.1":             true,
		"leg 2 clean: one ~ two within 0.09":            false,
		"leg 1 clean: one > two":                        false, // needs 0.02
		"leg 1 clean: one > two by 0":                   true,
		"leg 1 time: one > two":                         false, // must differ
		"leg 2 off course: all: 0.3 to 0.3":             true,
		"leg 2 off course into trap: all: 0.25 to 0.25": true,
		"leg 2 off course into a: all: 0.25 to 0.25":    false,
		"leg 2 wrong side: all: 0.01 to 0.01":           true,
		"leg 2 refusal: all: 0.02 to 0.02":              true,
		"leg 2 knocked bar: all: 0.03 to 0.03":          true,
		"leg 2 missed contact: all: 0.04 to 0.04":       true,
		"leg 2 time: all: 1.5 to 1.5":                   true,
		"leg 2 speed: all: 4 to 4":                      true,
		"run clean: one: 0.3 to 0.35":                   true,
		"run time: one: 9 to 10":                        true,
		"run time: two: 0 to 100":                       false, // one of them was never clean
		"easy legs 1: all: 0.9 to 1":                    true,
		"easy legs 1 2: all: 0.9 to 1":                  false,
		"worst leg: all: 2":                             true,
		"worst leg: all: 1 or 2":                        true,
		"worst leg: one: 1":                             false,
	} {
		c := withBeliefs(t, text+"\n")
		verdicts := c.Judge(handedIn())
		require.Len(t, verdicts, 1, text)
		assert.Equal(t, held, verdicts[0].Held, "%s: %+v", text, verdicts[0].Findings)
	}
}

// What is wrong is told at its line of the case file, with what to write.
func TestParseProblems(t *testing.T) {
	for _, c := range []struct {
		src  string
		line int
		text string
	}{
		{twoJumps + "leg 3 clean: all: 0 to 1\n", 32, "no number of a course with 2"},
		{twoJumps + "# x\n\nleg 2 clear: all: 0 to 1\n", 34, "nothing that can be believed of a leg"},
		{twoJumps + "leg 2 clean: three: 0 to 1\n", 32, "is no plan and no team"},
		{twoJumps + "leg 2 clean: one: 1 to 0\n", 32, "begins above its end"},
		{twoJumps + "leg 2 clean: one is fine\n", 32, "not understood"},
		{twoJumps + "leg 2 off course into b: all: 0 to 1\n", 32, "is the right obstacle"},
		{twoJumps + "leg 2 off course into c: all: 0 to 1\n", 32, "no obstacle"},
		{twoJumps + "worst leg: all: 9\n", 32, "no number of a course with 2"},
		{twoJumps + "leg 2 clean\n", 32, "without a colon"},
		{strings.Replace(twoJumps, "facing = 0 }\nb", "facing = nought }\nb", 1), 10, "is no value"},
		{strings.Replace(twoJumps, `pace = "run"`, `pace = "fly"`, 1), 18, "fly"},
		{strings.Replace(twoJumps, `team = "quick"`, `team = "slow"`, 1), 1, "will not do"},
		{strings.Replace(twoJumps, "-- one.toml --", "-- one.txt --", 1), 13, "no use for a part"},
	} {
		_, err := Parse("two.txtar", []byte(c.src))
		var wrong tomlfile.Problems
		require.ErrorAs(t, err, &wrong, c.text)
		assert.Equal(t, "two.txtar", wrong[0].File)
		assert.Equal(t, c.line, wrong[0].Line, wrong.Long())
		assert.Contains(t, wrong[0].Text, c.text)
	}
}

// The figures of a leg's ends sum to 1, and the same seed gives the same figures.
func TestMeasure(t *testing.T) {
	c := withBeliefs(t, "")
	m, err := c.Measure(3, 100)
	require.NoError(t, err)
	again, err := c.Measure(3, 100)
	require.NoError(t, err)
	assert.Equal(t, m, again)
	for p := range m {
		for _, r := range m[p] {
			for _, l := range r.Legs {
				sum := l.Clean + l.anyOffCourse() + l.WrongSide + l.Refusal + l.KnockedBar + l.MissedContact
				assert.InDelta(t, 1, sum, 1e-9)
			}
		}
	}
}

func TestKnown(t *testing.T) {
	k := ReadKnown([]byte("# a list\n\na.txtar: leg 1 clean: all: 0 to 1\nb.txtar: run clean: all: 0 to 1\n"))
	assert.Len(t, k, 2)
	assert.Equal(t, []string{"a.txtar: leg 1 clean: all: 0 to 1"}, k.Of([]string{"a.txtar"}).Without(nil))
	assert.Empty(t, k.Without(k))
}
