package tui

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
)

// written is what a watcher says after an editor has saved a file.
func (s *screen) writtenOutside(path string) { s.finish(command(s.s.Reread(path))) }

func TestReloadPlan(t *testing.T) {
	o, d := practice(t)
	s := open(t, o, 120, 40)
	d["inside.toml"] = bytes.Replace(d["inside.toml"], []byte("[18, 21]"), []byte("[17, 20]"), 1)
	s.writtenOutside("inside.toml")
	assert.Equal(t, 17.0, s.doc().Plan().Cues[2].Stand.X)
	assert.False(t, s.doc().Altered())
	s.keys("u")
	assert.Equal(t, 18.0, s.doc().Plan().Cues[2].Stand.X, "undo goes back beyond it")
}

func TestReloadBesideChangesOfOnesOwn(t *testing.T) {
	o, d := practice(t)
	s := open(t, o, 120, 40)
	s.keys("5", "enter", "a", "left")
	mine := s.doc().Plan()
	d["inside.toml"] = bytes.Replace(d["inside.toml"], []byte("[18, 21]"), []byte("[17, 20]"), 1)
	s.writtenOutside("inside.toml")
	assert.Same(t, mine, s.doc().Plan(), "what is not saved stays")
	assert.Contains(t, s.View(), "R takes that")
	s.keys("R")
	assert.Equal(t, 17.0, s.doc().Plan().Cues[2].Stand.X)
	s.keys("u")
	assert.Same(t, mine, s.doc().Plan())
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
	assert.Equal(t, 8.5, s.s.Course().Obstacles[s.s.Course().Find("gate")].At.Y)
	assert.Equal(t, 8.5, s.run().Setup.Course.Obstacles[s.s.Course().Find("gate")].At.Y, "the run is on the new course")
	d["course.toml"] = bytes.Replace(d["course.toml"], []byte("gate elm tube oak fir weave ash thorn -oak rowan hazel pipe larch yew"), []byte("gate elm tube"), 1)
	s.writtenOutside("course.toml")
	assert.Contains(t, s.View(), "does not fit any more")
	assert.Len(t, s.s.Course().Order, 14)
}

// Our own save comes back from the watcher and must change nothing.
func TestOwnSaveIsNoChange(t *testing.T) {
	o, _ := practice(t)
	s := open(t, o, 120, 40)
	s.keys("5", "enter", "a", "left", "s")
	n := s.doc().Version()
	s.writtenOutside("inside.toml")
	assert.Equal(t, n, s.doc().Version())
}
