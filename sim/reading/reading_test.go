package reading

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/course/rulebook"
	"cuewalk/plan/team"
	"cuewalk/sim/dog"
)

func obstacle(kind course.Kind, id string, x, y, deg float64) course.Obstacle {
	o := course.Obstacle{ID: id, Kind: kind, At: geom.Point{X: x, Y: y}, Facing: geom.Deg(deg), Wings: true}
	o.Defaults(0.6)
	return o
}

func jump(id string, x, y, deg float64) course.Obstacle { return obstacle(course.Jump, id, x, y, deg) }

func tunnel(id string, pts ...geom.Point) course.Obstacle {
	o := course.Obstacle{ID: id, Kind: course.Tunnel, Through: pts, At: pts[0].Lerp(pts[len(pts)-1], 0.5)}
	o.Facing = pts[0].Towards(pts[1])
	o.Defaults(0.6)
	return o
}

// set is a course that takes the first n obstacles in order, each as it is drawn;
// the rest are dummies.
func set(start geom.Point, n int, obs ...course.Obstacle) *course.Course {
	c := &course.Course{Name: "set", Ring: geom.Point{X: 60, Y: 60}, Start: start, Obstacles: obs}
	for i := range n {
		c.Order = append(c.Order, course.Step{Obstacle: i})
	}
	return c
}

func large(t require.TestingT) *team.Team {
	tm, err := team.Preset("large", "average")
	require.NoError(t, err)
	return &tm
}

// A course measured by hand. Start (10, 2); three jumps straight ahead at y = 6, 12
// and 17, then a straight tunnel of 5 m from (10, 22) to (10, 27): the dog runs up
// the line x = 10 all the way. By hand: 4 + 6 + 5 + 5 to the tunnel's mouth and 5
// through it make 25 m; no turn, no lead, the line over each meets the next.
func TestStraightCourseByHand(t *testing.T) {
	c := set(geom.Point{X: 10, Y: 2}, 4, jump("a", 10, 6, 0), jump("b", 10, 12, 0), jump("c", 10, 17, 0),
		tunnel("t", geom.Point{X: 10, Y: 22}, geom.Point{X: 10, Y: 27}))
	r := Read(c, large(t), nil)
	assert.InDelta(t, 25, r.Length, 1e-6)
	for i, want := range []float64{4, 6, 5, 5} {
		l := r.Legs[i]
		assert.InDelta(t, want, l.Distance, 1e-6, "leg %d", i+1)
		assert.InDelta(t, 0, float64(l.Turn), 1e-6)
		assert.InDelta(t, 0, float64(l.Approach), 1e-6)
		assert.Equal(t, Neither, l.Lead)
		require.NotEmpty(t, l.Meets)
		assert.InDelta(t, want, l.Meets[0].Range, 1e-6, "the next one lies straight ahead")
		assert.Equal(t, r.Right(i+1), l.Meets[0].Entry)
	}
}

// A U of two jumps side by side, by hand. a (10, 10) is jumped up the map, b
// (14, 10) down it: between the two the straight line is 4 m at right angles to
// both, so depart and arrive are 90 degrees right each and the turn is 180. The dog
// cannot run less than 4 m from bar to bar.
func TestUByHand(t *testing.T) {
	c := set(geom.Point{X: 10, Y: 4}, 2, jump("a", 10, 10, 0), jump("b", 14, 10, 180))
	r := Read(c, large(t), nil)
	s := r.Legs[1].Shape
	assert.InDelta(t, 90, s.Depart.Degrees(), 1e-9)
	assert.InDelta(t, 90, s.Arrive.Degrees(), 1e-9)
	assert.InDelta(t, 4, s.Gap, 1e-9)
	l := r.Legs[1]
	assert.Greater(t, l.Distance, 4.0)
	assert.Equal(t, Right, l.Lead)
	assert.InDelta(t, 180, (l.Turn + r.Line.across[0].angle - r.Line.across[1].angle).Degrees(), 1e-6,
		"arcs and slices together turn the dog about")
}

// Every stretch on the ground is a shortest path of bounded curvature: not longer
// than what Dubins gives for its ends and radius, never shorter than straight.
func TestPathsAgainstDubins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := loose(t)
		r := Read(c, large(t), nil)
		total := 0.0
		for i := range r.Legs {
			l, at := &r.Legs[i], r.Line.across[i]
			from := geom.Pose{At: c.Start, Heading: c.Start.Towards(c.Entry(1).At)}
			bar := c.Start
			if i > 0 {
				from = r.Line.across[i-1].out
				bar = r.Line.across[i-1].out.At
				bar = bar.Sub(r.Line.across[i-1].out.Heading.Unit().Mul(r.Line.across[i-1].behind))
			}
			assert.GreaterOrEqual(t, l.Distance, bar.Dist(at.at)-1e-6, "leg %d is shorter than straight", l.Number)
			paths := r.Line.Ground[i]
			if len(paths) == 1 {
				p := paths[0]
				assert.InDelta(t, geom.Dubins(from, at.in, p.Radius).Length, p.Length, 1e-9)
			}
			for _, p := range paths {
				assert.GreaterOrEqual(t, p.Radius, large(t).Dog.Radius-1e-9)
			}
			end := paths[len(paths)-1].End()
			assert.InDelta(t, 0, end.At.Dist(at.in.At), 1e-6)
			assert.InDelta(t, 0, float64(end.Heading.Off(at.in.Heading)), 1e-6)
			total += l.Distance + at.way
		}
		assert.InDelta(t, r.Length, total, 1e-9)
	})
}

// loose is a random course of jumps that do not stand in each other.
func loose(t *rapid.T) *course.Course {
	n := rapid.IntRange(2, 6).Draw(t, "n")
	var obs []course.Obstacle
	at, heading := geom.Point{X: 30, Y: 12}, geom.Angle(0)
	for i := range n {
		obs = append(obs, jump(fmt.Sprint("j", i), at.X, at.Y, heading.Degrees()))
		heading += geom.Deg(rapid.Float64Range(-80, 80).Draw(t, "turn"))
		at = at.Add(heading.Unit().Mul(rapid.Float64Range(4, 8).Draw(t, "gap")))
	}
	return set(geom.Point{X: 30, Y: 7}, n, obs...)
}

// mirror turns a course over at the line x = 30.
func mirror(c *course.Course) *course.Course {
	m := *c
	flip := func(p geom.Point) geom.Point { return geom.Point{X: 60 - p.X, Y: p.Y} }
	m.Start = flip(c.Start)
	m.Obstacles = append([]course.Obstacle(nil), c.Obstacles...)
	for i := range m.Obstacles {
		o := &m.Obstacles[i]
		o.At, o.Facing = flip(o.At), (-o.Facing).Wrap()
		through := append([]geom.Point(nil), o.Through...)
		for k := range through {
			through[k] = flip(through[k])
		}
		o.Through = through
	}
	return &m
}

// Mirror the ring: the same lengths, opposite turns, the same pulls.
func TestMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := loose(t)
		a, b := Read(c, large(t), nil), Read(mirror(c), large(t), nil)
		assert.InDelta(t, a.Length, b.Length, 1e-6)
		for i := range a.Legs {
			x, y := &a.Legs[i], &b.Legs[i]
			assert.InDelta(t, x.Distance, y.Distance, 1e-6)
			assert.InDelta(t, float64(x.Turn), -float64(y.Turn), 1e-6)
			assert.InDelta(t, float64(x.Approach), -float64(y.Approach), 1e-6)
			assert.Equal(t, x.Lead, -y.Lead)
			require.Len(t, y.Names, len(x.Names))
			for k := range x.Names {
				assert.Equal(t, x.Names[k].Kind, y.Names[k].Kind)
			}
			require.Len(t, y.Views, len(x.Views))
		}
		require.Len(t, b.Traps, len(a.Traps))
		for i := range a.Traps {
			assert.InDelta(t, a.Traps[i].Pull, b.Traps[i].Pull, 1e-6)
		}
	})
}

// The pulls of one leg are shares of the same dogs: they never sum to more than 1.
func TestPullsAreChances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := Read(loose(t), large(t), nil)
		sums := map[int]float64{}
		for _, trap := range r.Traps {
			assert.Positive(t, trap.Pull)
			assert.NotEmpty(t, trap.Why)
			sums[trap.Leg] += trap.Pull
		}
		for leg, sum := range sums {
			assert.LessOrEqual(t, sum, 1+1e-9, "leg %d", leg)
		}
		for i := 1; i < len(r.Traps); i++ {
			assert.GreaterOrEqual(t, r.Traps[i-1].Pull, r.Traps[i].Pull, "strongest first")
		}
	})
}

// long is a course of n jumps winding up and down a ring, with some tunnels.
func long(n int) *course.Course {
	var obs []course.Obstacle
	x, y, up := 4.0, 6.0, true
	for i := range n {
		deg, id := 0.0, fmt.Sprint("o", i)
		if !up {
			deg = 180
		}
		if i%7 == 6 {
			end := geom.Point{X: x, Y: y + 3}
			if !up {
				end.Y = y - 3
			}
			obs = append(obs, tunnel(id, geom.Point{X: x, Y: y}, end))
		} else {
			obs = append(obs, jump(id, x, y, deg))
		}
		next := y + 6
		if !up {
			next = y - 6
		}
		if next > 36 || next < 4 {
			up, next, x = !up, y, x+5
		}
		y = next
	}
	c := set(geom.Point{X: 4, Y: 2}, n, obs...)
	c.Ring = geom.Point{X: x + 4, Y: 42}
	return c
}

// Five times the obstacles are not five times five the work, counted in allocations: those do
// not hang on how busy the machine is. What it takes in time, the benchmarks say.
func TestWorkGrowsWithTheCourse(t *testing.T) {
	if testing.Short() {
		t.Skip("takes the time")
	}
	work := func(n int) float64 {
		c, tm := long(n), large(t)
		return testing.AllocsPerRun(1, func() { Read(c, tm, nil) })
	}
	small, big := work(20), work(100)
	t.Logf("20 obstacles: %.0f, 100 obstacles: %.0f", small, big)
	assert.Less(t, big, 10*small)
}

func BenchmarkRead20(b *testing.B)  { benchmark(b, 20) }
func BenchmarkRead100(b *testing.B) { benchmark(b, 100) }

func benchmark(b *testing.B, n int) {
	c, tm := long(n), large(b)
	b.ReportAllocs()
	for b.Loop() {
		Read(c, tm, nil)
	}
}

// Rules add findings and times. FCI 2012: SCT is length over chosen speed; here 25 m
// at 4 m/s are 6.25 s.
func TestRulesAndTimes(t *testing.T) {
	c := set(geom.Point{X: 10, Y: 2}, 4, jump("a", 10, 6, 0), jump("b", 10, 12, 0), jump("c", 10, 17, 0),
		tunnel("t", geom.Point{X: 10, Y: 22}, geom.Point{X: 10, Y: 27}))
	rules, err := rulebook.Find("FCI 2012")
	require.NoError(t, err)
	r := Read(c, large(t), rules)
	assert.NotEmpty(t, r.Findings, "four obstacles are too few for a course")
	times, ok := r.Times(4)
	require.True(t, ok)
	assert.InDelta(t, r.Measured.Metres/4, times.SCT.Float(), 0.011)
	_, ok = Read(c, large(t), nil).Times(4)
	assert.False(t, ok, "no rules, no formula")
}

func TestEmptyCourse(t *testing.T) {
	r := Read(&course.Course{Ring: geom.Point{X: 20, Y: 20}}, large(t), nil)
	assert.Empty(t, r.Legs)
	assert.Empty(t, r.Draft(r.Sides(SwapCost, nil, 0)).Cues)
}

// Nothing is NaN and time goes on, whatever kinds of obstacle stand on the course.
func TestEveryKind(t *testing.T) {
	var obs []course.Obstacle
	y := 8.0
	for k := course.Jump; k < course.KindCount; k++ {
		o := obstacle(k, k.String(), 10, y, 0)
		if k == course.Tunnel {
			o = tunnel("tunnel", geom.Point{X: 10, Y: y}, geom.Point{X: 12, Y: y + 3}, geom.Point{X: 10, Y: y + 6})
			o.At.Y += 3
			y += 3
		} else {
			o.At.Y += o.Length / 2
		}
		obs = append(obs, o)
		y += o.Length + 6
	}
	c := set(geom.Point{X: 10, Y: 2}, len(obs), obs...)
	c.Ring = geom.Point{X: 30, Y: y}
	r := Read(c, large(t), nil)
	last := -1.0
	for _, s := range r.Line.Samples {
		require.False(t, math.IsNaN(s.At.X+s.At.Y+s.Time+s.Speed+float64(s.Heading)))
		require.GreaterOrEqual(t, s.Time, last)
		last = s.Time
	}
	for _, l := range r.Legs {
		assert.False(t, l.Blocked, "leg %d", l.Number)
		assert.GreaterOrEqual(t, l.First, 0)
	}
}

// No line runs through a bar, a wing or a pipe unless the leg says so; and it seldom
// has to. Checked against the segments themselves, sample by sample.
func TestLineRunsThroughNothing(t *testing.T) {
	legs, blocked := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		c := loose(t)
		r := Read(c, large(t), nil)
		for i := range r.Legs {
			legs++
			if r.Legs[i].Blocked {
				blocked++
				continue
			}
			for _, p := range r.Line.Ground[i] {
				for s := 0.3; s+0.3 < p.Length; s += 0.05 {
					step := geom.Segment{A: p.At(s).At, B: p.At(min(s+0.05, p.Length-0.3)).At}
					for _, o := range c.Obstacles {
						for _, w := range o.Footprint() {
							_, meets := step.Meets(w)
							if meets && w.Dist(step.A) < 0.1 && endsNear(w, step.A) {
								continue // chords cut the very tip of a wing
							}
							require.False(t, meets, "leg %d at %.2f m", i+1, s)
						}
					}
				}
			}
		}
	})
	t.Logf("%d of %d legs blocked", blocked, legs)
	assert.Less(t, float64(blocked), 0.02*float64(legs)+1)
}

func endsNear(w geom.Segment, p geom.Point) bool { return min(w.A.Dist(p), w.B.Dist(p)) < 0.15 }

// Speeds stay within the dog's: never above its top speed, in an arc never above
// what its grip allows, gaining and losing speed no faster than it can.
func TestSpeeds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tm := large(t)
		r := Read(loose(t), tm, nil)
		s := r.Line.Samples
		for i := range s {
			require.LessOrEqual(t, s[i].Speed, tm.Dog.Extended+1e-9)
			if k := math.Abs(s[i].Curvature); k > 0 {
				require.LessOrEqual(t, s[i].Speed*s[i].Speed*k, tm.Dog.Grip+1e-6)
			}
			if i > 0 {
				ds := s[i].Odo - s[i-1].Odo
				gain := s[i].Speed*s[i].Speed - s[i-1].Speed*s[i-1].Speed
				require.LessOrEqual(t, gain, 2*tm.Dog.Acceleration*ds+1e-6)
				require.GreaterOrEqual(t, gain, -2*tm.Dog.Braking*ds-1e-6)
			}
		}
	})
}

// Whatever is set, however crowded, is read without a slip: figures are numbers,
// samples belong to legs in order, lengths add up. Obstacles may come twice, the
// other way too.
func TestAnyCourse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := crowded(t)
		r := Read(c, large(t), nil)
		require.Len(t, r.Legs, len(c.Order))
		leg := 1
		for i, s := range r.Line.Samples {
			require.False(t, math.IsNaN(s.At.X+s.At.Y+s.Time+s.Speed+float64(s.Heading)), "sample %d", i)
			require.GreaterOrEqual(t, s.Leg, leg)
			leg = s.Leg
		}
		for _, l := range r.Legs {
			require.GreaterOrEqual(t, l.First, 0)
			require.GreaterOrEqual(t, l.Last, l.First)
			require.False(t, math.IsNaN(l.Distance+l.Speed+l.Time+float64(l.Turn)))
			require.GreaterOrEqual(t, l.Distance, 0.0)
		}
		for _, trap := range r.Traps {
			require.False(t, math.IsNaN(trap.Pull))
			require.LessOrEqual(t, trap.Pull, 1+1e-9)
		}
		assert.Empty(t, r.Draft(r.Sides(SwapCost, nil, 0)).Validate(c, large(t)))
	})
}

// crowded is a course of any kinds anywhere on a grid that keeps them apart.
func crowded(t *rapid.T) *course.Course {
	n := rapid.IntRange(1, 12).Draw(t, "n")
	c := &course.Course{Name: "crowded", Ring: geom.Point{X: 60, Y: 60}}
	for i := range n {
		kind := course.Kind(rapid.IntRange(0, int(course.KindCount)-1).Draw(t, "kind"))
		at := geom.Point{X: 6 + 14*float64(i%4), Y: 8 + 14*float64(i/4)}
		at.X += rapid.Float64Range(-0.5, 0.5).Draw(t, "x")
		o := obstacle(kind, fmt.Sprint("o", i), at.X, at.Y, rapid.Float64Range(-180, 180).Draw(t, "facing"))
		if kind == course.Tunnel {
			o = tunnel(o.ID, at.Sub(o.Facing.Unit().Mul(2)), at, at.Add(o.Facing.Right().Mul(2)))
			o.At = at
		}
		c.Obstacles = append(c.Obstacles, o)
	}
	for range rapid.IntRange(1, 15).Draw(t, "numbers") {
		i := rapid.IntRange(0, n-1).Draw(t, "step")
		back := rapid.Bool().Draw(t, "reverse") && !c.Obstacles[i].Kind.OneWay()
		c.Order = append(c.Order, course.Step{Obstacle: i, Reverse: back})
	}
	c.Start = geom.Point{X: rapid.Float64Range(0, 60).Draw(t, "start x"), Y: rapid.Float64Range(0, 1).Draw(t, "start y")}
	return c
}

// A turn measured by hand. Out of a tunnel at (10, 10) up the map, into another 4 m
// to the right that leads down: a large dog at 2.6 m/s and 8 m/s2 of grip bends to
// r = 2.6 * 2.6 / 8 = 0.845 m. It leaves the tunnel 0.3 m straight, runs half a circle
// of pi r = 2.655 m, 4 - 2 r = 2.310 m across on top and 0.3 m down: 5.56 m. A mouth may
// be entered at a slant, which can only shorten that; by hand, entered 60 degrees off,
// an arc of 60 degrees less saves at most r pi / 3 = 0.88 m.
func TestTurnByHand(t *testing.T) {
	c := set(geom.Point{X: 10, Y: 2}, 2, tunnel("up", geom.Point{X: 10, Y: 6}, geom.Point{X: 10, Y: 10}),
		tunnel("down", geom.Point{X: 14, Y: 10}, geom.Point{X: 14, Y: 6}))
	r := Read(c, large(t), nil)
	l := r.Legs[1]
	assert.LessOrEqual(t, l.Distance, 5.57)
	assert.GreaterOrEqual(t, l.Distance, 5.57-0.88)
	assert.Equal(t, Right, l.Lead)
	assert.InDelta(t, 180, (l.Turn - l.Approach).Degrees(), 1e-6)
	assert.InDelta(t, 4+4+l.Distance+4, r.Length, 1e-9, "4 m to the mouth, 4 m through each")
}

// By hand: 10 m straight from and back to 2.6 m/s with 4.5 m/s2 up and 7 m/s2 down.
// The top speed of 6.8 m/s is reached: (6.8^2 - 2.6^2) / 2 = 19.74 need 19.74 / 4.5 +
// 19.74 / 7 = 7.207 m and 4.2 / 4.5 + 4.2 / 7 = 1.533 s; the other 2.793 m take 0.411 s.
func TestSecondsByHand(t *testing.T) {
	r := &runner{dog: dog.New(large(t).Dog, "grass")}
	p := geom.Dubins(geom.Pose{}, geom.Pose{At: geom.Point{Y: 10}}, 1)
	assert.InDelta(t, 1.944, r.seconds(&p, 2.6), 0.001)
	short := geom.Dubins(geom.Pose{}, geom.Pose{At: geom.Point{Y: 1}}, 1)
	top := math.Sqrt(2.6*2.6 + 2*4.5*7/11.5) // where both ramps of 1 m meet
	assert.InDelta(t, (top-2.6)*(1/4.5+1/7.0), r.seconds(&short, 2.6), 1e-9)
}
