package tui

import (
	"regexp"
	"strings"
	"testing"

	"cuewalk/plan"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// openCue opens the fields of cue n on a fresh screen.
func openCue(t *testing.T, n int) (*screen, disk) {
	t.Helper()
	o, d := practice(t)
	s := open(t, o, 120, 40)
	s.keys("home", "a")
	for range n {
		s.keys("]")
	}
	require.Equal(t, n, s.alter.action)
	return s, d
}

// Saving changes the bytes of the value that was altered and no others.
func TestSaveKeepsEveryOtherByte(t *testing.T) {
	for _, c := range []struct {
		name     string
		cue      int
		keys     []string
		old, new string
	}{
		{"shift by half a stride", 3, []string{"left"}, `"4 take-off -1"`, `"4 take-off -1.5"`},
		{"stand to the right", 3, []string{"down", "right"}, "stand = [18, 21]", "stand = [18.5, 21]"},
		{"stand up the map", 3, []string{"down", "down", "right"}, "stand = [18, 21]", "stand = [18, 21.5]"},
		{"pace", 3, []string{"down", "down", "down", "right"}, `pace  = "walk"`, `pace  = "stop"`},
		{"arm", 1, []string{"down", "down", "down", "down", "right"}, `arm   = "left"`, `arm   = "right"`},
		{"word", 3, []string{"up", "up", "up", "right"}, `word  = "come"`, `word  = "go"`},
		{"lead-out", 0, []string{"right"}, "lead-out = [6.5, 12]", "lead-out = [7, 12]"},
		{"no word", 3, []string{"up", "up", "up", "x"}, "word  = \"come\"\n", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, d := openCue(t, c.cue)
			before := string(d["inside.toml"])
			s.keys(c.keys...)
			require.True(t, s.doc().Altered(), s.note.text)
			assert.Equal(t, before, string(d["inside.toml"]), "nothing is written before it is asked for")
			s.keys("s")
			want := strings.Replace(before, c.old, c.new, 1)
			require.NotEqual(t, before, want, "the case is about bytes of the file")
			assert.Equal(t, want, string(d["inside.toml"]))
			assert.False(t, s.doc().Altered())
			s.keys("u", "s")
			if c.new != "" {
				assert.Equal(t, before, string(d["inside.toml"]), "undone and saved again, the file is as it was")
			}
		})
	}
}

func TestUndoWithoutLimit(t *testing.T) {
	s, _ := openCue(t, 3)
	first := *s.doc().Plan()
	for range 30 {
		s.keys("down", "right")
	}
	n := s.doc().Version()
	require.Greater(t, n, 15)
	last := *s.doc().Plan()
	for range n {
		s.keys("u")
	}
	assert.True(t, first.Equal(*s.doc().Plan()))
	assert.False(t, s.doc().Altered())
	s.keys("u")
	for range n {
		s.keys("U")
	}
	assert.True(t, last.Equal(*s.doc().Plan()))
	assert.True(t, s.doc().Altered())
}

// The run follows at once, and the old chance stays beside the new one until one moves on.
func TestOldChanceBesideTheNew(t *testing.T) {
	s, _ := openCue(t, 3)
	old := s.run()
	for range 8 { // four strides earlier: some leg must change
		s.keys("left")
	}
	require.NotSame(t, old, s.run())
	assert.Same(t, old, s.alter.base)
	changed := 0
	for _, l := range s.run().Legs {
		if was, ok := s.before(l.Number); ok {
			changed++
			assert.NotEqual(t, was, l.Clean)
		}
	}
	assert.NotZero(t, changed, "four strides must show in some leg")
	s.keys("]")
	assert.Nil(t, s.alter.base)
}

func TestWhatCannotBeRunIsRefused(t *testing.T) {
	s, _ := openCue(t, 1)
	was := s.doc().Plan()
	s.keys("enter", "ctrl+u")
	s.typeText("9 take-off")
	s.keys("enter")
	assert.Same(t, was, s.doc().Plan())
	assert.Contains(t, s.note.text, "!", "it says why")
	s.keys("enter", "ctrl+u")
	s.typeText("somewhen")
	s.keys("enter")
	assert.Same(t, was, s.doc().Plan())
	assert.Contains(t, s.note.text, "somewhen")
}

func TestTypeAValue(t *testing.T) {
	s, _ := openCue(t, 3)
	s.keys("down", "enter", "ctrl+u")
	s.typeText("17.3 20.5")
	s.keys("enter")
	assert.InDelta(t, 17.3, s.doc().Plan().Cues[2].Stand.X, 1e-9)
	s.keys("up", "up", "up", "enter", "ctrl+u") // the moment: strides, event, number
	s.typeText("4 landing +1.5")
	s.keys("enter")
	assert.Equal(t, plan.Moment{Number: 4, Event: plan.Landing, Strides: 1.5}, s.doc().Plan().Cues[2].When)
	s.keys("enter", "esc")
	assert.Nil(t, s.prompt)
	assert.Equal(t, altering, s.mode, "esc leaves the line, not the cue")
}

func TestAddAndDeleteACue(t *testing.T) {
	s, d := openCue(t, 3)
	before := string(d["inside.toml"])
	n := len(s.doc().Plan().Cues)
	s.keys(".", ".", "i")
	require.Len(t, s.doc().Plan().Cues, n+1, s.note.text)
	for i := 1; i <= n; i++ {
		assert.True(t, s.doc().Plan().Cues[i-1].When.Before(s.doc().Plan().Cues[i].When), "cues stay in order")
	}
	s.keys("s")
	assert.Contains(t, string(d["inside.toml"]), "# the cross")
	s.keys("d", "s")
	assert.Len(t, s.doc().Plan().Cues, n)
	assert.Equal(t, before, string(d["inside.toml"]), "added, saved, deleted, saved: the file is as it was")
	s.keys("u")
	assert.Len(t, s.doc().Plan().Cues, n+1)
}

func TestSaveAsNeverOverAFile(t *testing.T) {
	s, d := openCue(t, 3)
	before := string(d["outside.toml"])
	s.keys("left", "S", "ctrl+u")
	s.typeText("outside.toml")
	s.keys("enter")
	assert.Equal(t, before, string(d["outside.toml"]))
	assert.Contains(t, s.View(), "not saved")
	s.keys("S")
	assert.Equal(t, "inside-2.toml", s.prompt.value)
	s.keys("enter")
	assert.Contains(t, string(d["inside-2.toml"]), `"4 take-off -1.5"`)
	assert.Equal(t, "inside-2.toml", s.doc().File(), "from now on it is this file")
}

func TestQuitAsksAboutWhatIsNotSaved(t *testing.T) {
	s, _ := openCue(t, 3)
	s.keys("left", "q")
	require.NotNil(t, s.prompt)
	s.keys("esc")
	assert.Nil(t, s.prompt)
	assert.True(t, s.doc().Altered(), "esc loses nothing")
	s.keys("q", "x")
	assert.NotNil(t, s.prompt, "another key is no answer")
	_, cmd := s.Update(keyOf("d"))
	assert.Equal(t, tea.Quit(), cmd(), "d drops the changes and quits")

	s, d := openCue(t, 3)
	s.keys("left", "q")
	_, cmd = s.Update(keyOf("s"))
	_, cmd = s.Update(cmd())
	assert.Equal(t, tea.Quit(), cmd())
	assert.Contains(t, string(d["inside.toml"]), `"4 take-off -1.5"`)

	s, _ = openCue(t, 3)
	_, cmd = s.Update(keyOf("q"))
	assert.Equal(t, tea.Quit(), cmd(), "nothing to ask")
}

func TestFailedSaveKeepsEverything(t *testing.T) {
	s, d := openCue(t, 3)
	d[fullDisk] = nil
	s.keys("left", "s")
	assert.True(t, s.doc().Altered())
	assert.Contains(t, s.View(), "not saved: the disk is full")
}

func TestOutsideChangeIsNotWrittenOver(t *testing.T) {
	s, d := openCue(t, 3)
	s.keys("left")
	d["inside.toml"] = append(d["inside.toml"], []byte("# added in an editor\n")...)
	outside := string(d["inside.toml"])
	s.keys("s")
	assert.Equal(t, outside, string(d["inside.toml"]))
	require.NotNil(t, s.prompt)
	assert.Contains(t, s.View(), "was changed outside")
	s.keys("o")
	assert.Contains(t, string(d["inside.toml"]), `"4 take-off -1.5"`)
}

// While a cue is altered the panel says how it comes now, and which other legs the change touched.
func TestAlterSaysWhatElseItTouched(t *testing.T) {
	s, _ := openCue(t, 3)
	s.send(tea.WindowSizeMsg{Width: 200, Height: 60})
	before := map[int]float64{}
	for _, l := range s.run().Legs {
		before[l.Number] = l.Clean
	}
	for range 6 {
		s.keys("left")
	}
	view, touched := s.View(), 0
	timing, ok := timingOf(s.run(), 3)
	require.True(t, ok)
	_, text := timingText(s.run(), timing)
	assert.Contains(t, view, text[:20])
	for _, l := range s.run().Legs {
		if words.Points(l.Clean-before[l.Number]) != words.Points(0) && l.Number != s.leg() {
			touched++
			assert.Regexp(t, regexp.QuoteMeta(words.Leg(l.Number))+` +`+regexp.QuoteMeta(words.Percent(l.Clean))+` +was `+regexp.QuoteMeta(words.Percent(before[l.Number])), view)
		}
	}
	assert.Positive(t, touched, "the shift touches another leg, or this test says nothing")
}
