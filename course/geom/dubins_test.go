package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Worked examples: LaValle, Planning Algorithms, section 15.3.1 (the words); the
// example in the README of github.com/AndrewWalker/Dubins-Curves (first row); the
// poses in the PythonRobotics documentation (third row); closed forms (the rest).
func TestDubinsWorkedExamples(t *testing.T) {
	for _, c := range []struct {
		name     string
		from, to Pose
		radius   float64
		word     string
		parts    [3]float64 // arcs in radians, straights in radii
		length   float64
	}{
		{"readme", anticlockwise(0, 0, 0), anticlockwise(4, 4, 3.142), 1, "LSL", [3]float64{0.463607, 4.472500, 2.678393}, 7.614500},
		{"half turn", anticlockwise(0, 0, 0), anticlockwise(4, 4, math.Pi), 1, "LSL", [3]float64{0.463648, 4.472136, 2.677945}, math.Pi + math.Sqrt(20)},
		{"documented poses", anticlockwise(1, 1, math.Pi/4), anticlockwise(-3, -3, -math.Pi/4), 1, "LSL", [3]float64{3.353118, 4.763013, 1.359271}, 9.475402},
		{"small radius", anticlockwise(0, 0, -2*math.Pi/3), anticlockwise(4, 0, math.Pi/3), 1. / 3, "LSL", [3]float64{2.191479, 10.316529, 0.950113}, 4.486041},
		{"diagonal", anticlockwise(0, 0, 0), anticlockwise(5, 5, math.Pi/2), 1, "LSL", [3]float64{math.Pi / 4, 5.656854, math.Pi / 4}, 7.227651},
		{"wide U", anticlockwise(0, 0, 0), anticlockwise(0, 5, math.Pi), 1.5, "LSL", [3]float64{math.Pi / 2, 4. / 3, math.Pi / 2}, 1.5*math.Pi + 2},
		{"narrow U", anticlockwise(0, 0, 0), anticlockwise(0, 2, math.Pi), 1.5, "RLR", [3]float64{0.585686, 4.312964, 0.585686}, 1.5 * (math.Pi + 4*math.Acos(2.5/3))},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := Dubins(c.from, c.to, c.radius)
			assert.Equal(t, c.word, p.Word)
			assert.InDelta(t, c.length, p.Length, 1e-6)
			for i, part := range c.parts {
				assert.InDelta(t, part, p.Segments[i].Length/c.radius, 1e-6, "stretch %d", i)
			}
		})
	}
}

// The words that lose, second and last rows of the same collection.
func TestDubinsLosers(t *testing.T) {
	want := map[string]float64{"LSR": 10.726626, "RSL": 13.868219, "RSR": 16.635881}
	assertWords(t, want, anticlockwise(0, 0, 0), anticlockwise(4, 4, math.Pi), 1)
	want = map[string]float64{"LRL": 13.132478, "LSL": 15.137167}
	assertWords(t, want, anticlockwise(0, 0, 0), anticlockwise(0, 2, math.Pi), 1.5)
}

func assertWords(t *testing.T, want map[string]float64, from, to Pose, radius float64) {
	t.Helper()
	words, n := dubinsWords(from, to, radius)
	got := map[string]float64{}
	for _, w := range words[:n] {
		got[w.name] = w.length() * radius
	}
	for name, length := range want {
		require.Contains(t, got, name)
		assert.InDelta(t, length, got[name], 1e-6, name)
	}
}

// Integrating any of the words from its start gives its end pose.
func TestEveryWordEndsWhereItShould(t *testing.T) {
	seen := map[string]bool{}
	rapid.Check(t, func(t *rapid.T) {
		from, to := drawPose(t, "from", 5), drawPose(t, "to", 5)
		radius := rapid.Float64Range(0.3, 6).Draw(t, "radius")
		words, n := dubinsWords(from, to, radius)
		for _, w := range words[:n] {
			seen[w.name] = true
			p := w.path(from, radius)
			end := p.End()
			if d := end.At.Dist(to.At); d > 1e-7 {
				t.Fatalf("%s ends %g m off", w.name, d)
			}
			if d := end.Heading.Off(to.Heading).Abs(); d > 1e-7 {
				t.Fatalf("%s ends %g rad off", w.name, d)
			}
		}
	})
	assert.Len(t, seen, 6, "words met: %v", seen)
}

// A path is walked at unit speed and never bends tighter than its radius.
func TestPathIsContinuousAndBounded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, to := drawPose(t, "from", 5), drawPose(t, "to", 5)
		radius := rapid.Float64Range(0.3, 6).Draw(t, "radius")
		for _, p := range []Path{Dubins(from, to, radius), ToPoint(from, to.At, radius)} {
			const n = 64
			step := p.Length / n
			last := p.At(0)
			for i := 1; i <= n; i++ {
				pose := p.At(float64(i) * step)
				if d := pose.At.Dist(last.At); d > step+1e-9 {
					t.Fatalf("%s: %g m in a step of %g m", p.Word, d, step)
				}
				if bend := float64(pose.Heading.Off(last.Heading).Abs()); step < radius && bend > step/radius+1e-7 {
					t.Fatalf("%s: bends %g rad in %g m at radius %g", p.Word, bend, step, radius)
				}
				last = pose
			}
		}
	})
}

// With the heading at the end left free, the way is as short as the shortest over
// all headings there: never longer than any one, and reached by the best.
func TestFreeEndIsTheBestFixedEnd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, to := drawPose(t, "from", 5), drawPoint(t, "to", 5)
		radius := rapid.Float64Range(0.3, 6).Draw(t, "radius")
		free := ToPoint(from, to, radius)
		if d := free.End().At.Dist(to); d > 1e-7 {
			t.Fatalf("%s ends %g m off", free.Word, d)
		}
		heading := Angle(rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "heading"))
		if fixed := Dubins(from, Pose{to, heading}, radius); free.Length > fixed.Length+1e-7 {
			t.Fatalf("%s %g m is longer than %s %g m", free.Word, free.Length, fixed.Word, fixed.Length)
		}
		if fixed := Dubins(from, Pose{to, free.End().Heading}, radius); fixed.Length < free.Length-1e-7 {
			t.Fatalf("%s %g m has a shorter fixed end: %s %g m", free.Word, free.Length, fixed.Word, fixed.Length)
		}
	})
}

// Mirrored left to right, a path turns the other way and is as long.
func TestDubinsMirrored(t *testing.T) {
	mirror := func(p Pose) Pose { return Pose{Point{-p.At.X, p.At.Y}, -p.Heading} }
	rapid.Check(t, func(t *rapid.T) {
		from, to := drawPose(t, "from", 5), drawPose(t, "to", 5)
		radius := rapid.Float64Range(0.3, 6).Draw(t, "radius")
		p, q := Dubins(from, to, radius), Dubins(mirror(from), mirror(to), radius)
		if math.Abs(p.Length-q.Length) > 1e-9 {
			t.Fatalf("%s %g, mirrored %s %g", p.Word, p.Length, q.Word, q.Length)
		}
	})
}

func TestToPointByHand(t *testing.T) {
	up := Pose{}
	ahead := ToPoint(up, Point{0, 7}, 2)
	assert.InDelta(t, 7, ahead.Length, 1e-12)
	right := ToPoint(up, Point{4, 0}, 2) // half a circle to the right
	assert.InDelta(t, 2*math.Pi, right.Length, 1e-9)
	assert.Equal(t, RightTurn, right.Segments[0].Turn)
	quarter := ToPoint(up, Point{5, 2}, 2) // a quarter, then 3 m
	assert.InDelta(t, math.Pi+3, quarter.Length, 1e-9)
	inside := ToPoint(up, Point{2, 0}, 2) // the centre of the circle: away first
	assert.Equal(t, "LR", inside.Word)
}

func BenchmarkDubins(b *testing.B) {
	from, to := Pose{}, Pose{Point{4, 3}, Deg(200)}
	for b.Loop() {
		Dubins(from, to, 1.5)
	}
}
