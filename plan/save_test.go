package plan

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// commented is a plan as a handler may have laid it out.
const commented = `# my plan for Sunday
plan     = "Front at 2" # to be tried
lead-out = [ 12,9 ]

# at the line
[[cue]]
when = "release"
pace   =   "run"    # at once

# here he turns
[[cue]]
when  = "2 take-off -1" # not later!
stand = [12.0, 15]
signal = "pull"         # arm in
word  = 'here'

# the tunnel: nothing to do
[[cue]]
  when  = "4 entry"
  stand = [6, 20] # left of it

# end of the plan
`

// edits are what the screen does to a plan, and what has to be different in the
// file: old text and new text, nothing else.
var edits = []struct {
	name     string
	edit     func(Plan) Plan
	old, new string
}{
	{"nothing", func(p Plan) Plan { return p }, "", ""},
	{"a moment", func(p Plan) Plan { return p.WithCue(1, p.Cues[1].Shift(-0.5)) }, `"2 take-off -1"`, `"2 take-off -1.5"`},
	{"a stand", func(p Plan) Plan { return p.WithCue(1, p.Cues[1].Move(geom.Point{X: 0.5})) }, `[12.0, 15]`, `[12.5, 15]`},
	{"lead-out", func(p Plan) Plan { return p.WithLeadOut(geom.Point{X: 11.5, Y: 9}) }, `[ 12,9 ]`, `[11.5, 9]`},
	{"name", func(p Plan) Plan { p.Name = `Rear "at" 2`; return p }, `"Front at 2"`, `"Rear \"at\" 2"`},
	{"a pace", func(p Plan) Plan { k := p.Cues[0]; k.Pace = Stop; return p.WithCue(0, k) }, `"run"`, `"stop"`},
	{"no pace", func(p Plan) Plan { k := p.Cues[0]; k.Pace = SamePace; return p.WithCue(0, k) }, "pace   =   \"run\"    # at once\n", ""},
	{"signal along", func(p Plan) Plan { k := p.Cues[1]; k.Signal = Along; return p.WithCue(1, k) }, `"pull"`, `"along"`},
	{"a word", func(p Plan) Plan { k := p.Cues[1]; k.Word = "go"; return p.WithCue(1, k) }, `'here'`, `"go"`},
	{"arm added", func(p Plan) Plan { k := p.Cues[1]; k.Arm = LeftArm; return p.WithCue(1, k) },
		"word  = 'here'\n", "word  = 'here'\narm = \"left\"\n"},
	{"shoulders to an obstacle", func(p Plan) Plan {
		k := p.Cues[0]
		k.Shoulders = Shoulders{Facing: FaceNumber, Number: 3}
		return p.WithCue(0, k)
	}, "# at once\n", "# at once\nshoulders = \"to 3\"\n"},
	{"shoulders to a heading", func(p Plan) Plan {
		k := p.Cues[0]
		k.Shoulders = Shoulders{Facing: FaceHeading, Heading: geom.Deg(112.5)}
		return p.WithCue(0, k)
	}, "# at once\n", "# at once\nshoulders = 112.5\n"},
	{"cue deleted", func(p Plan) Plan { return p.Delete(1) },
		"# here he turns\n[[cue]]\nwhen  = \"2 take-off -1\" # not later!\nstand = [12.0, 15]\nsignal = \"pull\"         # arm in\nword  = 'here'\n\n", ""},
	{"cue added between", func(p Plan) Plan {
		p, _ = p.Insert(Cue{When: Moment{3, Landing, 0.5}, Cross: RearCross})
		return p
	}, "# the tunnel", "[[cue]]\nwhen = \"3 landing +0.5\"\ncross = \"rear\"\n\n# the tunnel"},
	{"cue added at the end", func(p Plan) Plan {
		p, _ = p.Insert(Cue{When: Moment{6, Exit, 0}, Stand: geom.Point{X: 1, Y: 2}, HasStand: true})
		return p
	}, "# left of it\n", "# left of it\n\n[[cue]]\nwhen = \"6 exit\"\nstand = [1, 2]\n"},
	{"the course", func(p Plan) Plan { p.For = "Mill Lane"; return p }, "[ 12,9 ]\n", "[ 12,9 ]\nfor = \"Mill Lane\"\n"},
}

func TestSaveChangesOnlyTheChange(t *testing.T) {
	c, tm := mill(t)
	for _, e := range edits {
		for _, newline := range []string{"\n", "\r\n"} {
			for _, mark := range []string{"", "\ufeff"} {
				t.Run(e.name, func(t *testing.T) {
					written := func(s string) string { return strings.ReplaceAll(s, "\n", newline) }
					src := mark + written(commented)
					before, err := Parse("p", []byte(src), c, tm)
					require.NoError(t, err)
					after := e.edit(*before)
					got, err := Save([]byte(src), before, &after, c)
					require.NoError(t, err)
					require.Equal(t, e.old == "" && e.new == "", strings.Count(src, written(e.old)) != 1, "the old text stands once")
					assert.Equal(t, strings.Replace(src, written(e.old), written(e.new), 1), string(got))
					again, err := Parse("p", got, c, tm)
					require.NoError(t, err)
					assert.True(t, after.Equal(*again), "%+v\n%+v", after, again)
				})
			}
		}
	}
}

func TestSaveKeepsTheUnitsOfTheFile(t *testing.T) {
	c, tm := mill(t)
	src := "plan = \"x\"\nunits = \"ft\"\nlead-out = [40, 30]\n[[cue]]\nwhen = \"1 landing\"\nstand = [42.5, 40]\n"
	before, err := Parse("p", []byte(src), c, tm)
	require.NoError(t, err)
	after := before.WithCue(0, before.Cues[0].Move(geom.Point{X: 0.3048})) // one foot
	got, err := Save([]byte(src), before, &after, c)
	require.NoError(t, err)
	assert.Equal(t, strings.Replace(src, "[42.5, 40]", "[43.5, 40]", 1), string(got))
}

func TestSaveRefusesAnotherFile(t *testing.T) {
	c, tm := mill(t)
	before, err := Parse("p", []byte(commented), c, tm)
	require.NoError(t, err)
	after := before.Delete(0)
	_, err = Save([]byte(strings.Replace(commented, "-1\"", "-2\"", 1)), before, &after, c)
	assert.ErrorIs(t, err, ErrChanged)
	_, err = Save([]byte("plan = "), before, &after, c)
	assert.Error(t, err)
	assert.NotErrorIs(t, err, ErrChanged)
}

// Cues may be written as one list in braces: then a change still touches only the
// value, and a new cue rewrites the list alone.
func TestSaveCuesInBraces(t *testing.T) {
	c, tm := mill(t)
	src := "plan = \"x\" # a\ncue = [{ when = \"release\" }, { when = \"1 landing\", stand = [12, 9] }] # b\nlead-out = [12, 9] # c\n"
	before, err := Parse("p", []byte(src), c, tm)
	require.NoError(t, err)

	after := before.WithCue(1, before.Cues[1].Move(geom.Point{Y: 0.5}))
	got, err := Save([]byte(src), before, &after, c)
	require.NoError(t, err)
	assert.Equal(t, strings.Replace(src, "[12, 9] }", "[12, 9.5] }", 1), string(got))

	after, _ = before.Insert(Cue{When: Moment{1, TakeOff, 0}, Pace: Walk})
	got, err = Save([]byte(src), before, &after, c)
	require.NoError(t, err)
	assert.Equal(t, "plan = \"x\" # a\ncue = [\n  { when = \"release\" },\n  { when = \"1 take-off\", pace = \"walk\" },\n"+
		"  { when = \"1 landing\", stand = [12, 9] },\n] # b\nlead-out = [12, 9] # c\n", string(got))
}

// anyCue draws a cue with everything it can have, its stand on whole centimetres.
func anyCue(c *course.Course) *rapid.Generator[Cue] {
	return rapid.Custom(func(t *rapid.T) Cue {
		k := Cue{When: rapid.SampledFrom(Moments(c)).Draw(t, "moment")}
		k = k.Shift(float64(rapid.IntRange(-40, 40).Draw(t, "half strides")) / 2)
		if rapid.Bool().Draw(t, "has stand") {
			cm := rapid.IntRange(-500, 4500)
			k = k.PutAt(geom.Point{X: float64(cm.Draw(t, "x")) / 100, Y: float64(cm.Draw(t, "y")) / 100})
		}
		k.Pace = Pace(rapid.IntRange(0, int(Stop)).Draw(t, "pace"))
		k.Arm = Arm(rapid.IntRange(0, int(RightArm)).Draw(t, "arm"))
		k.Signal = Signal(rapid.IntRange(0, int(Push)).Draw(t, "signal"))
		k.Cross = Cross(rapid.IntRange(0, int(RearCross)).Draw(t, "cross"))
		k.Word = rapid.SampledFrom([]string{"", "come", "here", "tunnel", "\x1b[1m \"odd\"", "zurück"}).Draw(t, "word")
		switch f := Facing(rapid.IntRange(0, int(FaceHeading)).Draw(t, "facing")); f {
		case FaceNumber:
			k.Shoulders = Shoulders{Facing: f, Number: rapid.IntRange(1, 6).Draw(t, "number")}
		case FaceHeading:
			k.Shoulders = Shoulders{Facing: f, Heading: geom.Deg(float64(rapid.IntRange(-720, 720).Draw(t, "half degrees")) / 2)}
		default:
			k.Shoulders = Shoulders{Facing: f}
		}
		return k
	})
}

func anyPlan(c *course.Course) *rapid.Generator[Plan] {
	return rapid.Custom(func(t *rapid.T) Plan {
		return Plan{
			Name: rapid.StringMatching(`[A-Za-z "\\#]{1,12}`).Draw(t, "name"), For: rapid.SampledFrom([]string{"", c.Name}).Draw(t, "for"),
			LeadOut: geom.Point{X: float64(rapid.IntRange(0, 2400).Draw(t, "x")) / 100, Y: 9},
			Cues:    rapid.SliceOfN(anyCue(c), 0, 5).Draw(t, "cues"),
		}
	})
}

// What is formatted reads back the same, to the last bit in metres.
func TestFormatThenReadIsTheSamePlan(t *testing.T) {
	c, _ := mill(t)
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlan(c).Draw(t, "plan")
		got, _, err := reread(Format(&p, c), c)
		require.NoError(t, err)
		assert.True(t, p.Equal(*got), "%s", Format(&p, c))
		assert.Equal(t, string(Format(&p, c)), string(Format(got, c)))
	})
}

func TestFormatIsReadByParse(t *testing.T) {
	c, tm := mill(t)
	p := parseFile(t, "testdata/right/whole.toml")
	got, err := Parse("again", Format(p, c), c, tm)
	require.NoError(t, err)
	assert.True(t, p.Equal(*got))

	c.Units = course.Feet
	got, err = Parse("again", Format(p, c), c, tm)
	require.NoError(t, err)
	assert.InDelta(t, p.Cues[1].Stand.X, got.Cues[1].Stand.X, lengthRound)
	assert.InDelta(t, p.LeadOut.Y, got.LeadOut.Y, lengthRound)
}

// Any plan can be saved over any other; a remark on a line of its own at the top
// and the layout of cues that stay are untouched.
func TestSaveAnyChange(t *testing.T) {
	c, _ := mill(t)
	rapid.Check(t, func(t *rapid.T) {
		first := anyPlan(c).Draw(t, "before")
		src := []byte("# remark\n" + string(Format(&first, c)))
		before, _, err := reread(src, c)
		require.NoError(t, err)
		after := *before
		for range rapid.IntRange(0, 4).Draw(t, "edits") {
			n := len(after.Cues)
			switch kind := rapid.IntRange(0, 3).Draw(t, "edit"); {
			case kind == 0 || n == 0:
				after, _ = after.Insert(anyCue(c).Draw(t, "new"))
			case kind == 1:
				after = after.Delete(rapid.IntRange(0, n-1).Draw(t, "which"))
			default:
				after = after.WithCue(rapid.IntRange(0, n-1).Draw(t, "which"), anyCue(c).Draw(t, "altered"))
			}
		}
		got, err := Save(src, before, &after, c)
		require.NoError(t, err, "%s", src)
		assert.True(t, strings.HasPrefix(string(got), "# remark\n"))
		p, _, err := reread(got, c)
		require.NoError(t, err)
		assert.True(t, after.Equal(*p), "%s\n----\n%s", src, got)
		back, err := Save(got, &after, before, c)
		require.NoError(t, err)
		p, _, err = reread(back, c)
		require.NoError(t, err)
		assert.True(t, before.Equal(*p), "undone")
	})
}

func TestEditsLeaveThePlanAlone(t *testing.T) {
	p := parseFile(t, "testdata/right/whole.toml")
	was := *p
	was.Cues = append([]Cue(nil), p.Cues...)
	q := p.WithCue(1, p.Cues[1].Shift(2).Move(geom.Point{X: 1}))
	q, at := q.Insert(Cue{When: Moment{3, TakeOff, 0}})
	assert.Equal(t, 2, at)
	q = q.Delete(0).WithLeadOut(geom.Point{X: 1})
	assert.Equal(t, was, *p)
	assert.Len(t, q.Cues, 6)
	assert.False(t, q.Equal(*p))
	assert.Equal(t, geom.Point{X: 13, Y: 15}, q.StandAt(1), "the stand of the cue before")
	assert.Equal(t, geom.Point{X: 1}, q.StandAt(-1))
	assert.Equal(t, MostStrides, int(Cue{When: Moment{1, TakeOff, 19.5}}.Shift(3).When.Strides))
	assert.Equal(t, 0.0, Cue{}.Shift(-1).When.Strides, "nothing is before the release")
}
