package place

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func free(int, Rect) float64 { return 0 }

func grid(cost func(int, Rect) float64) Options {
	return Options{Bounds: Rect{0, 0, 60, 20}, Step: Point{1, 1}, Gap: Point{1, 0}, Snap: true, Side: 1, Far: 1, Turn: .05, Near: 1, Cost: cost}
}

// The places tried and their order are those that readers prefer (Imhof 1975; Bobák, Čmolík,
// Čadík 2024): above, right, left, below, then the corners.
func TestOrderOfPlaces(t *testing.T) {
	at := Rect{30, 10, 1, 1}
	var taken []Rect
	cost := func(_ int, r Rect) float64 {
		for _, q := range taken {
			if q.Meets(r) {
				return Never
			}
		}
		return 0
	}
	var got []Point
	for range 8 {
		p := Labels([]Label{{W: 1, H: 1, Anchor: at}}, grid(cost))[0]
		require.True(t, p.OK)
		got = append(got, Point{p.X - at.X, p.Y - at.Y})
		taken = append(taken, p.Rect)
	}
	assert.Equal(t, []Point{{0, -1}, {1, 0}, {-1, 0}, {0, 1}, {1, -1}, {-1, -1}, {1, 1}, {-1, 1}}, got)
}

func TestPrefersTheSideItBelongsTo(t *testing.T) {
	for _, side := range sides {
		p := Labels([]Label{{W: 2, H: 1, Anchor: Rect{30, 10, 5, 1}, Toward: side}}, grid(free))[0]
		dx, dy := p.X+1-32.5, p.Y+.5-10.5
		assert.Positive(t, dx*side.X+dy*side.Y, "%v", side)
	}
}

func TestLeaderWhereAllAreTaken(t *testing.T) {
	near := Rect{27, 7, 8, 7}
	p := Labels([]Label{{W: 1, H: 1, Anchor: Rect{30, 10, 1, 1}}}, grid(func(_ int, r Rect) float64 {
		if r.Meets(near) {
			return Never
		}
		return 0
	}))[0]
	require.True(t, p.OK)
	assert.True(t, p.Leader)
	assert.Equal(t, 10.0, p.To.Y, "the leader ends at the upper edge of what is named")
	assert.Equal(t, p.Y+1, p.From.Y)
}

// The first label takes the place above, which is the only one for the second: it moves on.
func TestMovesALabelForAnother(t *testing.T) {
	o := grid(func(_ int, r Rect) float64 {
		if r == (Rect{4, 0, 1, 1}) || r == (Rect{5, 1, 1, 1}) {
			return 0
		}
		return Never
	})
	got := Labels([]Label{{W: 1, H: 1, Anchor: Rect{4, 1, 1, 1}}, {W: 1, H: 1, Anchor: Rect{3, 0, 1, 1}}}, o)
	require.True(t, got[0].OK && got[1].OK)
	assert.Equal(t, Rect{5, 1, 1, 1}, got[0].Rect)
	assert.Equal(t, Rect{4, 0, 1, 1}, got[1].Rect)
}

func TestEveryLabelIsApartAndInsideAndOffItsAnchor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cell := rapid.IntRange(0, 59)
		var ls []Label
		for range rapid.IntRange(1, 25).Draw(t, "labels") {
			ls = append(ls, Label{W: float64(rapid.IntRange(1, 4).Draw(t, "w")), H: 1,
				Anchor: Rect{float64(cell.Draw(t, "x")), float64(rapid.IntRange(0, 19).Draw(t, "y")), 2, 1},
				Toward: Point{rapid.Float64Range(-1, 1).Draw(t, "tx"), rapid.Float64Range(-1, 1).Draw(t, "ty")}})
		}
		o := grid(func(_ int, r Rect) float64 { return math.Mod(r.X*7+r.Y*3, 5) })
		got := Labels(ls, o)
		again := Labels(ls, o)
		for i, p := range got {
			if p != again[i] {
				t.Fatal("not the same twice")
			}
			if !p.OK {
				continue
			}
			if p.X < 0 || p.Y < 0 || p.X+p.W > 60 || p.Y+p.H > 20 || p.X != math.Round(p.X) || p.Meets(ls[i].Anchor) {
				t.Fatalf("label %d at %+v", i, p)
			}
			for k := range i {
				if got[k].OK && got[k].grown(o.Gap).Meets(p.Rect) {
					t.Fatalf("labels %d and %d touch", k, i)
				}
			}
		}
	})
}

func BenchmarkLabels(b *testing.B) {
	var ls []Label
	for i := range 22 {
		ls = append(ls, Label{W: 2, H: 1, Anchor: Rect{float64(i * 17 % 55), float64(i * 5 % 19), 3, 1}, Toward: Point{1, 0}})
	}
	o := grid(func(_ int, r Rect) float64 { return math.Mod(r.X*7+r.Y*3, 5) })
	b.ReportAllocs()
	for b.Loop() {
		Labels(ls, o)
	}
}
