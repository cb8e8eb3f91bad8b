package tui

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the pictures of the screen anew")

// golden compares a picture with the one kept in testdata.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", "golden", name+".txt")
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got+"\n"), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "run the tests with -update to make it")
	assert.Equal(t, string(want), got+"\n", "the picture %s changed", path)
}

// wellFormed checks what every frame must keep to: no line wider than the window, no more
// lines than it has, and the last cell empty.
func wellFormed(t testing.TB, frame string, w, h int) {
	t.Helper()
	lines := strings.Split(frame, "\n")
	if h > 0 && len(lines) > h {
		t.Fatalf("%d lines in a window of %d by %d", len(lines), w, h)
	}
	for i, l := range lines {
		most := w
		if i == h-1 {
			most = w - 1
		}
		if n := ansi.StringWidth(l); n > max(most, 0) {
			t.Fatalf("line %d is %d wide in a window of %d by %d: %q", i+1, n, w, h, l)
		}
	}
}

// views are the ways to each view of the screen.
var views = []struct {
	name string
	keys []string
}{
	{"rehearse", nil},
	{"whole-ring", []string{"z"}},
	{"start", []string{"home"}},
	{"follow", []string{"f", "right"}},
	{"number", []string{"1", "2"}},
	{"alter", []string{"5", "enter", "a"}},
	{"altered", []string{"5", "enter", "a", "left", "down", "down", "right"}},
	{"alter-lead-out", []string{"home", "a"}},
	{"compare", []string{"c"}},
	{"compare-other", []string{"c", "tab", "down"}},
	{"help", []string{"?"}},
	{"signs", []string{"m"}},
	{"quit", []string{"5", "enter", "a", "left", "q"}},
	{"type", []string{"5", "enter", "a", "enter"}},
	{"fine", []string{"b"}},
	{"advice", []string{"5", "enter", "o"}},
	{"advised", []string{"5", "enter", "o", "2"}},
	{"walk", []string{"w", "n"}},
	{"walk-whole-ring", []string{"w", "n", "z"}},
	{"walk-leg", []string{"w", "n", "e"}},
	{"walk-course", []string{"w", "r"}},
	{"walk-signs", []string{"w", "m"}},
	{"walk-fine", []string{"w", "n", "b"}},
}

func TestPictures(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {120, 40}, {40, 12}} {
		for _, v := range views {
			name := fmt.Sprintf("%s-%dx%d", v.name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				o, _ := practice(t)
				s := open(t, fixed(o), size[0], size[1])
				s.keys(v.keys...)
				wellFormed(t, s.View(), size[0], size[1])
				golden(t, name, s.View())
			})
		}
	}
}

func TestTooSmall(t *testing.T) {
	o, _ := practice(t)
	for _, size := range [][2]int{{39, 12}, {40, 11}, {20, 4}, {1, 1}, {0, 0}} {
		s := open(t, fixed(o), size[0], size[1])
		wellFormed(t, s.View(), size[0], size[1])
		if size[0] >= 20 {
			assert.Contains(t, strings.Join(strings.Fields(s.View()), " "), "make it at least 40 by 12")
		}
	}
}

func TestNothingToShow(t *testing.T) {
	s := open(t, Options{}, 80, 24)
	assert.Contains(t, s.View(), "no course to show")
	assert.ErrorContains(t, Run(Options{}), "no course")
}

// A broken file stays on the screen with its line until it is mended.
func TestBrokenPicture(t *testing.T) {
	o, d := practice(t)
	s := open(t, fixed(o), 80, 24)
	d["inside.toml"] = []byte("plan = \"x\"\nlead-out = [1, 2]\n\n[[cue]]\nwhen = 7\n")
	s.writtenOutside("inside.toml")
	golden(t, "broken-80x24", s.View())
	assert.Contains(t, s.View(), "inside.toml:5:")
	delete(d, "inside.toml")
	s.writtenOutside("inside.toml")
	assert.Contains(t, s.View(), "! file does not exist")
	assert.Contains(t, s.View(), "the last good state is shown")
}
