package ring

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"cuewalk/course"
	"cuewalk/tui/canvas"
)

func camera(t *rapid.T, c *course.Course) Camera {
	cam := Whole(c, rapid.IntRange(40, 200).Draw(t, "w"), rapid.IntRange(10, 60).Draw(t, "h"))
	cam.Turned = rapid.Bool().Draw(t, "turned")
	return cam.Zoom(rapid.Float64Range(.3, 6).Draw(t, "zoom"), 3, 4).Pan(rapid.IntRange(-20, 20).Draw(t, "dx"), rapid.IntRange(-9, 9).Draw(t, "dy"))
}

func TestMapToViewAndBack(t *testing.T) {
	c := allKinds()
	rapid.Check(t, func(t *rapid.T) {
		cam := camera(t, c)
		x, y := rapid.IntRange(0, cam.W-1).Draw(t, "x"), rapid.IntRange(0, cam.H-1).Draw(t, "y")
		gx, gy := cell(cam.ToView(cam.ToMap(x, y)))
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
	cam := Whole(c, 80, 24)
	before := cam.ToMap(20, 9)
	after := cam.Zoom(2, 20, 9).ToMap(20, 9)
	assert.Less(t, before.Dist(after), 1.0/cam.Scale, "to a cell")
}

func TestWholeShowsAllOfTheRingTurnedToFillTheWindow(t *testing.T) {
	c := allKinds() // 26 m by 40 m: upright in a high window, turned in a broad one
	assert.True(t, Whole(c, 120, 30).Turned)
	assert.False(t, Whole(c, 60, 60).Turned)
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.IntRange(20, 200).Draw(t, "w"), rapid.IntRange(8, 60).Draw(t, "h")
		cam := Whole(c, w, h)
		for _, p := range [...]canvas.Pt{cam.ToView(at(0, 0)), cam.ToView(c.Ring)} {
			if p.X < -.5 || p.Y < -.5 || p.X > float64(w)+.5 || p.Y > float64(h)+.5 {
				t.Fatalf("corner at %v of %dx%d", p, w, h)
			}
		}
	})
}

func TestMouseFindsEveryObstacleAndStand(t *testing.T) {
	s := turning(t)
	rapid.Check(t, func(t *rapid.T) {
		s := s
		s.Camera = Whole(s.Setup.Course, rapid.IntRange(60, 200).Draw(t, "w"), rapid.IntRange(18, 60).Draw(t, "h"))
		i := rapid.IntRange(0, len(s.Setup.Course.Obstacles)-1).Draw(t, "obstacle")
		p := s.Setup.Course.Obstacles[i].Footprint()[0].Mid()
		x, y := cell(s.Camera.ToView(p))
		if o, _, ok := s.At(x, y); !ok || o != i {
			t.Fatalf("%d found as %d at %d,%d", i, o, x, y)
		}
		k := rapid.IntRange(0, len(s.Setup.Actions)-1).Draw(t, "stand")
		x, y = cell(s.Camera.ToView(s.Setup.Actions[k].Stand))
		if _, st, ok := s.At(x, y); !ok || st != k {
			t.Fatalf("stand %d found as %d", k, st)
		}
	})
	s.Camera = Whole(s.Setup.Course, 120, 40)
	x, y := cell(s.Camera.ToView(at(24, 38)))
	_, _, ok := s.At(x, y)
	assert.False(t, ok, "empty ground")
}
