package report

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"cuewalk/course/geom"
	"cuewalk/sim"
	"cuewalk/sim/advice"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// golden compares got with a file in testdata; -update rewrites the file.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.WriteFile(path, got, 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(want), string(got))
}

func text(t require.TestingT, r *sim.Rehearsal) string {
	var b bytes.Buffer
	require.NoError(t, Text(&b, r, nil, nil))
	return b.String()
}

func TestText(t *testing.T) { golden(t, "report.txt", []byte(text(t, sample()))) }

// Whatever the wording, none of these may get lost: each is a figure of sample.
func TestTextSaysEverything(t *testing.T) {
	got := strings.Join(strings.Fields(text(t, sample())), " ")
	for _, want := range []string{
		"Quarry Meadow", "Wait at 2, front cross", "Wren and me", // names
		"41 %", "39 to 43 %", "2000 runs", "Seed: 7", // clean run
		"7.2 s", "7.0 to 7.8 s", "31.4 m", "4.3 m/s", // 7.25 s, 31.416 m / 7.25 s
		"62 %", "60 to 64 %", "30 %", "34 degrees left", "4.2 m off", "0.6 s", // leg 2
		"5.2 m/s", "stride 1.7 m", "take-off 1.3 m", "landing 1.2 m", "0.4 s in the air", "tightest radius 1.9 m", "1.0 s",
		"1 % Other things", // 0.3 % and 0.4 %
		"2 take-off -1", "3.2 s", "0.4 s", "1.2 m", "2: NO", "front cross", "3 exit +0.5", "never", "lead-out",
		"50 cm at the withers", "focus 0.5", "tunnel 2", "5.0 m/s", // the presets
		"model", "120 %", "dog and handler may meet (4 %)",
	} {
		assert.Contains(t, got, want)
	}
}

func TestNoRunsNoInterval(t *testing.T) {
	r := sample()
	r.Runs, r.Low, r.High = 0, r.Clean, r.Clean
	got := text(t, r)
	assert.Contains(t, got, "No whole runs were made")
	assert.NotContains(t, got, "39 to 43")
	assert.NotContains(t, got, "Seed")
}

// A rehearsal of nothing must not break a line or the program.
func TestEmptyRehearsal(t *testing.T) {
	r := &sim.Rehearsal{Setup: setup("", "", "", "")}
	assert.Contains(t, text(t, r), "CAUTIONS")
}

// hostile is text as a file may hold it.
var hostile = rapid.SampledFrom([]string{
	"elm", "", " ", "犬のコース 犬のコース", "\x1b[31mred", "a\nb", "\u202eright to left", "e\u0301e\u0301", "👩‍🚒 and 🐕",
	strings.Repeat("long", 60), strings.Repeat("wide 犬", 40), "\xff\xfe", "\t\t",
})

func drawn(t *rapid.T) *sim.Rehearsal {
	r := sample()
	r.Setup = setup(hostile.Draw(t, "course"), hostile.Draw(t, "plan"), hostile.Draw(t, "team"), hostile.Draw(t, "id"))
	figure := rapid.Float64()
	r.Length, r.Time, r.Clean, r.Time90 = figure.Draw(t, "length"), figure.Draw(t, "time"), figure.Draw(t, "clean"), figure.Draw(t, "p90")
	l := &r.Legs[1]
	l.Clean, l.Speed, l.Stride, l.Radius = figure.Draw(t, "leg"), figure.Draw(t, "speed"), figure.Draw(t, "stride"), figure.Draw(t, "radius")
	f := &l.Faults[0]
	f.Chance, f.Range, f.InView = figure.Draw(t, "chance"), figure.Draw(t, "range"), figure.Draw(t, "view")
	f.Bearing = geom.Angle(rapid.Float64Range(-1e6, 1e6).Draw(t, "bearing"))
	r.Cues[1].Given, r.Cues[1].Late, r.Cues[1].Off = figure.Draw(t, "given"), figure.Draw(t, "late"), figure.Draw(t, "off")
	return r
}

// No line is wider than 80 cells and no control character gets out, whatever the
// files and the figures hold.
func TestTextFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for _, line := range strings.Split(text(t, drawn(t)), "\n") {
			assert.LessOrEqual(t, ansi.StringWidth(line), Columns, "%q", line)
			assert.Equal(t, ansi.Strip(line), line, "an escape sequence in %q", line)
			assert.NotContains(t, line, "\u202e")
			assert.Equal(t, strings.TrimRight(line, " "), line, "blanks at the end")
		}
	})
}

// What would help is said and written for programs, change by change, and nothing where it was
// not looked for.
func TestHelps(t *testing.T) {
	r := sample()
	later := *r.Setup.Plan
	later.Cues = slices.Clone(later.Cues)
	later.Cues[0].When.Strides += 0.5
	later.Cues[0].Word = "go\x1b[31m"
	found := []advice.Found{
		{Number: 2, Leg: 0.6, Run: 0.4, Advice: []advice.Advice{{Cue: 0, Plan: later, Leg: 0.9, Run: 0.5}}},
		{Number: 3, Leg: 0.8, Run: 0.4},
	}
	var b bytes.Buffer
	require.NoError(t, Text(&b, r, found, nil))
	got := strings.Join(strings.Fields(b.String()), " ")
	assert.Contains(t, got, "WHAT WOULD HELP")
	assert.Contains(t, got, "1 to 2: cue 1")
	assert.Contains(t, got, "half a stride later")
	assert.Contains(t, got, ": leg +30, whole run +10.")
	assert.Contains(t, got, "2 to 3: no change of one cue alone helps here.")
	assert.NotContains(t, b.String(), "\x1b")
	for _, l := range strings.Split(b.String(), "\n") {
		assert.LessOrEqual(t, ansi.StringWidth(l), Columns, l)
	}
	b.Reset()
	require.NoError(t, JSON(&b, r, found, nil))
	var out struct {
		Helps []map[string]any `json:"helps"`
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &out))
	require.Len(t, out.Helps, 1)
	assert.Equal(t, map[string]any{"leg": 2., "cue": 1., "change": out.Helps[0]["change"], "leg_gain": 0.3, "gain": 0.1}, out.Helps[0])
	assert.Contains(t, out.Helps[0]["change"], "half a stride later")
	assert.NotContains(t, text(t, r), "WHAT WOULD HELP")
}
