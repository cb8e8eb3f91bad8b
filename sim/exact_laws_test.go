package sim

import (
	"context"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
)

// The laws that hold on every layout. Tolerances are those of floating point in
// sums over some hundreds of samples.

// A cue given just after take-off is read a latency later, in the air: whatever it says, the
// flight of that jump and its landing stay the same to the last bit.
func TestLaw03CueAfterTakeOffChangesNeitherFlightNorLanding(t *testing.T) {
	for seed := range uint64(layouts(200)) {
		r := dice(seed)
		l := newTurning(r, within(r, 30, 150), within(r, 5, 9))
		b := l.obs[1].At
		l.cue(released())
		l.stand(takeOff(2, 0.1), b.Add(geom.Point{X: l.s * within(r, 1.5, 3), Y: within(r, -2, 3)}))
		other := l.copy()
		k := &other.cues[1]
		switch r.IntN(4) {
		case 0:
			k.Pace = plan.Stop
		case 1:
			k.Signal, k.Pace = plan.Pull, plan.Stop
		case 2:
			k.Shoulders = plan.Shoulders{Facing: plan.FaceDog}
			k.Word = "come"
		default: // not the arm: for a change of arms to come he holds his chest back
			k.Signal, k.Word = plan.Push, "out"
		}
		want, got := l.rehearse(), other.rehearse()
		require.InDeltaSlice(t, flight(want, 2), flight(got, 2), 1e-9, "seed %d", seed)
	}
}

// flight returns the figures of the flight over number n and where it ends.
func flight(r *Rehearsal, n int) []float64 {
	l := &r.Legs[n-1]
	out := []float64{l.TakeOff, l.Landing, l.Flight}
	for _, s := range r.Trace.Samples[l.Last:] {
		if s.Dog.Mode.String() != "in the air" {
			return append(out, s.Dog.At.X, s.Dog.At.Y, float64(s.Dog.Heading), s.Dog.Speed)
		}
	}
	return out
}

func TestLaw09MirroredRingSameFigures(t *testing.T) {
	for seed := range uint64(layouts(200)) {
		l := field(seed)
		sameFigures(t, seed, l.rehearse(), l.mirrored().rehearse(), 1e-6)
	}
}

// Weave poles are the exception: the first pole passes at the left shoulder, so a
// dog that comes from the left has the harder entry.
func TestLaw09WeavesAreNotMirrored(t *testing.T) {
	directional(t, 100, nineInTen, func(seed uint64) (float64, float64, bool) {
		r := dice(seed)
		l := newTurning(r, within(r, 15, 30), within(r, 7, 9))
		o := &l.obs[l.right]
		*o = course.Obstacle{ID: "w", Kind: course.Weaves, At: o.At.Add(geom.Point{Y: 3.3}), Facing: 0}
		o.Defaults(0.6)
		l.cue(released())
		l.stand(takeOff(3, 0), o.At.Add(geom.Point{X: l.s * 3, Y: -3}))
		l.cues[1].When.Event = plan.Enter
		left, right := l.sketch.rehearse(), l.mirrored().rehearse()
		if l.s < 0 { // turning left it comes from the right
			left, right = right, left
		}
		return left.Legs[2].Clean, right.Legs[2].Clean, true
	})
}

// mirrored returns the layout as a mirror shows it.
func (l *sketch) mirrored() *sketch {
	k := l.moved(func(p geom.Point) geom.Point { return geom.Point{X: 100 - p.X, Y: p.Y} }, func(a geom.Angle) geom.Angle { return (-a).Wrap() })
	for i := range k.cues {
		if k.cues[i].Arm != plan.SameArm {
			k.cues[i].Arm = k.cues[i].Arm.Other()
		}
		switch k.cues[i].Word {
		case "left":
			k.cues[i].Word = "right"
		case "right":
			k.cues[i].Word = "left"
		}
	}
	return k
}

// moved returns the layout with every place and heading moved.
func (l *sketch) moved(p func(geom.Point) geom.Point, h func(geom.Angle) geom.Angle) *sketch {
	k := l.copy()
	k.start, k.leadOut = p(l.start), p(l.leadOut)
	for i := range k.obs {
		o := &k.obs[i]
		o.At, o.Facing = p(o.At), h(o.Facing)
		for n := range o.Through {
			o.Through[n] = p(o.Through[n])
		}
	}
	for i := range k.cues {
		c := &k.cues[i]
		if c.HasStand {
			c.Stand = p(c.Stand)
		}
		if c.Shoulders.Facing == plan.FaceHeading {
			c.Shoulders.Heading = h(c.Shoulders.Heading)
		}
	}
	return k
}

func TestLaw10TurnedAndShiftedRingSameFigures(t *testing.T) {
	for seed := range uint64(layouts(200)) {
		l := field(seed)
		r := dice(seed)
		by, to := geom.Deg(within(r, -180, 180)), geom.Point{X: within(r, -30, 30), Y: within(r, -30, 30)}
		k := l.moved(func(p geom.Point) geom.Point {
			return by.Right().Mul(p.X).Add(by.Unit().Mul(p.Y)).Add(to)
		}, func(a geom.Angle) geom.Angle { return (a + by).Wrap() })
		sameFigures(t, seed, l.rehearse(), k.rehearse(), 1e-6)
	}
}

// The same ring written in feet gives the same figures; the files hold fourteen
// decimals.
func TestLaw10MetresOrFeetSameFigures(t *testing.T) {
	tried := 0
	for seed := range uint64(layouts(100)) {
		l := field(seed)
		m, errM := l.written(course.Metres)
		f, errF := l.written(course.Feet)
		if errM != nil || errF != nil {
			require.Equal(t, errM == nil, errF == nil, "seed %d: one unit is refused: %v, %v", seed, errM, errF)
			continue // a random plan that is no plan
		}
		tried++
		sameFigures(t, seed, m.Rehearse(), f.Rehearse(), 1e-4)
	}
	require.Greater(t, tried, layouts(100)/5)
}

// written writes the layout's course and plan as files in units u and reads them back.
func (l *sketch) written(u course.Units) (*Setup, error) {
	c, err := course.Parse("course.toml", []byte(l.courseFile(u)))
	if err != nil {
		return nil, err
	}
	p, err := plan.Parse("plan.toml", []byte(l.planFile(u)), c, &l.team)
	if err != nil {
		return nil, err
	}
	return New(c, p, &l.team), nil
}

func pair(p geom.Point, u course.Units) string {
	return fmt.Sprintf("[%.14f, %.14f]", p.X/u.Factor(), p.Y/u.Factor())
}

func (l *sketch) courseFile(u course.Units) string {
	var b strings.Builder
	order := make([]string, len(l.order))
	for i, s := range l.order {
		order[i] = l.obs[s.Obstacle].ID
		if s.Reverse {
			order[i] = "-" + order[i]
		}
	}
	fmt.Fprintf(&b, "course = \"layout\"\nunits = %q\nring = %s\nstart = %s\norder = %q\n[obstacles]\n", u, pair(geom.Point{X: 100, Y: 100}, u), pair(l.start, u), strings.Join(order, " "))
	for i := range l.obs {
		o := &l.obs[i]
		if o.Kind == course.Tunnel {
			pts := make([]string, len(o.Through))
			for n := range pts {
				pts[n] = pair(o.Through[n], u)
			}
			fmt.Fprintf(&b, "%s = { kind = %q, through = [%s] }\n", o.ID, o.Kind, strings.Join(pts, ", "))
			continue
		}
		wings := ""
		if o.Kind == course.Jump && !o.Wings {
			wings = ", wings = false"
		}
		fmt.Fprintf(&b, "%s = { kind = %q, at = %s, facing = %.14f%s }\n", o.ID, o.Kind, pair(o.At, u), o.Facing.Compass().Degrees(), wings)
	}
	return b.String()
}

func (l *sketch) planFile(u course.Units) string {
	var b strings.Builder
	fmt.Fprintf(&b, "plan = \"layout\"\nunits = %q\nlead-out = %s\n", u, pair(l.leadOut, u))
	for _, k := range l.cues {
		fmt.Fprintf(&b, "[[cue]]\nwhen = %q\n", k.When)
		if k.HasStand {
			fmt.Fprintf(&b, "stand = %s\n", pair(k.Stand, u))
		}
		for _, kv := range [][2]string{{"pace", k.Pace.String()}, {"arm", k.Arm.String()}, {"cross", k.Cross.String()}, {"word", k.Word}} {
			if kv[1] != "" {
				fmt.Fprintf(&b, "%s = %q\n", kv[0], kv[1])
			}
		}
		if k.Signal != plan.Along {
			fmt.Fprintf(&b, "signal = %q\n", k.Signal)
		}
		if k.Shoulders.Facing == plan.FaceDog {
			b.WriteString("shoulders = \"dog\"\n")
		}
	}
	return b.String()
}

// An obstacle hidden behind a solid one for the whole run, and one farther off than
// a dog can see, change nothing; without the screen the first would be seen.
func TestLaw11NeverInViewChangesNothing(t *testing.T) {
	bare := 0
	for seed := range uint64(layouts(200)) {
		r := dice(seed)
		l := newTurning(r, within(r, 70, 100), within(r, 6, 8))
		l.trapAt(l.turn-within(r, 15, 30), 5)
		l.cue(released()) // he runs straight on: that is where the dog looks
		l.stand(landing(2), l.pivot.At.Add(geom.Point{X: l.s * within(r, 1.5, 2.5), Y: 3}))
		// An A-frame across the view straight on, broad enough for every bearing it is looked at from.
		screen := course.Obstacle{ID: "screen", Kind: course.AFrame, At: l.pivot.At.Add(geom.Point{Y: 7.5})}
		screen.Defaults(0.6)
		screen.Width = 30
		hide := func(l *sketch) (hidden, far int) {
			r := dice(seed + 1<<34)
			hidden = l.add(geom.Point{X: 50 + within(r, -1, 1), Y: screen.At.Y + within(r, 3, 3.6)}, geom.Deg(within(r, -20, 20)))
			far = l.add(geom.Point{X: 50 + within(r, -4, 4), Y: -12}, geom.Deg(180))
			return hidden, far
		}
		open := l.copy()
		hidden, _ := hide(open)
		bare += boolInt(open.rehearse().shows(hidden))

		l.obs = append(l.obs, screen)
		with := l.copy()
		hidden, far := hide(with)
		got := with.rehearse()
		require.False(t, got.shows(hidden) || got.shows(far), "seed %d: the layout shows what it is to hide", seed)
		sameFigures(t, seed, l.rehearse(), got, 1e-6)
	}
	require.Greater(t, bare, layouts(200)*9/10, "hardly ever would it have been seen without the screen")
}

// shows reports whether an obstacle pulls the dog anywhere along the likely run.
func (r *Rehearsal) shows(obstacle int) bool {
	for i := range r.Trace.Samples {
		for _, seen := range r.Setup.See(r.Trace.Samples[i], nil) {
			if r.Setup.Entries[seen.Entry].Obstacle == obstacle && seen.Pull > 0 {
				return true
			}
		}
	}
	return false
}

func TestLaw16ChancesOfALegSumToOne(t *testing.T) {
	for seed := range uint64(layouts(200)) {
		r := field(seed).rehearse()
		for _, l := range r.Legs {
			sum := l.Clean + l.chance(OffCourse) + l.chance(WrongSide) + l.chance(Refusal) + l.chance(KnockedBar) + l.chance(MissedContact)
			// Faults below one in two thousand are not listed.
			require.InDelta(t, 1, sum, 0.0005*float64(len(r.Setup.Entries)), "seed %d leg %d", seed, l.Number)
			require.GreaterOrEqual(t, l.Clean, 0.0)
		}
		s := r.Setup
		in := newIntegrator(s)
		for _, from := range append([][]State{{s.Start(Luck{})}}, s.arrivals()...) {
			if from[0].Leg > len(s.correct) {
				continue
			}
			in.leg(from)
			sum := in.out.clean + in.out.refused + in.out.bar + in.out.contact
			for _, p := range in.out.wrong {
				sum += p
			}
			require.InDelta(t, 1, sum, 1e-9, "seed %d leg %d", seed, from[0].Leg)
		}
	}
}

func TestLaw16SameSeedSameRunOnAnyNumberOfCores(t *testing.T) {
	for seed := range uint64(layouts(10)) {
		s := field(seed).setup()
		want, err := s.runMany(context.Background(), seed, 100, 1, true, nil)
		require.NoError(t, err)
		for _, workers := range []int{2, 8} {
			got, err := s.runMany(context.Background(), seed, 100, workers, true, nil)
			require.NoError(t, err)
			require.True(t, reflect.DeepEqual(want, got), "seed %d: %d workers differ", seed, workers)
		}
		for _, l := range want.Legs {
			ended := l.Clean + l.Refused + l.Knocked + l.Missed
			for _, n := range l.Wrong {
				ended += n
			}
			require.Equal(t, 100, ended, "seed %d", seed)
		}
	}
}

// Another plan for the same course and team runs as if all had been made ready anew, and
// leaves the first as it was.
func TestAnotherPlanForTheSameCourse(t *testing.T) {
	for seed := range uint64(layouts(20)) {
		a := field(seed).setup()
		first := a.Rehearse()
		other := *a.Plan
		other.Cues = slices.Clone(other.Cues)
		for i := range other.Cues {
			if other.Cues[i].HasStand {
				other.Cues[i].Stand.X += 0.3
			}
		}
		anew, with := New(a.Course, &other, a.Team), a.WithPlan(&other)
		assert.Equal(t, anew.Rehearse().Legs, with.Rehearse().Legs, "seed %d", seed)
		x, err := anew.RunMany(context.Background(), seed, 20, nil)
		require.NoError(t, err)
		y, err := with.RunMany(context.Background(), seed, 20, nil)
		require.NoError(t, err)
		assert.Equal(t, x, y, "seed %d", seed)
		assert.Equal(t, first.Legs, a.Rehearse().Legs, "seed %d", seed)
	}
}
