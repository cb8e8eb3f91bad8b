package geom

import (
	"math"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func line(t require.TestingT, s Segment) sf.Geometry {
	ls := sf.NewLineString(sf.NewSequence([]float64{s.A.X, s.A.Y, s.B.X, s.B.Y}, sf.DimXY))
	require.NoError(t, ls.Validate())
	return ls.AsGeometry()
}

// checkAll is rapid.Check with as many draws under -short, which makes rapid draw a
// fifth: what is counted over the draws must not hang on that.
func checkAll(t *testing.T, prop func(*rapid.T)) {
	rounds := 1
	if testing.Short() {
		rounds = 5
	}
	for range rounds {
		rapid.Check(t, prop)
	}
}

// Crossings and distances agree with a general-purpose geometry library
// (github.com/peterstace/simplefeatures) on random segments.
func TestSegmentsAgainstLibrary(t *testing.T) {
	met := 0
	checkAll(t, func(t *rapid.T) {
		s, u := drawSegment(t, "s", 10), drawSegment(t, "u", 10)
		if s.Length() < 1e-6 || u.Length() < 1e-6 {
			t.Skip("the library wants lines with a length")
		}
		want, ok := sf.Distance(line(t, s), line(t, u))
		if !ok {
			t.Skip("no distance")
		}
		if got := s.Gap(u); math.Abs(got-want) > 1e-9 {
			t.Fatalf("gap %g, library %g", got, want)
		}
		p := drawPoint(t, "p", 10)
		want, _ = sf.Distance(line(t, s), sf.NewPoint(sf.Coordinates{XY: sf.XY(p)}).AsGeometry())
		if got := s.Dist(p); math.Abs(got-want) > 1e-9 {
			t.Fatalf("distance %g, library %g", got, want)
		}
		// Where an end all but touches the other segment, rounding decides.
		touching := min(s.Dist(u.A), s.Dist(u.B), u.Dist(s.A), u.Dist(s.B)) < 1e-9
		if _, meets := s.Meets(u); !touching && meets != sf.Intersects(line(t, s), line(t, u)) {
			t.Fatalf("meets %v, library says otherwise", meets)
		}
		if _, meets := s.Meets(u); meets {
			met++
		}
	})
	assert.Greater(t, met, 3, "random segments should cross now and then")
}

func TestMeetsSaysWhere(t *testing.T) {
	at, ok := wall(0, 0, 10, 0).Meets(wall(3, -1, 3, 1))
	assert.True(t, ok)
	assert.InDelta(t, 0.3, at, 1e-12)
	_, ok = wall(0, 0, 10, 0).Meets(wall(10, 0, 12, 5))
	assert.True(t, ok, "touching ends count")
	_, ok = wall(0, 0, 10, 0).Meets(wall(0, 1, 10, 1))
	assert.False(t, ok, "parallel")
	assert.Zero(t, wall(0, 0, 10, 0).Gap(wall(4, 0, 20, 0)), "overlapping in one line")
}

func TestSide(t *testing.T) {
	up := wall(0, 0, 0, 10)
	assert.Equal(t, 1, up.Side(Point{-1, 5}, 0.01), "left of the way up")
	assert.Equal(t, -1, up.Side(Point{1, 5}, 0.01))
	assert.Equal(t, 0, up.Side(Point{0.005, 5}, 0.01))
}

func TestHeadingsAreClockwiseFromUp(t *testing.T) {
	o := Point{}
	assert.InDelta(t, 0, o.Towards(Point{0, 1}).Degrees(), 1e-12)
	assert.InDelta(t, 90, o.Towards(Point{1, 0}).Degrees(), 1e-12)
	assert.InDelta(t, 180, o.Towards(Point{0, -1}).Degrees(), 1e-12)
	assert.InDelta(t, -90, o.Towards(Point{-1, 0}).Degrees(), 1e-12)
	assert.InDelta(t, 270, o.Towards(Point{-1, 0}).Compass().Degrees(), 1e-9)
	p := Pose{Point{2, 3}, Deg(90)}
	assert.InDelta(t, 0, p.Ahead(2).Dist(Point{4, 3}), 1e-12)
	assert.InDelta(t, 0, p.Beside(2).Dist(Point{2, 1}), 1e-12)
}

func TestAnglesWrap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := Angle(rapid.Float64Range(-100, 100).Draw(t, "a"))
		w, c := a.Wrap(), a.Compass()
		if w <= -math.Pi || w > math.Pi {
			t.Fatalf("wrapped to %g", w)
		}
		if c < 0 || c > 2*math.Pi {
			t.Fatalf("compass %g", c)
		}
		for _, b := range []Angle{w, c} {
			if a.Unit().Dist(b.Unit()) > 1e-12 {
				t.Fatalf("%g points another way than %g", b, a)
			}
		}
	})
}

func TestLocalAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q := drawPose(t, "p", 20), drawPoint(t, "q", 20)
		l := p.Local(q)
		back := p.Ahead(l.Y).Add(p.Heading.Right().Mul(l.X))
		if back.Dist(q) > 1e-12*40 {
			t.Fatalf("%v became %v", q, back)
		}
	})
}

// The angle a breadth covers, seen flat on: 2 atan(w / 2d) (Wolfram Formula
// Repository, "Angular Diameter"; the figures are worked from it).
func TestAngularWidth(t *testing.T) {
	for _, c := range []struct{ breadth, distance, degrees float64 }{
		{0.51, 3, 9.72}, {0.35, 2, 10.00}, {1.2, 6, 11.42},
	} {
		eye := Pose{Point{4, 7}, Deg(130)}
		far := Pose{eye.Ahead(c.distance), eye.Heading}
		left, right := far.Beside(-c.breadth/2), far.Beside(c.breadth/2)
		got := eye.At.Towards(right).Off(eye.At.Towards(left))
		assert.InDelta(t, c.degrees, got.Degrees(), 0.005)
	}
}

// The shadow at distance D of a breadth w at d is w D / d broad: 0.35 m at 2 m
// hides 1.05 m at 6 m.
func TestShadowOfABreadth(t *testing.T) {
	screen := wall(-5, 6, 5, 6)
	at := func(x float64) float64 {
		f, ok := screen.Meets(Segment{Point{}, Point{x, 2}.Mul(10)})
		require.True(t, ok)
		return screen.A.Lerp(screen.B, f).X
	}
	assert.InDelta(t, 1.05, at(0.175)-at(-0.175), 1e-12)
}
