package progress

import (
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/learn"
)

func demo(t *testing.T) (*course.Course, *plan.Plan) {
	t.Helper()
	read := func(name string) []byte {
		data, err := os.ReadFile(filepath.Join("../../testdata/demo", name))
		require.NoError(t, err)
		return data
	}
	c, err := course.Parse("c", read("meadow-agility.toml"))
	require.NoError(t, err)
	p, err := plan.Parse("p", read("meadow-agility-a.toml"), c, nil)
	if err != nil { // its words are a team's own
		p, err = plan.Parse("p", read("meadow-agility-b.toml"), c, nil)
	}
	require.NoError(t, err)
	return c, p
}

func files(t *testing.T, dir string) []string {
	t.Helper()
	all, err := filepath.Glob(filepath.Join(dir, "*.json*"))
	require.NoError(t, err)
	return all
}

func TestKeepAndResume(t *testing.T) {
	c, p := demo(t)
	s := Store{filepath.Join(t.TempDir(), "new", "folder")}
	g, err := s.Load(c, p)
	require.NoError(t, err)
	session, changed := g.Resume(c, p)
	assert.False(t, changed)
	session.Answer(true)
	session.Answer(false)
	require.NoError(t, s.Change(c, p, func(g *Progress) {
		g.Answered(p, 0, true)
		g.Answered(p, 1, false)
		g.Keep(p, session)
	}))
	g, err = s.Load(c, p)
	require.NoError(t, err)
	back, changed := g.Resume(c, p)
	assert.False(t, changed)
	assert.Equal(t, session, back, "it goes on where it was left")
	assert.True(t, g.Cues[learn.Known(&p.Cues[0])].Knows)
	assert.False(t, g.Cues[learn.Known(&p.Cues[1])].Knows)
}

// What still applies survives a change of the plan: the sections that are known are not
// asked by themselves again.
func TestChangedPlan(t *testing.T) {
	c, p := demo(t)
	g := New(c, p)
	for k := range p.Cues {
		g.Answered(p, k, true)
		g.Timed(p, k, 0.1)
	}
	session, _ := g.Resume(c, p)
	g.Keep(p, session)
	other := *p
	other.Cues = append([]plan.Cue(nil), p.Cues...)
	last := len(other.Cues) - 1
	other.Cues[last].Stand.X++
	back, changed := g.Resume(c, &other)
	assert.True(t, changed)
	m := len(back.Sections)
	assert.Equal(t, []learn.Pass{{First: m - 1, Last: m - 1}, {First: 0, Last: m - 1}}, back.Passes)
	assert.Len(t, g.Tries(&other, 0), 1)
	assert.Empty(t, g.Tries(&other, last))
}

func TestNoTrace(t *testing.T) {
	c, p := demo(t)
	dir := t.TempDir()
	t.Chdir(dir)
	require.NoError(t, Store{}.Change(c, p, func(*Progress) { t.Error("nothing is to be kept") }))
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, left)
}

// A damaged file is put aside, said, and never lost.
func TestDamaged(t *testing.T) {
	c, p := demo(t)
	for name, content := range map[string]string{"cut off": `{"version": 1, "cues": {"a`, "empty": "", "other": `[1, 2]`, "no version": `{"cues": {}}`} {
		t.Run(name, func(t *testing.T) {
			s := Store{t.TempDir()}
			require.NoError(t, os.WriteFile(s.path(c, p), []byte(content), 0o600))
			err := s.Change(c, p, func(g *Progress) { g.Answered(p, 0, true) })
			require.ErrorContains(t, err, "damaged")
			kept, readErr := os.ReadFile(s.path(c, p) + ".damaged-1")
			require.NoError(t, readErr)
			assert.Equal(t, content, string(kept))
			g, err := s.Load(c, p)
			require.NoError(t, err)
			assert.Len(t, g.Cues, 1)
		})
	}
}

func TestLaterVersion(t *testing.T) {
	c, p := demo(t)
	s := Store{t.TempDir()}
	content := `{"version": 99, "cues": {}}`
	require.NoError(t, os.WriteFile(s.path(c, p), []byte(content), 0o600))
	require.ErrorContains(t, s.Change(c, p, func(*Progress) { t.Error("it is not to be used") }), "later version")
	now, err := os.ReadFile(s.path(c, p))
	require.NoError(t, err)
	assert.Equal(t, content, string(now))
}

// Several programs at once lose nothing. Each is played by its own lock: within one
// process the locks of different files handles hold each other off too.
func TestAtOnce(t *testing.T) {
	c, p := demo(t)
	s := Store{t.TempDir()}
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for range 5 {
				assert.NoError(t, s.Change(c, p, func(g *Progress) { g.Answered(p, 0, true) }))
			}
		})
	}
	all.Wait()
	g, err := s.Load(c, p)
	require.NoError(t, err)
	assert.Equal(t, 40, g.Cues[learn.Known(&p.Cues[0])].Right)
	assert.Len(t, files(t, s.Dir), 2, "the file and its lock, nothing left over")
}
