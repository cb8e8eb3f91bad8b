package tui

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// written is what a watcher says after an editor has saved a file.
func (s *screen) writtenOutside(path string) { s.send(readFile(s, path)) }

func readFile(s *screen, path string) readMsg {
	b, err := s.o.Read(path)
	return readMsg{path, b, err}
}

func TestReloadPlan(t *testing.T) {
	o, d := practice(t)
	s := open(t, o, 120, 40)
	d["inside.toml"] = bytes.Replace(d["inside.toml"], []byte("[18, 21]"), []byte("[17, 20]"), 1)
	s.writtenOutside("inside.toml")
	assert.Equal(t, 17.0, s.doc().plan().Cues[2].Stand.X)
	assert.False(t, s.doc().altered())
	s.keys("u")
	assert.Equal(t, 18.0, s.doc().plan().Cues[2].Stand.X, "undo goes back beyond it")
}

func TestReloadBesideChangesOfOnesOwn(t *testing.T) {
	o, d := practice(t)
	s := open(t, o, 120, 40)
	s.keys("5", "enter", "a", "left")
	mine := s.doc().plan()
	d["inside.toml"] = bytes.Replace(d["inside.toml"], []byte("[18, 21]"), []byte("[17, 20]"), 1)
	s.writtenOutside("inside.toml")
	assert.Same(t, mine, s.doc().plan(), "what is not saved stays")
	assert.Contains(t, s.View(), "R takes that")
	s.keys("R")
	assert.Equal(t, 17.0, s.doc().plan().Cues[2].Stand.X)
	s.keys("u")
	assert.Same(t, mine, s.doc().plan())
}

func TestBrokenFilesLeaveTheLastGoodState(t *testing.T) {
	o, d := practice(t)
	s := open(t, o, 120, 40)
	run := s.run()
	good := map[string][]byte{}
	for _, f := range []string{"inside.toml", "course.toml", "wren.toml"} {
		good[f] = d[f]
		d[f] = append([]byte("= broken\n"), d[f]...)
		s.writtenOutside(f)
		assert.Contains(t, s.View(), f+":1:", "the error with its line")
		assert.Same(t, run, s.run())
		d[f] = good[f]
		s.writtenOutside(f)
		assert.NotContains(t, s.View(), "last good state")
		run = s.run() // a course or team read again is another one
	}
	d["inside.toml"] = nil
	delete(d, "inside.toml")
	s.writtenOutside("inside.toml")
	assert.Contains(t, s.View(), "last good state")
}

func TestReloadCourse(t *testing.T) {
	o, d := practice(t)
	s := open(t, o, 120, 40)
	d["course.toml"] = bytes.Replace(d["course.toml"], []byte("at = [4, 8]"), []byte("at = [4, 8.5]"), 1)
	s.writtenOutside("course.toml")
	assert.Equal(t, 8.5, s.course.Obstacles[s.course.Find("gate")].At.Y)
	assert.Equal(t, 8.5, s.run().Setup.Course.Obstacles[s.course.Find("gate")].At.Y, "the run is on the new course")
	d["course.toml"] = bytes.Replace(d["course.toml"], []byte("gate elm tube oak fir weave ash thorn -oak rowan hazel pipe larch yew"), []byte("gate elm tube"), 1)
	s.writtenOutside("course.toml")
	assert.Contains(t, s.View(), "does not fit any more")
	assert.Len(t, s.course.Order, 14)
}

// Our own save comes back from the watcher and must change nothing.
func TestOwnSaveIsNoChange(t *testing.T) {
	o, _ := practice(t)
	s := open(t, o, 120, 40)
	s.keys("5", "enter", "a", "left", "s")
	n := len(s.doc().versions)
	s.writtenOutside("inside.toml")
	assert.Len(t, s.doc().versions, n)
}

// The watcher on a real folder: a plain save and a save by rename, as editors do them.
func TestWatchFolders(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "plan.toml")
	require.NoError(t, os.WriteFile(path, []byte("a"), 0o644))
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	said := make(chan string, 10)
	require.NoError(t, WatchFolders(ctx, []string{path}, func(p string) { said <- p }))
	hear := func(what string) {
		select {
		case p := <-said:
			assert.Equal(t, path, p)
		case <-time.After(3 * time.Second):
			t.Fatal("not seen: " + what)
		}
	}
	require.NoError(t, os.WriteFile(path, []byte("b"), 0o644))
	hear("a plain save")
	for range 2 { // twice: watching the file itself would die at the first
		temp := filepath.Join(dir, "temp")
		require.NoError(t, os.WriteFile(temp, []byte("c"), 0o644))
		require.NoError(t, os.Rename(temp, path))
		hear("a save by rename")
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "other"), nil, 0o644))
	select {
	case p := <-said:
		t.Fatal("said a change of another file: " + p)
	case <-time.After(3 * settle):
	}
}
