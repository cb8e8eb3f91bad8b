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

// jumps returns a course of jumps, each x, y and heading in degrees, on a ring of
// 40 by 40 m with the start 5 m before the first.
func jumps(at ...[3]float64) *course.Course {
	c := &course.Course{Name: "made by hand", Ring: geom.Point{X: 40, Y: 40}}
	for i, j := range at {
		o := course.Obstacle{ID: string(rune('a' + i)), Kind: course.Jump, At: geom.Point{X: j[0], Y: j[1]}, Facing: geom.Deg(j[2])}
		o.Defaults(0.6)
		c.Obstacles = append(c.Obstacles, o)
		c.Order = append(c.Order, course.Step{Obstacle: i})
	}
	first := geom.Pose{At: c.Obstacles[0].At, Heading: c.Obstacles[0].Facing}
	c.Start = first.Ahead(-5)
	return c
}

// Layouts by hand. up: a straight line; bend: a turn of 90 degrees to the right
// after 2; back: a wrap to the right at 2.
var (
	up   = jumps([3]float64{20, 7, 0}, [3]float64{20, 12, 0}, [3]float64{20, 17, 0}, [3]float64{20, 22, 0})
	bend = jumps([3]float64{20, 7, 0}, [3]float64{20, 12, 0}, [3]float64{25, 16, 90}, [3]float64{31, 16, 90})
	back = jumps([3]float64{20, 7, 0}, [3]float64{20, 13, 0}, [3]float64{23, 8, 180}, [3]float64{23, 3, 180})
)

// crossing is a plan of three stands with a cross at the second.
func crossing(cross Cross, when, next string, lead, stand, after geom.Point) *Plan {
	m, err := ParseMoment(when)
	if err != nil {
		panic(err)
	}
	n, err := ParseMoment(next)
	if err != nil {
		panic(err)
	}
	return &Plan{Name: "x", LeadOut: lead, Cues: []Cue{
		{When: m, Stand: stand, HasStand: true, Cross: cross, Pace: Run},
		{When: n, Stand: after, HasStand: true},
	}}
}

// Common practice, no source: what a trainer would call these positions.
var crossCases = []struct {
	name               string
	course             *course.Course
	when, next         string
	lead, stand, after geom.Point
	front, blind, rear string // part of why not; empty where the positions make it
}{
	{"over to the inside of a turn, ahead", bend, "2 take-off -1", "3 take-off",
		geom.Point{X: 18, Y: 9}, geom.Point{X: 19, Y: 15}, geom.Point{X: 24, Y: 14}, "", "", "past the next obstacle"},
	{"on the inside all the time", bend, "2 take-off -1", "3 take-off",
		geom.Point{X: 22, Y: 9}, geom.Point{X: 22, Y: 13}, geom.Point{X: 26, Y: 13.5}, "on the right", "on the right", "on the right"},
	{"from the inside over to the outside", bend, "2 take-off -1", "3 take-off",
		geom.Point{X: 22, Y: 9}, geom.Point{X: 22, Y: 18}, geom.Point{X: 27, Y: 18}, "turns 90 degrees away", "", "past the next obstacle"},
	{"wrap, handler on the inside", back, "2 take-off -1", "3 take-off",
		geom.Point{X: 23, Y: 9}, geom.Point{X: 24.5, Y: 14}, geom.Point{X: 25, Y: 7}, "", "", ""},
	{"straight line, always right", up, "2 take-off -1", "3 take-off",
		geom.Point{X: 22, Y: 9}, geom.Point{X: 22, Y: 14}, geom.Point{X: 22, Y: 18}, "on the right", "on the right", "on the right"},
	{"straight line, always left", up, "2 take-off -1", "3 take-off",
		geom.Point{X: 18, Y: 9}, geom.Point{X: 18, Y: 14}, geom.Point{X: 18, Y: 18}, "on the left", "on the left", "on the left"},
	{"straight line, behind the dog", up, "3 take-off", "4 take-off",
		geom.Point{X: 22, Y: 5}, geom.Point{X: 22, Y: 13}, geom.Point{X: 18, Y: 19}, "behind the dog", "behind the dog", ""},
	{"straight line, back toward the dog", up, "2 take-off -1", "2 landing",
		geom.Point{X: 22, Y: 9}, geom.Point{X: 22, Y: 16}, geom.Point{X: 18, Y: 13}, "", "toward the dog", "past the next obstacle"},
	{"straight line, over it long before the dog", up, "1 landing", "3 take-off",
		geom.Point{X: 21, Y: 5}, geom.Point{X: 21, Y: 12.5}, geom.Point{X: 18, Y: 13}, "", "", "well before the dog"},
}

func TestCrossesThatPositionsMake(t *testing.T) {
	for _, k := range crossCases {
		for cross, why := range map[Cross]string{FrontCross: k.front, BlindCross: k.blind, RearCross: k.rear} {
			t.Run(k.name+", "+cross.String(), func(t *testing.T) {
				p := crossing(cross, k.when, k.next, k.lead, k.stand, k.after)
				faults := p.Check(k.course, nil)
				if why == "" {
					assert.Empty(t, faults)
					return
				}
				require.Len(t, faults, 1)
				assert.Equal(t, "cross", faults[0].Key)
				assert.Equal(t, 0, faults[0].Cue)
				assert.Contains(t, faults[0].Text, why)
			})
		}
	}
}

// mirrored returns the course and plan with left and right swapped.
func mirrored(c *course.Course, p *Plan) (*course.Course, *Plan) {
	flip := func(q geom.Point) geom.Point { return geom.Point{X: c.Ring.X - q.X, Y: q.Y} }
	m := *c
	m.Start = flip(c.Start)
	m.Obstacles = append([]course.Obstacle(nil), c.Obstacles...)
	for i := range m.Obstacles {
		o := &m.Obstacles[i]
		o.At, o.Facing = flip(o.At), -o.Facing
	}
	q := *p
	q.LeadOut = flip(p.LeadOut)
	q.Cues = append([]Cue(nil), p.Cues...)
	for i := range q.Cues {
		q.Cues[i].Stand = flip(q.Cues[i].Stand)
		q.Cues[i].Arm = q.Cues[i].Arm.Other()
	}
	return &m, &q
}

// Nothing about a plan depends on which hand is the left one.
func TestMirroredPlanHasMirroredFaults(t *testing.T) {
	swap := strings.NewReplacer("left", "right", "right", "left", "lower left", "lower left")
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom([]*course.Course{up, bend, back}).Draw(t, "course")
		point := rapid.Custom(func(t *rapid.T) geom.Point {
			half := rapid.IntRange(-4, 84)
			tie := rapid.SampledFrom([]float64{0, 0, offLine, -offLine}) // half metres are on the other limits
			return geom.Point{X: float64(half.Draw(t, "x"))/2 + tie.Draw(t, "tie"), Y: float64(half.Draw(t, "y")) / 2}
		})
		cross := rapid.SampledFrom([]Cross{NoCross, FrontCross, BlindCross, RearCross}).Draw(t, "cross")
		when := rapid.SampledFrom([]string{"release", "2 take-off -1", "2 landing", "3 take-off -2"}).Draw(t, "when")
		p := crossing(cross, when, "4 take-off", point.Draw(t, "lead"), point.Draw(t, "stand"), point.Draw(t, "after"))
		p.Cues[0].Arm = rapid.SampledFrom([]Arm{SameArm, LeftArm, RightArm}).Draw(t, "arm")
		if p.LeadOut.X == c.Start.X {
			return // on the line itself the arm is the right one by convention
		}
		mc, mp := mirrored(c, p)
		want, got := p.Check(c, nil), mp.Check(mc, nil)
		for i := range want {
			want[i].Text, want[i].Hint = swap.Replace(want[i].Text), swap.Replace(want[i].Hint)
		}
		for i := range got {
			got[i].Hint = strings.ReplaceAll(got[i].Hint, "lower right", "lower left")
		}
		for i := range want {
			want[i].Hint = strings.ReplaceAll(want[i].Hint, "lower right", "lower left")
		}
		assert.Equal(t, want, got)
	})
}
