package course

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course/geom"
	"cuewalk/course/tomlfile"
)

var update = flag.Bool("update", false, "write the problems found to testdata instead of comparing")

// problems lists an error as the files beside the wrong courses do.
func problems(t *testing.T, err error) string {
	t.Helper()
	var ps tomlfile.Problems
	require.ErrorAs(t, err, &ps, "%v", err)
	for _, p := range ps {
		assert.NotEmpty(t, p.Hint, "%s: says not what to write instead", p)
	}
	return ps.Long() + "\n"
}

// Every wrong course beside its problems: all of them, each with its place, what
// is wrong and what to write instead.
func TestWrongCourses(t *testing.T) {
	files, err := filepath.Glob("testdata/wrong/*.toml")
	require.NoError(t, err)
	require.Greater(t, len(files), 20)
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".toml")
		t.Run(name, func(t *testing.T) {
			src, err := os.ReadFile(file)
			require.NoError(t, err)
			c, err := Parse(name+".toml", src)
			require.Error(t, err)
			assert.Nil(t, c)
			got := problems(t, err)
			beside := strings.TrimSuffix(file, ".toml") + ".txt"
			if *update {
				require.NoError(t, os.WriteFile(beside, []byte(got), 0o644))
			}
			want, err := os.ReadFile(beside)
			require.NoError(t, err)
			assert.Equal(t, string(want), got)
		})
	}
}

func parseFile(t *testing.T, file string) *Course {
	t.Helper()
	src, err := os.ReadFile(file)
	require.NoError(t, err)
	c, err := Parse(file, src)
	if err != nil {
		t.Fatal(problems(t, err))
	}
	return c
}

func TestParseCourse(t *testing.T) {
	c := parseFile(t, "testdata/right/meadow.toml")
	assert.Equal(t, "Quarry Meadow, jumping round", c.Name)
	assert.Equal(t, "FCI 2023", c.Rules)
	assert.Equal(t, Metres, c.Units)
	assert.Equal(t, geom.Point{X: 24, Y: 40}, c.Ring)
	assert.Equal(t, "grass", c.Surface)
	assert.Equal(t, geom.Point{X: 3, Y: 2}, c.Start)
	assert.Equal(t, []Step{{0, false}, {1, false}, {2, true}, {3, false}, {0, false}}, c.Order)
	assert.Equal(t, "testdata/right/meadow.toml", c.File)

	gate := c.Obstacles[0]
	assert.Equal(t, Obstacle{ID: "gate", Kind: Jump, At: geom.Point{X: 3, Y: 8}, Wings: true, Width: 1.2, Wing: 0.5, Height: UsualBar, Line: 10}, gate)
	assert.Equal(t, 1.2, c.Obstacles[1].Length)
	oak := c.Obstacles[3]
	assert.InDelta(t, 180, oak.Facing.Degrees(), 1e-12)
	assert.False(t, oak.Wings)
	assert.Zero(t, oak.Wing)

	tube := c.Obstacles[2]
	assert.Equal(t, geom.Point{X: 13, Y: 20}, tube.At, "the middle of the pipe")
	assert.InDelta(t, 56.309932, tube.Facing.Degrees(), 1e-5, "atan2(3, 2) into the first mouth")
	assert.InDelta(t, 2*3.605551, tube.Length, 1e-5)
	in := c.Entry(3) // taken from its last point
	assert.Equal(t, geom.Point{X: 16, Y: 18}, in.At)
	assert.InDelta(t, -56.309932, in.Heading.Degrees(), 1e-5)
	assert.Equal(t, geom.Point{X: 10, Y: 18}, in.Exit.At)
}

func TestEveryKindInFeet(t *testing.T) {
	c := parseFile(t, "testdata/right/every_kind.toml")
	require.Len(t, c.Obstacles, 12)
	seen := map[Kind]bool{}
	for _, o := range c.Obstacles {
		seen[o.Kind] = true
		assert.Positive(t, o.Width, o.ID)
		assert.Positive(t, o.Line, o.ID)
	}
	assert.Len(t, seen, int(KindCount))
	at := func(id string) Obstacle { return c.Obstacles[c.Find(id)] }
	assert.Equal(t, Feet, c.Units)
	assert.InDelta(t, 100*0.3048, c.Ring.X, 1e-12)
	assert.InDelta(t, 1.25*0.3048, at("a1").Height, 1e-12)
	assert.InDelta(t, 4*0.3048, at("a1").Width, 1e-12)
	assert.InDelta(t, 1.5*0.3048, at("a1x").Height, 1e-12, "the bar height of the file")
	assert.InDelta(t, 1.5*0.3048, at("a11").Height, 1e-12)
	assert.InDelta(t, 5*Spacing, at("a7").Length, 1e-12, "six poles, five gaps")
	assert.InDelta(t, 2*0.3048, at("a6").Height, 1e-12, "a pipe is as high as it is wide")
	assert.InDelta(t, 5.5*0.3048, at("a8").Height, 1e-12)
	assert.InDelta(t, 0, at("a5").Facing.Degrees(), 1e-9)
	assert.InDelta(t, -90, at("a3").Facing.Degrees(), 1e-9)
	assert.Equal(t, []int{1}, c.Numbers(c.Find("a1")))
	for n := range c.Order {
		e := c.Entry(n + 1)
		assert.Equal(t, c.Order[n].Obstacle, e.Obstacle)
		assert.False(t, e.WrongWay)
	}
}

// The rulebook is asked for by whoever knows the rulebooks.
func TestRulesAreAskedFor(t *testing.T) {
	src, err := os.ReadFile("testdata/right/meadow.toml")
	require.NoError(t, err)
	asked := ""
	_, err = ParseWith("c.toml", src, func(rules string) error { asked = rules; return nil })
	require.NoError(t, err)
	assert.Equal(t, "FCI 2023", asked)
	_, err = ParseWith("c.toml", src, func(string) error { return errors.New(`unknown rulebook "FCI 2023"`) })
	assert.ErrorContains(t, err, `c.toml:2:11: unknown rulebook "FCI 2023"`)
}

// courseOf writes a course with n jumps side by side in a ring of 500 m.
func courseOf(n int) []byte {
	var b strings.Builder
	b.WriteString("course = \"Many\"\nring = [500, 500]\nstart = [1, 1]\norder = \"j0\"\n[obstacles]\n")
	for i := range n {
		fmt.Fprintf(&b, "j%d = { kind = \"jump\", at = [%d, %d], facing = 0 }\n", i, 5+(i%90)*5, 5+i/90*5)
	}
	return []byte(b.String())
}

func TestMostObstacles(t *testing.T) {
	c, err := Parse("many.toml", courseOf(MostObstacles))
	require.NoError(t, err)
	assert.Len(t, c.Obstacles, MostObstacles)
	_, err = Parse("many.toml", courseOf(MostObstacles+2))
	assert.EqualError(t, err, "many.toml:1006:1: there are 1002 obstacles")
}

func TestMostNumbers(t *testing.T) {
	src := func(n int) []byte {
		order := strings.Repeat("a b ", n/2)
		return []byte("course = \"Long\"\nring = [24, 40]\nstart = [1, 1]\norder = \"" + order + "\"\n[obstacles]\n" +
			"a = { kind = \"jump\", at = [5, 5], facing = 0 }\nb = { kind = \"jump\", at = [5, 10], facing = 0 }\n")
	}
	_, err := Parse("long.toml", src(MostObstacles))
	require.NoError(t, err)
	_, err = Parse("long.toml", src(MostObstacles+2))
	assert.EqualError(t, err, "long.toml:4:2010: order has 1002 numbers")
}

func TestTooLargeFile(t *testing.T) {
	_, err := Parse("large.toml", []byte(strings.Repeat("# ten byte\n", 1<<20)))
	assert.ErrorContains(t, err, "large.toml")
	assert.ErrorContains(t, err, "larger than 1 MiB")
}

func TestSniff(t *testing.T) {
	for _, c := range []struct{ src, want string }{
		{`course = "a"`, "course"},
		{"# remark\n\nteam = \"a\"", "team"},
		{"units = \"ft\"\nplan = \"a\"", "plan"},
		{"[[run]]\ndate = 2026-05-31\ncourse = \"a\"", "journal"},
		{"\ufeffcourse = \"a\"\n[obstacles", "course"},
		{"plan = \"a\nteam = 3 4", "plan"},
	} {
		got, err := Sniff("f.toml", []byte(c.src))
		require.NoError(t, err, c.src)
		assert.Equal(t, c.want, got, c.src)
	}
	for src, want := range map[string]string{
		"":                "f.toml: the file is empty",
		"corse = \"a\"":   `f.toml:1:1: this is no course, plan or team: it begins with "corse"`,
		"a = = b":         "f.toml:1:5",
		"\x7fELF\x00\x01": "binary",
	} {
		_, err := Sniff("f.toml", []byte(src))
		assert.ErrorContains(t, err, want)
	}
}
