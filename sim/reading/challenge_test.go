package reading

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// kinds lists the challenges named on the leg to number n.
func kinds(r *Reading, n int) []ChallengeKind {
	var k []ChallengeKind
	for _, c := range r.Legs[n-1].Names {
		k = append(k, c.Kind)
	}
	return k
}

func note(r *Reading, n int, k ChallengeKind) string {
	for _, c := range r.Legs[n-1].Names {
		if c.Kind == k {
			return c.Note
		}
	}
	return "not named"
}

// Each layout is worked out by hand from the definitions beside the constants; what
// the trade calls it is common practice, no source. All jumps; the last leg counts.
func TestChallengesByHand(t *testing.T) {
	start := geom.Point{X: 20, Y: 14}
	for _, c := range []struct {
		name string
		obs  []course.Obstacle
		want []ChallengeKind // exactly these on the last leg
	}{
		{"6 m straight on", []course.Obstacle{jump("a", 20, 20, 0), jump("b", 20, 26, 0)}, []ChallengeKind{Straight}},
		// Depart atan(1/6) = 9.5 degrees, arrive 0.5: still straight.
		{"a little aside", []course.Obstacle{jump("a", 20, 20, 0), jump("b", 21, 26, 10)}, []ChallengeKind{Straight}},
		// 8 m straight on.
		{"wide gap", []course.Obstacle{jump("a", 20, 20, 0), jump("b", 20, 28, 0)}, []ChallengeKind{Straight, WideGap}},
		// Line at 45 degrees, then 45 more.
		{"90 right", []course.Obstacle{jump("a", 20, 20, 0), jump("b", 24, 24, 90)}, []ChallengeKind{Turn90}},
		{"90 left", []course.Obstacle{jump("a", 20, 20, 0), jump("b", 16, 24, -90)}, []ChallengeKind{Turn90}},
		// Side by side 4 m apart, up and down: 90 out and 90 in.
		{"180", []course.Obstacle{jump("a", 20, 20, 0), jump("b", 24, 20, 180)}, []ChallengeKind{Turn180}},
		// Behind and to the right, faced left: 135 out and 135 in.
		{"270", []course.Obstacle{jump("a", 20, 20, 0), jump("b", 23, 17, -90)}, []ChallengeKind{Turn270}},
		// 2 m aside, 6 m back: departing at 180 - atan(2/6) = 161.6, arriving at 18.4.
		{"wrap", []course.Obstacle{jump("a", 20, 20, 0), jump("b", 22, 14, 180)}, []ChallengeKind{Wrap}},
		// Beside it and the same way: 90 right out, 90 left in.
		{"threadle", []course.Obstacle{jump("a", 20, 20, 0), jump("b", 25, 20, 0)}, []ChallengeKind{Threadle}},
		// Straight on, faced back at the dog: arriving at 180.
		{"backside", []course.Obstacle{jump("a", 20, 20, 0), jump("b", 20, 26, 180)}, []ChallengeKind{Backside}},
		// Three in a row 4 m apart, up, down, up: 180 right, then 180 left.
		{"serpentine", []course.Obstacle{jump("a", 20, 20, 0), jump("b", 24, 20, 180), jump("c", 28, 20, 0)},
			[]ChallengeKind{Turn180, Serpentine}},
		// Up, right, down round (20, 20), 3 m from each: 90 right twice.
		{"pinwheel", []course.Obstacle{jump("a", 17, 20, 0), jump("b", 20, 23, 90), jump("c", 23, 20, 180)},
			[]ChallengeKind{Turn90, Pinwheel}},
	} {
		r := Read(set(start, len(c.obs), c.obs...), large(t), nil)
		assert.ElementsMatch(t, c.want, kinds(r, len(c.obs)), c.name)
	}
}

// A square of four jumps facing its middle (20, 20), 3 m from each. Across it from
// the bottom to the top is a box, and straight; with one side away it is no box.
func TestBox(t *testing.T) {
	sides := []course.Obstacle{jump("s", 20, 17, 0), jump("n", 20, 23, 0), jump("w", 17, 20, 90), jump("e", 23, 20, 90)}
	start := geom.Point{X: 20, Y: 12}
	assert.ElementsMatch(t, []ChallengeKind{Straight, Box}, kinds(Read(set(start, 2, sides...), large(t), nil), 2))
	assert.ElementsMatch(t, []ChallengeKind{Straight}, kinds(Read(set(start, 2, sides[:3]...), large(t), nil), 2))
}

// The first pole must pass at the dog's left shoulder (FCI, AKC and Kennel Club
// alike), so a dog that comes from the left of the row has to round it. The poles
// run up from (20, 30); from (16, 26) the line to them goes 45 degrees to the right
// of the row: from the left.
func TestWeaveEntry(t *testing.T) {
	poles := obstacle(course.Weaves, "w", 20, 33.3, 0) // 12 poles, 6.6 m: they begin at y = 30
	for x, want := range map[float64]string{16: "45 degrees, from the left, the hard side", 24: "45 degrees, from the right",
		20: "0 degrees, straight on"} {
		c := set(geom.Point{X: x, Y: 20}, 2, jump("a", x, 26, 0), poles)
		assert.Equal(t, want, note(Read(c, large(t), nil), 2, WeaveEntry), "from x = %v", x)
	}
}

// An A-frame whose foot is at (20, 30), from a jump 4 m aside and 4 m before it: the
// line is 45 degrees off; from 1 m aside it is 14.
func TestContactOffLine(t *testing.T) {
	frame := obstacle(course.AFrame, "f", 20, 32.1, 0) // 4.2 m long
	from := func(x float64) *Reading {
		return Read(set(geom.Point{X: x, Y: 20}, 2, jump("a", x, 26, 0), frame), large(t), nil)
	}
	assert.Equal(t, "45 degrees", note(from(16), 2, ContactOffLine))
	assert.Equal(t, "not named", note(from(19), 2, ContactOffLine))
}

// A jump 6 m on and a tunnel mouth 2 m beside it, facing the dog: atan(2/6) = 18.4
// degrees apart. It is a tunnel beside it and a discrimination; 4 m off it is neither.
func TestTunnelBeside(t *testing.T) {
	with := func(x float64) *Reading {
		return Read(set(geom.Point{X: 20, Y: 14}, 2, jump("a", 20, 20, 0), jump("b", 20, 26, 0),
			tunnel("t", geom.Point{X: x, Y: 26}, geom.Point{X: x, Y: 31})), large(t), nil)
	}
	assert.ElementsMatch(t, []ChallengeKind{Straight, TunnelBeside, Discrimination}, kinds(with(22), 2))
	assert.ElementsMatch(t, []ChallengeKind{Straight}, kinds(with(24), 2))
}

// Two jumps 6 m apart in line, a dummy 5 m straight on behind them, the right one 90
// degrees to the right and back: a wrap with a trap ahead. With the dummy 9 m on, none.
func TestTightFastTrap(t *testing.T) {
	with := func(y float64) *Reading {
		return Read(set(geom.Point{X: 20, Y: 10}, 3, jump("a", 20, 16, 0), jump("b", 20, 22, 0), jump("c", 24, 22, 180),
			jump("trap", 20, y, 0)), large(t), nil)
	}
	assert.ElementsMatch(t, []ChallengeKind{Turn180, TightFastTrap}, kinds(with(27), 3))
	assert.ElementsMatch(t, []ChallengeKind{Turn180}, kinds(with(31), 3))

	// The line extended meets the dummy 5 m behind the bar of b, and nothing before it.
	meets := with(27).Legs[2].Meets
	assert.NotEmpty(t, meets)
	assert.Equal(t, 3, meets[0].Obstacle)
	assert.InDelta(t, 5, meets[0].Range, 0.02, "the dog comes a little askew")
}

// Turning and shifting the ring changes no name.
func TestChallengesTurnWithTheRing(t *testing.T) {
	c := set(geom.Point{X: 20, Y: 10}, 3, jump("a", 20, 16, 0), jump("b", 20, 22, 0), jump("c", 24, 22, 180), jump("trap", 20, 27, 0))
	want := Read(c, large(t), nil)
	for _, deg := range []float64{37, 90, 180, 251} {
		m := turned(c, geom.Deg(deg))
		got := Read(m, large(t), nil)
		assert.InDelta(t, want.Length, got.Length, 1e-6, "%v degrees", deg)
		for i := range want.Legs {
			assert.Equal(t, want.Legs[i].Names, got.Legs[i].Names, "%v degrees, leg %d", deg, i+1)
		}
		for i := range want.Traps {
			assert.InDelta(t, want.Traps[i].Pull, got.Traps[i].Pull, 1e-6)
		}
	}
}

// turned is the course turned clockwise about (30, 30).
func turned(c *course.Course, by geom.Angle) *course.Course {
	m := *c
	about := geom.Point{X: 30, Y: 30}
	turn := func(p geom.Point) geom.Point {
		d := p.Sub(about)
		return about.Add(by.Unit().Mul(d.Y)).Add(by.Right().Mul(d.X))
	}
	m.Start = turn(c.Start)
	m.Obstacles = append([]course.Obstacle(nil), c.Obstacles...)
	for i := range m.Obstacles {
		m.Obstacles[i].At, m.Obstacles[i].Facing = turn(c.Obstacles[i].At), (c.Obstacles[i].Facing + by).Wrap()
	}
	return &m
}
