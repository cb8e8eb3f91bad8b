package dog

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan/team"
)

func preset(t *testing.T, size string) *Dog {
	t.Helper()
	f, err := team.PresetDog(size)
	require.NoError(t, err)
	return New(f, "grass")
}

// Flight of a dog 0.58 m at the mid-back over 0.47 m and 0.57 m bars, motion capture
// at 120 Hz: Huang, Pi, Zhang, Meng 2024 (J1, J2). The paw span beyond the trunk's
// travel is 1.05 and 0.86 m (J3); the model has one figure for both, so each flight
// time may be off by what that difference makes, a tenth of a metre over the speed.
func TestFlightJ1J2(t *testing.T) {
	const withers = 0.58
	span := 1.65 * withers
	for _, j := range []struct{ takeOff, landing, speed, airborne, trunk float64 }{
		{1.46, 1.39, 6.55, 0.275, 1.80},
		{1.14, 1.30, 5.26, 0.300, 1.58},
	} {
		got := Airborne(j.takeOff, j.landing, span, j.speed)
		assert.InDelta(t, j.airborne, got, 0.1/j.speed)
		assert.InDelta(t, j.trunk, got*j.speed, 0.1)
		// With the seen span of each it is the seen flight to within its rounding.
		own := j.takeOff + j.landing - j.trunk
		assert.InDelta(t, j.airborne, Airborne(j.takeOff, j.landing, own, j.speed), 0.002)
	}
}

// Airborne times of 50, 38 and 30 cm dogs over 60, 40 and 30 cm bars: J1-J3 scaled,
// ranges 0.29-0.49, 0.24-0.37 and 0.20-0.31 s; at the speeds typical of a course, 4.4,
// 4.3 and 4.0 m/s (S1, split by size C), to the two decimals the ranges have.
func TestFlightTimesOfThreeSizes(t *testing.T) {
	for _, c := range []struct {
		size               string
		bar, speed, lo, hi float64
	}{{"large", 0.6, 4.4, 0.29, 0.49}, {"medium", 0.4, 4.3, 0.24, 0.37}, {"small", 0.3, 4.0, 0.20, 0.31}} {
		d := preset(t, c.size)
		takeOff, landing := d.jump(c.speed, c.bar, FarSight)
		got := math.Round(100*Airborne(takeOff, landing, d.span, c.speed)) / 100
		t.Logf("%s: %.3f s at %.1f m/s, take-off %.2f, landing %.2f", c.size, got, c.speed, takeOff, landing)
		assert.GreaterOrEqual(t, got, c.lo, c.size)
		assert.LessOrEqual(t, got, c.hi, c.size)
	}
}

// A racing greyhound, 0.70 m at 17 m/s: about 3 to 3.5 strides a second (Gillette;
// Hudson, Corr, Wilson 2012: G6, G7). The shepherd of 0.60 m: 4.2 m/s at 2.5 Hz, 7 at
// 2.9, 13 at 3.5 (G4), within 5 %.
func TestStrideLaw(t *testing.T) {
	hz := 1 / StrideTime(0.70, 17)
	assert.GreaterOrEqual(t, hz, 3.0)
	assert.LessOrEqual(t, hz, 3.5)
	for _, p := range [][2]float64{{4.2, 2.5}, {7, 2.9}, {13, 3.5}} {
		assert.InEpsilon(t, p[1], 1/StrideTime(0.60, p[0]), 0.05)
	}
}

// Speed is carried by longer strides, hardly by faster ones (Maes et al. 2008, G1):
// from collected to extended the length grows by more than the frequency.
func TestLongerStridesCarryTheSpeed(t *testing.T) {
	d := preset(t, "large")
	longer := StrideLength(d.Withers, d.Extended) / StrideLength(d.Withers, d.Collected)
	faster := StrideTime(d.Withers, d.Collected) / StrideTime(d.Withers, d.Extended)
	assert.Greater(t, longer, faster)
}

// Birch, Carter, Boyd 2016 (J4): the higher the bar in % of the withers the slower
// the jump; the trajectory lengthens to 126 % and shortens beyond.
func TestBarAgainstWithers(t *testing.T) {
	for _, size := range team.Sizes() {
		d := preset(t, size)
		last, lastLength := math.Inf(1), 0.0
		for pct := 10; pct <= 150; pct += 4 {
			h := float64(pct) / 100 * d.Withers
			v := d.barSpeed(h)
			require.Less(t, v, last, "%s at %d %%", size, pct)
			last = v
			a, b := d.jump(4.5, h, FarSight)
			if pct <= 126 {
				require.Greater(t, a+b, lastLength, "%s at %d %%", size, pct)
			} else {
				require.Less(t, a+b, lastLength, "%s at %d %%", size, pct)
			}
			lastLength = a + b
		}
	}
}

// Birch, Boyd, Doyle, Pullen 2015 (J5, J6): landing is closer to the bar where the
// next hurdle stands at 3.6 m than at 5 m.
func TestTighterSpacingShortensTheLanding(t *testing.T) {
	for _, size := range team.Sizes() {
		d := preset(t, size)
		_, tight := d.jump(5, 0.4, 3.6)
		_, wide := d.jump(5, 0.4, 5)
		assert.Less(t, tight, wide, size)
	}
}

// Angular widths: 2 atan(w / 2d) for a flat width (Wolfram Formula Repository,
// "Angular Diameter"): 1.2 m at 6 m is 11.42 degrees.
func TestAngularWidth(t *testing.T) {
	o := course.Obstacle{Kind: course.Jump, At: geom.Point{Y: 6}, Width: 1.2}
	o.Defaults(0.6)
	s := NewScene([]course.Obstacle{o})
	seen := look(s, preset(t, "large"), geom.Point{X: -50}, 0.2)
	require.Len(t, seen, 1)
	assert.InDelta(t, 11.42, seen[0].Width.Degrees(), 0.005)
	assert.Equal(t, 1.0, seen[0].Visible)
}

// look returns what a dog at the origin, heading up the map, sees.
func look(s *Scene, d *Dog, handler geom.Point, girth float64) []Seen {
	b := Body{Mode: Ground, Speed: 5, Entry: -1}
	return s.Look(d, &Sight{Body: b, Lead: Lead{Toward: geom.Point{Y: 1}}, Handler: handler, Girth: girth, Last: -1, Since: 10, All: true}, nil).Seen
}

// A round body covers 2 asin(r / d): 0.35 m at 2 m is 10.05 degrees; its shadow at
// distance D is about w D / d, 1.05 m at 6 m. What is left of a 1.2 m opening at 6 m
// is then 1 - 10.05 / 11.42. (0.51 m at 3 m, 9.75 degrees round, leaves 1 - 9.75 / 11.42.)
func TestBodyCoversItsAngle(t *testing.T) {
	o := course.Obstacle{Kind: course.Jump, At: geom.Point{Y: 6}, Width: 1.2}
	o.Defaults(0.6)
	s, d := NewScene([]course.Obstacle{o}), preset(t, "large")
	opening := 2 * math.Atan(0.6/6)
	for _, c := range []struct{ width, dist, degrees float64 }{{0.35, 2, 10.05}, {0.51, 3, 9.75}} {
		covered := 2 * math.Asin(c.width/2/c.dist)
		require.InDelta(t, c.degrees, covered*180/math.Pi, 0.02)
		seen := look(s, d, geom.Point{Y: c.dist}, c.width/2)
		require.Len(t, seen, 1)
		assert.True(t, seen[0].ByBody)
		assert.InDelta(t, 1-covered/opening, seen[0].Visible, 1e-9)
	}
}

// Close to the dog a body hides a lot, far away almost nothing, behind the opening
// nothing at all; what hides all of it leaves no pull.
func TestBodyHidesByDistance(t *testing.T) {
	o := course.Obstacle{Kind: course.Jump, At: geom.Point{Y: 8}, Width: 1.2}
	o.Defaults(0.6)
	s, d := NewScene([]course.Obstacle{o}), preset(t, "large")
	last := -1.0
	for _, dist := range []float64{1, 2, 3, 5, 7.5} {
		seen := look(s, d, geom.Point{Y: dist}, 0.2)
		require.Len(t, seen, 1)
		assert.GreaterOrEqual(t, seen[0].Visible, last)
		last = seen[0].Visible
	}
	assert.Zero(t, look(s, d, geom.Point{Y: 1}, 0.2)[0].Pull)
	assert.Equal(t, 1.0, look(s, d, geom.Point{Y: 9}, 0.2)[0].Visible)
}

// Grip: r = v^2 / a, 3.12 m at 5 m/s and 8 m/s2 (circular motion, 8.6 of any physics
// text); never tighter than the dog's own smallest radius.
func TestGripBoundsTheTurn(t *testing.T) {
	d := preset(t, "large")
	assert.InDelta(t, 25.0/8, 1/d.tightest(5), 1e-9)
	assert.InDelta(t, d.Radius, 1/d.tightest(0.5), 1e-9)
}

// Tunnels pull hardest: common practice, no source.
func TestTunnelsPullHardest(t *testing.T) {
	for _, size := range team.Sizes() {
		d := preset(t, size)
		for k := range course.KindCount {
			if k != course.Tunnel {
				assert.Less(t, d.Draw[k], d.Draw[course.Tunnel], "%s: %s", size, k)
			}
		}
	}
}

// In the air the ground track is a straight line.
func TestTrackInTheAirIsStraight(t *testing.T) {
	o := course.Obstacle{Kind: course.Jump, At: geom.Point{Y: 2}, Width: 1.2, Height: 0.6}
	o.Defaults(0.6)
	s, d := NewScene([]course.Obstacle{o}), preset(t, "large")
	var st State
	st.Reset(geom.Pose{}, 5)
	st.Commit = 0
	lead, view := Lead{Heading: geom.Deg(90), Strength: 4}, View{}
	var track []geom.Point
	for range 60 {
		dt := s.StepTime(d, &st)
		mid := st.Midway(dt)
		if s.Advance(d, &st, &mid, &lead, &view, Luck{}, dt); st.Mode == Air {
			track = append(track, st.At)
		}
	}
	require.Greater(t, len(track), 4)
	line := track[len(track)-1].Sub(track[0])
	for _, p := range track {
		assert.InDelta(t, 0, line.Cross(p.Sub(track[0])), 1e-9)
	}
}

// A turn read for long before the take-off bends the flight's end: the landing is
// shorter and already turned, by LandingTurn at most. One read in the last instant
// leaves it long and straight (common practice, no source).
func TestTurnReadBeforeTakeOffTurnsTheLanding(t *testing.T) {
	o := course.Obstacle{Kind: course.Jump, At: geom.Point{Y: 0.9}, Width: 1.2, Height: 0.6}
	o.Defaults(0.6)
	s, d := NewScene([]course.Obstacle{o}), preset(t, "large")
	lastTurn, lastLanding := -1.0, math.Inf(1)
	for _, read := range []float64{0, 0.05, 0.1, 0.2, 0.5} {
		var st State
		st.Reset(geom.Pose{}, 5)
		st.Commit, st.TurnRead = 0, read
		s.TakeNow(d, &st, &Lead{Heading: geom.Deg(120), Strength: 3})
		got := turn(st.Heading)
		switch {
		case read == 0:
			assert.Zero(t, got)
		case read >= d.TurnRead:
			assert.InDelta(t, float64(d.LandingTurn), got, 1e-9)
		}
		if read <= d.TurnRead {
			assert.Greater(t, got, lastTurn)
			assert.Less(t, st.Landing, lastLanding)
		}
		lastTurn, lastLanding = got, st.Landing
	}
}

// A dog that has made up its mind takes what lies straight ahead, however its last stride
// falls and whatever its size: it takes off from a bad spot, it does not stop.
func TestTakesItWhereverItsStrideFalls(t *testing.T) {
	for _, kind := range []course.Kind{course.Jump, course.Spread, course.LongJump, course.Wall, course.Tyre, course.Tunnel,
		course.AFrame, course.DogWalk, course.Seesaw, course.Table, course.Weaves} {
		for _, size := range []string{"small", "large"} {
			takesItWhereverItsStrideFalls(t, kind, size)
		}
	}
}

func takesItWhereverItsStrideFalls(t *testing.T, kind course.Kind, size string) {
	t.Helper()
	o := course.Obstacle{Kind: kind, At: geom.Point{Y: 12}, Width: 0.6}
	if kind == course.Tunnel {
		o.Through = []geom.Point{{Y: 10}, {Y: 13}}
	}
	o.Defaults(0.6)
	s, d := NewScene([]course.Obstacle{o}), preset(t, size)
	entry := -1
	for i := range s.Entries {
		if turn(s.Entries[i].Heading) < 0.01 {
			entry = i
		}
	}
	require.GreaterOrEqual(t, entry, 0, kind)
	for phase := range 40 {
		for _, spot := range []float64{-0.36, -0.2, 0, 0.2, 0.36} {
			var st State
			st.Reset(geom.Pose{At: geom.Point{Y: 2 + float64(phase)*0.05}}, 3+float64(phase%7)*0.6)
			st.Commit = entry
			lead, view := Lead{Strength: 2, Drive: 1}, View{}
			event := Nothing
			for n := 0; event == Nothing && n < 400; n++ {
				dt := s.StepTime(d, &st)
				mid := st.Midway(dt)
				event, _ = s.Advance(d, &st, &mid, &lead, &view, Luck{Spot: spot}, dt)
			}
			require.Equal(t, Took, event, "%v for a %s dog, phase %d, spot %g", kind, size, phase, spot)
		}
	}
}
