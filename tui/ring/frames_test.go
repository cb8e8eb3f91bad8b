package ring

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/sim/dog"
	"cuewalk/tui/canvas"
)

// demos are both courses of the demonstration, run by its large dog.
func demos(t testing.TB) []*sim.Rehearsal {
	t.Helper()
	read := func(name string) []byte {
		b, err := os.ReadFile(filepath.Join("..", "..", "testdata", "demo", name))
		require.NoError(t, err)
		return b
	}
	tm, err := team.Parse("rook.toml", read("rook.toml"))
	require.NoError(t, err)
	var out []*sim.Rehearsal
	for _, name := range []string{"meadow-agility", "meadow-jumping"} {
		c, err := course.Parse(name+".toml", read(name+".toml"))
		require.NoError(t, err)
		p, err := plan.Parse(name+"-a.toml", read(name+"-a.toml"), c, tm)
		require.NoError(t, err)
		out = append(out, sim.New(c, p, tm).Rehearse())
	}
	return out
}

// randomRun is a course of 15 to 22 numbers on obstacles of all kinds with their middles at
// least 4 m apart (courses have 5 m and more from one to the next), some taken twice, and a dog
// that runs straight from one to the next with a handler beside it.
func randomRun(seed uint64) *sim.Rehearsal {
	rnd := rand.New(rand.NewPCG(seed, 7))
	c := &course.Course{Name: "random", Ring: at(20+10*rnd.Float64(), 30+10*rnd.Float64()), Start: at(2, 2)}
	if seed%5 == 0 {
		c.Units = course.Feet
	}
	for len(c.Obstacles) < 14+int(seed%5) {
		p := at(2+rnd.Float64()*(c.Ring.X-4), 2+rnd.Float64()*(c.Ring.Y-4))
		if slicesAny(c.Obstacles, func(o course.Obstacle) bool { return o.At.Dist(p) < 4 }) {
			continue
		}
		k := course.Jump // more than half are jumps, as on any course
		if rnd.IntN(2) == 0 {
			k = course.Kind(rnd.IntN(int(course.KindCount)))
		}
		o := course.Obstacle{ID: fmt.Sprint("o", len(c.Obstacles)), Kind: k, At: p, Facing: geom.Deg(rnd.Float64() * 360), Wings: rnd.IntN(3) > 0}
		if k == course.Tunnel {
			a, b := geom.Pose{At: p, Heading: o.Facing}, geom.Pose{At: p, Heading: o.Facing + geom.Deg(60*rnd.Float64())}
			o.Through = []geom.Point{a.Ahead(-2), p, b.Ahead(2)}
		}
		o.Defaults(.5)
		c.Obstacles = append(c.Obstacles, o)
	}
	for i := range c.Obstacles {
		c.Order = append(c.Order, course.Step{Obstacle: i})
	}
	for range 1 + rnd.IntN(4) {
		c.Order = append(c.Order, course.Step{Obstacle: rnd.IntN(len(c.Obstacles)), Reverse: rnd.IntN(2) == 0})
	}
	rnd.Shuffle(len(c.Order)-1, func(i, j int) { c.Order[i], c.Order[j] = c.Order[j], c.Order[i] })
	return straight(c, rnd)
}

func slicesAny[T any](all []T, is func(T) bool) bool {
	for _, v := range all {
		if is(v) {
			return true
		}
	}
	return false
}

// straight is a run from each way out straight to the next way in, with a stand and a wrong way
// on each leg.
func straight(c *course.Course, rnd *rand.Rand) *sim.Rehearsal {
	r := &sim.Rehearsal{Setup: &sim.Setup{Course: c, Entries: c.Entries(), Plan: &plan.Plan{}}}
	from := c.Start
	for n := 1; n <= len(c.Order); n++ {
		e := c.Entry(n)
		leg := sim.Leg{Number: n, First: len(r.Trace.Samples)}
		for k := range 24 {
			p := from.Lerp(e.At, float64(k+1)/24)
			b := dog.Body{At: p, Heading: from.Towards(e.At), Mode: dog.Ground, Entry: -1}
			if k%6 == 5 {
				r.Trace.Paws = append(r.Trace.Paws, sim.PawPrint{At: p, Sample: len(r.Trace.Samples)})
			}
			r.Trace.Samples = append(r.Trace.Samples, sim.Sample{Leg: n, Commit: -1, Cue: n - 1, Dog: b,
				Hand: sim.Hand{At: p.Add(b.Heading.Right().Mul(2.5)), Chest: b.Heading, Arm: plan.LeftArm}})
		}
		leg.Last = len(r.Trace.Samples) - 1
		w := r.Setup.Entries[rnd.IntN(len(r.Setup.Entries))]
		mid := r.Trace.Samples[(leg.First+leg.Last)/2].Dog.At
		leg.Faults = []sim.Fault{{Kind: sim.OffCourse, Obstacle: w.Obstacle, Entry: -1, Chance: .3, Path: []geom.Point{mid, mid.Lerp(w.At, .5), w.At}}}
		r.Legs = append(r.Legs, leg)
		r.Setup.Actions = append(r.Setup.Actions, plan.Action{When: plan.Moment{Number: n}, HasStand: true, Stand: mid.Add(at(rnd.Float64()*4-2, rnd.Float64()*4-2))})
		from = e.Exit.At
	}
	return r
}

// frames calls do with the whole ring and each leg of a run, at 80x24 and 120x40.
func frames(r *sim.Rehearsal, do func(s Scene, w, h int)) {
	c := r.Setup.Course
	for _, size := range [2][2]int{{80, 24}, {120, 40}} {
		w, h := size[0], size[1]
		for n := range len(c.Order) + 1 {
			s := Scene{Setup: r.Setup, Run: r, Chosen: None, Leg: max(n, 1), Layers: WholeLayers(), All: n == 0, Camera: Whole(c, 0, w, h)}
			if n > 0 {
				s.Camera, s.Layers = Leg(c, n, 0, w, h, r), LegLayers().With(Shadow).With(Sight)
			}
			if l := legOf(r, s.Leg); l != nil {
				s.Sample = (l.First + l.Last) / 2
			}
			do(s, w, h)
		}
	}
}

// found is where a course number was read in a frame.
type found struct{ x, y, n int }

// numbersIn reads the course numbers of a frame as a person does: whole runs of digits, those on
// the rulers and chances left out.
func numbersIn(c *canvas.Canvas) map[int][]found {
	out := map[int][]found{}
	w, h := c.Size()
	digit := func(x, y int) bool { s, _ := c.At(x, y); return len(s) == 1 && s[0] >= '0' && s[0] <= '9' }
	for y := range h {
		for x := 0; x < w; x++ {
			if !digit(x, y) {
				continue
			}
			end, text := x, ""
			for ; end < w && digit(end, y); end++ {
				s, _ := c.At(end, y)
				text += s
			}
			_, role := c.At(x, y)
			after, _ := c.At(end, y)
			if role != canvas.Quiet && after != "%" {
				n, _ := strconv.Atoi(text)
				out[n] = append(out[n], found{x, y, len(text)})
			}
			x = end
		}
	}
	return out
}

// apart is how far a text lies from an obstacle's true footprint, in columns as the eye sees it.
func apart(cam Camera, o *course.Obstacle, f found) float64 {
	best := math.Inf(1)
	for _, s := range o.Footprint() {
		a, b := cam.ToView(s.A), cam.ToView(s.B)
		for k := range 21 {
			p := canvas.Pt{X: a.X + (b.X-a.X)*float64(k)/20, Y: a.Y + (b.Y-a.Y)*float64(k)/20}
			dx := max(float64(f.x)-p.X, p.X-float64(f.x+f.n), 0)
			dy := max(float64(f.y)-p.Y, p.Y-float64(f.y+1), 0)
			best = min(best, math.Hypot(dx, canvas.Aspect*dy))
		}
	}
	return best
}

// besideWithin is how far a number may lie from its obstacle without a leader: two columns and
// a row, and what rounding to cells adds to either.
const besideWithin = 5.0

// TestEveryNumberStandsBesideItsObstacle reads the frames of the demonstration and of 50 random
// courses, whole and leg by leg: every number whose way in lies in view is there, once, whole,
// and beside its obstacle or joined to it.
func TestEveryNumberStandsBesideItsObstacle(t *testing.T) {
	runs := demos(t)
	for seed := range uint64(50) {
		runs = append(runs, randomRun(seed))
	}
	seen, led, foreign := 0, 0, 0
	for i, r := range runs {
		frames(r, func(s Scene, w, h int) {
			c := draw(s, w, h, false)
			read := numbersIn(c)
			room := rulerRoom(s.Setup.Course, 0, w, h)
			for n := 1; n <= len(s.Setup.Course.Order); n++ {
				e := s.Setup.Course.Entry(n)
				p := s.Camera.ToView(e.At)
				if p.X < float64(room.left)+1 || p.Y < 1 || p.X > float64(w)-1 || p.Y > float64(h-room.foot)-1 {
					continue
				}
				at := fmt.Sprintf("run %d, leg %d, %dx%d, number %d\n%s", i, s.Leg, w, h, n, c.Plain())
				if !assert.Len(t, read[n], 1, "%s\n%v at %v", at, s.Setup.Course.Obstacles[e.Obstacle].Kind, p) {
					t.FailNow()
				}
				f := read[n][0]
				seen++
				own := apart(s.Camera, &s.Setup.Course.Obstacles[e.Obstacle], f)
				if own > besideWithin {
					led++
					require.True(t, ledFrom(c, f), "%s\n%v at %v, %.1f apart, read at %v", at, s.Setup.Course.Obstacles[e.Obstacle].Kind, p, own, f)
				}
				for k := range s.Setup.Course.Obstacles {
					if k != e.Obstacle && apart(s.Camera, &s.Setup.Course.Obstacles[k], f) < own-.5 && own <= besideWithin {
						foreign++
						break
					}
				}
			}
		})
	}
	t.Logf("%d numbers read; %d joined by a leader; %d nearer to another obstacle than to their own", seen, led, foreign)
	assert.Greater(t, seen, 5000)
	assert.Less(t, float64(led)/float64(seen), .02)
	assert.Less(t, float64(foreign)/float64(seen), .02)
}

// ledFrom reports whether a leader begins beside a text.
func ledFrom(c *canvas.Canvas, f found) bool {
	for y := f.y - 1; y <= f.y+1; y++ {
		for x := f.x - 2; x <= f.x+f.n+1; x++ {
			if s, _ := c.At(x, y); s == "," {
				return true
			}
		}
	}
	return false
}
