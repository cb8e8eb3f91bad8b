package rulebook

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// Source: FCI 2012 obstacles: L 55-65, M 35-45, S 25-35 cm; KC current page: walls too.
func TestJumpHeights(t *testing.T) {
	c := row(17, 6)
	c.Obstacles[4].Height = 0.66
	found := named(Check(c, find(t, "FCI 2012"), "L"), "jump height")
	require.Len(t, found, 1)
	assert.Equal(t, "o5 is 0.66 m high, asked for class L is 0.55 to 0.65 m: 0.01 m too high", found[0].What)
	assert.Len(t, named(Check(c, find(t, "FCI 2012"), "M"), "jump height"), 17)
	assert.Empty(t, named(Check(c, find(t, "FCI 2012"), ""), "jump height"), "class not known")

	become(c, 6, course.Wall).Height = 0.40
	assert.Len(t, named(Check(c, find(t, "FCI 2012"), "L"), "jump height"), 1)
	assert.Len(t, named(Check(c, find(t, "KC 2022"), "L"), "jump height"), 2)
}

func TestRecalledFigureIsNeverHeldAgainstACourse(t *testing.T) {
	r := find(t, "FCI 2023")
	h, ok := r.height("I")
	require.True(t, ok)
	require.Equal(t, Memory, h.Kind)
	assert.Empty(t, named(Check(row(17, 6), r, "I"), "jump height"), "bars of 0.60 m are above the recalled 0.50 m")
}

func TestDoubtIsTold(t *testing.T) {
	found := named(Check(row(17, 8), find(t, "FCI 2023"), "L"), "spacing")
	require.NotEmpty(t, found)
	assert.True(t, found[0].Doubtful)
	assert.Equal(t, "FCI 2012", found[0].Edition, "the text the figure is from, not the one asked for")
	assert.Contains(t, found[0].What, "doubtful: the 2023 text was not seen on this point")
}

// Source: FCI 2012 and 2023: tyre, long jump and spread in a straight line from the
// obstacle before. The angle is the program's own.
func TestStraightApproach(t *testing.T) {
	for _, kind := range straights {
		for _, v := range []struct {
			turned float64
			off    bool
		}{{0, false}, {20, false}, {-20, false}, {20.1, true}, {-20.1, true}, {170, true}} {
			c := row(16, 6)
			o := put(c, kind, 10, 110, v.turned)
			o.Length = 0
			found := named(Check(c, find(t, "FCI 2012"), ""), "straight approach")
			require.Equal(t, v.off, len(found) == 1, "%s %+v: %v", kind, v, found)
			if v.off {
				assert.Contains(t, found[0].What, "this program's own limit")
			}
		}
	}
	c := row(16, 6)
	put(c, course.Wall, 10, 110, 60)
	assert.Empty(t, named(Check(c, find(t, "FCI 2012"), ""), "straight approach"))
}

// Source: KC H(1)(B)4.(11), 2019: tunnel at least 3 m long and 600 mm across, curved
// in one direction only.
func TestKennelClubTunnel(t *testing.T) {
	r := find(t, "KC 2022")
	c := row(16, 6)
	o := become(c, 5, course.Tunnel)
	assert.Empty(t, named(Check(c, r, ""), "tunnel shape"))
	o.Through = []geom.Point{{X: 0}, {Y: 2}, {X: 2, Y: 4}, {X: 2, Y: 6}}
	assert.Len(t, named(Check(c, r, ""), "tunnel shape"), 1, "right, then left, as an S")
	o.Through = []geom.Point{{X: 0}, {Y: 2}, {X: 2, Y: 4}, {X: 4, Y: 4}}
	assert.Empty(t, named(Check(c, r, ""), "tunnel shape"), "right twice")
	o.Length, o.Width = 2.9, 0.5
	assert.Len(t, named(Check(c, r, ""), "obstacle size"), 2)
}

// Source: FCI 2012 obstacles: spread at most S 30, M 40, L 55 cm; USDAA: weaves 10-12.
func TestObstacleSizes(t *testing.T) {
	c := row(17, 6)
	become(c, 5, course.Spread).Length = 0.45
	assert.Len(t, named(Check(c, find(t, "FCI 2012"), "M"), "obstacle size"), 1)
	assert.Empty(t, named(Check(c, find(t, "FCI 2012"), "L"), "obstacle size"))
	assert.Empty(t, named(Check(c, find(t, "FCI 2012"), ""), "obstacle size"), "class not known")
	o := become(c, 6, course.Weaves)
	assert.Empty(t, named(Check(c, find(t, "USDAA"), ""), "weave poles"))
	o.Poles = 9
	assert.Len(t, named(Check(c, find(t, "USDAA"), ""), "weave poles"), 1)
}

// Source, second-hand and doubtful: FCI 2018 as announced: 1 m clear beside every
// obstacle, except a tunnel under a dog walk or an A-frame.
func TestClearGround(t *testing.T) {
	r := find(t, "FCI 2018")
	c := row(2, 20)
	put(c, course.DogWalk, 15, 13, 0)
	o := put(c, course.Tunnel, 15, 13, 0)
	o.Through = []geom.Point{{X: 13, Y: 13}, {X: 17, Y: 13}}
	assert.Empty(t, named(Check(c, r, ""), "clear ground"))
	put(c, course.Jump, 16.5, 16, 0) // its bar ends 0.90 m beside the plank
	found := named(Check(c, r, ""), "clear ground")
	require.Len(t, found, 1)
	assert.Equal(t, []string{"o3", "o5"}, found[0].Obstacles)
	assert.Contains(t, found[0].What, "0.90 m apart, asked is at least 1.00 m (second-hand and doubtful")
}

// Hand-worked: legs of 6, 8 and 10 m (a 6-8-10 triangle) are 24 m between centres.
func TestCentreLengthByHand(t *testing.T) {
	c := &course.Course{}
	for _, p := range [][2]float64{{0, 0}, {0, 6}, {8, 6}, {0, 0}} {
		put(c, course.Jump, p[0], p[1], 0)
	}
	assert.InDelta(t, 24, CentreLength(c), 1e-12)
}

// Source: KC judges' training: straight lines between centres; AKC judges' guide: the
// dog's expected path; NALA: the handler's line.
func TestEachMeasuresItsOwnLine(t *testing.T) {
	c := row(17, 6)
	for name, want := range map[string]Measured{
		"KC 2022":  {Metres: 96, Measure: Centres, Asked: Centres},
		"AKC 2010": {Metres: 110, Measure: DogPath, Asked: DogPath},
		"NALA":     {Metres: 90, Measure: HandlerLine, Asked: HandlerLine},
		"FCI 2012": {Metres: 110, Measure: DogPath, Asked: Unstated},
	} {
		got := find(t, name).Measure(c, 110, 90)
		assert.NotEmpty(t, got.Source.Edition, name)
		got.Source = Source{}
		assert.Equal(t, want, got, name)
	}
	assert.Equal(t, Measured{Metres: 96, Measure: Centres, Asked: DogPath}.Metres, find(t, "AKC 2010").Measure(c, 0, 0).Metres)
	var none *Rules
	assert.Equal(t, Measured{Metres: 96, Measure: Centres}, none.Measure(c, 0, 0))
}

// Source: FCI before 2007, 2007 and 2012: 100-200 m.
func TestCourseLength(t *testing.T) {
	for _, name := range []string{"FCI before 2007", "FCI 2007", "FCI 2012"} {
		r := find(t, name)
		c := row(17, 6) // 96 m between centres
		assert.Len(t, named(Check(c, r, ""), "course length"), 1, name)
		for path, off := range map[float64]bool{99.9: true, 100: false, 200: false, 200.1: true} {
			assert.Equal(t, off, len(named(CheckPath(c, r, "", path), "course length")) == 1, "%s %g", name, path)
		}
	}
}
