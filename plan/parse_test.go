package plan

import (
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/course/tomlfile"
	"cuewalk/plan/team"
)

var update = flag.Bool("update", false, "write the problems found to testdata instead of comparing")

// mill returns the course and the team that the plans in testdata are for.
func mill(t testing.TB) (*course.Course, *team.Team) {
	t.Helper()
	src, err := os.ReadFile("testdata/course.toml")
	require.NoError(t, err)
	c, err := course.Parse("course.toml", src)
	require.NoError(t, err)
	src, err = os.ReadFile("testdata/team.toml")
	require.NoError(t, err)
	tm, err := team.Parse("team.toml", src)
	require.NoError(t, err)
	return c, tm
}

// Every wrong plan beside its problems: all of them, each with its place, what is
// wrong and what to write instead.
func TestWrongPlans(t *testing.T) {
	c, tm := mill(t)
	files, err := filepath.Glob("testdata/wrong/*.toml")
	require.NoError(t, err)
	require.Greater(t, len(files), 20)
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".toml")
		t.Run(name, func(t *testing.T) {
			src, err := os.ReadFile(file)
			require.NoError(t, err)
			p, err := Parse(name+".toml", src, c, tm)
			require.Error(t, err)
			assert.Nil(t, p)
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

func problems(t *testing.T, err error) string {
	t.Helper()
	var ps tomlfile.Problems
	require.ErrorAs(t, err, &ps, "%v", err)
	for _, p := range ps {
		assert.NotEmpty(t, p.Hint, "%s: says not what to write instead", p)
	}
	return ps.Long() + "\n"
}

func parseFile(t testing.TB, file string) *Plan {
	t.Helper()
	c, tm := mill(t)
	src, err := os.ReadFile(file)
	require.NoError(t, err)
	p, err := Parse(file, src, c, tm)
	var ps tomlfile.Problems
	if errors.As(err, &ps) {
		t.Fatal(ps.Long())
	}
	require.NoError(t, err)
	return p
}

func TestRightPlans(t *testing.T) {
	files, err := filepath.Glob("testdata/right/*.toml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		parseFile(t, file)
	}
}

func TestWholePlan(t *testing.T) {
	p := parseFile(t, "testdata/right/whole.toml")
	assert.Equal(t, &Plan{
		Name: "Front at 2", For: "Mill Lane", LeadOut: geom.Point{X: 12, Y: 9}, File: "testdata/right/whole.toml",
		Cues: []Cue{
			{When: Moment{0, Release, 0}, Pace: Run, Line: 5},
			{When: Moment{2, TakeOff, -1}, Stand: geom.Point{X: 12, Y: 15}, HasStand: true, Arm: LeftArm, Signal: Push,
				Shoulders: Shoulders{Facing: FaceNumber, Number: 3}, Line: 9},
			{When: Moment{3, Landing, 0.5}, Stand: geom.Point{X: 11, Y: 21}, HasStand: true, Pace: Jog, Cross: FrontCross, Line: 16},
			{When: Moment{4, Enter, 0}, Stand: geom.Point{X: 6, Y: 20}, HasStand: true, Shoulders: Shoulders{Facing: FaceDog},
				Word: "here", Line: 22},
			{When: Moment{4, Exit, 0}, Pace: Walk, Signal: Pull, Shoulders: Shoulders{Facing: FaceHeading, Heading: geom.Deg(-90)},
				Word: "jump", Line: 29},
			{When: Moment{6, Exit, 1}, Pace: Stop, Shoulders: Shoulders{Facing: FaceWay}, Line: 36},
		},
	}, p)
}

func TestUnitsOfPlan(t *testing.T) {
	// The foot is 0.3048 m by international agreement of 1959.
	p := parseFile(t, "testdata/right/feet.toml")
	assert.Equal(t, geom.Point{X: 40 * 0.3048, Y: 30 * 0.3048}, p.LeadOut)

	c, tm := mill(t)
	c.Units = course.Feet
	p, err := Parse("p", []byte("plan = \"x\"\nlead-out = [40, 30]\n"), c, tm)
	require.NoError(t, err)
	assert.Equal(t, geom.Point{X: 40 * 0.3048, Y: 30 * 0.3048}, p.LeadOut, "the course's units")
	p, err = Parse("p", []byte("plan = \"x\"\nunits = \"m\"\nlead-out = [12, 9]\n"), c, tm)
	require.NoError(t, err)
	assert.Equal(t, geom.Point{X: 12, Y: 9}, p.LeadOut, "its own units")
}

// Files that are no files with TOML text: the same refusals for plans and teams.
func TestUnreadableFiles(t *testing.T) {
	c, tm := mill(t)
	dir := t.TempDir()
	large := filepath.Join(dir, "large.toml")
	require.NoError(t, os.WriteFile(large, make([]byte, 10<<20), 0o644))
	fitting := filepath.Join(dir, "fitting.toml")
	require.NoError(t, os.WriteFile(fitting, []byte("plan = \"x\"\n#"+strings.Repeat("x", 10<<20)), 0o644))

	load := func(path string) error {
		_, err := tomlfile.ReadFile(path)
		return err
	}
	assert.ErrorContains(t, load(large), "larger than 1 MiB")
	assert.ErrorContains(t, load(dir), "is a folder")
	gone := load(filepath.Join(dir, "gone.toml"))
	assert.ErrorContains(t, gone, "there is no such file")
	assert.ErrorIs(t, gone, fs.ErrNotExist)

	src, err := os.ReadFile(fitting)
	require.NoError(t, err)
	_, err = Parse("p", src, c, tm)
	assert.ErrorContains(t, err, "larger than 1 MiB")
	_, err = team.Parse("t", src)
	assert.ErrorContains(t, err, "larger than 1 MiB")
}

func TestTooManyCues(t *testing.T) {
	c, tm := mill(t)
	var b strings.Builder
	b.WriteString("plan = \"x\"\nlead-out = [12, 9]\n")
	for range MostCues + 1 {
		fmt.Fprintf(&b, "[[cue]]\nwhen = \"release\"\n")
	}
	_, err := Parse("p", []byte(b.String()), c, tm)
	require.Error(t, err)
	assert.Equal(t, "p:3:3: the plan has 1001 cues\n  hint: write at most 1000\n", problems(t, err))
}

// What is no moment is shown safe and never longer than a line.
func TestMomentInAMessage(t *testing.T) {
	for _, s := range []string{strings.Repeat("2 take-off ", 1000), "2 take\u202e\x1b[31m-off", strings.Repeat("犬", 1000), "x " + strings.Repeat("y", 1000)} {
		_, err := ParseMoment(s)
		require.Error(t, err)
		assert.Less(t, len([]rune(err.Error())), 160)
		assert.Equal(t, tomlfile.Plain(err.Error()), err.Error())
	}
}

// A plan altered in memory is checked by the same rules as its file.
func TestValidateAgreesWithParse(t *testing.T) {
	c, tm := mill(t)
	p := parseFile(t, "testdata/right/whole.toml")
	assert.Empty(t, p.Validate(c, tm))
	p.Cues[1].Stand = geom.Point{X: 18, Y: 19}
	p.Cues[3].Word = "heer"
	p.For = "Other"
	assert.Equal(t, []string{
		`the plan is for "Other", the course is "Mill Lane"; give the course it is for, or change or delete this line`,
		`cue 2: he would stand in the A-frame "frame"; move him beside it`,
		`cue 4: unknown word "heer"; did you mean "here"? known are here, come, go, out, left, right, turn, jump, spread, ` +
			`long jump, wall, tyre, tunnel, weaves, A-frame, dog walk, seesaw, table`,
	}, p.Validate(c, tm))
}
