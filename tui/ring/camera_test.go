package ring

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"cuewalk/course"
	"cuewalk/tui/canvas"
)

func camera(t *rapid.T, c *course.Course) Camera {
	cam := Whole(c, Turn(rapid.IntRange(0, 3).Draw(t, "turn")), rapid.IntRange(40, 200).Draw(t, "w"), rapid.IntRange(10, 60).Draw(t, "h"))
	return cam.Zoom(rapid.Float64Range(.3, 6).Draw(t, "zoom"), 3, 4).Pan(rapid.IntRange(-20, 20).Draw(t, "dx"), rapid.IntRange(-9, 9).Draw(t, "dy"))
}

func TestMapToViewAndBack(t *testing.T) {
	c := allKinds()
	rapid.Check(t, func(t *rapid.T) {
		cam := camera(t, c)
		x, y := rapid.IntRange(0, cam.W-1).Draw(t, "x"), rapid.IntRange(0, cam.H-1).Draw(t, "y")
		gx, gy := cellOf(cam.ToView(cam.ToMap(x, y)))
		if gx != x || gy != y {
			t.Fatalf("cell %d,%d came back as %d,%d", x, y, gx, gy)
		}
	})
}

// Turned or not, the picture must be a turn of the map and never its mirror image.
func TestCameraNeverMirrors(t *testing.T) {
	c := allKinds()
	rapid.Check(t, func(t *rapid.T) {
		cam := camera(t, c)
		o, x, y := cam.ToView(at(0, 0)), cam.ToView(at(1, 0)), cam.ToView(at(0, 1))
		cross := (x.X-o.X)*-(y.Y-o.Y)*canvas.Aspect - -(x.Y-o.Y)*canvas.Aspect*(y.X-o.X)
		if cross <= 0 {
			t.Fatal("left and right are swapped")
		}
		if d := cross/(cam.Scale*cam.Scale) - 1; d > 1e-9 || d < -1e-9 {
			t.Fatalf("a square metre is not one: off by %g", d)
		}
	})
}

func TestZoomHoldsThePlaceUnderThePointer(t *testing.T) {
	c := allKinds()
	cam := Whole(c, 0, 80, 24)
	before := cam.ToMap(20, 9)
	after := cam.Zoom(2, 20, 9).ToMap(20, 9)
	assert.Less(t, before.Dist(after), 1.0/cam.Scale, "to a cell")
}

// The paper's way up, whatever the window's shape, and as large as that shape allows: the ring
// and its margin fill the width or the height that the rulers leave, to a cell.
func TestWholeShowsAllOfTheRingThePapersWayUp(t *testing.T) {
	c := allKinds()
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.IntRange(20, 200).Draw(t, "w"), rapid.IntRange(8, 60).Draw(t, "h")
		turn := Turn(rapid.IntRange(0, 3).Draw(t, "turn"))
		cam := Whole(c, turn, w, h)
		if cam.Turn != turn {
			t.Fatal("turned by itself")
		}
		a, b := cam.ToView(at(0, 0)), cam.ToView(c.Ring)
		for _, p := range [...]canvas.Pt{a, b} {
			if p.X < -.5 || p.Y < -.5 || p.X > float64(w)+.5 || p.Y > float64(h)+.5 {
				t.Fatalf("corner at %v of %dx%d", p, w, h)
			}
		}
		r := rulerRoom(c, turn, w, h)
		wide := math.Abs(a.X-b.X) + 2*margin*cam.Scale
		high := math.Abs(a.Y-b.Y) + 2*margin*cam.Scale/canvas.Aspect
		if wide < float64(w-r.left)-1e-6 && high < float64(h-r.foot)-1e-6 {
			t.Fatalf("%.2f by %.2f of %dx%d: room is left both ways", wide, high, w, h)
		}
	})
}

func TestUpOnThePaperIsUpOnTheScreenUntilTurned(t *testing.T) {
	c := allKinds()
	for turn, want := range [4]canvas.Pt{{X: 0, Y: -1}, {X: 1, Y: 0}, {X: 0, Y: 1}, {X: -1, Y: 0}} {
		cam := Whole(c, Turn(turn), 120, 40)
		o, up := cam.ToView(at(10, 10)), cam.ToView(at(10, 14))
		assert.InDelta(t, want.X*4*cam.Scale, up.X-o.X, 1e-9, "turn %d", turn)
		assert.InDelta(t, want.Y*4*cam.Scale/canvas.Aspect, up.Y-o.Y, 1e-9, "turn %d", turn)
	}
}

func TestMouseFindsEveryObstacleAndStand(t *testing.T) {
	s := turning(t)
	s.All = true
	rapid.Check(t, func(t *rapid.T) {
		s := s
		s.Camera = Whole(s.Setup.Course, 0, rapid.IntRange(60, 200).Draw(t, "w"), rapid.IntRange(18, 60).Draw(t, "h"))
		i := rapid.IntRange(0, len(s.Setup.Course.Obstacles)-1).Draw(t, "obstacle")
		p := s.Setup.Course.Obstacles[i].Footprint()[0].Mid()
		x, y := cellOf(s.Camera.ToView(p))
		if o, _, ok := s.At(x, y); !ok || o != i {
			t.Fatalf("%d found as %d at %d,%d", i, o, x, y)
		}
		k := rapid.IntRange(0, len(s.Setup.Actions)-1).Draw(t, "stand")
		x, y = cellOf(s.Camera.ToView(s.Setup.Actions[k].Stand))
		if _, st, ok := s.At(x, y); !ok || st != k {
			t.Fatalf("stand %d found as %d", k, st)
		}
	})
	s.Camera = Whole(s.Setup.Course, 0, 120, 40)
	x, y := cellOf(s.Camera.ToView(at(24, 38)))
	_, _, ok := s.At(x, y)
	assert.False(t, ok, "empty ground")
}
