package rulebook

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// about returns the cautions whose words hold part.
func about(list []Caution, part string) []Caution {
	var some []Caution
	for _, c := range list {
		if strings.Contains(c.What, part) {
			some = append(some, c)
		}
	}
	return some
}

func TestFittingCourseHasOnlyTheGeneralCaution(t *testing.T) {
	list := Cautions(row(10, 6), 0.60, Circumstances{}, nil)
	require.Len(t, list, 1)
	assert.Contains(t, list[0].What, "your vet says")
}

// Source: Birch et al. 2016 (126 % of the withers), 2022 survey in Front Vet Sci 8:791617
// (2 in above the shoulder, 110 % at 50 cm).
func TestBarsAgainstTheWithers(t *testing.T) {
	c := row(1, 0)
	for _, v := range []struct {
		bar  float64
		high string // what the caution says of it
	}{
		{0.549, ""}, {0.55, "110 %"}, {0.629, "110 %"}, {0.63, "from 126 %"}, {0.70, "up to 140 %"},
	} {
		c.Obstacles[0].Height = v.bar
		list := about(Cautions(c, 0.50, Circumstances{}, nil), "bar at")
		if v.high == "" {
			assert.Empty(t, list, v.bar)
			continue
		}
		require.Len(t, list, 1, v.bar)
		assert.Contains(t, list[0].What, v.high)
		assert.Contains(t, list[0].What, "your vet")
		assert.Equal(t, []string{"o1"}, list[0].Obstacles)
	}
	assert.Empty(t, about(Cautions(c, 0, Circumstances{}, nil), "bar at"), "withers not known")
	become(c, 1, course.AFrame)
	assert.Empty(t, about(Cautions(c, 0.50, Circumstances{}, nil), "bar at"), "an A-frame has no bar")
}

func TestCrookedApproachIsACaution(t *testing.T) {
	for _, kind := range append(contacts, straights...) {
		c := row(3, 6)
		put(c, kind, 10, 30, 0)
		assert.Empty(t, about(Cautions(c, 0.6, Circumstances{}, nil), "meets"), kind)
		leg := Leg{Number: 4, Approach: geom.Deg(-25)}
		list := about(Cautions(c, 0.6, Circumstances{Legs: []Leg{leg}}, nil), "meets")
		require.Len(t, list, 1, kind)
		assert.Contains(t, list[0].What, "25 degrees")
		assert.Contains(t, list[0].Source, "this program's own")
		c.Obstacles[3].Facing = geom.Deg(40)
		assert.Len(t, about(Cautions(c, 0.6, Circumstances{}, nil), "meets"), 1, "from the map alone")
		leg.Approach = geom.Deg(5)
		assert.Empty(t, about(Cautions(c, 0.6, Circumstances{Legs: []Leg{leg}}, nil), "meets"), "the caller knows better")
	}
}

func TestTightTurnsOnSlipperyGround(t *testing.T) {
	c := row(4, 6)
	legs := []Leg{{Number: 2, Radius: 2, Speed: 5}, {Number: 3, Radius: 10, Speed: 5}, {Number: 4, Speed: 7}}
	turns := func(wet bool) []Caution {
		return about(Cautions(c, 0.6, Circumstances{Wet: wet, Legs: legs}, nil), "turn of")
	}
	c.Surface = "grass"
	assert.Empty(t, turns(false))
	list := turns(true)
	require.Len(t, list, 1)
	assert.Contains(t, list[0].What, "a turn of 2.0 m radius at 5.0 m/s on wet ground pulls 12.5 m/s2")
	assert.Equal(t, []string{"o2"}, list[0].Obstacles)
	c.Surface = "Sand"
	assert.Contains(t, turns(false)[0].What, "on sand")
	assert.Contains(t, turns(true)[0].What, "on wet sand")
}

func TestCrossingCloseInFrontOfALandingDog(t *testing.T) {
	c := row(4, 6)
	legs := []Leg{{Number: 2, Crossing: 1.2}, {Number: 3, Crossing: 2.5}, {Number: 4}, {Number: 99, Crossing: 1}}
	list := about(Cautions(c, 0.6, Circumstances{Legs: legs}, nil), "handler crosses")
	require.Len(t, list, 2)
	assert.Equal(t, []string{"o2"}, list[0].Obstacles)
	assert.Empty(t, list[1].Obstacles, "a number that is not on the course")
	assert.Equal(t, "common practice, no source", list[0].Source)
}

// Source: VDH 2012, I.1: class A1 from 18 months.
func TestYoungDog(t *testing.T) {
	c := row(4, 6)
	vdh := find(t, "VDH 2012")
	young := Cautions(c, 0.6, Circumstances{AgeMonths: 17}, vdh)
	assert.Len(t, about(young, "at least 18 (class A1)"), 1)
	assert.Len(t, about(young, "still be growing"), 1)
	grown := Cautions(c, 0.6, Circumstances{AgeMonths: 18}, vdh)
	assert.Empty(t, about(grown, "months"))
	assert.Empty(t, about(Cautions(c, 0.6, Circumstances{}, vdh), "months"), "age not known")
}

// Every caution has a source and leaves the last word to somebody who can give it.
func TestCautionsDefer(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	seen := 0
	for range 200 {
		c := row(2, 5)
		c.Surface = "sand"
		for k := range course.KindCount {
			put(c, k, 10, 20+5*float64(k), rng.Float64()*360)
		}
		known := Circumstances{AgeMonths: 6, Legs: []Leg{{Number: 3, Radius: 1, Speed: 5, Crossing: 1}}}
		for _, caution := range Cautions(c, 0.3+rng.Float64()*0.3, known, find(t, "VDH 2012")) {
			seen++
			assert.NotEmpty(t, caution.Source)
			assert.NotContains(t, caution.What, "%!")
			assert.Regexp(t, "judge|rulebook|vet", caution.What)
		}
	}
	assert.Greater(t, seen, 1000)
}
