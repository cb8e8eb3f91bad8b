package canvas

import (
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// nasty is what breaks layouts: wide, joining, empty, broken and control signs.
var nasty = []string{"a", "Rex", " ", "é", "e\u0301", "\u0301", "犬", "한국", "\u1100", "\u1161", "\u11a8",
	"👩‍👧", "👩\u200d", "👧", "🇩", "🇪", "🇩🇪", "⚠️", "1️⃣", "\ufe0f", "👍🏽", "🏽", "क्", "ष", "\u0903", "\u0600", "5",
	"\n", "\r\n", "\t", "\x1b[31m", "\x7f", "\u009b", "\u200b", "\u202e", "\u2028", "\u00ad", "\ufeff", "\xff", "\xe7\x8a",
	"…", "│", "█", "⠿", "×", "©", "\U000e0041", "\ufffd", "\u3000", "ﷺ"}

func text() *rapid.Generator[string] {
	return rapid.OneOf(rapid.String(), rapid.Custom(func(t *rapid.T) string {
		return strings.Join(rapid.SliceOfN(rapid.SampledFrom(nasty), 0, 12).Draw(t, "parts"), "")
	}))
}

func role() *rapid.Generator[Role] {
	return rapid.Map(rapid.Byte(), func(b byte) Role { return Role(b) })
}

// scribble draws anything anywhere, also far outside.
func scribble(t *rapid.T, c *Canvas) {
	at := rapid.IntRange(-9, 30)
	size := rapid.IntRange(-2, 34)
	for range rapid.IntRange(1, 12).Draw(t, "strokes") {
		v := c.All()
		if rapid.Bool().Draw(t, "sub") {
			v = c.Sub(at.Draw(t, "sx"), at.Draw(t, "sy"), size.Draw(t, "sw"), size.Draw(t, "sh"))
		}
		x, y, w, h := at.Draw(t, "x"), at.Draw(t, "y"), size.Draw(t, "w"), size.Draw(t, "h")
		s, r := text().Draw(t, "text"), role().Draw(t, "role")
		switch rapid.IntRange(0, 9).Draw(t, "what") {
		case 0:
			v.TextFit(x, y, w, s, r)
		case 1:
			v.Wrap(s, r)
		case 2:
			v.Set(x, y, rapid.Rune().Draw(t, "rune"), r)
		case 3:
			v.Fill(x, y, w, h, rapid.SampledFrom([]rune(" #犬\u0301")).Draw(t, "fill"), r)
		case 4:
			v.Box(x, y, w, h, s, r)
		case 5:
			v.Tint(x, y, w, h, r)
			v.Add(y, x, h, w, r)
		case 6:
			v.Bar(x, y, w, rapid.Float64().Draw(t, "share"), r)
			v.Column(x, y, h, rapid.Float64().Draw(t, "share"), r)
		case 7:
			v.TextEnd(x, y, s, r)
		default:
			v.Text(x, y, s, r)
		}
	}
}

// widthsHold is the law of the frame, for any drawing.
func widthsHold(t *rapid.T) {
	w, h := rapid.IntRange(0, 24).Draw(t, "w"), rapid.IntRange(0, 6).Draw(t, "h")
	c := New(w, h)
	c.Fine = rapid.Bool().Draw(t, "fine")
	scribble(t, c)
	for _, p := range []*Palette{{}, NewMono(), NewPalette(termenv.TrueColor, true)} {
		frame := c.String(p)
		lines := strings.Split(frame, "\n")
		if h == 0 {
			require.Empty(t, frame)
			continue
		}
		require.Len(t, lines, h)
		for y, line := range lines {
			limit := w
			if y == h-1 {
				limit = max(w-1, 0)
			}
			require.LessOrEqual(t, ansi.StringWidth(line), limit, "row %d: %q", y, line)
			require.Equal(t, untilLast(c, y, p, limit), ansi.StringWidth(line), "row %d shifted: %q", y, line)
		}
	}
}

// untilLast is where a row must end: after its last cell that shows something.
func untilLast(c *Canvas, y int, p *Palette, limit int) int {
	end := 0
	for x := 0; x < limit; x++ {
		sign, r := c.At(x, y)
		wide := ""
		if x+1 < c.w {
			wide, _ = c.At(x+1, y)
		} else {
			wide = " "
		}
		n := 1
		if sign != "" && wide == "" {
			n = 2
		}
		if sign != "" && x+n <= limit && (sign != " " || p.inks[r]) {
			end = x + n
		}
	}
	return end
}

func TestNoDrawingMakesALineTooWide(t *testing.T) { rapid.Check(t, widthsHold) }

// The same laws where ambiguous signs are two cells wide, in a process of its own because
// the width library reads the variable once at its start.
func TestWidthsHoldForEastAsianTerminals(t *testing.T) {
	if os.Getenv("CANVAS_TEST_WIDE") != "" {
		require.False(t, FineFits(), "the variable has no effect; this test would prove nothing")
		rapid.Check(t, widthsHold)
		return
	}
	run := exec.Command(os.Args[0], "-test.run=^TestWidthsHoldForEastAsianTerminals$", "-rapid.nofailfile")
	run.Env = append(os.Environ(), eastAsian+"=1", "CANVAS_TEST_WIDE=1")
	out, err := run.CombinedOutput()
	require.NoError(t, err, string(out))
}

// What is taken for one cell without asking must agree with the width library.
func TestShortcutsOfWidthAgreeWithTheLibrary(t *testing.T) {
	c := New(1, 1)
	require.True(t, c.narrow)
	for r := rune(0x20); r < 0x3000; r++ {
		if n := c.runeWidth(r); n > 0 {
			require.Equal(t, ansi.StringWidth(string(r)), n, "%U", r)
		}
	}
	for _, r := range "─│┌█▏▁⠿░" {
		assert.Equal(t, 1, c.runeWidth(r), "%c", r)
	}
	assert.Equal(t, 2, c.runeWidth('犬'))
	for _, r := range "\n\x1b\u0301\u200d\u009b\ufeff" {
		assert.Zero(t, c.runeWidth(r), "%U", r)
	}
}

func TestWidthIsWhatTextTakes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := text().Draw(t, "text")
		c := New(5, 1)
		assert.Equal(t, Width(s)-3, c.All().Text(-3, 0, s, Plain))
		assert.Equal(t, 7-Width(s), c.All().TextEnd(7, 0, s, Plain))
	})
}

func TestFittedTextStaysInItsCells(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, w := text().Draw(t, "text"), rapid.IntRange(0, 12).Draw(t, "w")
		c := New(20, 1)
		c.Fine = rapid.Bool().Draw(t, "fine")
		c.All().Fill(0, 0, 20, 1, '*', Plain)
		end := c.All().TextFit(3, 0, w, s, Plain)
		require.LessOrEqual(t, end, 3+w)
		for x := range 20 {
			if sign, _ := c.At(x, 0); x < 3 || x >= end {
				require.Equal(t, "*", sign, "column %d", x)
			}
		}
	})
}
