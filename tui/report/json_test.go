package report

import (
	"bytes"
	"encoding/json"
	"maps"
	"math"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"cuewalk/sim"
	"cuewalk/sim/advice"
)

func encoded(t require.TestingT, r *sim.Rehearsal) []byte {
	var b bytes.Buffer
	require.NoError(t, JSON(&b, r, nil, nil))
	return b.Bytes()
}

func TestJSON(t *testing.T) { golden(t, "report.json", encoded(t, sample())) }

// The keys are a promise: these, and no others, at every place.
var promised = map[string][]string{
	"": {"course", "plan", "team", "seed", "runs", "length_m", "clean", "clean_low", "clean_high", "time_s", "time_s_p10",
		"time_s_p90", "legs", "cues", "helps", "tightest_cue"},
	"helps":       {"leg", "cue", "change", "leg_gain", "gain"},
	"legs":        {"leg", "from", "to", "clean", "faults", "speed_ms", "stride_m", "takeoff_m", "landing_m", "radius_m", "time_s", "hidden", "cues"},
	"legs.cues":   {"when", "given_s", "late_s", "short_s", "read_before_takeoff", "manoeuvre", "slack_early_s", "slack_late_s", "slack_m", "slack_way"},
	"legs.faults": {"kind", "obstacle", "taken", "chance", "bearing_deg", "range_m", "in_view_s", "why"},
	"legs.hidden": {"obstacle", "seconds"},
	"cues":        {"when", "given_s", "late_s", "short_s", "read_before_takeoff", "manoeuvre", "slack_early_s", "slack_late_s", "slack_m", "slack_way"},
}

// keys notes the keys of every object in v by the place it is at.
func keys(v any, at string, seen map[string][]string) {
	switch v := v.(type) {
	case []any:
		for _, e := range v {
			keys(e, at, seen)
		}
	case map[string]any:
		seen[at] = slices.Sorted(maps.Keys(v))
		for k, e := range v {
			place := k
			if at != "" {
				place = at + "." + k
			}
			keys(e, place, seen)
		}
	}
}

func checkKeys(t *testing.T, src []byte) {
	var v any
	require.NoError(t, json.Unmarshal(src, &v))
	seen := map[string][]string{}
	keys(v, "", seen)
	require.Len(t, seen, len(promised))
	for place, want := range promised {
		assert.Equal(t, slices.Sorted(slices.Values(want)), seen[place], "keys at %q", place)
	}
}

func TestJSONKeys(t *testing.T) {
	r := sample()
	var b bytes.Buffer
	require.NoError(t, JSON(&b, r, []advice.Found{{Number: 2, Advice: []advice.Advice{{Plan: *r.Setup.Plan}}}}, nil))
	checkKeys(t, b.Bytes())
}

// The example in the manual has the same keys.
func TestManualShowsTheKeys(t *testing.T) {
	block := regexp.MustCompile("(?s)```json\n(\\{\\s*\"course\".*?\"plan\".*?)```").FindStringSubmatch(Manual)
	require.NotNil(t, block, "the page shows no JSON of a report")
	checkKeys(t, []byte(block[1]))
}

// What does not exist is null, an empty list is [].
func TestJSONHoldsNoNaN(t *testing.T) {
	r := sample()
	r.Time10, r.Time90 = math.NaN(), math.Inf(1)
	var got Rehearsal
	src := encoded(t, r)
	require.NoError(t, json.Unmarshal(src, &got))
	assert.Nil(t, got.Time10)
	assert.Nil(t, got.Time90)
	assert.Nil(t, got.Legs[0].Radius, "a straight line has no radius")
	assert.Nil(t, got.Legs[2].TakeOff, "an A-frame is not jumped")
	assert.Nil(t, got.Cues[2].Given, "its moment never came")
	assert.Nil(t, got.Cues[2].Read)
	assert.Nil(t, got.Legs[1].Faults[3].Bearing, "a collision is at no entry")
	assert.Contains(t, string(src), `"faults": []`)
}

// Whatever the figures are, the JSON can be read again and holds what was put in.
func TestJSONIsValid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawn(t)
		var got Rehearsal
		require.NoError(t, json.Unmarshal(encoded(t, r), &got))
		require.NotNil(t, got.Length)
		if math.Abs(r.Length) < 1e9 { // beyond, a thousandth is lost in rounding
			assert.InDelta(t, r.Length, *got.Length, 0.0006)
		}
	})
}

// The times of clean runs are null where there was no such run, and stand where there was.
func TestJSONTimesOfCleanRuns(t *testing.T) {
	for _, c := range []struct {
		runs  int
		clean float64
		times bool
	}{{2000, 0.4, true}, {1, 1, true}, {1, 0, false}, {2000, 0, false}, {0, 0.4, false}} {
		r := sample()
		r.Runs, r.Clean = c.runs, c.clean
		var got Rehearsal
		require.NoError(t, json.Unmarshal(encoded(t, r), &got))
		assert.Equal(t, c.times, got.Time10 != nil, "%+v", c)
		assert.Equal(t, c.times, got.Time90 != nil, "%+v", c)
		require.NotNil(t, got.Time, "the likely run has a time in any case")
	}
}

// A fault that comes up only off the likely line lies nowhere on it.
func TestJSONOffTheLikelyLine(t *testing.T) {
	r := sample()
	r.Legs[1].Faults = append(r.Legs[1].Faults, sim.Fault{Kind: sim.OffCourse, Entry: 4, Obstacle: 2, Chance: 0.02})
	var got Rehearsal
	require.NoError(t, json.Unmarshal(encoded(t, r), &got))
	f := got.Legs[1].Faults[len(got.Legs[1].Faults)-1]
	assert.Nil(t, f.Bearing)
	assert.Nil(t, f.Range)
	assert.Nil(t, f.InView)
}

// JSON shown on a terminal obeys nobody's file, and a program still reads what was written there.
func TestJSONIsSafe(t *testing.T) {
	r := sample()
	name := "犬 <b>\x1b[31m\u202e\u009b2J\x7f\u200b\U000e0041\U0001f415\n"
	r.Setup.Course.Name = name
	src := encoded(t, r)
	for _, c := range string(src) {
		if c != '\n' {
			require.True(t, strconv.IsPrint(c), "%q", c)
		}
	}
	var got Rehearsal
	require.NoError(t, json.Unmarshal(src, &got))
	assert.Equal(t, name, got.Course)
	assert.Contains(t, string(src), "犬 <b>", "what can be seen stays as it is")
}

func TestEmptyJSON(t *testing.T) {
	src := encoded(t, &sim.Rehearsal{Setup: setup("", "", "", "")})
	assert.Contains(t, string(src), `"legs": []`)
	assert.Contains(t, string(src), `"cues": []`)
}
