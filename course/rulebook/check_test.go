package rulebook

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// row is a straight course of n hurdles gap metres apart, in a ring of 24 by 200 m.
func row(n int, gap float64) *course.Course {
	c := &course.Course{Ring: geom.Point{X: 24, Y: 200}, Start: geom.Point{X: 10}}
	for i := range n {
		put(c, course.Jump, 10, 3+gap*float64(i), 0)
	}
	return c
}

// put adds an obstacle to a course and to its order and returns it for changes.
func put(c *course.Course, kind course.Kind, x, y, facing float64) *course.Obstacle {
	o := course.Obstacle{ID: fmt.Sprintf("o%d", len(c.Obstacles)+1), Kind: kind, At: geom.Point{X: x, Y: y}, Facing: geom.Deg(facing)}
	if kind == course.Tunnel {
		o.Through = []geom.Point{{X: x, Y: y - 2}, {X: x, Y: y + 2}}
	}
	o.Defaults(0.6)
	c.Obstacles = append(c.Obstacles, o)
	c.Order = append(c.Order, course.Step{Obstacle: len(c.Obstacles) - 1})
	return &c.Obstacles[len(c.Obstacles)-1]
}

// become changes number n of a course to another kind at the same place.
func become(c *course.Course, n int, kind course.Kind) *course.Obstacle {
	o := &c.Obstacles[n-1]
	*o = course.Obstacle{ID: o.ID, Kind: kind, At: o.At, Facing: o.Facing}
	if kind == course.Tunnel {
		o.Through = []geom.Point{{X: o.At.X, Y: o.At.Y - 2}, {X: o.At.X, Y: o.At.Y + 2}}
	}
	o.Defaults(0.6)
	return o
}

// named returns the findings of one rule.
func named(found []Finding, rule string) []Finding {
	var list []Finding
	for _, f := range found {
		if f.Rule == rule {
			list = append(list, f)
		}
	}
	return list
}

func TestFittingCourseHasNoFinding(t *testing.T) {
	c := row(17, 6.5)
	assert.Empty(t, Check(c, find(t, "FCI 2012"), "L"))
	assert.Empty(t, Check(c, find(t, "USDAA"), ""))
	assert.Empty(t, Check(c, nil, "L"))
	assert.Empty(t, Check(&course.Course{}, find(t, "FCI 2012"), "L"))
}

// Source: FCI 2012 layout: S 4-7 m, M and L 5-7 m; limits taken as included.
func TestSpacingFCI2012(t *testing.T) {
	r := find(t, "FCI 2012")
	for _, v := range []struct {
		gap  float64
		size Size
		off  bool
	}{
		{4, "S", false}, {3.99, "S", true}, {7, "S", false}, {7.01, "S", true},
		{4.99, "M", true}, {5, "M", false}, {5, "L", false}, {4.99, "L", true}, {7, "L", false}, {7.01, "L", true},
		{4, "", false}, {3.99, "", true}, // class not known: as lenient as the most lenient
	} {
		found := named(Check(row(17, v.gap), r, v.size), "spacing")
		if v.off {
			assert.Len(t, found, 16, "%+v", v)
		} else {
			assert.Empty(t, found, "%+v", v)
		}
	}
	found := named(Check(row(16, 4.2), r, "L"), "spacing")
	require.NotEmpty(t, found)
	assert.Equal(t, Finding{
		Rule: "spacing", Section: "layout", Edition: "FCI 2012", Kind: RuleMaker, Obstacles: []string{"o1", "o2"},
		What: "o1 to o2 is 4.20 m, asked is 5 to 7 m: 0.80 m too short, end to entrance (how to measure was not seen)",
	}, found[0])
}

// Source: KC H(1)(B)1.a.(3) from 2017: 5-10 m, straight line centre to centre. A dog
// walk 10.5 m long shows the difference: its end is 4.75 m before the next hurdle.
func TestSpacingKennelClubIsCentreToCentre(t *testing.T) {
	c := row(1, 0)
	put(c, course.DogWalk, 10, 12, 0)
	put(c, course.Jump, 10, 22, 0)
	assert.Empty(t, named(Check(c, find(t, "KC 2017"), ""), "spacing"))
	found := named(Check(c, find(t, "FCI 2012"), "L"), "spacing")
	require.Len(t, found, 2)
	assert.Contains(t, found[1].What, "4.75 m")

	c.Obstacles[2].At.Y = 22.01
	assert.Len(t, named(Check(c, find(t, "KC 2022"), ""), "spacing"), 1)
	found = named(Check(c, find(t, "KC 2017"), ""), "spacing")
	require.Len(t, found, 1)
	assert.Equal(t, "H(1)(B)1.a.(3)", found[0].Section)
	assert.Contains(t, found[0].What, "o2 to o3 is 10.01 m, asked is 5 to 10 m: 0.01 m too long, centre to centre")
}

// Source: CPE course design guidelines 2021: 16-26 ft; 16-17 ft at most twice, 24-26 ft
// at most three times; spreads 20-24 ft.
func TestSpacingCPE(t *testing.T) {
	r := find(t, "CPE 2021")
	lay := func(feet ...float64) *course.Course {
		c := row(1, 0)
		c.Units = course.Feet
		y := 3.0
		for _, f := range feet {
			y += f * foot
			put(c, course.Jump, 10, y, 0)
		}
		return c
	}
	assert.Empty(t, Check(lay(16, 18, 20, 24, 26), r, ""))
	assert.Len(t, Check(lay(15.9, 26.1), r, ""), 2)
	assert.Empty(t, Check(lay(16, 17, 20), r, ""), "two short ones may be")
	found := Check(lay(16, 17, 16.5), r, "")
	require.Len(t, found, 1)
	assert.Contains(t, found[0].What, "3 distances of 16 to 17 ft, allowed are 2")
	assert.Equal(t, []string{"o1", "o2", "o3", "o4"}, found[0].Obstacles)
	assert.Empty(t, Check(lay(25, 26, 24, 25, 24), r, ""), "24 ft itself is not rare")
	assert.Len(t, Check(lay(25, 26, 25, 24.5), r, ""), 1)

	c := lay(19, 19)
	become(c, 2, course.Spread).Length = 0.01
	found = Check(c, r, "")
	require.Len(t, found, 1)
	assert.Contains(t, found[0].What, "asked is 20 to 24 ft")
}

// Source: FCI 2012 general: 15-22 obstacles, at least 7 hurdles; KC 10-20; USDAA
// 14-16 or 17-20.
func TestObstacleCounts(t *testing.T) {
	for _, v := range []struct {
		rules string
		n     int
		off   bool
	}{
		{"FCI 2012", 14, true}, {"FCI 2012", 15, false}, {"FCI 2012", 22, false}, {"FCI 2012", 23, true},
		{"FCI 2007", 15, false}, {"FCI 2007", 21, true}, {"FCI before 2007", 12, false}, {"FCI before 2007", 11, true},
		{"KC 2017", 9, true}, {"KC 2017", 10, false}, {"KC 2022", 20, false}, {"KC 2022", 21, true},
		{"USDAA", 13, true}, {"USDAA", 14, false}, {"USDAA", 17, false}, {"USDAA", 20, false}, {"USDAA", 21, true},
	} {
		found := named(Check(row(v.n, 6), find(t, v.rules), ""), "number of obstacles")
		assert.Equal(t, v.off, len(found) == 1, "%+v", v)
	}
	found := named(Check(row(13, 6), find(t, "USDAA"), ""), "number of obstacles")
	assert.Equal(t, "13 obstacles, asked are 14 to 16 (starters, novice), 17 to 20 (advanced, masters)", found[0].What)
}

func TestHurdlesAreCounted(t *testing.T) {
	c := row(15, 6)
	for n := 2; n <= 9; n++ {
		become(c, n, course.Wall)
	}
	assert.Empty(t, named(Check(c, find(t, "FCI 2012"), ""), "hurdles"))
	become(c, 10, course.Wall)
	found := named(Check(c, find(t, "FCI 2012"), ""), "hurdles")
	require.Len(t, found, 1)
	assert.Equal(t, "6 on the course, at least 7 asked", found[0].What)
	assert.Empty(t, named(Check(c, find(t, "FCI 2007"), ""), "hurdles"), "walls count there")
}

// Source, second-hand: FCI 2023 change list: weaves, tyre, wall once, weaves
// compulsory, at most 5 tunnel passages. Passages count, not tunnels.
func TestKindsFCI2023(t *testing.T) {
	r := find(t, "FCI 2023")
	c := row(17, 6)
	assert.Len(t, named(Check(c, r, ""), "weaves"), 1, "none")
	become(c, 2, course.Weaves)
	assert.Empty(t, named(Check(c, r, ""), "weaves"))
	become(c, 3, course.Tunnel)
	for range 4 {
		c.Order = append(c.Order, course.Step{Obstacle: 2})
	}
	assert.Empty(t, named(Check(c, r, ""), "tunnel passages"))
	c.Order = append(c.Order, course.Step{Obstacle: 2})
	found := named(Check(c, r, ""), "tunnel passages")
	require.Len(t, found, 1)
	assert.Equal(t, "6 on the course, at most 5 allowed (second-hand figure)", found[0].What)
	assert.Equal(t, []string{"o3"}, found[0].Obstacles)
	become(c, 5, course.Wall)
	assert.Empty(t, named(Check(c, r, ""), "wall"))
	become(c, 6, course.Wall)
	assert.Len(t, named(Check(c, r, ""), "wall"), 1)
}

// Source: FCI 2018 (pdfslide.us): three different contact obstacles on an agility
// course; a jumping course has none.
func TestContactObstaclesFCI2018(t *testing.T) {
	r := find(t, "FCI 2018")
	c := row(17, 12)
	assert.Empty(t, named(Check(c, r, ""), "contact obstacles"))
	become(c, 3, course.AFrame)
	become(c, 5, course.AFrame)
	become(c, 7, course.Seesaw)
	found := named(Check(c, r, ""), "contact obstacles")
	require.Len(t, found, 1)
	assert.Equal(t, "2 on the course, at least 3 asked", found[0].What)
	become(c, 5, course.DogWalk)
	assert.Empty(t, named(Check(c, r, ""), "contact obstacles"))
}

// Source: FCI 2012, Brazilian text: bar hurdles first and last; FCI 2023 (change
// list): any hurdle type; DGI: hurdle first, hurdle or spread last.
func TestFirstAndLast(t *testing.T) {
	c := row(17, 6)
	become(c, 1, course.Wall)
	become(c, 17, course.Spread)
	off := func(rules string) []string {
		var ids []string
		for _, f := range Check(c, find(t, rules), "") {
			if strings.HasSuffix(f.Rule, " obstacle") {
				ids = append(ids, f.Obstacles...)
			}
		}
		return ids
	}
	assert.Equal(t, []string{"o1", "o17"}, off("FCI 2012"))
	assert.Equal(t, []string{"o17"}, off("FCI 2023"))
	assert.Equal(t, []string{"o1"}, off("DGI 2018"))
	become(c, 17, course.Tunnel)
	found := named(Check(c, find(t, "DGI 2018"), ""), "last obstacle")
	require.Len(t, found, 1)
	assert.Equal(t, "o17 is a tunnel, asked is jump or spread", found[0].What)
}

// Source: DGI course page: no two contacts in a row.
func TestContactsInARow(t *testing.T) {
	c := row(17, 12)
	become(c, 3, course.AFrame)
	become(c, 5, course.DogWalk)
	assert.Empty(t, named(Check(c, find(t, "DGI 2018"), ""), "contacts in a row"))
	become(c, 4, course.Seesaw)
	found := named(Check(c, find(t, "DGI 2018"), ""), "contacts in a row")
	require.Len(t, found, 2)
	assert.Equal(t, []string{"o3", "o4"}, found[0].Obstacles)
}

// Source: FCI 2012 general: course ring 20x40 m; KC H(1)9.a, 2022: 32x32 m outdoors.
func TestRingSize(t *testing.T) {
	c := row(17, 6)
	for _, v := range []struct {
		rules string
		x, y  float64
		off   bool
	}{
		{"FCI 2012", 20, 40, false}, {"FCI 2012", 40, 20, false}, {"FCI 2012", 19.9, 40, true}, {"FCI 2012", 30, 30, true},
		{"KC 2022", 32, 32, false}, {"KC 2022", 31.9, 40, true}, {"FCI 2012", 0, 0, false},
	} {
		c.Ring = geom.Point{X: v.x, Y: v.y}
		assert.Equal(t, v.off, len(named(Check(c, find(t, v.rules), ""), "ring size")) == 1, "%+v", v)
	}
}
