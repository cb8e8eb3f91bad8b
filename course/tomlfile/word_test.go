package tomlfile

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestShow(t *testing.T) {
	for in, want := range map[string]string{
		"Wren":                  `"Wren"`,
		"Žofka 犬 ⚠️":            "\"Žofka 犬 ⚠️\"",
		"\x1b[2J\x07":           `"\x1b[2J\a"`,
		"a\u202eb":              `"a\u202eb"`,
		"\xff\x9b":              `"\xff\x9b"`,
		"\u009b31m":             `"\u009b31m"`,
		`say "go"`:              `"say \"go\""`,
		strings.Repeat("x", 61): `"` + strings.Repeat("x", 60) + `"...`,
	} {
		assert.Equal(t, want, Show(in))
	}
	assert.Equal(t, `say "go" \x1b[2J\n`, Plain("say \"go\" \x1b[2J\n"))
	assert.Equal(t, `a\b`, Plain(`a\b`))
	assert.Equal(t, "\ufffd", Plain("\ufffd"))
}

// TestPlainIsSafe: nothing a terminal could act on comes out.
func TestPlainIsSafe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		raw := string(rapid.SliceOf(rapid.Byte()).Draw(t, "raw")) + rapid.String().Draw(t, "text")
		for _, out := range []string{Plain(raw), Show(raw)} {
			require.True(t, utf8.ValidString(out))
			for i, r := range out {
				require.False(t, unsafeAt(out, i, r), "%q", out)
				require.False(t, r < ' ' || r >= 0x7f && r < 0xa0, "%q", out)
			}
		}
	})
}

func TestNearest(t *testing.T) {
	kinds := []string{"jump", "spread", "long jump", "wall", "tyre", "tunnel", "weaves", "A-frame", "dog walk", "seesaw", "table"}
	for word, want := range map[string]string{
		"jmp": "jump", "jupm": "jump", "Jump": "jump", "tunel": "tunnel", "tunnle": "tunnel", "longjump": "long jump",
		"weave": "weaves", "a-frame": "A-frame", "aframe": "A-frame", "dogwalk": "dog walk", "see-saw": "seesaw", "tab": "table",
		"tire": "tyre", "spr": "spread", "": "", "x": "", "hoop": "", "t": "", "unknown": "", strings.Repeat("jump", 20): "",
	} {
		assert.Equal(t, want, Nearest(word, kinds), word)
	}
	assert.Equal(t, "", Nearest("tak", []string{"taker one", "taker two"}), "two begin so")
	assert.Equal(t, "one", Nearest("onf", []string{"one", "onb"}), "the first of equals")
	assert.Equal(t, "", Nearest("a", nil))
}

// TestDistanceIsSymmetric and never more than the longer word, and 0 only for
// equal words.
func TestDistanceIsSymmetric(t *testing.T) {
	letters := rapid.SliceOfN(rapid.RuneFrom([]rune("abc")), 0, 8)
	rapid.Check(t, func(t *rapid.T) {
		a, b := letters.Draw(t, "a"), letters.Draw(t, "b")
		d := distance(a, b)
		require.Equal(t, d, distance(b, a))
		require.LessOrEqual(t, d, max(len(a), len(b)))
		require.Equal(t, string(a) == string(b), d == 0)
	})
	// Known values: the textbook pair is 3 apart, a swap of neighbours counts once.
	assert.Equal(t, 3, distance([]rune("kitten"), []rune("sitting")))
	assert.Equal(t, 1, distance([]rune("ab"), []rune("ba")))
}

func TestQuoteRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "s")
		v, err := literalValue(Quote(s))
		require.NoError(t, err)
		require.Equal(t, s, v)
	})
	assert.Equal(t, `"a\"b\\c\n\t\u001B\u202E"`, Quote("a\"b\\c\n\t\x1b\u202e"))
	assert.Equal(t, "\"\ufffd\"", Quote("\xff"))
	assert.Equal(t, `"a b"`, Key("a b"))
	assert.Equal(t, `lead-out`, Key("lead-out"))
	assert.Equal(t, `""`, Key(""))
}

func TestNumberRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64().Filter(func(x float64) bool { return !math.IsInf(x, 0) }).Draw(t, "x")
		v, err := literalValue(Number(x))
		require.NoError(t, err)
		if i, ok := v.(int64); ok {
			v = float64(i)
		}
		require.InDelta(t, x, v, 0)
	})
	for x, want := range map[float64]string{3: "3", 7.5: "7.5", -0.05: "-0.05", math.Copysign(0, -1): "0", 1e300: "1e+300"} {
		assert.Equal(t, want, Number(x))
	}
	assert.Equal(t, "7.3", Length(7.300000000000001))
	assert.Equal(t, "[7.5, 0]", Pair([2]float64{7.5, -0.0001}))
}
