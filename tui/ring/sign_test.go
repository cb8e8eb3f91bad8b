package ring

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"cuewalk/tui/canvas"
)

// inText are the signs of texts, which are read together, not one by one.
const inText = "0123456789%[]{}?"

// sheetOf is the frame of a scene before it comes onto a view.
func sheetOf(s Scene, w, h int, fine bool) *pen {
	c := canvas.New(w, h)
	c.Fine = fine
	d := ready(c.All(), s)
	d.draw()
	return d
}

// some scene at any instant, camera, layers and size.
func anyScene(t *rapid.T, s Scene) (Scene, int, int) {
	w, h := rapid.IntRange(30, 200).Draw(t, "w"), rapid.IntRange(8, 60).Draw(t, "h")
	s.Sample = rapid.IntRange(0, 87).Draw(t, "sample")
	s.Layers = Layers(rapid.IntRange(0, 1<<LayerCount-1).Draw(t, "layers"))
	s.All = rapid.Bool().Draw(t, "all")
	if rapid.Bool().Draw(t, "before") {
		s.Before = s.Run
	}
	turn := Turn(rapid.IntRange(0, 3).Draw(t, "turn"))
	if s.All {
		s.Camera = Whole(s.Setup.Course, turn, w, h)
	} else {
		s.Camera = Leg(s.Setup.Course, rapid.IntRange(1, 14).Draw(t, "leg"), turn, w, h, s.Run)
	}
	if rapid.Bool().Draw(t, "zoom") {
		s.Camera = s.Camera.Zoom(rapid.Float64Range(.5, 8).Draw(t, "factor"), w/2, h/2)
	}
	s.Chosen = []Place{None, {Obstacle: 3, Stand: -1}, {Obstacle: -1, Stand: 1}}[rapid.IntRange(0, 2).Draw(t, "chosen")]
	return s, w, h
}

// No sign stands for two things in one frame, and every sign is one that the table has for what
// it stands for.
func TestOneSignOneMeaning(t *testing.T) {
	scene := turning(t)
	rapid.Check(t, func(t *rapid.T) {
		s, w, h := anyScene(t, scene)
		d := sheetOf(s, w, h, false)
		means := map[rune]mark{}
		for _, k := range d.cells {
			if k.rank == blank || k.sign == ' ' || strings.ContainsRune(inText, k.sign) || k.mark == rulerMark {
				continue
			}
			if m, ok := means[k.sign]; ok && m != k.mark {
				t.Fatalf("%q is both %q and %q", k.sign, table[m].Means, table[k.mark].Means)
			}
			means[k.sign] = k.mark
			if !strings.ContainsRune(table[k.mark].Sign+"_", k.sign) {
				t.Fatalf("%q stands for %q, for which the table has %q", k.sign, table[k.mark].Means, table[k.mark].Sign)
			}
		}
	})
}

// The legend lists what stands in the frame and nothing else: each of its signs is found there
// in its meaning, and no cell has another.
func TestLegendListsJustWhatIsOnTheScreen(t *testing.T) {
	scene := turning(t)
	rapid.Check(t, func(t *rapid.T) {
		s, w, h := anyScene(t, scene)
		fine := rapid.Bool().Draw(t, "fine")
		c := canvas.New(w, h)
		c.Fine = fine
		listed := map[string]bool{}
		for _, l := range Draw(c.All(), s).Legend() {
			listed[l.Means] = true
		}
		there := map[string]bool{}
		for _, k := range sheetOf(s, w, h, fine).cells {
			if k.rank != blank && k.mark != nothing {
				there[table[k.mark].Means] = true
			}
		}
		if len(listed) != len(there) {
			t.Fatalf("listed %v, drawn %v", listed, there)
		}
		for m := range there {
			if !listed[m] {
				t.Fatalf("%q is not listed", m)
			}
		}
	})
}

// Of the whole table too no sign stands twice, but for the arrows: a stride where strides are
// shown and else the way the dog runs, which is what a stride shows as well.
func TestNoSignTwiceInTheTable(t *testing.T) {
	of := map[rune]mark{}
	for m := nothing + 1; m < markCount; m++ {
		if m == strideMark || m == rulerMark {
			continue
		}
		for _, r := range table[m].Sign {
			if was, ok := of[r]; ok && r != ' ' && was != m && !strings.ContainsRune(inText, r) {
				t.Errorf("%q is both %q and %q", r, table[was].Means, table[m].Means)
			}
			of[r] = m
		}
	}
}

// Letters stand for the dog, the handler and theirs alone.
func TestLettersAreForDogAndHandler(t *testing.T) {
	for _, s := range Table() {
		for _, r := range s.Sign {
			if r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' {
				base := s.Role &^ (canvas.Strong | canvas.Chosen)
				assert.Contains(t, []canvas.Role{canvas.Dog, canvas.Handler, canvas.Hidden}, base, "%q", s.Sign)
			}
		}
	}
}

// A layer that is off leaves no sign of its own.
func TestLayersAreSwitched(t *testing.T) {
	s := whole(turning(t), 120, 40)
	for l := range LayerCount {
		s.Layers = LegLayers().With(Shadow).With(Sight)
		require.True(t, layersIn(s)[l], "%v shows something", l)
		s.Layers = s.Layers.Without(l)
		assert.False(t, layersIn(s)[l] && l != Line, "%v is off", l)
	}
}

func layersIn(s Scene) map[Layer]bool {
	out := map[Layer]bool{}
	for _, l := range Draw(canvas.New(120, 40).All(), s).Legend() {
		out[l.Layer] = true
	}
	return out
}

func TestOneKeyAddsALayerAndOneTakesItAway(t *testing.T) {
	s := Layers(0)
	var names []string
	for {
		next, l := s.More()
		if l == LayerCount {
			break
		}
		back, gone := next.Fewer()
		if l != Course { // the course always stays
			assert.Equal(t, s, back)
			assert.Equal(t, l, gone)
		}
		names = append(names, l.String())
		s = next
	}
	assert.Equal(t, []string{"course", "rulers", "dog's line", "wrong ways", "handler", "stands", "strides", "shadow", "sight"}, names)
}

// The legend in a few rows names what matters most and is never cut in the middle of a name; in
// a high view every sign has a row with its meaning.
func TestLegendInRows(t *testing.T) {
	u := Draw(canvas.New(80, 24).All(), leg(turning(t), 80, 24))
	c := canvas.New(60, 2)
	assert.Equal(t, 2, DrawLegend(c.All(), u))
	assert.Contains(t, c.Plain(), "D dog   > v < ^ stride   ... dog's line")
	high := canvas.New(70, 40)
	assert.Equal(t, len(u.Legend()), DrawLegend(high.All(), u))
	for _, s := range u.Legend() {
		assert.Contains(t, high.Plain(), s.Means)
		assert.NotEmpty(t, s.Name)
	}
}
