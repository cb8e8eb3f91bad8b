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
	"cuewalk/tui/ring"
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
		x := find(draw(look(deg), 120, 10, false), "[2]")
		require.GreaterOrEqual(t, x, 0, "at %v", deg)
		assert.Less(t, x, before)
		before = x
	}
	assert.InDelta(t, 60, find(draw(look(53.13), 120, 10, false), "[2]"), 8, "straight ahead is the middle: 16, 15 lies 53 degrees off 12, 12")
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
	s.Told = s.Course.Find("trap")
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

// How hard a thing pulls is said in words under it, each word for a stretch of pulls.
func TestPullInWords(t *testing.T) {
	said := func(pull float64) string {
		s := look(0)
		seen(t, &s, "trap").Pull = pull
		s.Told = s.Course.Find("trap")
		return draw(s, 160, 10, false).Plain()
	}
	for pull, want := range map[float64]string{0: "5.0 m, does not pull", .1: "5.0 m, pulls weakly", .5: "5.0 m, pulls ", 2: "5.0 m, pulls hard"} {
		assert.Contains(t, said(pull), want, "pull of %v per second, 5 m off", pull)
	}
	s := look(0)
	s.Course.Units = course.Feet
	assert.Contains(t, draw(s, 160, 10, false).Plain(), "16.4 ft", "5 m, the foot being 0.3048 m exactly (international yard and pound agreement, 1959)")
}

// Without colour: the right one in brackets, the one told of with a star, a hidden one with a
// question mark, all as on the ring.
func TestNothingIsSaidByColourAlone(t *testing.T) {
	s := look(20)
	s.Told = s.Course.Find("trap")
	text := draw(s, 160, 10, false).Plain()
	assert.Contains(t, text, "[2] tunnel")
	assert.Contains(t, text, "*trap jump")
	assert.Contains(t, text, "6?", "the tyre behind the handler")
	rows := strings.Split(text, "\n")
	assert.Contains(t, rows[9], "handler points here")
	assert.Contains(t, rows[9], "left")
	assert.Contains(t, rows[9], "half right")
}

// Whatever the dog does, the right one and the one told of are in the strip.
func TestRightAndToldAreAlwaysThere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := look(rapid.Float64Range(-180, 180).Draw(t, "heading"))
		s.Told = s.Course.Find(rapid.SampledFrom([]string{"trap", "poles", "frame", "wall", "hoop", "plank", "board", "ash"}).Draw(t, "told"))
		w, h := rapid.IntRange(60, 200).Draw(t, "w"), rapid.IntRange(5, 14).Draw(t, "h")
		text := draw(s, w, h, rapid.Bool().Draw(t, "fine")).Plain()
		if !strings.Contains(text, "[2]") || !strings.Contains(text, "*"+s.Labels[s.Told]) {
			t.Fatalf("%s", text)
		}
	})
}

// No caption runs into another.
func TestCaptionsStandApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := look(rapid.Float64Range(-180, 180).Draw(t, "heading"))
		c := canvas.New(rapid.IntRange(30, 200).Draw(t, "w"), rapid.IntRange(4, 14).Draw(t, "h"))
		f := newFrame(c.All(), &s)
		f.picture()
		all := f.laid()
		for i, a := range all {
			for _, b := range all[:i] {
				if a.placed && b.placed && a.at < b.at+b.width(b.form)+1 && b.at < a.at+a.width(a.form)+1 {
					t.Fatalf("%v and %v", a.forms[a.form], b.forms[b.form])
				}
			}
		}
	})
}

// What is drawn of each kind of obstacle uses the signs that the ring has for it.
func TestSignsAreTheRings(t *testing.T) {
	of := map[string]string{}
	for _, s := range ring.Table() {
		if s.Layer == ring.Course && s.Role == canvas.Obstacle {
			of[s.Means] = s.Sign
		}
	}
	all := "_O" // half of a level line; nothing else
	for _, sign := range of {
		all += sign
	}
	require.Greater(t, len(of), 5)
	for _, id := range []string{"trap", "tube", "poles", "frame", "wall", "hoop", "brook", "plank", "board", "tip", "oak"} {
		s := look(0)
		i := s.Course.Find(id)
		s.Dog.At = s.Course.Obstacles[i].At.Add(at(-2, -4))
		s.Dog.Heading = s.Dog.At.Towards(s.Course.Obstacles[i].At)
		s.Course.Obstacles = s.Course.Obstacles[i : i+1]
		s.Entries, s.Right, s.Handler, s.Strength, s.Labels = s.Course.Obstacles[0].Entries(0), -1, false, 0, nil
		s.Seen = []dog.Seen{{Entry: 0, Range: 4.5, Visible: 1}}
		c := canvas.New(120, 12)
		f := newFrame(c.All(), &s)
		f.picture()
		drawn := 0
		for y := range 12 {
			for x := range 120 {
				if sign, _ := c.At(x, y); sign != " " {
					drawn++
					assert.Contains(t, all, sign, id)
				}
			}
		}
		assert.Positive(t, drawn, id)
	}
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

// The obstacle that is told of bears a star and is the only loud one; the right one never is.
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
	assert.Zero(t, loudIn(s))
	s.Told = s.Course.Find("ash")
	assert.Contains(t, draw(s, 160, 12, false).Plain(), "*12", "the number of ash")
	assert.Positive(t, loudIn(s))
	s.Told, s.Right = s.Course.Find("tube"), entryOf(s.Course, "tube")
	assert.NotContains(t, draw(s, 160, 12, false).Plain(), "*", "the right one stays the right one")
}
