package ring

import (
	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/tui/canvas"
)

// grid draws the edge of the ring and a tick every 5 m or 10 ft along it.
func (d *pen) grid() {
	if !d.Show.Grid {
		return
	}
	step := 5.0
	if d.Setup.Course.Units == course.Feet {
		step = 10 * course.FootLength
	}
	ring := d.Setup.Course.Ring
	for x := 0.0; x <= ring.X+1e-9; x += step {
		d.tick(geom.Point{X: x})
		d.tick(geom.Point{X: x, Y: ring.Y})
	}
	for y := step; y <= ring.Y+1e-9; y += step {
		d.tick(geom.Point{Y: y})
		d.tick(geom.Point{X: ring.X, Y: y})
	}
}

func (d *pen) tick(p geom.Point) {
	at := d.at(p)
	x, y := cell(at)
	d.v.Set(min(max(x, 0), d.Camera.W-1), min(max(y, 0), d.Camera.H-1), '+', canvas.Quiet)
}
