package report

import (
	"bytes"
	"encoding/json"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/course/rulebook"
	"cuewalk/plan/team"
	"cuewalk/sim/reading"
)

// wrapped is a course with a 180, a trap straight on and a tunnel, under rules with a
// formula for the course time (FCI 2012).
func wrapped(t *testing.T, id string) *reading.Reading {
	c := &course.Course{
		Name: "Quarry Meadow", Rules: "FCI 2012", Ring: geom.Point{X: 40, Y: 40}, Start: geom.Point{X: 20, Y: 10},
		Obstacles: []course.Obstacle{
			{ID: "gate", Kind: course.Jump, At: geom.Point{X: 20, Y: 16}},
			{ID: "elm", Kind: course.Jump, At: geom.Point{X: 20, Y: 22}},
			{ID: "ash", Kind: course.Jump, At: geom.Point{X: 24, Y: 22}, Facing: geom.Deg(180)},
			{ID: id, Kind: course.Jump, At: geom.Point{X: 20, Y: 27}},
			{ID: "tube", Kind: course.Tunnel, Through: []geom.Point{{X: 24, Y: 15}, {X: 24, Y: 11}}, At: geom.Point{X: 24, Y: 13}},
		},
		Order: []course.Step{{Obstacle: 0}, {Obstacle: 1}, {Obstacle: 2}, {Obstacle: 4}},
	}
	for i := range c.Obstacles {
		c.Obstacles[i].Defaults(0.6)
	}
	tm, err := team.Preset("large", "average")
	require.NoError(t, err)
	rules, err := rulebook.Find(c.Rules)
	require.NoError(t, err)
	return reading.Read(c, &tm, rules)
}

func readJSON(t *testing.T, r *reading.Reading, speed float64) []byte {
	var b bytes.Buffer
	require.NoError(t, ReadJSON(&b, r, speed))
	return b.Bytes()
}

func readText(t *testing.T, r *reading.Reading, speed float64) string {
	var b bytes.Buffer
	require.NoError(t, ReadText(&b, r, speed))
	return b.String()
}

// The keys are a promise: these, and no others, at every place.
var promisedReading = map[string][]string{
	"":          {"course", "rules", "length_m", "sct_s", "mct_s", "findings", "cautions", "legs", "traps"},
	"findings":  {"rule", "section", "edition", "obstacles", "what"},
	"cautions":  {"what", "obstacles", "source"},
	"legs":      {"leg", "obstacle", "distance_m", "turn_deg", "approach_deg", "lead", "line", "view", "challenges"},
	"legs.line": {"obstacle", "range_m"},
	"legs.view": {"obstacle", "bearing_deg", "range_m", "separation_deg"},
	"traps":     {"leg", "obstacle", "pull", "why"},
}

func TestInView(t *testing.T) {
	assert.Equal(t, "<0.1", inView(0.02))
	assert.Equal(t, "0.1", inView(0.05))
	assert.Equal(t, "1.3", inView(1.26))
}

func TestReadingKeys(t *testing.T) {
	var v any
	require.NoError(t, json.Unmarshal(readJSON(t, wrapped(t, "trap"), 4), &v))
	seen := map[string][]string{}
	keys(v, "", seen)
	require.Len(t, seen, len(promisedReading))
	for place, want := range promisedReading {
		assert.Equal(t, slices.Sorted(slices.Values(want)), seen[place], "keys at %q", place)
	}
	assert.NotEmpty(t, slices.Collect(maps.Keys(seen)))
}

// Figures of the layout, worked by hand: ash stands 4 m beside elm and is taken back
// down, a 180 to the right; the landing line over elm meets the dummy 5 m on.
func TestReadingFigures(t *testing.T) {
	var got Reading
	require.NoError(t, json.Unmarshal(readJSON(t, wrapped(t, "trap"), 4), &got))
	leg := got.Legs[2]
	assert.Equal(t, "ash", leg.Obstacle)
	assert.Equal(t, "right", leg.Lead)
	assert.Positive(t, *leg.Turn)
	assert.Contains(t, leg.Challenges, "180: right")
	require.NotEmpty(t, leg.Line)
	assert.Equal(t, "trap", leg.Line[0].Obstacle)
	assert.InDelta(t, 5, *leg.Line[0].Range, 0.05)
	require.NotNil(t, got.SCT)
	assert.InDelta(t, *got.Length/4, *got.SCT, 0.011, "FCI: length over speed")
	for _, v := range leg.View {
		if v.Obstacle == "ash" {
			assert.Zero(t, *v.Separation)
		}
	}
}

// Without a speed, or under rules without a formula, the times are absent, not null.
func TestReadingWithoutTimes(t *testing.T) {
	r := wrapped(t, "trap")
	assert.NotContains(t, string(readJSON(t, r, 0)), "sct_s")
	r = reading.Read(r.Course, r.Team, nil)
	src := string(readJSON(t, r, 4))
	assert.NotContains(t, src, "sct_s")
	assert.NotContains(t, src, "null")
	assert.Contains(t, src, `"findings": []`)
}

// Every line fits, and what a file holds never reaches the terminal raw.
func TestReadingText(t *testing.T) {
	text := readText(t, wrapped(t, "\x1b[31mred"), 4)
	for _, l := range strings.Split(text, "\n") {
		assert.LessOrEqual(t, ansi.StringWidth(l), Columns, "%q", l)
	}
	assert.NotContains(t, text, "\x1b")
	for _, want := range []string{"Quarry Meadow", "TRAPS", "LEG BY LEG", "180: right", "tight and fast into a trap", "standard course time", "CAUTIONS"} {
		assert.Contains(t, text, want)
	}
}

func TestReadingInFeet(t *testing.T) {
	r := wrapped(t, "trap")
	r.Course.Units = course.Feet
	assert.Contains(t, readText(t, r, 0), " ft")
}

// The text keeps the right one however many pull more, and the order in which they were seen.
func TestStrongestViews(t *testing.T) {
	views := make([]reading.View, 10)
	for i := range views {
		views[i] = reading.View{Entry: i, Pull: float64(i)}
	}
	views[0].Right = true
	var shown []int
	for _, v := range strongest(views) {
		shown = append(shown, v.Entry)
	}
	assert.Equal(t, []int{0, 5, 6, 7, 8, 9}, shown)
	assert.Len(t, strongest(views[:4]), 4)
}
