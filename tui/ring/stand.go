package ring

import (
	"cuewalk/course/geom"
	"cuewalk/tui/canvas"
)

// lateBy is how far from his stand he may be when its moment comes before that is shown, metres.
const lateBy = 0.4

// stands draws where he has to be and, where he came late, where he was instead.
func (d *pen) stands() {
	if !d.Layers.Has(Stands) || d.Bare {
		return
	}
	for i := range d.Setup.Actions {
		a := &d.Setup.Actions[i]
		if !a.HasStand || !d.standNear(i) {
			continue
		}
		x, y := cellOf(d.at(a.Stand))
		role := canvas.Handler
		if d.now != nil && d.now.Cue == i {
			role |= canvas.Strong
		}
		if at, late := d.late(i); late {
			lx, ly := cellOf(d.at(at))
			if lx != x || ly != y {
				d.sign(lx, ly, '!', lateMark, figure)
			}
		}
		if d.Chosen.Stand == i && d.Chosen.Obstacle < 0 {
			role |= canvas.Chosen
			d.sign(x-1, y, '{', chosenMark, figure)
			d.sign(x+1, y, '}', chosenMark, figure)
		}
		d.put(x, y, ink{sign: 'h', role: role, mark: standMark, rank: figure})
	}
}

// standNear reports whether the stand of action i belongs to the picture.
func (d *pen) standNear(i int) bool {
	if d.All || d.leg == nil || d.Chosen.Stand == i {
		return true
	}
	return ofLeg(d.Setup.Actions[i].When.Number, d.Leg) || d.now != nil && d.now.Cue == i
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
