package course

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"cuewalk/course/geom"
	"cuewalk/course/tomlfile"
)

// draft is a course to be written in either unit; lengths in metres.
type draft struct {
	order []string
	lines []func(u Units) string
}

func length(u Units, m float64) string { return tomlfile.Number(m / u.Factor()) }

func place(u Units, x, y float64) string { return "[" + length(u, x) + ", " + length(u, y) + "]" }

// cell is the room for one obstacle of a draft, metres; a dog walk is 10.5 m long.
const cell = 14

// drawDraft draws a course of obstacles in a grid, which keeps them apart.
func drawDraft(t *rapid.T) draft {
	var d draft
	for i := range rapid.IntRange(2, 12).Draw(t, "obstacles") {
		kind := Kind(rapid.IntRange(0, int(KindCount)-1).Draw(t, "kind"))
		x := cell*(float64(i%4)+0.5) + rapid.Float64Range(-1, 1).Draw(t, "x")
		y := cell*(float64(i/4)+0.5) + rapid.Float64Range(-1, 1).Draw(t, "y")
		facing := rapid.IntRange(-360, 360).Draw(t, "facing")
		id := fmt.Sprintf("o%d", i)
		var own []size
		for _, s := range sizes[kind] {
			if rapid.Bool().Draw(t, s.key) {
				v := rapid.Float64Range(s.least, s.most).Draw(t, s.key)
				own = append(own, size{s.key, v, v})
			}
		}
		d.lines = append(d.lines, func(u Units) string {
			line := fmt.Sprintf("%s = { kind = %q, at = %s, facing = %d", id, kind, place(u, x, y), facing)
			if kind == Tunnel {
				line = fmt.Sprintf("%s = { kind = %q, through = [%s, %s, %s]", id, kind, place(u, x-2, y), place(u, x, y+1), place(u, x+2, y))
			}
			for _, s := range own {
				if kind == DogWalk && s.key == "length" {
					continue // the longest would not fit its cell
				}
				line += ", " + s.key + " = " + length(u, s.least)
			}
			return line + " }"
		})
		if !kind.OneWay() && rapid.Bool().Draw(t, "reverse") {
			d.order = append(d.order, "-"+id)
		} else {
			d.order = append(d.order, id)
		}
	}
	return d
}

func (d draft) write(u Units) string {
	var b strings.Builder
	fmt.Fprintf(&b, "course = \"Drawn\"\nunits = %q\nring = %s\nstart = %s\nheight = %s\norder = %q\n[obstacles]\n",
		u, place(u, 4*cell, 3*cell), place(u, 1, 1), length(u, 0.4), strings.Join(d.order, " "))
	for _, line := range d.lines {
		b.WriteString(line(u) + "\n")
	}
	return b.String()
}

// Metres or feet: the same course. (One foot is 0.3048 m exactly, international
// yard and pound agreement of 1959.)
func TestFeetAndMetresAreTheSameCourse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawDraft(t)
		m, err := Parse("m.toml", []byte(d.write(Metres)))
		if err != nil {
			t.Fatalf("metres: %v\n%s", err, d.write(Metres))
		}
		f, err := Parse("ft.toml", []byte(d.write(Feet)))
		if err != nil {
			t.Fatalf("feet: %v\n%s", err, d.write(Feet))
		}
		if len(m.Order) != len(d.order) || fmt.Sprint(m.Order) != fmt.Sprint(f.Order) {
			t.Fatalf("orders differ: %v, %v", m.Order, f.Order)
		}
		for i := range m.Obstacles {
			if diff := difference(m.Obstacles[i], f.Obstacles[i]); diff > 1e-9 {
				t.Fatalf("%+v\n%+v differ by %g", m.Obstacles[i], f.Obstacles[i], diff)
			}
		}
		if diff := m.Ring.Dist(f.Ring) + m.Start.Dist(f.Start); diff > 1e-9 {
			t.Fatalf("ring or start differ by %g", diff)
		}
	})
}

// difference is the largest between two obstacles, infinite where they are
// different things.
func difference(o, p Obstacle) float64 {
	if o.ID != p.ID || o.Kind != p.Kind || o.Wings != p.Wings || o.Poles != p.Poles || o.Line != p.Line || len(o.Through) != len(p.Through) {
		return math.Inf(1)
	}
	worst := max(o.At.Dist(p.At), math.Abs(float64(o.Facing.Off(p.Facing))), math.Abs(o.Width-p.Width),
		math.Abs(o.Wing-p.Wing), math.Abs(o.Height-p.Height), math.Abs(o.Length-p.Length))
	for i := range o.Through {
		worst = max(worst, o.Through[i].Dist(p.Through[i]))
	}
	return worst
}

// Limits in messages may be written as they stand there, in either unit.
func TestLimitsMayBeWritten(t *testing.T) {
	for _, u := range []Units{Metres, Feet} {
		for _, kind := range sizes {
			for _, s := range kind {
				var least, most float64
				var unit string
				_, err := fmt.Sscanf(lengths{u}.between(s.least, s.most), "from %g to %g %s", &least, &most, &unit)
				assert.NoError(t, err)
				assert.GreaterOrEqual(t, least*u.Factor(), s.least-tiny)
				assert.LessOrEqual(t, most*u.Factor(), s.most+tiny)
				assert.Less(t, least, most)
			}
		}
	}
}

// Of a pair of obstacles it does not matter which is written first.
func TestOverlapIsMutual(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) body {
			kind := rapid.SampledFrom([]Kind{Jump, Spread, LongJump, Wall, Tyre, Weaves, AFrame, DogWalk, Seesaw, Table}).Draw(t, name)
			o := Obstacle{Kind: kind, Wings: true, Facing: geom.Deg(rapid.Float64Range(-180, 180).Draw(t, name+" facing")),
				At: geom.Point{X: rapid.Float64Range(0, 6).Draw(t, name+" x"), Y: rapid.Float64Range(0, 6).Draw(t, name+" y")}}
			o.Defaults(UsualBar)
			return newBody(o)
		}
		a, b := draw("a"), draw("b")
		gap, near := a.overlaps(b)
		pag, raen := b.overlaps(a)
		if near != raen || math.Abs(gap-pag) > 1e-12 {
			t.Fatalf("gap %g %v, the other way %g %v", gap, near, pag, raen)
		}
		if d := a.lines[0].Mid().Dist(b.lines[0].Mid()); d < 0.1 && !near {
			t.Fatalf("%s and %s in the same place do not overlap", a.kind, b.kind)
		}
	})
}

// A tenth of the unit is what a handler writes: a tenth of a metre, a tenth of a foot.
func TestTenths(t *testing.T) {
	p := geom.Point{X: 3.14159, Y: -2.71828}
	assert.Equal(t, geom.Point{X: 3.1, Y: -2.7}, Metres.Tenths(p))
	feet := Feet.Tenths(p)
	assert.InDelta(t, 10.3*FootLength, feet.X, 1e-12) // 3.14159 m are 10.307 ft
	assert.InDelta(t, -8.9*FootLength, feet.Y, 1e-12) // 2.71828 m are 8.918 ft
	assert.Equal(t, feet, Feet.Tenths(feet))
}
