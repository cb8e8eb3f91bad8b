package canvas

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/lucasb-eyer/go-colorful"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func everyRole(w int) *Canvas {
	c := New(w, int(roleCount))
	for r := range roleCount {
		c.All().Text(0, int(r), fmt.Sprint(r), r)
		c.All().Text(12, int(r), "strong", r|Strong)
		c.All().Text(20, int(r), "chosen ", r|Chosen)
	}
	return c
}

func TestAsciiPaletteHasNoEscapes(t *testing.T) {
	for _, dark := range []bool{true, false} {
		frame := everyRole(40).String(NewPalette(termenv.Ascii, dark))
		assert.NotContains(t, frame, "\x1b")
		assert.Contains(t, frame, "wrong")
	}
}

// Mono may use only bold, underline and reverse: no colour (30-49, 90-107), no faint (2).
func TestMonoHasNoColour(t *testing.T) {
	p := NewMono()
	some := 0
	for _, s := range p.start {
		if s == "" {
			continue
		}
		some++
		for _, n := range strings.Split(strings.TrimSuffix(strings.TrimPrefix(s, "\x1b["), "m"), ";") {
			assert.Contains(t, []string{"0", "1", "4", "7"}, n, "%q", s)
		}
	}
	assert.Greater(t, some, 100)
}

func TestEveryLineIsCompleteInItself(t *testing.T) {
	for _, profile := range []termenv.Profile{termenv.ANSI, termenv.ANSI256, termenv.TrueColor} {
		p := NewPalette(profile, true)
		for _, line := range strings.Split(everyRole(40).String(p), "\n") {
			if i := strings.LastIndex(line, "\x1b"); i >= 0 {
				assert.True(t, strings.HasPrefix(line[i:], "\x1b[0m"), "%q", line)
			}
		}
	}
}

func TestAFrameInColour(t *testing.T) {
	c := New(20, 2)
	v := c.All()
	x := v.Text(0, 0, "ok ", Plain)
	x = v.Text(x, 0, "no way", Wrong)
	x = v.Text(x, 0, "  ", Quiet)
	v.Text(x, 0, "me", Chosen)
	want := "ok \x1b[0;1;91mno way  \x1b[0;7mme\x1b[0m\n"
	assert.Equal(t, want, c.String(NewPalette(termenv.ANSI, true)))
	assert.Equal(t, "ok no way  me\n", c.Plain())
}

// colours lists the roles' own colours as a terminal of this profile shows them.
func colours(profile termenv.Profile, dark bool) map[Role]colorful.Color {
	out := map[Role]colorful.Color{}
	for r := range roleCount {
		tn := looks[r].light
		if dark {
			tn = looks[r].dark
		}
		if tn.hex != "" {
			out[r] = termenv.ConvertToRGB(profile.Color(tn.hex))
		}
	}
	return out
}

func luminance(c colorful.Color) float64 {
	r, g, b := c.LinearRgb()
	return .2126*r + .7152*g + .0722*b
}

// Contrast of at least 4.5:1 for text: WCAG 2.1, success criterion 1.4.3, and its formula of
// relative luminance. The grounds are common ones of terminals (common practice, no source).
func TestEveryColourCanBeRead(t *testing.T) {
	for _, profile := range []termenv.Profile{termenv.ANSI256, termenv.TrueColor} {
		for _, g := range []struct {
			dark bool
			hex  string
		}{{true, "#000000"}, {true, "#1e1e1e"}, {true, "#002b36"}, {false, "#ffffff"}, {false, "#fdf6e3"}} {
			ground, err := colorful.Hex(g.hex)
			require.NoError(t, err)
			for r, c := range colours(profile, g.dark) {
				a, b := luminance(c), luminance(ground)
				ratio := (max(a, b) + .05) / (min(a, b) + .05)
				assert.GreaterOrEqual(t, ratio, 4.5, "%v %s on %s", r, c.Hex(), g.hex)
			}
		}
	}
}

// blindness holds the matrices for linear RGB at full severity of Machado, Oliveira and
// Fernandes (2009), table 1, written from memory.
var blindness = map[string][3][3]float64{
	"protan": {{.152286, 1.052583, -.204868}, {.114503, .786281, .099216}, {-.003882, -.048116, 1.051998}},
	"deutan": {{.367322, .860646, -.227968}, {.280085, .672501, .047413}, {-.011820, .042940, .968881}},
	"tritan": {{1.255528, -.076749, -.178779}, {-.078411, .930809, .147602}, {.004733, .691367, .303900}},
	"none":   {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
}

// The colours that decide something stay apart for every eye: 20 in CIE76 is about ten
// times what can just be told apart (2.3; Mahy 1994, from memory).
func TestDecidingColoursStayApart(t *testing.T) {
	pairs := [][2]Role{{Right, Wrong}, {Wrong, Quiet}, {Wrong, Handler}, {Wrong, Hidden}, {Right, Caution}, {Right, Quiet}, {Handler, Right}, {Hidden, Right}}
	for name, m := range blindness {
		for _, profile := range []termenv.Profile{termenv.ANSI256, termenv.TrueColor} {
			for _, dark := range []bool{true, false} {
				seen := colours(profile, dark)
				for _, p := range pairs {
					d := 100 * see(seen[p[0]], m).DistanceLab(see(seen[p[1]], m))
					assert.Greater(t, d, 20., "%s: %v and %v, dark %v", name, p[0], p[1], dark)
				}
			}
		}
	}
}

func see(c colorful.Color, m [3][3]float64) colorful.Color {
	r, g, b := c.LinearRgb()
	at := func(i int) float64 { return math.Min(math.Max(m[i][0]*r+m[i][1]*g+m[i][2]*b, 0), 1) }
	return colorful.LinearRgb(at(0), at(1), at(2))
}

// Wrong is the only loud role: bold and coloured, in mono the only bold one on the ring.
func TestOnlyWrongIsLoud(t *testing.T) {
	for r := range roleCount {
		l := looks[r]
		assert.Equal(t, r == Wrong, l.bold && l.dark.hex != "", "%v", r)
		assert.Equal(t, r == Wrong, l.monoBold && r != Key, "%v", r)
	}
}
