package sim

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/plan/team"
)

// The situations every handler knows, written as a handler writes them: course and
// plan files. What they should come to is common practice, no source.

// rehearsed reads the files and rehearses the plan with a large dog and an average
// handler; teamFile may be empty.
func rehearsed(t *testing.T, courseFile, planFile, teamFile string) *Rehearsal {
	t.Helper()
	c, err := course.Parse("course.toml", []byte(courseFile))
	require.NoError(t, err)
	tm := largeTeam()
	if teamFile != "" {
		tm, err = team.Parse("team.toml", []byte(teamFile))
		require.NoError(t, err)
	}
	p, err := plan.Parse("plan.toml", []byte(planFile), c, tm)
	require.NoError(t, err)
	return New(c, p, tm).Rehearse()
}

// wrong returns the chance that leg n ends at the obstacle with this id.
func wrong(t *testing.T, r *Rehearsal, n int, id string) float64 {
	t.Helper()
	i := r.Setup.Course.Find(id)
	require.GreaterOrEqual(t, i, 0, id)
	return r.Legs[n-1].ends(i)
}

// The right jump lies back beside the line the dog came on, to its left; the handler
// runs on its right and crosses in front.
const wrapCourse = `
course = "Wrap"
ring = [30, 40]
start = [15, 5]
order = "a b back"
[obstacles]
a    = { kind = "jump", at = [15, 9], facing = 0 }
b    = { kind = "jump", at = [15, 15], facing = 0 }
trap = { kind = "jump", at = [15, 20], facing = 0 }
back = { kind = "jump", at = [12.2, 10.5], facing = 190 }
`

// wrapPlan stops and turns some strides before the second take-off. One stride is
// about 1.9 m; the place is one that a handler beside the dog has reached by then.
func wrapPlan(strides float64) string {
	return fmt.Sprintf(`
plan = "Front cross"
lead-out = [16.4, 10.2]
[[cue]]
when = "release"
pace = "run"
[[cue]]
when = %q
stand = [16.4, %.2f]
cross = "front"
pace = "stop"
[[cue]]
when = "3 take-off"
stand = [13.9, 11.5]
`, takeOff(2, strides), 13+1.9*(strides+1.5))
}

const wrapRunOn = `
plan = "Run on"
lead-out = [16.4, 10.2]
[[cue]]
when = "release"
pace = "run"
[[cue]]
when = "2 landing"
stand = [16.8, 18.5]
`

func TestSituationWrap(t *testing.T) {
	on := wrong(t, rehearsed(t, wrapCourse, wrapRunOn, ""), 3, "trap")
	t.Logf("run on: wrong %.2f", on)
	var curve []float64
	for _, s := range []float64{-1.5, -1, -0.5, 0} {
		r := rehearsed(t, wrapCourse, wrapPlan(s), "")
		curve = append(curve, wrong(t, r, 3, "trap"))
		t.Logf("%.1f strides: clean %.2f wrong %.2f refused %.2f wrong side %.2f, landing %.2f", s, r.Legs[2].Clean, curve[len(curve)-1], r.Legs[2].chance(Refusal), r.Legs[2].chance(WrongSide), r.Legs[1].Landing)
	}
	assert.Greater(t, on, 0.9)
	for i := 1; i < len(curve); i++ {
		assert.Greater(t, curve[i], curve[i-1]-0.01, "later is never better")
	}
	assert.Less(t, curve[0], 0.5)
	assert.Greater(t, curve[len(curve)-1], 0.4)
	assert.Greater(t, curve[2]-curve[0], 0.25, "the curve is steep")
}

// gapCourse has the right jump 9.5 m from the landing after a turn of 60 degrees
// and the trap 5 m from it, sep degrees nearer to straight on.
func gapCourse(sep float64) string {
	from := geom.Point{X: 15, Y: 16.2}
	right := geom.Pose{At: from, Heading: geom.Deg(60)}.Ahead(9.5)
	trap := geom.Pose{At: from, Heading: geom.Deg(60 - sep)}.Ahead(5)
	return fmt.Sprintf(`
course = "Gap"
ring = [40, 40]
start = [15, 5]
order = "a b right"
[obstacles]
a     = { kind = "jump", at = [15, 9], facing = 0 }
b     = { kind = "jump", at = [15, 15], facing = 0 }
right = { kind = "jump", at = [%.3f, %.3f], facing = 60 }
trap  = { kind = "jump", at = [%.3f, %.3f], facing = %.0f }
`, right.X, right.Y, trap.X, trap.Y, 60-sep)
}

// Three ways to lead the gap. Between: the dog runs between handler and trap. Body:
// the handler waits on the line of sight to the trap with the dog on his far arm.
// Pull: between, with the arm drawn in and the word.
func gapPlan(how string, sep float64) string {
	if how == "body" {
		from := geom.Point{X: 15, Y: 16.2}
		stand := geom.Pose{At: from, Heading: geom.Deg(60 - sep)}.Ahead(2.6)
		lead := stand.Sub(geom.Deg(60).Unit().Mul(0.5))
		end := geom.Pose{At: geom.Pose{At: from, Heading: geom.Deg(60)}.Ahead(7.8), Heading: geom.Deg(60)}.Beside(-1.1)
		return fmt.Sprintf(`
plan = "Body on the line of sight"
lead-out = [%.3f, %.3f]
[[cue]]
when = "release"
pace = "stop"
arm = "right"
shoulders = "dog"
[[cue]]
when = "2 take-off -1.5"
shoulders = 60
[[cue]]
when = "2 landing"
stand = [%.3f, %.3f]
pace = "run"
[[cue]]
when = "3 take-off"
stand = [%.3f, %.3f]
`, lead.X, lead.Y, stand.X, stand.Y, end.X, end.Y)
	}
	if how == "pull" {
		return `
plan = "Arm drawing in, with the word"
lead-out = [16.5, 11]
[[cue]]
when = "release"
pace = "run"
[[cue]]
when = "2 take-off -1.5"
stand = [16.6, 14]
pace = "walk"
shoulders = "dog"
signal = "pull"
word = "come"
[[cue]]
when = "2 landing +1.5"
stand = [17.6, 15]
pace = "run"
shoulders = "way"
[[cue]]
when = "3 take-off"
stand = [24.2, 19.2]
`
	}
	return `
plan = "Dog between"
lead-out = [16.5, 10]
[[cue]]
when = "release"
pace = "run"
[[cue]]
when = "2 take-off -1.5"
stand = [17, 14]
[[cue]]
when = "3 take-off"
stand = [24.2, 19.2]
`
}

func TestSituationGap(t *testing.T) {
	got := map[string][]float64{}
	for _, how := range []string{"between", "body", "pull"} {
		for _, sep := range []float64{12, 16, 20} {
			r := rehearsed(t, gapCourse(sep), gapPlan(how, sep), "")
			got[how] = append(got[how], wrong(t, r, 3, "trap"))
			t.Logf("%s, %.0f degrees: clean %.2f wrong %.2f refused %.2f; earlier legs %.2f %.2f; trap hidden %.2f s", how, sep, r.Legs[2].Clean, wrong(t, r, 3, "trap"), r.Legs[2].chance(Refusal), r.Legs[0].Clean, r.Legs[1].Clean, r.Legs[2].hides(3))
			assert.Greater(t, r.Legs[1].Clean, 0.9, "he must not lead the dog off before the gap")
		}
		w := got[how]
		assert.Greater(t, w[0], w[1]-0.02, how)
		assert.Greater(t, w[1], w[2]-0.02, how)
	}
	assert.Less(t, got["pull"][2], got["between"][2])
	assert.Less(t, got["body"][2], got["body"][0]-0.1, "the longer his body hides it, the less it gets the dog")
}

func TestSituationFocus(t *testing.T) {
	var w []float64
	for _, focus := range []float64{0.2, 0.5, 0.8} {
		r := rehearsed(t, gapCourse(16), gapPlan("between", 16), fmt.Sprintf("team = \"t\"\n[dog]\nlike = \"large\"\nfocus = %.1f\n", focus))
		w = append(w, wrong(t, r, 3, "trap"))
	}
	t.Logf("focus 0.2, 0.5, 0.8: wrong %.2f", w)
	assert.Less(t, w[0], w[1])
	assert.Less(t, w[1], w[2])
}

// loopFiles is a round of 12 jumps 5.5 m apart; the handler runs inside it, a place
// ahead degrees further round than the dog.
func loopFiles(ahead float64) (courseFile, planFile string) {
	radius := 5.5 / (2 * math.Sin(math.Pi/12))
	at := func(r, deg float64) geom.Point {
		return geom.Point{X: 15 - r*math.Cos(deg*math.Pi/180), Y: 15 + r*math.Sin(deg*math.Pi/180)}
	}
	var c, p strings.Builder
	start := at(radius, -18)
	fmt.Fprintf(&c, "course = \"Round\"\nring = [30, 30]\nstart = [%.3f, %.3f]\norder = \"", start.X, start.Y)
	for k := range 12 {
		fmt.Fprintf(&c, "j%d ", k+1)
	}
	c.WriteString("\"\n[obstacles]\n")
	lead := at(radius-3, -15+ahead)
	fmt.Fprintf(&p, "plan = \"Inside\"\nlead-out = [%.3f, %.3f]\n[[cue]]\nwhen = \"release\"\npace = \"run\"\n", lead.X, lead.Y)
	for k := range 12 {
		deg := float64(k) * 30
		j := at(radius, deg)
		fmt.Fprintf(&c, "j%d = { kind = \"jump\", at = [%.3f, %.3f], facing = %.0f }\n", k+1, j.X, j.Y, deg)
		if k > 0 {
			s := at(radius-3, deg+ahead)
			fmt.Fprintf(&p, "[[cue]]\nwhen = \"%d take-off\"\nstand = [%.3f, %.3f]\n", k+1, s.X, s.Y)
		}
	}
	return c.String(), p.String()
}

func TestSituationLoop(t *testing.T) {
	for _, ahead := range []float64{-5, 0, 10} {
		c, p := loopFiles(ahead)
		r := rehearsed(t, c, p, "")
		ends := 1.0 // clean of what ends a leg: bars are counted beside that
		for _, l := range r.Legs {
			ends *= l.Clean
		}
		t.Logf("handler %.0f degrees ahead: clean %.2f (with bars %.2f), %.2f m/s", ahead, ends, r.Clean, measured(r))
		if ahead <= 0 {
			assert.Greater(t, ends, 0.85)
		}
		assert.Greater(t, measured(r), 4.1) // S5
		assert.Less(t, measured(r), 6.4)    // S5, peak
	}
}

const besideCourse = `
course = "Mouth beside the line"
ring = [30, 40]
start = [15, 5]
order = "a b c d"
[obstacles]
a    = { kind = "jump", at = [15, 9], facing = 0 }
b    = { kind = "jump", at = [15, 15], facing = 0 }
c    = { kind = "jump", at = [15, 21], facing = 0 }
d    = { kind = "jump", at = [15, 27], facing = 0 }
tube = { kind = "tunnel", through = [[18, 20], [18, 25]] }
`

func TestSituationTunnelBesideTheLine(t *testing.T) {
	into := func(r *Rehearsal) float64 {
		keep := 1.0
		for n := range r.Legs {
			keep *= 1 - wrong(t, r, n+1, "tube")
		}
		return 1 - keep
	}
	runs := into(rehearsed(t, besideCourse, `
plan = "Runs the line"
lead-out = [13, 11]
[[cue]]
when = "release"
pace = "run"
[[cue]]
when = "4 take-off"
stand = [13, 28]
`, ""))
	// Nobody there: no file can say that, so the handler stands a long way off.
	l := sketch{team: *largeTeam(), start: geom.Point{X: 15, Y: 5}, leadOut: geom.Point{X: -300, Y: -300}}
	c, err := course.Parse("course.toml", []byte(besideCourse))
	require.NoError(t, err)
	l.obs, l.order = c.Obstacles, c.Order
	nobody := into(l.rehearse())
	t.Logf("nobody there %.2f, handler runs the line %.3f", nobody, runs)
	assert.Greater(t, nobody, runs+0.02)
	assert.Less(t, nobody, 0.7)
	assert.Less(t, runs, 0.06)
}

const farSideCourse = `
course = "From its far side"
ring = [30, 40]
start = [15, 5]
order = "a b -c"
[obstacles]
a = { kind = "jump", at = [15, 9], facing = 0 }
b = { kind = "jump", at = [15, 15], facing = 0 }
c = { kind = "jump", at = [16, 21], facing = 0 }
`

// farSidePlan draws the dog past the jump on the handler's side and opens out again,
// some strides after the landing.
func farSidePlan(open float64) string {
	return fmt.Sprintf(`
plan = "Threadle"
lead-out = [13.4, 13]
[[cue]]
when = "release"
pace = "run"
[[cue]]
when = "2 take-off -1.5"
stand = [13.2, 16]
shoulders = "dog"
signal = "pull"
word = "come"
[[cue]]
when = "2 landing +%.1f"
stand = [13.6, 22]
arm = "right"
shoulders = 120
`, open)
}

const farSideStraight = `
plan = "Straight on"
lead-out = [13.4, 13]
[[cue]]
when = "release"
pace = "run"
[[cue]]
when = "3 take-off"
stand = [13.6, 22]
`

func TestSituationFarSide(t *testing.T) {
	on := rehearsed(t, farSideCourse, farSideStraight, "")
	t.Logf("led straight on: near side %.2f", on.Legs[2].chance(WrongSide))
	assert.Greater(t, on.Legs[2].chance(WrongSide), 0.95)
	var clean []float64
	for _, open := range []float64{0.5, 1, 1.5, 2, 2.5, 3, 3.5} {
		r := rehearsed(t, farSideCourse, farSidePlan(open), "")
		// How far past the wing's plane the dog is when it reads that he opens.
		by := dogAt(r, r.Cues[3].Given+r.Setup.Team.Dog.Latency).Y - 21
		clean = append(clean, r.Legs[2].Clean)
		t.Logf("opens %.1f strides after the landing, %.1f m past the wing: clean %.2f near side %.2f refused %.2f", open, by, r.Legs[2].Clean, r.Legs[2].chance(WrongSide), r.Legs[2].chance(Refusal))
		switch {
		case by < -2:
			assert.Less(t, r.Legs[2].Clean, 0.1)
		case by > -0.5:
			assert.Greater(t, r.Legs[2].Clean, 0.5)
			assert.Less(t, r.Legs[2].chance(WrongSide), 0.4)
		}
	}
	for i := 1; i < len(clean); i++ {
		assert.Greater(t, clean[i], clean[i-1]-0.4, "no cliff: later is not far worse here")
	}
	assert.Less(t, clean[0], 0.1)
	assert.Greater(t, clean[len(clean)-1], 0.5)
}

// dogAt returns where the dog is at a time of the likely run.
func dogAt(r *Rehearsal, seconds float64) geom.Point {
	for i := range r.Trace.Samples {
		if r.Trace.Samples[i].Time >= seconds {
			return r.Trace.Samples[i].Dog.At
		}
	}
	return r.Trace.Samples[len(r.Trace.Samples)-1].Dog.At
}
