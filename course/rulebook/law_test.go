package rulebook

import (
	"encoding/json"
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// anyCourse draws a course of every kind of obstacle, some taken twice or reversed.
func anyCourse(t *rapid.T) *course.Course {
	c := &course.Course{Ring: geom.Point{X: 30, Y: 40}}
	n := rapid.IntRange(1, 12).Draw(t, "obstacles")
	for i := range n {
		kind := course.Kind(rapid.IntRange(0, int(course.KindCount)-1).Draw(t, "kind"))
		x, y := rapid.IntRange(0, 300).Draw(t, "x"), rapid.IntRange(0, 400).Draw(t, "y")
		put(c, kind, float64(x)/10, float64(y)/10, float64(rapid.IntRange(0, 359).Draw(t, "facing")))
		c.Obstacles[i].Wings = rapid.Bool().Draw(t, "wings")
	}
	for range rapid.IntRange(0, 8).Draw(t, "again") {
		c.Order = append(c.Order, course.Step{Obstacle: rapid.IntRange(0, n-1).Draw(t, "which")})
	}
	for i, s := range c.Order {
		kind := c.Obstacles[s.Obstacle].Kind
		c.Order[i].Reverse = !kind.OneWay() && rapid.Bool().Draw(t, "reverse")
	}
	return c
}

// shifted is c moved on the map by whole decimetres, which rounding survives.
func shifted(c *course.Course, d geom.Point) *course.Course {
	m := *c
	m.Start = c.Start.Add(d)
	m.Obstacles = slices.Clone(c.Obstacles)
	for i, o := range m.Obstacles {
		m.Obstacles[i].At = o.At.Add(d)
		m.Obstacles[i].Through = nil
		for _, p := range o.Through {
			m.Obstacles[i].Through = append(m.Obstacles[i].Through, p.Add(d))
		}
	}
	return &m
}

func TestMovingTheCourseChangesNoCheckedPair(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCourse(t)
		r := all[rapid.IntRange(0, len(all)-1).Draw(t, "rules")]
		moved := shifted(c, geom.Point{X: float64(rapid.IntRange(-50, 50).Draw(t, "dx")), Y: float64(rapid.IntRange(-50, 50).Draw(t, "dy"))})
		for n := 2; n <= len(c.Order); n++ {
			a, b := &checker{c: c, r: r}, &checker{c: moved, r: r}
			for _, m := range []Measure{Centres, Unstated} {
				assert.InDelta(t, a.gap(n, m), b.gap(n, m), 1e-9)
			}
		}
		assert.InDelta(t, CentreLength(c), CentreLength(moved), 1e-9)
		assert.Len(t, Check(moved, r, ""), len(Check(c, r, "")))
	})
}

// A finding names only obstacles of the course, and says which text it is from.
func TestFindingsAreWellFormed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCourse(t)
		for _, r := range all {
			sizes := []Size{""}
			for _, class := range r.Classes {
				sizes = append(sizes, class.Size)
			}
			for _, f := range Check(c, r, rapid.SampledFrom(sizes).Draw(t, "size")) {
				assert.NotEmpty(t, f.Rule)
				assert.NotEmpty(t, f.Edition)
				assert.NotEmpty(t, f.What)
				assert.NotContains(t, f.What, "%!")
				assert.NotEqual(t, Memory, f.Kind)
				for _, id := range f.Obstacles {
					assert.GreaterOrEqual(t, c.Find(id), 0)
				}
			}
		}
	})
}

func TestFeetAndMetresFindTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCourse(t)
		feet := *c
		feet.Units = course.Feet
		for _, r := range all {
			a, b := Check(c, r, ""), Check(&feet, r, "")
			require.Len(t, b, len(a))
			for i := range a {
				assert.Equal(t, a[i].Obstacles, b[i].Obstacles)
			}
		}
	})
}

func TestClassesGrowWithTheDog(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := all[rapid.IntRange(0, len(all)-1).Draw(t, "rules")]
		a, b := rapid.IntRange(150, 900).Draw(t, "mm"), rapid.IntRange(150, 900).Draw(t, "mm")
		small, ok := r.Class(float64(min(a, b)) / 1000)
		large, _ := r.Class(float64(max(a, b)) / 1000)
		at := func(c Class) int {
			return slices.IndexFunc(r.Classes, func(d Class) bool { return d.Size == c.Size })
		}
		assert.Equal(t, len(r.Classes) > 0, ok)
		assert.LessOrEqual(t, at(small), at(large))
		assert.LessOrEqual(t, Bar(r, float64(min(a, b))/1000), Bar(r, float64(max(a, b))/1000))
	})
}

func TestHundredthsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := Hundredths(rapid.Int64Range(0, 1e13).Draw(t, "h"))
		back, err := ParseHundredths(h.String())
		require.NoError(t, err)
		assert.Equal(t, h, back)
		data, err := json.Marshal(h)
		require.NoError(t, err)
		assert.Equal(t, h.String(), string(data))
	})
}

func TestParseHundredths(t *testing.T) {
	for s, want := range map[string]Hundredths{"60": 6000, "60.5": 6050, "68.17": 6817, "0.01": 1, "007": 700} {
		got, err := ParseHundredths(s)
		require.NoError(t, err, s)
		assert.Equal(t, want, got, s)
	}
	for _, s := range []string{"", ".", ".5", "5.", "5.123", "-1", "+1", "1e3", "1,5", " 1", "1234567890123", "NaN", "٣"} {
		_, err := ParseHundredths(s)
		assert.Error(t, err, "%q", s)
	}
	assert.Equal(t, "-3.07", Hundredths(-307).String())
}

// Places are those of a slow count: one more than the runs that are better.
func TestPlacesCountTheBetterRuns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := fallback
		var scores []Score
		for range rapid.IntRange(0, 12).Draw(t, "runs") {
			s, _ := r.Score(Run{
				Time:     Hundredths(rapid.IntRange(4998, 5003).Draw(t, "time")),
				Faults:   rapid.IntRange(0, 2).Draw(t, "faults"),
				Refusals: rapid.IntRange(0, 3).Draw(t, "refusals"),
			}, 5000, 5002)
			scores = append(scores, s)
		}
		key := func(s Score) string { return fmt.Sprintf("%09d %09d %09d", s.Total, s.Course, s.Time) }
		for i, place := range Places(scores) {
			want := 1
			for _, s := range scores {
				if s.Eliminated == "" && key(s) < key(scores[i]) {
					want++
				}
			}
			if scores[i].Eliminated != "" {
				want = 0
			}
			assert.Equal(t, want, place)
		}
	})
}

// A longer course never gets less time, a faster speed never more.
func TestTimesFollowLengthAndSpeed(t *testing.T) {
	r := find(t, "FCI before 2007")
	rapid.Check(t, func(t *rapid.T) {
		length, speed := rapid.Float64Range(1, 400).Draw(t, "m"), rapid.Float64Range(0.5, 8).Draw(t, "m/s")
		a, ok := r.Times(length, speed, false)
		require.True(t, ok)
		longer, _ := r.Times(length+1, speed, false)
		faster, _ := r.Times(length, speed+0.1, false)
		assert.Greater(t, longer.SCT, a.SCT)
		assert.LessOrEqual(t, faster.SCT, a.SCT)
		assert.Equal(t, 2*a.SCT, a.MCT)
		assert.InDelta(t, length/speed, a.SCT.Float(), 0.02*(1+length/speed/speed))
	})
}

// Hand-worked: 100 m at 3 m/s are 33.333 s, 200 m 66.667 s.
func TestTimesAreRoundedToTheNearestHundredth(t *testing.T) {
	r := find(t, "FCI before 2007")
	for length, want := range map[float64]string{100: "33.33", 200: "66.67"} {
		times, ok := r.Times(length, 3, false)
		require.True(t, ok)
		assert.Equal(t, want, times.SCT.String(), length)
	}
}

func TestNoFormulaNoTimes(t *testing.T) {
	_, ok := find(t, "KC 2022").Times(150, 3, false)
	assert.False(t, ok)
	_, ok = find(t, "KC 2022").Score(Run{}, 0, 0)
	assert.False(t, ok)
	_, ok = find(t, "KC 2022").FromBest(3000)
	assert.False(t, ok)
	assert.Equal(t, Times{SCT: 4000}, find(t, "KC 2022").MaximumFor(4000))
	for _, v := range [][2]float64{{0, 3}, {150, 0}, {-1, 3}, {150, 1e-9}, {1e300, 1}} {
		_, ok = find(t, "FCI 2012").Times(v[0], v[1], false)
		assert.False(t, ok, "%v", v)
	}
}
