package command

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/plan"
	"cuewalk/sim"
)

// Everything the demonstration holds is right, and can be written out and read again.
func TestDemoFiles(t *testing.T) {
	sources, err := demoSources()
	require.NoError(t, err)
	f, err := parse(sources)
	require.NoError(t, err)
	require.NotEmpty(t, f.courses)
	require.NotEmpty(t, f.teams)
	for _, c := range f.courses {
		n := 0
		for _, p := range f.plans {
			if p.course == c {
				n++
			}
		}
		assert.Positive(t, n, "no plan for %q", c.Name)
	}
	dir := filepath.Join(t.TempDir(), "new", "folder")
	require.NoError(t, writeNew(dir, sources))
	for _, s := range sources {
		data, err := os.ReadFile(filepath.Join(dir, s.name))
		require.NoError(t, err)
		assert.Equal(t, string(s.data), string(data), s.name)
	}
}

// What is altered in the demonstration on the screen must not be saved over a file.
func TestDemoOnScreenHasNoFiles(t *testing.T) {
	f, err := screenFiles(nil)
	require.NoError(t, err)
	o, err := screenOptions{}.open(f)
	require.NoError(t, err)
	assert.Empty(t, o.Course.File)
	require.NotEmpty(t, o.Plans)
	for _, p := range o.Plans {
		assert.Empty(t, p.Plan.File)
		assert.Nil(t, p.Raw)
		assert.Contains(t, []string{"", o.Course.Name}, p.Plan.For)
	}
}

// The files that the page on files shows are right, and are for one another.
func TestManualFiles(t *testing.T) {
	f := shown(t, plan.Manual)
	assert.Len(t, f.courses, 1)
	assert.Len(t, f.teams, 1)
	assert.Len(t, f.plans, 1)
}

// The plan that the manual begins with runs well, as often as it says.
func TestREADMEPlanRunsAsItSays(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	f := shown(t, string(text))
	p, err := plan.Parse("plan.toml", f.plans[0].Raw, f.courses[0], f.teams[0])
	require.NoError(t, err)
	tally, err := sim.New(f.courses[0], p, f.teams[0]).RunMany(context.Background(), 1, 2000, nil)
	require.NoError(t, err)
	says := regexp.MustCompile(`a clean run (\d+) %`).FindSubmatch(text)
	require.NotNil(t, says, "README says no figure")
	want, err := strconv.Atoi(string(says[1]))
	require.NoError(t, err)
	assert.InDelta(t, float64(want)/100, float64(tally.Clean)/float64(tally.Runs), 0.006)
	assert.Greater(t, want, 50)
}

// shown reads the files that a text shows.
func shown(t *testing.T, text string) *files {
	t.Helper()
	var sources []source
	for i, block := range regexp.MustCompile("(?s)```toml\n(.*?)```").FindAllStringSubmatch(text, -1) {
		sources = append(sources, source{fmt.Sprintf("example %d", i+1), []byte(block[1])})
	}
	f, err := parse(sources)
	require.NoError(t, err)
	return f
}

// A reload reads a course as strictly as the start does: a rulebook that is not known is refused.
func TestReloadIsAsStrict(t *testing.T) {
	f, err := readFiles([]string{ring + "/course.toml", ring + "/plan.toml"})
	require.NoError(t, err)
	o, err := screenOptions{}.open(f)
	require.NoError(t, err)
	src, err := os.ReadFile(ring + "/course.toml")
	require.NoError(t, err)
	_, err = o.ParseCourse("course.toml", src)
	require.NoError(t, err)
	_, err = o.ParseCourse("course.toml", append([]byte("rules = \"FCI 1823\"\n"), src...))
	assert.ErrorContains(t, err, "FCI 1823")
}
