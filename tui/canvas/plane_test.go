package canvas

import (
	"flag"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var update = flag.Bool("update", false, "rewrite the goldens in testdata")

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got+"\n"), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, strings.TrimSuffix(string(want), "\n"), got)
}

func drawn(w, h int, fine bool, draw func(Plane)) *Canvas {
	c := New(w, h)
	c.Fine = fine
	p := c.All().Plane()
	draw(p)
	p.Flush()
	return c
}

// Pictures looked at by eye: fans of lines, dotted paths, discs, rings and shade.
var pictures = map[string]func(Plane){
	"fan": func(p Plane) {
		for k := range 16 {
			s, c := math.Sincos(2 * math.Pi * float64(k) / 16)
			p.Line(Pt{20 + 6*c, 9 + 3*s}, Pt{20 + 17*c, 9 + 8.5*s}, Solid, Plain)
		}
	},
	"level": func(p Plane) {
		for k := range 9 {
			x, y := float64(4*k), 1+float64(k)/4
			p.Line(Pt{x, y}, Pt{x + 3, y}, Solid, Plain)
		}
		p.Line(Pt{0, 6}, Pt{39, 10}, Solid, Plain)
		p.Line(Pt{0, 11}, Pt{39, 11.9}, Solid, Plain)
	},
	"dotted": func(p Plane) {
		p.Path([]Pt{{1, 1}, {20, 3}, {38, 1}, {30, 14}, {3, 16}}, Dotted, Plain)
	},
	"discs": func(p Plane) {
		p.Disc(Pt{4, 4}, .4, Plain)
		p.Disc(Pt{10, 4}, 1.2, Plain)
		p.Disc(Pt{18, 4}, 3, Plain)
		p.Disc(Pt{31, 6}, 6, Plain)
		p.Ring(Pt{8, 12}, 6, Solid, Plain)
		p.Ring(Pt{24, 14}, 5, Dotted, Plain)
	},
	"shade": func(p Plane) {
		p.Line(Pt{2, 9}, Pt{38, 9}, Solid, Plain)
		p.Shade([]Pt{{2, 2}, {18, 2}, {10, 16}}, Sparse, Plain)
		p.Shade([]Pt{{20, 2}, {30, 2}, {30, 16}, {20, 16}}, Dense, Plain)
		p.Shade([]Pt{{32, 2}, {38, 4}, {38, 16}, {34, 12}}, Full, Plain)
	},
}

func TestPictures(t *testing.T) {
	for name, draw := range pictures {
		golden(t, name+".ascii", drawn(40, 18, false, draw).Plain())
		golden(t, name+".braille", drawn(40, 18, true, draw).Plain())
	}
}

func pt(t *rapid.T, name string) Pt {
	f := rapid.OneOf(rapid.Float64Range(-20, 40), rapid.SampledFrom([]float64{0, 1, 10, -1e9, 1e6, math.Inf(1), math.NaN(), math.MaxFloat64}), rapid.Float64())
	return Pt{f.Draw(t, name+".x"), f.Draw(t, name+".y")}
}

// Whatever the numbers, a plane ends, does not panic and stays in its view.
func TestPlanesTakeAnyNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := New(20, 10)
		c.Fine = rapid.Bool().Draw(t, "fine")
		c.All().Fill(0, 0, 20, 10, 'z', Plain)
		v := c.Sub(3, 2, 12, 6)
		v.Fill(0, 0, 12, 6, ' ', Plain)
		p := v.Plane()
		a, b, d := pt(t, "a"), pt(t, "b"), pt(t, "d")
		r := rapid.Float64().Draw(t, "r")
		st := Stroke(rapid.IntRange(0, 1).Draw(t, "stroke"))
		p.Dot(a, Dog)
		p.Line(a, b, st, Dog)
		p.Path([]Pt{a, b, d}, st, Dog)
		p.Disc(d, r, Dog)
		p.Ring(b, r, st, Dog)
		p.Shade([]Pt{a, b, d}, Texture(rapid.IntRange(0, 3).Draw(t, "texture")), Hidden)
		p.Flush()
		for y := range 10 {
			for x := range 20 {
				if sign, _ := c.At(x, y); x < 3 || x >= 15 || y < 2 || y >= 8 {
					require.Equal(t, "z", sign)
				}
			}
		}
	})
}

// A line is the same from either end, and where it is seen it lies near the true line.
func TestLinesLieWhereTheyShould(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(-5, 25)
		a, b := Pt{f.Draw(t, "ax"), f.Draw(t, "ay")}, Pt{f.Draw(t, "bx"), f.Draw(t, "by")}
		for _, fine := range []bool{false, true} {
			c := drawn(20, 20, fine, func(p Plane) { p.Line(a, b, Solid, Dog) })
			back := drawn(20, 20, fine, func(p Plane) { p.Line(b, a, Solid, Dog) })
			for y := range 20 {
				for x := range 20 {
					sign, r := c.At(x, y)
					if sign == " " {
						continue
					}
					require.Equal(t, Dog, r)
					// The centre of a cell is at most half a diagonal, hypot(.5, 1) columns, from
					// what passes through it; signs round by up to a quarter row more.
					require.LessOrEqual(t, distance(Pt{float64(x) + .5, float64(y) + .5}, a, b), math.Hypot(.5, 1)+.5, "cell %d,%d", x, y)
				}
			}
			require.Equal(t, c.Plain(), back.Plain())
		}
	})
}

// distance of p from the segment a-b in columns, by definition.
func distance(p, a, b Pt) float64 {
	dx, dy := b.X-a.X, Aspect*(b.Y-a.Y)
	t := 0.
	if l := dx*dx + dy*dy; l > 0 {
		t = min(max(((p.X-a.X)*dx+Aspect*(p.Y-a.Y)*dy)/l, 0), 1)
	}
	return length(p, along(a, b, t))
}

// A line through the whole window leaves no gap: a sign in every column or every row.
func TestLinesHaveNoGaps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y0, y1 := rapid.Float64Range(0, 8).Draw(t, "y0"), rapid.Float64Range(0, 8).Draw(t, "y1")
		for _, fine := range []bool{false, true} {
			c := drawn(16, 9, fine, func(p Plane) { p.Line(Pt{-3, y0}, Pt{19, y1}, Solid, Dog) })
			for x := range 16 {
				n := 0
				for y := range 9 {
					if sign, _ := c.At(x, y); sign != " " {
						n++
					}
				}
				require.Positive(t, n, "column %d", x)
			}
		}
	})
}

// Filled area against the formulas for a circle (pi r^2) and a triangle, counted in dots.
func TestAreasAreTrue(t *testing.T) {
	dots := func(c *Canvas) (n int) {
		for _, r := range c.Plain() {
			for b := r - 0x2800; r >= 0x2800 && b > 0; b &= b - 1 {
				n++
			}
		}
		return n
	}
	disc := drawn(40, 20, true, func(p Plane) { p.Disc(Pt{20, 10}, 15, Dog) })
	assert.InEpsilon(t, math.Pi*15*15*4, dots(disc), .01) // a dot is half by half a column
	tri := drawn(40, 20, true, func(p Plane) { p.Shade([]Pt{{1, 1}, {37, 1}, {20, 18}}, Full, Hidden) })
	assert.InEpsilon(t, 36*17/2.*8, dots(tri), .02) // eight dots per cell
}

func TestLaterLinesWinAndShadeLiesBeneath(t *testing.T) {
	for _, fine := range []bool{false, true} {
		c := New(10, 3)
		c.Fine = fine
		v := c.All()
		v.Text(7, 1, "5", Obstacle)
		p := v.Plane()
		p.Line(Pt{0, 1.5}, Pt{5, 1.5}, Solid, Dog)
		p.Line(Pt{3, 1.5}, Pt{5, 1.5}, Solid, Wrong)
		p.Shade([]Pt{{0, 0}, {10, 0}, {10, 3}, {0, 3}}, Dense, Hidden)
		p.Flush()
		for x, want := range map[int]Role{1: Dog, 4: Wrong, 6: Hidden, 7: Obstacle} {
			sign, r := c.At(x, 1)
			assert.Equal(t, want, r, "fine %v, column %d %q", fine, x, sign)
		}
	}
}
