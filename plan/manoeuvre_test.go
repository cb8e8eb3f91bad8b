package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan/team"
)

// More layouts by hand. weave: three jumps side by side, there, back and there;
// row: two beside each other, both taken up the map; shield: a line of jumps with
// a jump beside it that is not on the course.
var (
	weave  = jumps([3]float64{10, 20, 0}, [3]float64{13.5, 20, 180}, [3]float64{17, 20, 0}, [3]float64{17, 26, 0})
	row    = jumps([3]float64{20, 7, 0}, [3]float64{20, 12, 0}, [3]float64{24, 12, 0}, [3]float64{24, 17, 0})
	shield = dummy(jumps([3]float64{20, 7, 0}, [3]float64{20, 12, 0}, [3]float64{20, 17, 0}), 23, 14.5, 90)
)

// dummy returns c with a jump that is on no number.
func dummy(c *course.Course, x, y, facing float64) *course.Course {
	o := course.Obstacle{ID: "dummy", Kind: course.Jump, At: geom.Point{X: x, Y: y}, Facing: geom.Deg(facing)}
	o.Defaults(0.6)
	c.Obstacles = append(c.Obstacles, o)
	return c
}

func moment(s string) Moment {
	m, err := ParseMoment(s)
	if err != nil {
		panic(err)
	}
	return m
}

func at(when string, x, y float64) Cue {
	return Cue{When: moment(when)}.PutAt(geom.Point{X: x, Y: y})
}

func (k Cue) with(set func(*Cue)) Cue {
	set(&k)
	return k
}

var (
	faceDog  = func(k *Cue) { k.Shoulders.Facing = FaceDog }
	leftArm  = func(k *Cue) { k.Arm = LeftArm }
	rightArm = func(k *Cue) { k.Arm = RightArm }
	pull     = func(k *Cue) { k.Signal = Pull }
	wait     = func(k *Cue) { k.Pace = Stop }
	running  = func(k *Cue) { k.Pace = Run }
)

// Common practice, no source: what a trainer would call each first cue. The arm at
// the start is the left one for a handler on the right of the line, and the other
// way round.
var namedCases = []struct {
	name   string
	course *course.Course
	lead   geom.Point
	cues   []Cue
	want   Manoeuvre
}{
	{"runs along a straight line", up, geom.Point{X: 22, Y: 9},
		[]Cue{at("2 take-off", 22, 14).with(running), at("3 take-off", 22, 19)}, NoManoeuvre},
	{"front: over to the inside with the chest to the dog", bend, geom.Point{X: 18, Y: 9},
		[]Cue{at("2 take-off -1", 19, 15).with(leftArm).with(faceDog), at("3 take-off", 24, 14)}, Front},
	{"blind: the same without looking", bend, geom.Point{X: 18, Y: 9},
		[]Cue{at("2 take-off -1", 19, 15).with(leftArm), at("3 take-off", 24, 14)}, Blind},
	{"front: turns back at a wrap", back, geom.Point{X: 23, Y: 9},
		[]Cue{at("2 take-off -1", 24.5, 14).with(rightArm), at("3 take-off", 25, 7)}, Front},
	{"rear: over behind the dog", up, geom.Point{X: 22, Y: 5},
		[]Cue{at("3 take-off", 22, 13).with(rightArm), at("4 take-off", 18, 19)}, Rear},
	{"an arm alone is no cross", up, geom.Point{X: 22, Y: 9},
		[]Cue{at("2 take-off", 22, 14).with(rightArm), at("3 take-off", 22, 19)}, NoManoeuvre},
	{"wrap: waits at the upright", back, geom.Point{X: 22, Y: 9},
		[]Cue{at("2 take-off -1", 21.8, 12.5).with(wait)}, Wrap},
	{"no wrap for who runs on", back, geom.Point{X: 22, Y: 9},
		[]Cue{at("2 take-off -1", 21.8, 12.5).with(running)}, NoManoeuvre},
	{"no wrap from afar", back, geom.Point{X: 28, Y: 9},
		[]Cue{at("2 take-off -1", 28, 12.5).with(wait)}, NoManoeuvre},
	{"no wrap where the course goes on", up, geom.Point{X: 22, Y: 9},
		[]Cue{at("2 take-off -1", 21.8, 12.5).with(wait)}, NoManoeuvre},
	{"threadle: draws it between two jumps", row, geom.Point{X: 22, Y: 7},
		[]Cue{at("2 landing", 22.5, 10).with(pull)}, Threadle},
	{"threadle, told before take-off", row, geom.Point{X: 22, Y: 7},
		[]Cue{at("2 take-off -1", 22.5, 10).with(pull)}, Threadle},
	{"a pull where the entry lies open is no threadle", bend, geom.Point{X: 22, Y: 9},
		[]Cue{at("2 landing", 22, 12).with(pull)}, NoManoeuvre},
	{"serpentine: chest to the dog all along", weave, geom.Point{X: 11.5, Y: 18},
		[]Cue{at("1 landing", 12, 18).with(faceDog)}, Serpentine},
	{"no serpentine with the back turned", weave, geom.Point{X: 11.5, Y: 18},
		[]Cue{at("1 landing", 12, 18).with(running)}, NoManoeuvre},
	{"post turn: round on the inside", bend, geom.Point{X: 22, Y: 6},
		[]Cue{at("2 take-off", 22, 10.5).with(running), at("3 take-off", 26, 12)}, PostTurn},
	{"no post turn on the outside", bend, geom.Point{X: 18, Y: 9},
		[]Cue{at("2 take-off", 18, 14).with(running), at("3 take-off", 24, 19)}, NoManoeuvre},
	{"layering: a jump between him and the line", shield, geom.Point{X: 25, Y: 9},
		[]Cue{at("2 landing", 25, 14.5).with(running)}, Layering},
	{"no layering on the near side of it", shield, geom.Point{X: 22.5, Y: 9},
		[]Cue{at("2 landing", 22.5, 14.5).with(running)}, NoManoeuvre},
	{"a word alone", back, geom.Point{X: 21.8, Y: 12.5},
		[]Cue{{When: moment("2 take-off -1"), Word: "come"}}, NoManoeuvre},
}

func TestManoeuvresByName(t *testing.T) {
	tm, err := team.Preset("large", "average")
	require.NoError(t, err)
	for _, k := range namedCases {
		t.Run(k.name, func(t *testing.T) {
			p := &Plan{Name: "x", LeadOut: k.lead, Cues: k.cues}
			require.Empty(t, p.Validate(k.course, &tm))
			actions := p.Resolve(k.course, &tm)
			assert.Equal(t, LeadOut, actions[0].Manoeuvre)
			assert.Equal(t, k.want.String(), actions[1].Manoeuvre.String())

			mc, mp := mirrored(k.course, p)
			assert.Equal(t, k.want.String(), mp.Resolve(mc, &tm)[1].Manoeuvre.String(), "mirrored")
		})
	}
}

// A cross that is written is the manoeuvre, whatever else the positions look like.
func TestWrittenCrossIsTheManoeuvre(t *testing.T) {
	c, tm := mill(t)
	p := parseFile(t, "testdata/right/whole.toml")
	assert.Equal(t, Front, p.Resolve(c, tm)[3].Manoeuvre)
	p = parseFile(t, "testdata/right/rear.toml")
	assert.Equal(t, Rear, p.Resolve(c, tm)[2].Manoeuvre)
}

// A plan under alteration may say anything: naming it never fails.
func TestResolveTakesAnyPlan(t *testing.T) {
	c, tm := mill(t)
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlan(c).Draw(t, "plan")
		for i := range p.Cues {
			p.Cues[i].When.Number = rapid.IntRange(-3, 99).Draw(t, "number")
		}
		actions := p.Resolve(c, tm)
		require.Len(t, actions, len(p.Cues)+1)
		p.Validate(c, tm)
	})
}
