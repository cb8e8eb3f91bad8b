package canvas

import (
	"math"
	"strings"
	"testing"

	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestBars(t *testing.T) {
	for _, k := range []struct {
		share       float64
		ascii, fine string
	}{
		{0, "--------", "────────"}, {1, "########", "████████"}, {.5, "####----", "████────"},
		{.001, "#-------", "▏───────"}, {.999, "#######-", "███████▉"}, {.55, "####----", "████▍───"},
		{-3, "--------", "────────"}, {7, "########", "████████"}, {math.NaN(), "????????", "????????"},
	} {
		for fine, want := range map[bool]string{false: k.ascii, true: k.fine} {
			got := row(9, func(v View) {
				v.c.Fine = fine
				v.Bar(0, 0, 8, k.share, Right)
			})
			assert.Equal(t, want, got, "%v", k.share)
		}
	}
}

func TestColumns(t *testing.T) {
	column := func(share float64, fine bool) string {
		c := New(2, 3)
		c.Fine = fine
		c.All().Column(0, 0, 3, share, Dog)
		return c.Plain()
	}
	assert.Equal(t, "\n\n", column(0, false))
	assert.Equal(t, "\n\n.", column(.01, false))
	assert.Equal(t, "\n:\n#", column(.55, false))
	assert.Equal(t, ":\n#\n#", column(.99, false))
	assert.Equal(t, "#\n#\n#", column(1, false))
	assert.Equal(t, "\n▄\n█", column(.5, true))
	assert.Equal(t, "\n\n?", column(math.NaN(), true))
}

// A larger share never draws a shorter bar.
func TestBarsGrowWithTheShare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Float64Range(-1, 2).Draw(t, "a"), rapid.Float64Range(-1, 2).Draw(t, "b")
		n := rapid.IntRange(0, 100).Draw(t, "n")
		lo, hi := units(min(a, b), n), units(max(a, b), n)
		require.LessOrEqual(t, lo, hi)
		require.True(t, lo >= 0 && hi <= n)
	})
}

func TestBox(t *testing.T) {
	c := New(14, 5)
	in := c.All().Box(0, 0, 13, 4, "Dog's eye", Quiet)
	in.Text(0, 0, "a line too long", Plain)
	assert.Equal(t, "+- Dog's.. -+\n|a line too |\n|           |\n+-----------+\n", c.Plain())
	w, h := in.Size()
	assert.Equal(t, []int{11, 2}, []int{w, h})

	c.Fine = true
	c.Clear()
	c.All().Box(0, 0, 4, 3, "", Quiet)
	assert.Equal(t, "┌──┐\n│  │\n└──┘\n\n", c.Plain())
	_, h = c.All().Box(0, 0, 1, 1, "small", Quiet).Size()
	assert.Zero(t, h)
}

func TestTintAndAddLeaveTheSigns(t *testing.T) {
	c := New(6, 2)
	v := c.All()
	v.Text(0, 0, "abcdef", Right)
	v.Tint(1, 0, 2, 1, Wrong)
	v.Add(2, 0, 9, 1, Chosen|Dog)
	assert.Equal(t, "abcdef\n", c.Plain())
	for x, want := range []Role{Right, Wrong, Wrong | Chosen, Right | Chosen} {
		_, r := c.At(x, 0)
		assert.Equal(t, want, r, "column %d", x)
	}
	assert.Equal(t, "wrong+chosen", (Wrong | Chosen).String())
}

func TestTheCornerStaysEmpty(t *testing.T) {
	c := New(4, 2)
	c.All().Fill(0, 0, 4, 2, 'x', Chosen)
	assert.Equal(t, "xxxx\nxxx", c.Plain())
	c.All().Text(0, 1, "ab犬", Plain)
	assert.Equal(t, "xxxx\nab", c.Plain())
}

func TestResizeForgets(t *testing.T) {
	c := New(3, 1)
	c.All().Text(0, 0, "e\u0301x", Wrong)
	c.Resize(5, 2)
	assert.Equal(t, "\n", c.Plain())
	c.Resize(-1, 4)
	assert.Equal(t, "\n\n\n", c.Plain())
	sign, r := c.At(7, 7)
	assert.Equal(t, " plain", sign+r.String())
}

// busy is a 200 by 60 screen of 1,000 coloured runs.
func busy() *Canvas {
	c := New(200, 60)
	for i := range 1000 {
		c.All().Text(i%17*11, i/17, strings.Repeat("abc", 3), Role(1+i%int(roleCount-1)))
	}
	return c
}

func TestStringAllocatesOnce(t *testing.T) {
	c, p := busy(), NewPalette(termenv.TrueColor, true)
	c.String(p)
	assert.LessOrEqual(t, testing.AllocsPerRun(20, func() { c.String(p) }), 1.)
}

func BenchmarkString(b *testing.B) {
	c, p := busy(), NewPalette(termenv.TrueColor, true)
	b.ReportAllocs()
	for b.Loop() {
		c.String(p)
	}
}

func BenchmarkRedraw(b *testing.B) {
	c, p := New(200, 60), NewPalette(termenv.TrueColor, true)
	c.Fine = true
	b.ReportAllocs()
	for b.Loop() {
		c.Clear()
		v := c.All()
		plane := v.Plane()
		for i := range 60 {
			plane.Line(Pt{0, float64(i)}, Pt{200, 60 - float64(i)}, Solid, Dog)
		}
		plane.Flush()
		for y := range 60 {
			v.Text(0, y, "Obstacle 12 tunnel é, 86 per cent clean", Plain)
		}
		c.String(p)
	}
}
