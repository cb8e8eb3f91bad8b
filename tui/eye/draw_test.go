package eye

import (
	"flag"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim/dog"
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

func draw(s Strip, w, h int, fine bool) *canvas.Canvas {
	c := canvas.New(w, h)
	c.Fine = fine
	Draw(c.All(), s)
	return c
}

// Three looks of one turn: the trap straight on, the tunnel coming, the tunnel ahead.
func TestPictures(t *testing.T) {
	for _, p := range []struct {
		name string
		w, h int
		fine bool
	}{{"40x5", 40, 5, false}, {"80x6", 80, 6, false}, {"80x6-fine", 80, 6, true}, {"120x11", 120, 11, false}, {"120x11-fine", 120, 11, true}, {"200x14", 200, 14, false}} {
		t.Run(p.name, func(t *testing.T) {
			var all []string
			for _, deg := range []float64{0, 28, 52} {
				text := draw(look(deg), p.w, p.h, p.fine).Plain()
				all = append(all, text)
				if !p.fine {
					assert.Equal(t, -1, strings.IndexFunc(text, func(r rune) bool { return r > '~' }), "only signs that every terminal has")
				}
			}
			golden(t, p.name, strings.Join(all, "\n"))
		})
	}
}

func TestEveryStripFitsItsWindow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.IntRange(1, 220).Draw(t, "w"), rapid.IntRange(1, 20).Draw(t, "h")
		s := look(rapid.Float64Range(-180, 180).Draw(t, "heading"))
		s.Hand.At = at(rapid.Float64Range(0, 30).Draw(t, "hx"), rapid.Float64Range(0, 30).Draw(t, "hy"))
		s.Dog.Mode = dog.Mode(rapid.IntRange(0, int(dog.Standing)).Draw(t, "mode"))
		s.Dog.Entry = rapid.IntRange(-1, len(s.Entries)-1).Draw(t, "entry")
		s.Right = rapid.IntRange(-1, len(s.Entries)-1).Draw(t, "right")
		if rapid.Bool().Draw(t, "nothing") {
			s.Seen = nil
		}
		s.Field = geom.Deg(rapid.Float64Range(0, 360).Draw(t, "field"))
		c := canvas.New(w+2, h+2)
		c.Fine = rapid.Bool().Draw(t, "fine")
		Draw(c.Sub(1, 1, w, h), s)
		lines := strings.Split(c.Plain(), "\n")
		if len(lines) != h+2 {
			t.Fatalf("%d lines in %d rows", len(lines), h+2)
		}
		for _, l := range lines {
			if ansi.StringWidth(l) > w+1 || lines[0] != "" || l != "" && l[0] != ' ' {
				t.Fatalf("drawn outside of the view: %q", l)
			}
		}
	})
}

// find is the column of the middle of a text in the strip, -1 where it does not stand.
func find(c *canvas.Canvas, s string) int {
	for _, line := range strings.Split(c.Plain(), "\n") {
		if i := strings.Index(line, s); i >= 0 {
			return ansi.StringWidth(line[:i]) + len(s)/2
		}
	}
	return -1
}

func TestTheWorldSlidesLeftAsTheDogTurnsRight(t *testing.T) {
	before := 1000
	for _, deg := range []float64{0, 10, 20, 30, 40, 50, 60} {
		x := find(draw(look(deg), 120, 10, false), "2]")
		require.GreaterOrEqual(t, x, 0, "at %v", deg)
		assert.Less(t, x, before)
		before = x
	}
	assert.InDelta(t, 60, find(draw(look(53.13), 120, 10, false), "2]"), 3, "straight ahead is the middle: 16, 15 lies 53 degrees off 12, 12")
}

func TestMirroredBearingsLieMirrored(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := newLens(geom.Pose{}, geom.Deg(rapid.Float64Range(100, 360).Draw(t, "field")), rapid.IntRange(40, 200).Draw(t, "w"), 1, 8)
		a := geom.Angle(rapid.Float64Range(0, float64(l.half)).Draw(t, "a"))
		b := geom.Angle(rapid.Float64Range(0, float64(l.half)).Draw(t, "b"))
		if d := l.column(a) + l.column(-a) - l.w; math.Abs(d) > 1e-9 {
			t.Fatalf("off by %g columns", d)
		}
		if a < b && l.column(a) > l.column(b)+1e-9 {
			t.Fatal("order of bearings lost")
		}
		if math.Abs(l.column(l.half)-l.w) > 1e-9 {
			t.Fatal("the field does not end at the edge")
		}
	})
}

// What is near is drawn larger: a jump's signs by its distance.
func TestNearThingsAreLarger(t *testing.T) {
	before := 100000
	for _, far := range []float64{3, 5, 8, 13} {
		s := look(0)
		s.Handler, s.Strength = false, 0
		s.Course.Obstacles = []course.Obstacle{stand("trap", course.Jump, 12, 12+far, 0, true)}
		s.Entries, s.Right = s.Course.Obstacles[0].Entries(0), -1
		s.Seen = []dog.Seen{{Entry: 0, Range: far, Visible: 1}}
		c, n := draw(s, 120, 12, false), 0
		for y := range 12 {
			for x := range 120 {
				if _, r := c.At(x, y); r == canvas.Obstacle {
					n++
				}
			}
		}
		assert.Less(t, n, before, "at %v m", far)
		assert.Positive(t, n)
		before = n
	}
}

func TestHandlerCoversWhatLiesBehindHim(t *testing.T) {
	s := look(0)
	s.Hand.At = at(12, 14) // before the trap at 12, 17
	with := draw(s, 120, 12, false)
	s.Handler = false
	without := draw(s, 120, 12, false)
	covered := 0
	for y := range 12 {
		for x := range 120 {
			_, was := without.At(x, y)
			_, is := with.At(x, y)
			if was.String() == canvas.Wrong.String() && is == canvas.Handler|canvas.Strong {
				covered++
			}
		}
	}
	assert.Positive(t, covered)
}

func TestLongerBarForStrongerPull(t *testing.T) {
	length := func(pull float64) int {
		s := look(0)
		for i := range s.Seen {
			s.Seen[i].Pull = 0
		}
		seen(t, &s, "trap").Pull = pull
		c, n := draw(s, 120, 10, false), 0
		for x := range 120 {
			if sign, _ := c.At(x, 7); sign == "#" {
				n++
			}
		}
		return n
	}
	assert.Zero(t, length(0))
	assert.Less(t, length(.3), length(.9))
	assert.Less(t, length(.9), length(2))
}

// Without colour: the right one in brackets, the loud wrong one after "!", a hidden one in
// parentheses; the right one's bar is of another sign.
func TestNothingIsSaidByColourAlone(t *testing.T) {
	s := look(20)
	seen(t, &s, "trap").Pull, seen(t, &s, "tube").Pull = 2, 1
	text := draw(s, 120, 10, false).Plain()
	assert.Contains(t, text, "[2]")
	assert.Contains(t, text, "!trap")
	assert.Contains(t, text, "(6)", "the tyre behind the handler")
	rows := strings.Split(text, "\n")
	assert.Contains(t, rows[7]+rows[8], "===")
	assert.Contains(t, rows[7]+rows[8], "###")
	assert.Contains(t, rows[9], "lead")
}

func TestSaysWhyItIsEmpty(t *testing.T) {
	s := look(0)
	s.Dog.Mode, s.Dog.Entry, s.Seen = dog.Inside, s.Right, nil
	text := draw(s, 80, 6, false).Plain()
	assert.Contains(t, text, "in the tunnel")
	assert.NotContains(t, text, "H")
	s = look(0)
	s.Dog.Mode = dog.Air
	assert.Contains(t, draw(s, 80, 6, false).Plain(), "in the air")
}

func TestLabelsAreTheNextNumbers(t *testing.T) {
	c := clearing()
	c.Order = append(c.Order, course.Step{Obstacle: 0, Reverse: true}) // the first again, as 13
	assert.Equal(t, []string{"1", "trap", "2"}, Labels(c, 1)[:3])
	assert.Equal(t, []string{"13", "trap", "2"}, Labels(c, 2)[:3], "at 2 the gate is next met as 13")
}

func BenchmarkDraw(b *testing.B) {
	for _, fine := range []bool{false, true} {
		name := "ascii"
		if fine {
			name = "fine"
		}
		b.Run(name, func(b *testing.B) {
			s := look(28)
			c := canvas.New(200, 14)
			c.Fine = fine
			b.ReportAllocs()
			for b.Loop() {
				c.Clear()
				Draw(c.All(), s)
			}
		})
	}
}

// The obstacle that is told of bears an x and is loud; hidden, it is hidden before all.
func TestTheOneThatIsToldOf(t *testing.T) {
	loudIn := func(s Strip) int {
		c := draw(s, 160, 12, false)
		n := 0
		for y := range 12 {
			for x := range 160 {
				if _, r := c.At(x, y); r == canvas.Wrong {
					n++
				}
			}
		}
		return n
	}
	s := look(0)
	before := loudIn(s)
	s.Told = s.Course.Find("ash")
	assert.Contains(t, draw(s, 160, 12, false).Plain(), "x12", "the number of ash")
	assert.Greater(t, loudIn(s), before)
	seen(t, &s, "ash").Visible = 0.1
	assert.NotContains(t, draw(s, 160, 12, false).Plain(), "x12")
	s.Told, s.Right = s.Course.Find("tube"), entryOf(s.Course, "tube")
	assert.NotContains(t, draw(s, 160, 12, false).Plain(), "x2", "the right one stays the right one")
}

// Each sign of the legend is one that some strip uses, in that role.
func TestLegendTellsTheTruth(t *testing.T) {
	var frames []*canvas.Canvas
	for _, deg := range []float64{0, 28, 52} {
		s := look(deg)
		s.Told = s.Course.Find("ash")
		frames = append(frames, draw(s, 160, 14, false))
	}
	for _, l := range Legend() {
		used := false
		for _, c := range frames {
			for y := range 14 {
				for x := range 160 {
					sign, r := c.At(x, y)
					used = used || strings.TrimSpace(sign) != "" && r&^canvas.Strong == l.Role&^canvas.Strong && strings.Contains(l.Sign, sign)
				}
			}
		}
		assert.True(t, used, "%q as %v", l.Sign, l.Role)
	}
}
