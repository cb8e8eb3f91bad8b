package course

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"cuewalk/course/geom"
)

func drawn(kind Kind) Obstacle {
	o := Obstacle{ID: "o", Kind: kind, At: geom.Point{X: 10, Y: 20}, Facing: geom.Deg(90), Wings: true}
	if kind == Tunnel {
		o.Through = []geom.Point{{X: 8, Y: 20}, {X: 10, Y: 22}, {X: 12, Y: 20}}
	}
	o.Defaults(UsualBar)
	return o
}

// One entry from each side or at each end, four for a table; one way only for
// spread and long jump (FCI rulebooks).
func TestEntriesOfEveryKind(t *testing.T) {
	for k := range KindCount {
		entries := drawn(k).Entries(7)
		want := 2
		if k == Table {
			want = 4
		}
		require.Len(t, entries, want, k.String())
		for i, e := range entries {
			assert.Equal(t, 7, e.Obstacle)
			assert.Equal(t, k, e.Kind)
			assert.Equal(t, i == 1 && (k == Spread || k == LongJump), e.WrongWay, "%s %d", k, i)
			assert.Equal(t, k.Jumped(), e.Height > 0, k.String())
		}
	}
}

// Two entries of an obstacle lead through it in opposite ways: where one begins the other ends.
func TestEntriesAreOpposite(t *testing.T) {
	for k := range KindCount {
		if k == Table {
			continue
		}
		e := drawn(k).Entries(0)
		assert.InDelta(t, 0, e[0].At.Dist(e[1].Exit.At), 1e-9, k.String())
		assert.InDelta(t, 0, e[1].At.Dist(e[0].Exit.At), 1e-9, k.String())
		assert.InDelta(t, 180, e[0].Heading.Off(e[1].Exit.Heading).Abs().Degrees(), 1e-9, k.String())
		assert.InDelta(t, 180, e[1].Heading.Off(e[0].Exit.Heading).Abs().Degrees(), 1e-9, k.String())
	}
}

// Drawn facing right: the dog comes from the left.
func TestEntryFacesTheWayItIsDrawn(t *testing.T) {
	e := drawn(AFrame).Entries(0)[0]
	assert.InDelta(t, 0, e.At.Dist(geom.Point{X: 10 - 2.1, Y: 20}), 1e-9)
	assert.InDelta(t, 0, e.Exit.At.Dist(geom.Point{X: 10 + 2.1, Y: 20}), 1e-9)
	assert.InDelta(t, 90, e.Heading.Degrees(), 1e-9)
}

// The first weave pole passes at the dog's left shoulder (rule of every
// rulebook), so coming from the left of the row is the harder side, at both ends.
func TestWeavesAreHarderFromTheLeft(t *testing.T) {
	for _, e := range drawn(Weaves).Entries(0) {
		assert.Less(t, e.Left, e.Right)
	}
	for k := range KindCount {
		if k == Weaves {
			continue
		}
		for _, e := range drawn(k).Entries(0) {
			assert.Equal(t, e.Left, e.Right, k.String())
		}
	}
}

// Turned and shifted, an obstacle has the same entries, turned and shifted.
func TestEntriesTurnWithTheObstacle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kind := Kind(rapid.IntRange(0, int(KindCount)-1).Draw(t, "kind"))
		turn := geom.Deg(rapid.Float64Range(-180, 180).Draw(t, "turn"))
		to := geom.Pose{At: geom.Point{X: rapid.Float64Range(-50, 50).Draw(t, "x"), Y: 3}, Heading: turn}
		move := func(p geom.Point) geom.Point {
			return to.Ahead(p.Y).Add(to.Heading.Right().Mul(p.X))
		}
		o := drawn(kind)
		moved := o
		moved.At, moved.Facing = move(o.At), o.Facing+turn
		moved.Through = nil
		for _, p := range o.Through {
			moved.Through = append(moved.Through, move(p))
		}
		for i, e := range moved.Entries(0) {
			was := o.Entries(0)[i]
			if d := e.At.Dist(move(was.At)) + e.Exit.At.Dist(move(was.Exit.At)); d > 1e-9 {
				t.Fatalf("entry %d is %g m off", i, d)
			}
			if d := e.Heading.Off(was.Heading + turn).Abs(); d > 1e-9 {
				t.Fatalf("entry %d is turned by %g", i, d)
			}
		}
		for i, s := range moved.Footprint() {
			was := o.Footprint()[i]
			if d := s.A.Dist(move(was.A)) + s.B.Dist(move(was.B)); d > 1e-9 {
				t.Fatalf("footprint %d is %g m off", i, d)
			}
		}
	})
}

func TestTableIsTakenFromAnySide(t *testing.T) {
	for _, e := range drawn(Table).Entries(3) {
		assert.True(t, Step{Obstacle: 3}.Takes(e))
		assert.True(t, Step{Obstacle: 3, Reverse: true}.Takes(e))
	}
	jump := drawn(Jump).Entries(3)
	assert.True(t, Step{Obstacle: 3}.Takes(jump[0]))
	assert.False(t, Step{Obstacle: 3}.Takes(jump[1]))
	assert.False(t, Step{Obstacle: 2}.Takes(jump[0]))
	assert.False(t, Step{Obstacle: 3, Reverse: true}.Takes(drawn(Spread).Entries(3)[1]), "wrong way")
}

func TestKindsByName(t *testing.T) {
	require.Len(t, KindNames(), int(KindCount))
	for i, name := range KindNames() {
		k, ok := KindOf(name)
		assert.True(t, ok)
		assert.Equal(t, Kind(i), k)
		assert.Equal(t, name, k.String())
	}
	_, ok := KindOf("hoop")
	assert.False(t, ok)
	assert.Equal(t, "unknown obstacle", KindCount.String())
	assert.Equal(t, "a jump", Jump.One())
	assert.Equal(t, "an A-frame", AFrame.One())
	assert.Equal(t, "weaves", Weaves.One())
}
