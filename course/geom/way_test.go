package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const room = 0.3 // clearance in these tests, metres

func wall(ax, ay, bx, by float64) Segment { return Segment{Point{ax, ay}, Point{bx, by}} }

// pinwheel is four winged jumps round a middle, each 2.2 m broad, their inner
// ends gap metres from it.
func pinwheel(gap float64) []Segment {
	var walls []Segment
	for k := range 4 {
		p := Pose{Heading: Deg(90 * float64(k))}
		walls = append(walls, Segment{p.Ahead(gap), p.Ahead(gap + 2.2)})
	}
	return walls
}

// requireWay checks that the way found starts and ends right and keeps its
// distance from every wall, and gives its length.
func requireWay(t require.TestingT, a, b Point, walls []Segment) float64 {
	way, ok := Way(a, b, walls, room, nil)
	require.True(t, ok, "no way from %v to %v", a, b)
	require.Equal(t, b, way[len(way)-1])
	from, sum := a, 0.0
	for _, to := range way {
		for _, w := range walls {
			need := min(room, w.Dist(a), w.Dist(b)) - 1e-6
			require.GreaterOrEqual(t, Segment{from, to}.Gap(w), need, "from %v to %v past %v", from, to, w)
		}
		sum += from.Dist(to)
		from = to
	}
	return sum
}

func TestWayStraight(t *testing.T) {
	way, ok := Way(Point{0, 0}, Point{0, 9}, []Segment{wall(1, 4, 3, 4)}, room, nil)
	require.True(t, ok)
	assert.Equal(t, []Point{{0, 9}}, way)
	way, ok = Way(Point{2, 2}, Point{2, 2}, nil, room, nil)
	require.True(t, ok)
	assert.Equal(t, []Point{{2, 2}}, way)
}

// Round one end of a jump, the shorter side. The shortest way round a disc of the
// clearance at the wall's end is two tangents and the arc between them.
func TestWayRoundOneWall(t *testing.T) {
	a, b, end := Point{0, -3}, Point{0, 3}, Point{1, 0}
	got := requireWay(t, a, b, []Segment{wall(-2, 0, 1, 0)})
	d := a.Dist(end)
	tangents := 2 * math.Sqrt(d*d-room*room)
	arc := room * (2*math.Asin(room/d) + 2*(math.Pi/2-math.Atan2(3, 1)))
	assert.GreaterOrEqual(t, got, tangents+arc-1e-9)
	assert.InDelta(t, tangents+arc, got, 0.1*room)
	assert.Less(t, got, 2*math.Hypot(2, 3), "the longer side")
}

func TestWayThroughPinwheel(t *testing.T) {
	for _, gap := range []float64{0.45, 0.8, 1.5} { // inner ends 0.64, 1.1, 2.1 m apart
		walls := pinwheel(gap)
		got := requireWay(t, Point{1, 1}, Point{-1, -1}, walls)
		assert.Less(t, got, 3.4, "straight through the middle is 2.83 m (gap %g)", gap)
		requireWay(t, Point{1, 1}, Point{-1, 1}, walls)
	}
	// Too narrow in the middle: all the way round outside.
	got := requireWay(t, Point{1, 1}, Point{-1, -1}, pinwheel(0.2))
	assert.Greater(t, got, 5.0)
}

func TestWayOutOfU(t *testing.T) {
	u := []Segment{wall(0, 0, 0, 5), wall(0, 5, 3, 5), wall(3, 5, 3, 0)}
	got := requireWay(t, Point{1.5, 4}, Point{1.5, 8}, u)
	assert.InDelta(t, 14.2, got, 0.6, "down and round by either leg")
	requireWay(t, Point{-1, 2}, Point{4, 2}, u)
}

func TestWayNone(t *testing.T) {
	box := []Segment{wall(0, 0, 0, 2), wall(0, 2, 2, 2), wall(2, 2, 2, 0), wall(2, 0, 0, 0)}
	given := []Point{{7, 7}}
	way, ok := Way(Point{1, 1}, Point{5, 5}, box, room, given)
	assert.False(t, ok)
	assert.Equal(t, given, way)
	_, ok = Way(Point{math.NaN(), 1}, Point{5, 5}, box, room, nil)
	assert.False(t, ok)
	_, ok = Way(Point{5, 0}, Point{5, 5}, box, room, nil)
	assert.True(t, ok, "outside the box nothing is in the way")
}

// A handler 0.2 m from a wing gets away, to either side and round the end.
func TestWayFromInsideTheClearance(t *testing.T) {
	walls := []Segment{wall(0, 0, 2, 0), wall(0, 5, 2, 5)}
	for _, b := range []Point{{1, -4}, {1, 4}, {-3, 0.1}, {6, -0.1}, {1.4, 0.2}} {
		requireWay(t, Point{1, 0.2}, b, walls)
		requireWay(t, Point{0, 0.01}, b, walls)
		requireWay(t, b, Point{1, 0.2}, walls)
	}
	assert.False(t, Clear(Point{1, 0.2}, Point{1, -0.2}, walls, room), "not through the wall")
}

func TestWayOverRandomRings(t *testing.T) {
	found := 0
	checkAll(t, func(t *rapid.T) {
		var walls []Segment
		for range rapid.IntRange(0, 25).Draw(t, "walls") {
			p := drawPose(t, "wall", 10)
			half := rapid.Float64Range(0.2, 1.5).Draw(t, "half")
			walls = append(walls, Segment{p.Ahead(-half), p.Ahead(half)})
		}
		a, b := drawPoint(t, "a", 12), drawPoint(t, "b", 12)
		way, ok := Way(a, b, walls, room, nil)
		if !ok {
			return
		}
		found++
		length := requireWay(t, a, b, walls)
		if length < a.Dist(b)-1e-9 {
			t.Fatalf("shorter than straight")
		}
		if Clear(a, b, walls, room) != (len(way) == 1) {
			t.Fatalf("straight is clear: %v, but the way is %v", Clear(a, b, walls, room), way)
		}
	})
	assert.Greater(t, found, 50)
}

// Walls that leave room to pass never keep anybody anywhere, however near to
// one he stands.
func TestWayFromAnywhereAmongFreeWalls(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var walls []Segment
		for i := range 16 {
			p := Pose{Point{float64(i%4) * 3, float64(i/4) * 3}, Deg(rapid.Float64Range(0, 180).Draw(t, "turn"))}
			half := rapid.Float64Range(0.1, 1.1).Draw(t, "half")
			walls = append(walls, Segment{p.Ahead(-half), p.Ahead(half)})
		}
		// a stands beside one of them, from 2 mm off it to well away.
		w := walls[rapid.IntRange(0, 15).Draw(t, "beside")]
		beside := Pose{w.A.Lerp(w.B, rapid.Float64Range(0, 1).Draw(t, "along")), w.A.Towards(w.B)}
		a := beside.Beside(rapid.Float64Range(0.002, 0.6).Draw(t, "off"))
		requireWay(t, a, drawPoint(t, "b", 12), walls)
	})
}

// Looking only at walls that were in the way finds a way whenever looking at all
// does, and no longer one but for what is cut off at a bend.
func TestWayIsTheShortestByAllCorners(t *testing.T) {
	length := func(a Point, way []Point) float64 { return PathLength(append([]Point{a}, way...)) }
	rapid.Check(t, func(t *rapid.T) {
		var walls []Segment
		for range rapid.IntRange(1, 8).Draw(t, "walls") {
			p := drawPose(t, "wall", 4)
			half := rapid.Float64Range(0.2, 2).Draw(t, "half")
			walls = append(walls, Segment{p.Ahead(-half), p.Ahead(half)})
		}
		a, b := drawPoint(t, "a", 6), drawPoint(t, "b", 6)
		for _, w := range walls {
			if min(w.Dist(a), w.Dist(b)) < room {
				t.Skip("between walls that all but touch, a corner of any wall may help by chance")
			}
		}
		few, ok := Way(a, b, walls, room, nil)

		var s search
		s.begin(walk{a, b, room})
		for _, w := range walls { // each is in the way of a leg along it
			s.takeIn([]Segment{w}, s.leg(w.A, w.B))
		}
		require.Len(t, s.walls, len(walls))
		if all := s.run(); all != ok {
			t.Fatalf("found %v, by all corners %v", ok, all)
		}
		if !ok {
			return
		}
		bends := float64(len(few) - 1)
		if got, want := length(a, few), length(a, s.trace(nil)); got < want-1e-9 || got > want+0.1*room*bends {
			t.Fatalf("%g m, by all corners %g m", got, want)
		}
	})
}

// The gap that ways are tested with is that of the segments.
func TestSquareGapIsTheGap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Float64Range(0, 10).Draw(t, "length")
		s := drawSegment(t, "s", 10)
		got := math.Sqrt(squareGap(length, s.A, s.B))
		if want := s.Gap(Segment{B: Point{0, length}}); math.Abs(got-want) > 1e-7 {
			t.Fatalf("%g, want %g", got, want)
		}
	})
}

// There and back are equally long, and a farther-reaching wall never makes a way shorter.
func TestWayThereAndBack(t *testing.T) {
	walls := append(pinwheel(0.8), wall(3, -1, 3, 6), wall(-4, 2, 1, 4))
	there := requireWay(t, Point{5, 0}, Point{-5, 5}, walls)
	back := requireWay(t, Point{-5, 5}, Point{5, 0}, walls)
	assert.InDelta(t, there, back, 1e-9)
	longer := append(walls[:len(walls)-1:len(walls)-1], wall(-4, 2, 2, 4.4))
	assert.GreaterOrEqual(t, requireWay(t, Point{5, 0}, Point{-5, 5}, longer), there-1e-9)
}

func fortyWalls() []Segment {
	var walls []Segment
	for i := range 40 {
		p := Pose{Point{float64(i%8) * 4, float64(i/8) * 6}, Deg(float64(i * 37))}
		walls = append(walls, Segment{p.Ahead(-1.1), p.Ahead(1.1)})
	}
	return walls
}

// Straight ways never allocate, detours not once their memory is there. (Not by
// Way itself: the race detector drops pooled memory on purpose.)
func TestWayDoesNotAllocate(t *testing.T) {
	walls := fortyWalls()
	dst := make([]Point, 0, 64)
	assert.Zero(t, testing.AllocsPerRun(10, func() { Way(Point{-2, 3}, Point{30, 3.2}, walls, room, dst) }))
	var s search
	assert.Zero(t, testing.AllocsPerRun(10, func() {
		s.begin(walk{Point{-2, -2}, Point{30, 26}, room})
		s.detour(walls, dst)
	}))
}

func BenchmarkWayStraight(b *testing.B) {
	walls := fortyWalls()
	dst := make([]Point, 0, 64)
	for b.Loop() {
		Way(Point{-2, 3}, Point{30, 3.2}, walls, room, dst)
	}
}

func BenchmarkWayRoundOne(b *testing.B) {
	walls := fortyWalls()
	dst := make([]Point, 0, 64)
	for b.Loop() {
		Way(Point{4, -2}, Point{4.2, 3}, walls, room, dst)
	}
}

func BenchmarkWayAcross(b *testing.B) {
	walls := fortyWalls()
	dst := make([]Point, 0, 64)
	for b.Loop() {
		Way(Point{-2, -2}, Point{30, 26}, walls, room, dst)
	}
}
