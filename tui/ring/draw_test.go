package ring

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"cuewalk/course/geom"
	"cuewalk/sim"
	"cuewalk/tui/canvas"
)

func TestEveryFrameFitsItsWindow(t *testing.T) {
	s := turning(t)
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.IntRange(1, 200).Draw(t, "w"), rapid.IntRange(1, 60).Draw(t, "h")
		s := s
		s.Sample = rapid.IntRange(-1, 100).Draw(t, "sample")
		s.Camera = []Camera{{}, Whole(s.Setup.Course, 0, w, h), Leg(s.Setup.Course, rapid.IntRange(0, 15).Draw(t, "leg"), 0, w, h, s.Run)}[rapid.IntRange(0, 2).Draw(t, "camera")]
		s.All = rapid.Bool().Draw(t, "all")
		if s.Camera.Scale > 0 && rapid.Bool().Draw(t, "zoom") {
			s.Camera = s.Camera.Zoom(rapid.Float64Range(.1, 10).Draw(t, "factor"), w/2, h/2).Pan(rapid.IntRange(-300, 300).Draw(t, "dx"), 5)
		}
		c := canvas.New(w+2, h+2)
		c.Fine = rapid.Bool().Draw(t, "fine")
		Draw(c.Sub(1, 1, w, h), s)
		lines := strings.Split(c.Plain(), "\n")
		if len(lines) != h+2 {
			t.Fatalf("%d lines in %d rows", len(lines), h+2)
		}
		for _, l := range lines {
			if ansi.StringWidth(l) > w+1 || strings.TrimSpace(lines[0]) != "" || l != "" && l[0] != ' ' {
				t.Fatalf("drawn outside of the view: %q", l)
			}
		}
	})
}

// Without colour the right one is known by its brackets, the way to the wrong one by its stars
// and the chance at its end, what the dog cannot see by "?".
func TestNothingIsSaidByColourAlone(t *testing.T) {
	for _, fine := range []bool{false, true} {
		text := draw(leg(turning(t), 100, 30), 100, 30, fine).Plain()
		assert.Contains(t, text, "[3]")
		assert.Contains(t, text, "34%", "a trap of one in three")
		assert.Contains(t, text, "*")
		assert.Contains(t, text, "D")
		assert.Contains(t, text, "H")
		assert.Contains(t, text, "h")
		assert.Contains(t, text, "!", "where he was instead")
		assert.Contains(t, draw(whole(turning(t), 120, 40), 120, 40, fine).Plain(), "4?", "behind the handler")
	}
}

func TestNumberStandsOnTheSideItIsTakenFrom(t *testing.T) {
	s := courseOnly(turning(t), 0, 0)
	s.Camera = Whole(s.Setup.Course, 0, 200, 60)
	for _, e := range []struct {
		number int
		label  string
	}{{2, "2"}, {14, "14"}, {5, "5"}} {
		c := draw(s, 200, 60, false)
		entry := s.Setup.Course.Entry(e.number)
		found := false
		for y := range 60 {
			for x := range 200 {
				if !reads(c, x, y, e.label) {
					continue
				}
				p := s.Camera.ToMap(x, y)
				if p.Dist(entry.At) < 4 {
					found = true
					assert.Negative(t, (geom.Pose{At: entry.At, Heading: entry.Heading}).Local(p).Y, "number %d lies beyond its bar", e.number)
				}
			}
		}
		assert.True(t, found, "number %d", e.number)
	}
}

// reads reports whether exactly this number stands at x, y.
func reads(c *canvas.Canvas, x, y int, s string) bool {
	for i, r := range s {
		if got, _ := c.At(x+i, y); got != string(r) {
			return false
		}
	}
	before, _ := c.At(x-1, y)
	after, _ := c.At(x+len(s), y)
	return !strings.ContainsAny(before+after, "0123456789h")
}

// Of the strides of the fixture those before the turn are half as long: their marks lie half as
// far apart, each pointing where the dog runs.
func TestCollectedStridesLieCloser(t *testing.T) {
	s := leg(turning(t), 160, 50)
	s.Leg = 2
	s.Camera = Leg(s.Setup.Course, 2, 0, 160, 50, s.Run)
	c := draw(s, 160, 50, false)
	var y []float64
	for _, k := range []int{3, 4, 5} { // landing after 1, and two strides on the ground
		p := s.Camera.ToView(s.Run.Trace.Paws[k].At)
		y = append(y, p.Y)
		if s.Run.Trace.Paws[k].Mark == sim.GroundStride {
			x, row := cellOf(p)
			sign, _ := c.At(x, row)
			assert.Equal(t, "^", sign)
		}
	}
	assert.Less(t, y[1]-y[2], y[0]-y[1])
}

func TestHiddenObstacleIsMarked(t *testing.T) {
	s := whole(turning(t), 120, 40)
	assert.Contains(t, draw(s, 120, 40, false).Plain(), "4?")
	s.Seen[2].Visible = 1
	assert.NotContains(t, draw(s, 120, 40, false).Plain(), "?")
}

func TestShadowLiesBehindTheHandler(t *testing.T) {
	s := whole(turning(t), 160, 50)
	s.Seen = nil
	now := s.Run.Trace.Samples[s.Sample]
	c := draw(s, 160, 50, false)
	n := 0
	for y := range 50 {
		for x := range 160 {
			if _, r := c.At(x, y); r == canvas.Hidden {
				n++
				p := s.Camera.ToMap(x, y)
				assert.Greater(t, p.Dist(now.Dog.At), now.Hand.At.Dist(now.Dog.At))
				assert.Less(t, float64(now.Dog.At.Towards(p).Off(now.Dog.At.Towards(now.Hand.At)).Abs()), .15)
			}
		}
	}
	assert.Positive(t, n)
}

func BenchmarkDraw(b *testing.B) {
	for _, fine := range []bool{false, true} {
		name := "ascii"
		if fine {
			name = "fine"
		}
		b.Run(name, func(b *testing.B) {
			s := leg(turning(b), 200, 60)
			c := canvas.New(200, 60)
			c.Fine = fine
			b.ReportAllocs()
			for b.Loop() {
				c.Clear()
				Draw(c.All(), s)
			}
		})
	}
}
