package words

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/course/rulebook"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"

	"github.com/stretchr/testify/assert"
)

func TestPercent(t *testing.T) {
	for _, c := range []struct {
		p    float64
		want string
	}{{0, "0 %"}, {0.001, "<1 %"}, {0.005, "1 %"}, {0.494, "49 %"}, {0.995, ">99 %"}, {0.994, "99 %"}, {1, "100 %"}, {math.NaN(), "? %"}} {
		assert.Equal(t, c.want, Percent(c.p), "Percent(%v)", c.p)
	}
}

func TestFigures(t *testing.T) {
	assert.Equal(t, "86 % (83 to 89 %)", Chance(.86, .834, .889))
	assert.Equal(t, "86 %", Chance(.86, .86, .86), "no runs, no interval")
	assert.Equal(t, "4.2 m", Length(course.Metres, 4.21))
	assert.Equal(t, "10.0 ft", Length(course.Feet, 3.048))
	assert.Equal(t, "-", Length(course.Metres, math.Inf(1)))
	assert.Equal(t, "0.0 m", Length(course.Metres, -0.01))
	assert.Equal(t, "12 degrees left", Bearing(geom.Deg(-12)))
	assert.Equal(t, "12 degrees right", Bearing(geom.Deg(12)))
	assert.Equal(t, "straight ahead", Bearing(geom.Deg(358)))
	assert.Equal(t, "+12", Points(.124))
	assert.Equal(t, "0", Points(-.001))
}

// ring is three jumps in a row and a dummy tunnel, led by a plan of one cue.
func ring() *sim.Setup {
	c := &course.Course{
		Name: "Ring", Ring: geom.Point{X: 20, Y: 30}, Start: geom.Point{X: 5, Y: 2},
		Obstacles: []course.Obstacle{
			{ID: "gate", Kind: course.Jump, At: geom.Point{X: 5, Y: 6}},
			{ID: "elm", Kind: course.Jump, At: geom.Point{X: 5, Y: 12}},
			{ID: "tube", Kind: course.Tunnel, Through: []geom.Point{{X: 5, Y: 18}, {X: 5, Y: 22}}},
			{ID: "oak\x1b[31m", Kind: course.Jump, At: geom.Point{X: 12, Y: 6}, Facing: geom.Deg(180)},
		},
		Order: []course.Step{{Obstacle: 0}, {Obstacle: 1}, {Obstacle: 3}},
	}
	for i := range c.Obstacles {
		c.Obstacles[i].Defaults(.6)
	}
	p := &plan.Plan{LeadOut: geom.Point{X: 7, Y: 9}, Cues: []plan.Cue{{
		When: plan.Moment{Number: 2, Event: plan.TakeOff, Strides: -1}, Stand: geom.Point{X: 7.5, Y: 13}, HasStand: true,
		Pace: plan.Stop, Cross: plan.FrontCross, Word: "here",
	}}}
	t, err := team.Preset("large", "average")
	if err != nil {
		panic(err)
	}
	return &sim.Setup{Course: c, Plan: p, Team: &t, Entries: c.Entries(), Actions: p.Resolve(c, &t)}
}

func TestCue(t *testing.T) {
	s := ring()
	assert.Equal(t, "lead-out: stand (7.0, 9.0), stop, left arm", Cue(s, 0))
	assert.Equal(t, `cue 1: "2 take-off -1": stand (7.5, 13.0), stop, right arm, front cross, "here"`, Cue(s, 1))
	assert.Equal(t, "no cue", Cue(s, 2))
}

func TestNamesAreSafe(t *testing.T) {
	c := ring().Course
	assert.Equal(t, "the dummy tunnel (tube)", Obstacle(c, 2))
	assert.Equal(t, `jump 3 (oak\x1b[31m)`, Obstacle(c, 3))
	assert.Equal(t, "an obstacle", Obstacle(c, 9))
}

// Each case is a situation of the trade and what must be said of it.
func TestWhy(t *testing.T) {
	s := ring()
	r := &sim.Rehearsal{Setup: s, Trace: sim.Trace{Samples: make([]sim.Sample, 10)}}
	leg := sim.Leg{Number: 3, Last: 9, Speed: 5.2, TakeOff: 1.3, Radius: 1.9}
	trap := sim.Fault{Kind: sim.OffCourse, Obstacle: 2, Bearing: geom.Deg(-12), Range: 5.04, InView: .84, Strength: 1, Off: geom.Deg(9)}
	why := func(f sim.Fault) string {
		got := Why(r, leg, f)
		assert.LessOrEqual(t, len(got), 156, "two lines of 80: %s", got)
		return got
	}
	assert.Equal(t, "The dummy tunnel is 5.0 m off, 12 degrees left, and in view for 0.8 s. The handler's own lead points at it, 9 degrees off.", why(trap))
	trap.Strength = 0
	assert.Contains(t, why(trap), "reads nothing of its handler")
	trap.Strength, trap.Off = 2, geom.Deg(-70)
	assert.Contains(t, why(trap), "leads 70 degrees away from it")
	trap.Ahead = true
	assert.Contains(t, why(trap), "No turn is read before the dog leaves 2")
	r.Cues = []sim.CueTiming{{Action: 1, Sample: 3, Late: .4, Obstacle: 2}}
	assert.Contains(t, why(trap), "Cue 1, 0.4 s late, is read only after the dog has left the ground")
	r.Cues[0].ReadInTime = true
	assert.NotContains(t, why(trap), "Cue 1", "a cue read in time is not to blame")

	assert.Contains(t, why(sim.Fault{Kind: sim.KnockedBar, Obstacle: 3}), "takes off 1.3 m before the bar at 5.2 m/s out of a turn of 1.9 m radius")
	assert.Contains(t, why(sim.Fault{Kind: sim.Refusal, Obstacle: 3, Bearing: geom.Deg(80), Range: 2, InView: .3}), "the tightest turn here has a radius of 1.9 m")
	assert.Contains(t, why(sim.Fault{Kind: sim.WrongSide, Obstacle: 3, Range: 4, InView: 1}), "The wrong side of jump 3")
	assert.Contains(t, why(sim.Fault{Kind: sim.Collision, Obstacle: 3}), "they run into each other at the release")
	for k := range sim.FaultKinds {
		assert.NotEmpty(t, why(sim.Fault{Kind: k, Obstacle: 1}), "every kind of fault has a reason: %v", k)
		assert.NotEmpty(t, Fault(s, sim.Fault{Kind: k, Obstacle: 1}))
	}
}

func TestTiming(t *testing.T) {
	r := &sim.Rehearsal{Setup: ring()}
	assert.Equal(t, "its moment never came", Timing(r, sim.CueTiming{Sample: -1}))
	assert.Equal(t, "given at 3.2 s, on time, read before the take-off of 2", Timing(r, sim.CueTiming{Given: 3.2, Obstacle: 2, ReadInTime: true}))
	assert.Equal(t, "given at 3.2 s, 0.4 s late, 1.2 m short of the stand, read too late for the take-off of 2",
		Timing(r, sim.CueTiming{Given: 3.2, Late: .4, Off: 1.2, Obstacle: 2}))
}

func TestSummary(t *testing.T) {
	r := &sim.Rehearsal{Setup: ring(), Time: 30, Length: 150, Clean: .4, Low: .4, High: .4, Legs: []sim.Leg{
		{Number: 1, Clean: 1}, {Number: 2, Clean: .5, Low: .5, High: .5, Faults: []sim.Fault{{Kind: sim.OffCourse, Obstacle: 2, Chance: .499}, {Chance: .001}}}}}
	assert.Equal(t, "A clean run: 40 %. Likely time 30.0 s over 150.0 m, 5.0 m/s.", Overall(r))
	r.Runs, r.Low, r.High = 1, 0, .8
	assert.Contains(t, Overall(r), "A clean run: 40 % (0 to 80 %) from 1 run.")
	r.Runs = 3
	assert.Contains(t, Overall(r), "from 3 runs.")
	w := Worst(r, 3)
	assert.Len(t, w, 1)
	assert.True(t, strings.HasPrefix(w[0], "1 to 2: clean 50 %; off course into the dummy tunnel (tube) 50 %."), w[0])
	r.Legs = r.Legs[:1]
	assert.Contains(t, Worst(r, 3)[0], "No leg stands out")
}

// A figure that does not exist is not said as 0.
func TestWhySaysNoZeros(t *testing.T) {
	r := &sim.Rehearsal{Setup: ring(), Trace: sim.Trace{Samples: make([]sim.Sample, 10)}}
	leg := sim.Leg{Number: 3, Last: 9, Speed: 5.2}
	none := regexp.MustCompile(`(^|[^0-9.])0(\.0)? (m|s|degrees)\b`)
	for _, rng := range []float64{0, 3.2, math.Inf(1)} {
		for _, view := range []float64{0, 0.02, 0.6} {
			for _, kind := range []sim.FaultKind{sim.OffCourse, sim.WrongSide, sim.Refusal, sim.Collision} {
				f := sim.Fault{Kind: kind, Obstacle: 3, Range: rng, InView: view, Strength: 1, Off: geom.Deg(40)}
				got := Why(r, leg, f)
				assert.NotRegexp(t, none, got)
				assert.NotContains(t, got, "- off")
			}
		}
	}
	away := sim.Fault{Kind: sim.OffCourse, Obstacle: 2, Range: 5.3, Bearing: geom.Deg(42), InView: 0.02, Strength: 1, Off: geom.Deg(33)}
	assert.Equal(t, "The dummy tunnel is 5.3 m off, 42 degrees right, and hardly in view before the dog decides. "+
		"The handler leads 33 degrees away from it, but too faintly or too late.", Why(r, leg, away))
	away.Off = geom.Deg(1)
	assert.Contains(t, Why(r, leg, away), "The handler's own lead points straight at it.")
	assert.Equal(t, "Only where the dog strays from its likely line.", Why(r, leg, sim.Fault{Kind: sim.OffCourse, Obstacle: 2}))
	assert.Equal(t, "Only where the dog strays from its likely line and runs past jump 3.", Why(r, leg, sim.Fault{Kind: sim.Refusal, Obstacle: 3}))
}

// How near handler and dog come is said as far as it means something.
func TestWhyTheyMeet(t *testing.T) {
	r := &sim.Rehearsal{Setup: ring(), Trace: sim.Trace{Samples: make([]sim.Sample, 3)}}
	meet := func(apart float64) string {
		r.Trace.Samples[1].Time = 16.9
		for i := range r.Trace.Samples {
			r.Trace.Samples[i].Hand.At.X = apart + math.Abs(float64(i-1))
		}
		return Why(r, sim.Leg{Number: 3, Last: 2}, sim.Fault{Kind: sim.Collision, Obstacle: 3})
	}
	assert.Equal(t, "The handler's way meets the dog's line: they run into each other 16.9 s after the release.", meet(0.1))
	assert.Equal(t, "The handler's way meets the dog's line: they come within 0.6 m of each other 16.9 s after the release.", meet(0.6))
	assert.Equal(t, "Only where the dog strays from its likely line; on that they stay 2.3 m apart.", meet(2.3))
}

// A numbered obstacle taken where no number takes it is told from the right way into it: a
// tunnel's two mouths are two different mistakes.
func TestFaultSaysWhichWay(t *testing.T) {
	s := ring()
	s.Course.Order = append(s.Course.Order, course.Step{Obstacle: 2})
	into := func(obstacle int, reverse bool) string {
		for i, e := range s.Entries {
			if e.Obstacle == obstacle && e.Reverse == reverse {
				return Fault(s, sim.Fault{Kind: sim.OffCourse, Entry: i, Obstacle: obstacle})
			}
		}
		return "no such entry"
	}
	assert.Equal(t, "off course into tunnel 4 (tube)", into(2, false))
	assert.Equal(t, "off course into tunnel 4 (tube) by its exit", into(2, true))
	assert.Equal(t, "off course into jump 2 (elm)", into(1, false))
	assert.Equal(t, "off course into jump 2 (elm) from behind", into(1, true))
	s.Course.Order = s.Course.Order[:3]
	assert.Equal(t, "off course into the dummy tunnel (tube)", into(2, true), "a dummy has no right side")
}

func TestHeadlines(t *testing.T) {
	faults := []sim.Fault{
		{Kind: sim.Refusal, Entry: -1, Obstacle: 1, Chance: .05}, {Kind: sim.OffCourse, Entry: -1, Obstacle: 2, Chance: .04},
		{Kind: sim.WrongSide, Entry: -1, Obstacle: 1, Chance: .02}, {Kind: sim.Collision, Entry: -1, Obstacle: 1, Chance: .17},
	}
	r := &sim.Rehearsal{Setup: ring(), Legs: []sim.Leg{{Number: 2, Clean: .89, Low: .89, High: .89, Faults: faults}}}
	assert.Contains(t, Worst(r, 1)[0], "1 to 2: clean 89 %; dog and handler meet 17 %; refusal or run-out at jump 2 (elm) 5 %; "+
		"off course into the dummy tunnel (tube) 4 %; less likely other things.")
	assert.Contains(t, Outcome(r, r.Legs[0]), "jump 2 (elm) from the wrong side 2 %", "all of them where there is room")
	assert.Equal(t, sim.Refusal, faults[0].Kind, "the rehearsal stays as it was")
}

func TestMeasuresOfAStraightLine(t *testing.T) {
	r := &sim.Rehearsal{Setup: ring()}
	assert.Contains(t, Measures(r, sim.Leg{Radius: 4.6}), "tightest radius 4.6 m")
	for _, radius := range []float64{64.3, math.Inf(1), 0} {
		assert.NotContains(t, Measures(r, sim.Leg{Radius: radius}), "radius")
	}
}

func TestCovered(t *testing.T) {
	r := &sim.Rehearsal{Setup: ring()}
	leg := sim.Leg{Hidden: []sim.Hidden{{Obstacle: 2, Seconds: .42}, {Obstacle: 1, Seconds: .02}, {Obstacle: 0, Seconds: 1}}}
	assert.Equal(t, "The handler's body hides the dummy tunnel for 0.4 s, jump 1 for 1.0 s.", Covered(r, leg))
}

// What holds of several obstacles alike is said once; what differs, or names two, stays apart.
func TestFindings(t *testing.T) {
	height := func(id, what string) rulebook.Finding {
		return rulebook.Finding{Rule: "jump height", Section: "6", Edition: "Any 2020", Obstacles: []string{id}, What: id + " " + what}
	}
	got := Findings([]rulebook.Finding{
		height("oak", "is 0.30 m high"), {Rule: "spacing", Obstacles: []string{"oak", "elm"}, What: "oak to elm is 4 m"},
		height("elm", "is 0.30 m high"), height("ash", "is 0.70 m high"), height("b\x1b", "is 0.30 m high"),
		{Rule: "ring", What: "the ring is small"}, {Rule: "ring", What: "the ring is small"},
	})
	assert.Equal(t, []Finding{
		{"jump height", []string{"oak", "elm", Safe("b\x1b")}, "each is 0.30 m high", "Any 2020 6"},
		{"spacing", []string{"oak", "elm"}, "oak to elm is 4 m", ""},
		{"jump height", []string{"ash"}, "ash is 0.70 m high", "Any 2020 6"},
		{"ring", nil, "the ring is small", ""}, {"ring", nil, "the ring is small", ""},
	}, got)
}

// What comes up only off the likely line is said so, with what the runs tell of it.
func TestWhyOfStrays(t *testing.T) {
	r := &sim.Rehearsal{Setup: ring(), Trace: sim.Trace{Samples: make([]sim.Sample, 3)}}
	leg := sim.Leg{Number: 3, Last: 2}
	f := sim.Fault{Kind: sim.OffCourse, Entry: 4, Obstacle: 2, Chance: .02, Stray: true, Range: 7.1, Bearing: geom.Deg(-4), Off: geom.Deg(8), Strength: 2}
	got := Why(r, leg, f)
	assert.Regexp(t, `^Off its likely line: .* is 7\.1 m off, 4 degrees left\. The handler's own lead points at it, 8 degrees off\.$`, got)
	assert.NotContains(t, got, "in view")
	f = sim.Fault{Kind: sim.Refusal, Obstacle: 3, Stray: true, Wide: -1.44}
	assert.Contains(t, Why(r, leg, f), "runs past")
	assert.Contains(t, Why(r, leg, f), "1.4 m to the left of its middle")
	f.Wide = 0.4
	assert.Contains(t, Why(r, leg, f), "too flat to take it", "inside the opening: it is not past the obstacle")
	f.Wide, f.Range = 0, 2.61
	assert.Equal(t, "Off its likely line the dog comes no nearer to jump 3 than 2.6 m and takes nothing.", Why(r, leg, f))
	f.Stray, f.Range = false, 0
	assert.Contains(t, Why(r, leg, f), "Only where the dog strays")
}
