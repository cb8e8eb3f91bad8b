package ring

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/sim/dog"
)

func at(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

func stand(id string, k course.Kind, x, y, deg float64, wings bool) course.Obstacle {
	o := course.Obstacle{ID: id, Kind: k, At: at(x, y), Facing: geom.Deg(deg), Wings: wings}
	o.Defaults(0.6)
	return o
}

// allKinds is a ring with one of every kind, a dummy, and a jump taken both ways.
func allKinds() *course.Course {
	tube := course.Obstacle{ID: "tube", Kind: course.Tunnel, At: at(10, 20), Through: []geom.Point{at(7, 18), at(10, 21), at(13, 18)}}
	tube.Defaults(0.6)
	c := &course.Course{Name: "Bracken Hollow", Ring: at(26, 40), Start: at(4, 2), Obstacles: []course.Obstacle{
		stand("gate", course.Jump, 4, 7, 0, true), stand("elm", course.Jump, 4, 13, 0, true), tube,
		stand("birch", course.Jump, 4, 19, 0, true), stand("ash", course.Jump, 13, 12, 180, false),
		stand("oak", course.Spread, 10, 7, 200, true), stand("poles", course.Weaves, 17, 7, 45, false),
		stand("frame", course.AFrame, 22, 16, 0, false), stand("wall", course.Wall, 22, 23, 330, false),
		stand("plank", course.DogWalk, 16, 30, 270, false), stand("hoop", course.Tyre, 6, 33, 315, false),
		stand("brook", course.LongJump, 4, 37, 90, false), stand("board", course.Table, 11, 37, 90, false),
		stand("tip", course.Seesaw, 4, 26, 180, false),
	}}
	for _, i := range []int{0, 1, 2, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13} {
		c.Order = append(c.Order, course.Step{Obstacle: i})
	}
	c.Order = append(c.Order, course.Step{Obstacle: 1, Reverse: true})
	return c
}

// rehearsal is drawn by hand: a dog over 1 and 2, collected before the turn, into the tunnel 3,
// with the dummy straight on as the trap, and a handler who is late at one stand.
func rehearsal(t testing.TB) *sim.Rehearsal {
	t.Helper()
	c := allKinds()
	tm, err := team.Preset("large", "average")
	require.NoError(t, err)
	r := &sim.Rehearsal{Setup: &sim.Setup{Course: c, Plan: &plan.Plan{}, Team: &tm, Entries: c.Entries(), Actions: []plan.Action{
		{Stand: at(6.5, 9), HasStand: true, Arm: plan.LeftArm, Cue: -1},
		{When: plan.Moment{Number: 1, Event: plan.TakeOff}, Stand: at(7, 13), HasStand: true, Arm: plan.LeftArm},
		{When: plan.Moment{Number: 3, Event: plan.Enter}, Stand: at(10, 15), HasStand: true, Arm: plan.RightArm, Cue: 1},
	}}}
	paw(r, at(4, 2), sim.GroundStride, 1)
	for _, y := range []float64{3.9} {
		paw(r, at(4, y), sim.GroundStride, 1)
	}
	paw(r, at(4, 5.6), sim.TakeOffMark, 1)
	paw(r, at(4, 8.3), sim.LandingMark, 2)
	paw(r, at(4, 10.2), sim.GroundStride, 2)
	paw(r, at(4, 11.2), sim.GroundStride, 2)
	paw(r, at(4, 12), sim.TakeOffMark, 2)
	paw(r, at(4.1, 14), sim.LandingMark, 3)
	paw(r, at(4.5, 15.1), sim.GroundStride, 3)
	paw(r, at(5.4, 16.2), sim.GroundStride, 3)
	paw(r, at(7, 18), sim.GroundStride, 3)
	r.Legs = []sim.Leg{{Number: 1, Clean: .98, First: 0, Last: 23}, {Number: 2, Clean: .9, First: 24, Last: 55}, {
		Number: 3, Clean: .6, First: 56, Last: len(r.Trace.Samples) - 1, Faults: []sim.Fault{
			{Kind: sim.OffCourse, Entry: entryOf(c, "birch", false), Obstacle: c.Find("birch"), Chance: .34, Leaves: 64,
				Path: []geom.Point{at(4.1, 14), at(4.1, 15), at(4, 17), at(4, 19)}},
			{Kind: sim.OffCourse, Entry: entryOf(c, "tube", true), Obstacle: c.Find("tube"), Chance: .04, Leaves: -1},
		}}}
	r.Cues = []sim.CueTiming{{Action: 0, Sample: 0}, {Action: 1, Sample: 16, Off: 1.6, Late: .4, Where: at(6.6, 11.4)}, {Action: 2, Sample: -1}}
	return r
}

func entryOf(c *course.Course, id string, reverse bool) int {
	for i, e := range c.Entries() {
		if e.Obstacle == c.Find(id) && e.Reverse == reverse {
			return i
		}
	}
	return -1
}

// paw adds the way to the next print in eight samples; the handler goes along beside it.
func paw(r *sim.Rehearsal, to geom.Point, m sim.Mark, leg int) {
	from := to
	if n := len(r.Trace.Samples); n > 0 {
		from = r.Trace.Samples[n-1].Dog.At
	}
	for i := 1; i <= 8; i++ {
		k := float64(len(r.Trace.Samples)) / 88
		s := sim.Sample{Leg: leg, Commit: -1, Cue: min(leg-1, 1)}
		s.Dog = dog.Body{At: from.Lerp(to, float64(i)/8), Heading: from.Towards(to), Mode: dog.Ground, Entry: -1}
		s.Hand = sim.Hand{At: at(6.5+1.5*k, 9+6*k), Chest: geom.Deg(30), Arm: plan.LeftArm}
		r.Trace.Samples = append(r.Trace.Samples, s)
	}
	r.Trace.Paws = append(r.Trace.Paws, sim.PawPrint{At: to, Sample: len(r.Trace.Samples) - 1, Mark: m})
}

// turning is the scene at the landing after 2: the handler stands before the tunnel's far mouth.
func turning(t testing.TB) Scene {
	r := rehearsal(t)
	s := Scene{Setup: r.Setup, Run: r, Sample: 66, Layers: LegLayers().With(Shadow).With(Sight), Chosen: None}
	s.Seen = []dog.Seen{
		{Entry: entryOf(r.Setup.Course, "birch", false), Bearing: 0, Range: 4.5, Visible: 1, Pull: 1.2},
		{Entry: entryOf(r.Setup.Course, "tube", false), Bearing: .5, Range: 4, Visible: .9, Pull: .8},
		{Entry: entryOf(r.Setup.Course, "ash", true), Bearing: math.Pi / 2, Range: 9, Visible: .1, ByBody: true},
	}
	return s
}
