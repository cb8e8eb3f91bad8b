package team

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/course/tomlfile"
)

var update = flag.Bool("update", false, "write the problems found to testdata instead of comparing")

// Every wrong team beside its problems: all of them, each with its place, what is
// wrong and what to write instead.
func TestWrongTeams(t *testing.T) {
	files, err := filepath.Glob("testdata/wrong/*.toml")
	require.NoError(t, err)
	require.Greater(t, len(files), 10)
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".toml")
		t.Run(name, func(t *testing.T) {
			src, err := os.ReadFile(file)
			require.NoError(t, err)
			tm, err := Parse(name+".toml", src)
			var ps tomlfile.Problems
			require.ErrorAs(t, err, &ps)
			assert.Nil(t, tm)
			for _, p := range ps {
				assert.NotEmpty(t, p.Hint, "%s: says not what to write instead", p)
			}
			got := ps.Long() + "\n"
			beside := strings.TrimSuffix(file, ".toml") + ".txt"
			if *update {
				require.NoError(t, os.WriteFile(beside, []byte(got), 0o644))
			}
			want, err := os.ReadFile(beside)
			require.NoError(t, err)
			assert.Equal(t, string(want), got)
		})
	}
}

func parseFile(t *testing.T, file string) *Team {
	t.Helper()
	src, err := os.ReadFile(file)
	require.NoError(t, err)
	tm, err := Parse(file, src)
	require.NoError(t, err)
	return tm
}

func TestWholeTeam(t *testing.T) {
	got := parseFile(t, "testdata/right/whole.toml")
	want := &Team{
		Name: "Wren and me", File: "testdata/right/whole.toml",
		Dog: Dog{
			Withers: 0.41, Focus: 0.6, Collected: 2.4, Extended: 6.1, Acceleration: 4, Braking: 6, Grip: 7.5, Radius: 0.45,
			LeadChange: 0.12, TakeOffCollected: 0.7, TakeOffExtended: 1.2, LandingCollected: 0.6, LandingExtended: 1.1,
			LandingTurn: geom.Deg(55), TurnRead: 0.25, Latency: 0.3, WordLatency: 0.5, Attention: geom.Deg(24), FieldOfView: geom.Deg(230),
			Weaves: 3, AFrame: 1.9, DogWalk: 2.2, Seesaw: 2.8, Table: 5, Contact: 0.9, Entry: 0.8, Bars: 0.97,
		},
		Handler: Handler{
			Speed: 4, Acceleration: 3.1, Braking: 4.1, Turning: float64(geom.Deg(270)), Reaction: 0.5, Backward: 0.6, Sideways: 0.5,
			Body: 0.25, Timing: 0.1, Placing: 0.2, Step: 0.8,
		},
		Words: map[string]Meaning{"here": {Sense: Come}, "over there": {Sense: Name, Kind: course.Tunnel}},
	}
	like, err := PresetDog("medium")
	require.NoError(t, err)
	want.Dog.Knows, want.Dog.Draw = like.Knows, like.Draw
	for sense, x := range map[Sense]float64{Come: 0.9, Go: 0.4, Out: 0.5, Left: 0.6, Right: 0.7, Turn: 0.3, Name: 1} {
		want.Dog.Knows[sense] = x
	}
	want.Dog.Draw[course.Tunnel], want.Dog.Draw[course.DogWalk], want.Dog.Draw[course.AFrame] = 1.8, 0, 1.4
	assert.Equal(t, want, got)
}

// Every figure of a dog and a handler has a key: a new one without shows here.
func TestEveryFigureHasAKey(t *testing.T) {
	got := parseFile(t, "testdata/right/whole.toml")
	for _, size := range Sizes() {
		dog, err := PresetDog(size)
		require.NoError(t, err)
		for _, f := range dogFigures {
			*f.of(&dog) = *f.of(&got.Dog)
		}
		dog.Knows, dog.Draw = got.Dog.Knows, got.Dog.Draw
		assert.Equal(t, got.Dog, dog)
	}
	for _, person := range Handlers() {
		h, err := PresetHandler(person)
		require.NoError(t, err)
		for _, f := range handlerFigures {
			*f.of(&h) = *f.of(&got.Handler)
		}
		assert.Zero(t, h.Step, "nobody's step is known but from the file")
		h.Step = got.Handler.Step
		assert.Equal(t, got.Handler, h)
	}
}

func TestPresetName(t *testing.T) {
	for size, want := range map[string]string{"large": "a large dog, slow handler", "intermediate": "an intermediate dog, slow handler"} {
		got, err := Preset(size, "slow")
		require.NoError(t, err)
		assert.Equal(t, want, got.Name)
	}
}

// Presets lie inside the ranges that files are held to, and the right way round.
func TestPresetsAreInRange(t *testing.T) {
	for _, size := range Sizes() {
		d, err := PresetDog(size)
		require.NoError(t, err)
		value := map[string]float64{}
		for _, f := range dogFigures {
			x := f.dim.theirs(*f.of(&d), course.Metres)
			value[f.key] = x
			assert.True(t, x >= f.least && x <= f.most, "%s %s %v", size, f.key, x)
		}
		for _, o := range ordered {
			assert.LessOrEqual(t, value[o.slow], value[o.fast], size)
		}
		for k, x := range d.Draw {
			assert.True(t, x >= 0 && x <= mostDraw, "%s %d", size, k)
		}
	}
	for _, person := range Handlers() {
		h, err := PresetHandler(person)
		require.NoError(t, err)
		for _, f := range handlerFigures {
			x := f.dim.theirs(*f.of(&h), course.Metres)
			assert.True(t, x >= f.least && x <= f.most, "%s %s %v", person, f.key, x)
		}
	}
}

func TestBareTeamIsThePreset(t *testing.T) {
	got := parseFile(t, "testdata/right/bare.toml")
	want, err := Preset("large", "average")
	require.NoError(t, err)
	assert.Equal(t, want.Dog, got.Dog)
	assert.Equal(t, want.Handler, got.Handler)
}

// Withers alone say which size to start from.
func TestSizeByWithers(t *testing.T) {
	for _, k := range []struct {
		withers string
		like    string
	}{{"0.15", "small"}, {"0.33", "small"}, {"0.35", "medium"}, {"0.41", "medium"}, {"0.43", "intermediate"}, {"0.51", "large"}, {"0.9", "large"}} {
		tm, err := Parse("t", []byte("team = \"x\"\n[dog]\nwithers = "+k.withers+"\n"))
		require.NoError(t, err)
		d, err := PresetDog(k.like)
		require.NoError(t, err)
		d.Withers = tm.Dog.Withers
		assert.Equal(t, d, tm.Dog, k.withers)
	}
}

func TestTeamInFeet(t *testing.T) {
	// The foot is 0.3048 m by international agreement of 1959.
	tm := parseFile(t, "testdata/right/feet.toml")
	assert.InDelta(t, 0.3048, tm.Dog.Withers, 1e-12)
	assert.InDelta(t, 6.096, tm.Dog.Extended, 1e-12)
	assert.Equal(t, geom.Deg(240), tm.Dog.FieldOfView)
	assert.InDelta(t, 4.572, tm.Handler.Speed, 1e-12)
	small, err := PresetDog("small")
	require.NoError(t, err)
	assert.Equal(t, small.Collected, tm.Dog.Collected)
}

func TestWords(t *testing.T) {
	tm := parseFile(t, "testdata/right/whole.toml")
	for word, want := range map[string]string{"here": "come", "over there": "tunnel", "come": "come", "jump": "jump", "left": "left"} {
		m, ok := tm.Meaning(word)
		assert.True(t, ok, word)
		assert.Equal(t, want, m.String(), word)
	}
	_, ok := tm.Meaning("heel")
	assert.False(t, ok)
	assert.Equal(t, append([]string{"here", "over there"}, Meanings()...), tm.Vocabulary())
	for _, w := range tm.Vocabulary() {
		_, ok := tm.Meaning(w)
		assert.True(t, ok, w)
	}
}

// Any team in range reads back as written, in metres and in feet.
func TestAnyFigureReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.SampledFrom(handlerFigures).Draw(t, "figure")
		u := rapid.SampledFrom([]course.Units{course.Metres, course.Feet}).Draw(t, "units")
		least, most := f.limits(u)
		x := rapid.Float64Range(least, most).Draw(t, "value")
		tm, err := Parse("t", []byte("team = \"x\"\nunits = \""+u.String()+"\"\n[handler]\n"+f.key+" = "+tomlfile.Number(x)+"\n"))
		require.NoError(t, err)
		assert.InDelta(t, f.dim.ours(x, u), *f.of(&tm.Handler), 1e-12)
	})
}

// Whatever the bytes: no panic, and what reads is within the ranges.
func FuzzParse(f *testing.F) {
	for _, pattern := range []string{"testdata/right/*.toml", "testdata/wrong/*.toml"} {
		files, err := filepath.Glob(pattern)
		require.NoError(f, err)
		require.NotEmpty(f, files)
		for _, file := range files {
			src, err := os.ReadFile(file)
			require.NoError(f, err)
			f.Add(src)
		}
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		tm, err := Parse("fuzz", src)
		if err != nil {
			assert.Nil(t, tm)
			assert.NotEmpty(t, err.Error())
			return
		}
		const rounding = 0.005
		for _, g := range dogFigures {
			x := g.dim.theirs(*g.of(&tm.Dog), course.Metres)
			assert.True(t, x >= g.least-rounding && x <= g.most+rounding, "%s is %v", g.key, x)
		}
		for sense, x := range tm.Dog.Knows {
			assert.True(t, x >= 0 && x <= 1, "%d is %v", sense, x)
		}
		for w := range tm.Words {
			m, ok := tm.Meaning(w)
			assert.True(t, ok)
			assert.NotEmpty(t, m.String())
		}
	})
}
