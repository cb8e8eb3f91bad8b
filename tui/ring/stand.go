package ring

import (
	"strconv"

	"cuewalk/course/geom"
	"cuewalk/tui/canvas"
)

// lateBy is how far from his stand he may be when its moment comes before that is shown, metres.
const lateBy = 0.4

// stands draws where he has to be, numbered as the cues, and where he was instead.
func (d *pen) stands() {
	if !d.Show.Stands {
		return
	}
	for i := range d.Setup.Actions {
		a := &d.Setup.Actions[i]
		if !a.HasStand || !d.standNear(i) {
			continue
		}
		role := canvas.Handler
		if d.Chosen.Stand == i && d.Chosen.Obstacle < 0 {
			role |= canvas.Chosen
		}
		if at, late := d.late(i); late {
			d.gap(a.Stand, at)
			d.mark(at, '!', canvas.Caution)
			role |= canvas.Strong
		}
		x, y := cell(d.at(a.Stand))
		d.v.Text(x, y, "h"+strconv.Itoa(i), role)
	}
}

// gap joins the stand he wanted and the place he had.
func (d *pen) gap(stand, had geom.Point) {
	d.p.Line(d.at(stand), d.at(had), canvas.Dotted, canvas.Caution)
	d.p.Flush()
}

// standNear reports whether the stand of action i belongs to the picture.
func (d *pen) standNear(i int) bool {
	if d.Show.All || d.leg == nil {
		return true
	}
	n := d.Setup.Actions[i].When.Number
	return n >= d.Leg-1 && n <= d.Leg || d.now != nil && (d.now.Cue == i || d.now.Cue == i-1)
}

// late is where the handler was when the moment of action i came, if that was not his stand.
func (d *pen) late(i int) (geom.Point, bool) {
	if d.Run == nil {
		return geom.Point{}, false
	}
	for _, c := range d.Run.Cues {
		if c.Action == i && c.Sample >= 0 && c.Off > lateBy {
			return c.Where, true
		}
	}
	return geom.Point{}, false
}
