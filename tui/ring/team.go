package ring

import (
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/sim"
	"cuewalk/tui/canvas"
)

// near reports whether a sample belongs to the picture: of the leg, or of the last and first
// strides of its neighbours, or any where all legs are wanted.
func (d *pen) near(i int) bool {
	return d.Show.All || d.leg == nil || i >= d.leg.First-12 && i <= d.leg.Last+12
}

// weight is the role of a mark of the dog at sample i.
func (d *pen) weight(i int) canvas.Role {
	if d.leg == nil || i >= d.leg.First && i <= d.leg.Last {
		return canvas.Dog
	}
	return canvas.Track
}

// flights draws the dog's way through the air and inside obstacles.
func (d *pen) flights() {
	if !d.Show.Tracks || d.Run == nil {
		return
	}
	paws := d.Run.Trace.Paws
	for k := 1; k < len(paws); k++ {
		if paws[k-1].Mark != sim.TakeOffMark || paws[k].Mark != sim.LandingMark || !d.near(paws[k].Sample) {
			continue
		}
		d.flight(d.at(paws[k-1].At), d.at(paws[k].At), d.weight(paws[k].Sample))
	}
}

// flight draws one flight: a line in braille, waves in ASCII, where a line would be a bar.
func (d *pen) flight(a, b canvas.Pt, role canvas.Role) {
	if d.fine {
		d.p.Line(a, b, canvas.Solid, role)
		return
	}
	cells(a, b, func(x, y int, _ bool) { d.v.Set(x, y, '~', role) })
}

// strides draws one mark for each stride on the ground, pointing where the dog runs.
func (d *pen) strides() {
	if !d.Show.Tracks || d.Run == nil {
		return
	}
	samples := d.Run.Trace.Samples
	for _, p := range d.Run.Trace.Paws {
		if !d.near(p.Sample) || p.Sample < 0 || p.Sample >= len(samples) {
			continue
		}
		sign := d.arrow(samples[p.Sample].Dog.Heading)
		if p.Mark != sim.GroundStride {
			sign = '*'
		}
		x, y := cell(d.at(p.At))
		d.put(x, y, sign, d.weight(p.Sample))
	}
}

// arrow is the sign that points along a heading.
func (d *pen) arrow(a geom.Angle) rune {
	k := int((d.Camera.Turn(a).Compass().Degrees()+45)/90) % 4
	return [4]rune{'^', '>', 'v', '<'}[k]
}

// handlerTrack draws his way.
func (d *pen) handlerTrack() {
	if !d.Show.Tracks || d.Run == nil {
		return
	}
	samples := d.Run.Trace.Samples
	path := make([]canvas.Pt, 0, len(samples))
	for i := range samples {
		if d.near(i) {
			path = append(path, d.at(samples[i].Hand.At))
		}
	}
	d.p.Path(path, canvas.Dotted, canvas.Handler)
}

// team draws the dog and the handler at the instant.
func (d *pen) team() {
	if d.now == nil {
		return
	}
	if d.Show.Handler {
		d.handler(d.now.Hand)
	}
	b := d.now.Dog
	x, y := cell(d.at(b.At))
	d.beside(x, y, b.Heading, d.arrow(b.Heading), canvas.Dog|canvas.Strong)
	d.put(x, y, 'D', canvas.Dog|canvas.Strong)
}

// beside puts a sign into the cell next to x, y that lies along a heading.
func (d *pen) beside(x, y int, along geom.Angle, sign rune, role canvas.Role) {
	u := d.Camera.Turn(along).Unit()
	dx, dy := 0, 0
	if u.X > .38 {
		dx = 1
	} else if u.X < -.38 {
		dx = -1
	}
	if u.Y > .38 {
		dy = -1
	} else if u.Y < -.38 {
		dy = 1
	}
	d.put(x+dx, y+dy, sign, role)
}

// handler draws H, an arrow where his chest faces, and his arm.
func (d *pen) handler(h sim.Hand) {
	x, y := cell(d.at(h.At))
	if h.Arm != plan.SameArm {
		out := geom.Deg(70)
		switch h.Signal {
		case plan.Pull:
			out = geom.Deg(45)
		case plan.Push:
			out = geom.Deg(110)
		}
		a := h.Chest + geom.Angle(h.Arm.Sign())*out
		u := d.Camera.Turn(a).Unit()
		d.beside(x, y, a, inks[bar][slantOf(u.X, -u.Y/canvas.Aspect)], canvas.Handler)
	}
	d.beside(x, y, h.Chest, d.arrow(h.Chest), canvas.Handler|canvas.Strong)
	d.put(x, y, 'H', canvas.Handler|canvas.Strong)
}
