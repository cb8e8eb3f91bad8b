package ring

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/tui/canvas"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares a picture with testdata/NAME.txt.
func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name+".txt")
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(file, []byte(got+"\n"), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), got+"\n")
}

func draw(s Scene, w, h int, fine bool) *canvas.Canvas {
	c := canvas.New(w, h)
	c.Fine = fine
	Draw(c.All(), s)
	return c
}

func TestPictures(t *testing.T) {
	t.Setenv("RUNEWIDTH_EASTASIAN", "0")
	for _, p := range []struct {
		name string
		w, h int
		fine bool
		look func(s Scene, w, h int) Scene
	}{
		{"whole-80x20", 80, 20, false, whole}, {"whole-120x32", 120, 32, false, whole}, {"whole-120x32-fine", 120, 32, true, whole},
		{"leg-80x20", 80, 20, false, leg}, {"leg-120x32", 120, 32, false, leg}, {"leg-120x32-fine", 120, 32, true, leg},
		{"course-80x24", 80, 24, false, courseOnly}, {"follow-40x12", 40, 12, false, follow},
	} {
		t.Run(p.name, func(t *testing.T) {
			c := draw(p.look(turning(t), p.w, p.h), p.w, p.h, p.fine)
			golden(t, p.name, c.Plain())
			if !p.fine {
				assert.True(t, plainASCII(c.Plain()), "only signs that every terminal has")
			}
		})
	}
}

func plainASCII(s string) bool {
	for _, r := range s {
		if r != '\n' && (r < ' ' || r > '~') {
			return false
		}
	}
	return ansi.Strip(s) == s
}

func whole(s Scene, w, h int) Scene {
	s.Camera, s.All = Whole(s.Setup.Course, 0, w, h), true
	return s
}

func leg(s Scene, w, h int) Scene {
	s.Camera, s.All = Leg(s.Setup.Course, 3, 0, w, h, s.Run), false
	return s
}

func follow(s Scene, w, h int) Scene {
	s.Camera, s.All = Follow(s.Run.Trace.Samples[s.Sample], 12, 0, w, h), false
	return s
}

func courseOnly(s Scene, _, _ int) Scene {
	return Scene{Setup: s.Setup, Layers: LayersOf(Course, Rulers, Line), Chosen: None}
}
