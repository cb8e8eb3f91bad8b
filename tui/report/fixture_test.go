package report

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
)

// sample is a rehearsal written by hand: every kind of fault, a cue given late, one
// that never came, figures that do not exist. Nothing in it was simulated.
func sample() *sim.Rehearsal {
	s := setup("Quarry Meadow", "Wait at 2, front cross", "Wren and me", "oak")
	return &sim.Rehearsal{
		Setup: s, Length: 31.416, Time: 7.25, Clean: 0.4125, Low: 0.39, High: 0.43,
		Time10: 6.98, Time90: 7.77, Runs: 2000, Seed: 7,
		Trace: sim.Trace{Samples: make([]sim.Sample, 4)},
		Legs: []sim.Leg{
			{Number: 1, Clean: 1, Low: 1, High: 1, Last: 1, Speed: 3.21, Stride: 1.2, TakeOff: 1.1, Landing: 1, Flight: 0.38,
				Radius: math.Inf(1), Time: 1.5},
			{Number: 2, Clean: 0.62, Low: 0.6, High: 0.64, First: 1, Last: 2, Speed: 5.2, Stride: 1.71, TakeOff: 1.31, Landing: 1.2,
				Flight: 0.4, Radius: 1.94, Time: 1.01, Hidden: []sim.Hidden{{Obstacle: 2, Seconds: 0.42}},
				Faults: []sim.Fault{
					{Kind: sim.OffCourse, Entry: 4, Obstacle: 2, Chance: 0.3, Bearing: geom.Deg(-34), Range: 4.2, InView: 0.61,
						Off: geom.Deg(12), Strength: 1},
					{Kind: sim.Refusal, Entry: 2, Obstacle: 1, Chance: 0.05, Bearing: geom.Deg(80), Range: 2, InView: 0.3},
					{Kind: sim.WrongSide, Entry: 3, Obstacle: 1, Chance: 0.03, Bearing: geom.Deg(3), Range: 5, InView: 1},
					{Kind: sim.Collision, Entry: -1, Obstacle: 1, Chance: 0.04},
					{Kind: sim.KnockedBar, Entry: -1, Obstacle: 1, Chance: 0.003},
					{Kind: sim.OffCourse, Entry: 6, Obstacle: 3, Chance: 0.004, Bearing: math.Pi, Range: math.Inf(1)},
				}},
			{Number: 3, Clean: 0.9, Low: 0.88, High: 0.92, First: 2, Last: 3, Speed: 4.4, Stride: 1.5, Radius: 3.1, Time: 2.4,
				Faults: []sim.Fault{{Kind: sim.MissedContact, Entry: -1, Obstacle: 3, Chance: 0.08}}},
		},
		Cues: []sim.CueTiming{
			{Action: 0},
			{Action: 1, Sample: 2, Given: 3.2, Late: 0.41, Off: 1.2, Obstacle: 2},
			{Action: 2, Sample: -1, Given: math.NaN()},
		},
	}
}

// setup is two jumps, a dummy tunnel and an A-frame, with a plan of two cues.
func setup(ring, name, who, id string) *sim.Setup {
	c := &course.Course{
		Name: ring, Ring: geom.Point{X: 20, Y: 30}, Start: geom.Point{X: 5, Y: 2},
		Obstacles: []course.Obstacle{
			{ID: "gate", Kind: course.Jump, At: geom.Point{X: 5, Y: 6}, Height: 0.6},
			{ID: id, Kind: course.Jump, At: geom.Point{X: 5, Y: 12}, Height: 0.55},
			{ID: "tube", Kind: course.Tunnel, Through: []geom.Point{{X: 3, Y: 18}, {X: 3, Y: 22}}},
			{ID: "ramp", Kind: course.AFrame, At: geom.Point{X: 12, Y: 12}},
		},
		Order: []course.Step{{Obstacle: 0}, {Obstacle: 1}, {Obstacle: 3, Reverse: true}},
	}
	for i := range c.Obstacles {
		c.Obstacles[i].Defaults(0.6)
	}
	p := &plan.Plan{Name: name, LeadOut: geom.Point{X: 7, Y: 9}, Cues: []plan.Cue{
		{When: plan.Moment{Number: 2, Event: plan.TakeOff, Strides: -1}, Stand: geom.Point{X: 7.5, Y: 13}, HasStand: true,
			Pace: plan.Stop, Cross: plan.FrontCross},
		{When: plan.Moment{Number: 3, Event: plan.Exit, Strides: 0.5}, Pace: plan.Run},
	}}
	t, err := team.Preset("large", "average")
	if err != nil {
		panic(err)
	}
	t.Name = who
	return &sim.Setup{Course: c, Plan: p, Team: &t, Entries: c.Entries(), Actions: p.Resolve(c, &t)}
}
