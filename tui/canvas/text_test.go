package canvas

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// row draws one text into a canvas of w cells and a spare row beneath.
func row(w int, draw func(View)) string {
	c := New(w, 2)
	draw(c.All())
	return strings.TrimSuffix(c.Plain(), "\n")
}

func TestTextInOneRow(t *testing.T) {
	for _, k := range []struct {
		name, text, want string
		x, w             int
	}{
		{"plain", "tunnel", "tunnel", 0, 10},
		{"cut at the edge", "tunnel", "tun", 0, 3},
		{"cut at the left", "tunnel", "nnel", -2, 10},
		{"accent as a sign of its own", "Re\u0301x", "Re\u0301x", 0, 3},
		{"wide", "犬 Rex", "犬 Rex", 0, 10},
		{"no half wide sign right", "ab犬", "ab", 0, 3},
		{"no half wide sign left", "犬b", " b", -1, 3},
		{"controls", "a\x1b[1m\n\t\x00", `a\x1b[1m\n\t\x00`, 0, 30},
		{"broken bytes", "a\xffb", `a\xffb`, 0, 30},
		{"broken byte after a sign", "犬\xe7", `犬\xe7`, 0, 30},
		{"invisible signs", "a\u200b\u202eb", `a\u200b\u202eb`, 0, 30},
		{"open joiner", "👩\u200d", `👩\u200d`, 0, 30},
		{"family", "👩‍👧!", "👩‍👧!", 0, 30},
		{"lone accent", "\u0301", `\u0301`, 0, 30},
		{"flag", "🇩🇪!", "🇩🇪!", 0, 30},
	} {
		got := row(k.w, func(v View) { v.Text(k.x, 0, k.text, Plain) })
		assert.Equal(t, k.want, got, k.name)
	}
}

func TestSignsThatWouldMeltStayApart(t *testing.T) {
	got := row(9, func(v View) {
		v.Text(0, 0, "🇩", Plain)
		v.Text(Width("🇩"), 0, "🇪", Wrong)
		v.Text(6, 0, "end", Plain)
	})
	assert.True(t, strings.HasSuffix(got, "end"), got)
	assert.NotContains(t, got, "🇩🇪")
	assert.Contains(t, got, "?")
}

func TestOverwritingHalfAWideSignBlanksTheOther(t *testing.T) {
	for x, want := range []string{"x b", " xb"} {
		assert.Equal(t, want, row(5, func(v View) {
			v.Text(0, 0, "犬b", Plain)
			v.Set(x, 0, 'x', Plain)
		}))
	}
	assert.Equal(t, " 猫", row(5, func(v View) {
		v.Text(0, 0, "犬犬", Plain)
		v.Text(1, 0, "猫", Plain)
	}))
}

func TestTextFitMarksTheCut(t *testing.T) {
	for _, k := range []struct {
		w    int
		fine bool
		want string
	}{{6, false, "tunnel"}, {5, false, "tun.."}, {2, false, ".."}, {1, false, "."}, {0, false, ""}, {5, true, "tunn…"}, {1, true, "…"}} {
		got := row(10, func(v View) {
			v.c.Fine = k.fine
			v.TextFit(0, 0, k.w, "tunnel", Plain)
		})
		assert.Equal(t, k.want, got, "%+v", k)
	}
	assert.Equal(t, "a..", row(9, func(v View) { v.TextFit(0, 0, 4, "a犬犬", Plain) }), "no half wide sign before the mark")
}

func TestWrapBreaksAtBlanks(t *testing.T) {
	c := New(12, 6)
	n := c.All().Wrap("The dog sees the tunnel\nbefore thejumpthatmatters", Plain)
	assert.Equal(t, "The dog sees\nthe tunnel\nbefore\nthejumpthatm\natters\n", c.Plain())
	assert.Equal(t, 5, n)
	assert.Equal(t, 5, Lines("The dog sees the tunnel\nbefore thejumpthatmatters", 12))

	low := New(12, 6)
	assert.Equal(t, 2, low.Sub(0, 0, 12, 2).Wrap("The dog sees the tunnel before", Plain))
	assert.Equal(t, "The dog sees\nthe tunnel..\n\n\n\n", low.Plain())
	assert.Zero(t, Lines(" \n ", 5))
	assert.Zero(t, Lines("any", 0))
}

// Nothing is lost or invented in wrapping, apart from blanks and what no line could hold.
func TestWrapKeepsEverySign(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, w := text().Draw(t, "text"), rapid.IntRange(14, 30).Draw(t, "w") // escapes reach 10 cells
		squeeze := func(s string) string {
			return strings.Map(func(r rune) rune {
				if isBlank(r) || r == '\n' {
					return -1
				}
				return r
			}, s)
		}
		lines := wrap(s, w)
		got := squeeze(strings.Join(lines, ""))
		assert.Equal(t, squeeze(strings.TrimSpace(s)), got)
		for _, line := range lines {
			assert.LessOrEqual(t, Width(line), w)
		}
	})
}

func TestSubIsAWindow(t *testing.T) {
	c := New(6, 4)
	c.All().Fill(0, 0, 6, 4, '.', Quiet)
	inner := c.Sub(1, 1, 3, 2)
	inner.Text(-1, 0, "abcdefg", Plain)
	inner.Text(0, 2, "below", Plain)
	inner.Sub(1, 1, 9, 9).Fill(0, 0, 9, 9, '#', Plain)
	inner.Sub(-5, -5, 4, 4).Fill(0, 0, 4, 4, '!', Plain)
	assert.Equal(t, "......\n.bcd..\n..##..\n.....", c.Plain())
}
