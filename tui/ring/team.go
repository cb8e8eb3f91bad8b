package ring

import (
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/sim"
	"cuewalk/tui/canvas"
)

// wayStep is the distance of two dots of the handler's way in columns.
const wayStep = 2.0

// wayFrom is the scale in columns to a metre from which his way over the whole course is drawn.
const wayFrom = 2.0

// handlerWay draws his way.
func (d *pen) handlerWay() {
	if !d.Layers.Has(Handler) || d.Run == nil {
		return
	}
	samples := d.Run.Trace.Samples
	crowded := d.All && d.Camera.Scale < wayFrom // what cannot be told from the rest is left out
	left := 0.0
	for i := 1; i < len(samples); i++ {
		if !d.near(i) || crowded && d.leg != nil && (i < d.leg.First || i > d.leg.Last) {
			continue
		}
		a, b := d.at(samples[i-1].Hand.At), d.at(samples[i].Hand.At)
		l := span(a, b)
		for ; left < l && l < 1e4; left += wayStep {
			p := lerp(a, b, left/l)
			x, y := cellOf(p)
			sign := '\''
			if d.fine {
				sign = 0
				d.p.Dot(p, canvas.Handler)
			}
			d.sign(x, y, sign, wayMark, handlerWay)
		}
		left -= l
	}
}

// team draws the dog and the handler at the instant, or the place where the dog waits.
func (d *pen) team() {
	d.stands()
	if d.now == nil {
		if d.Run == nil && d.Layers.Has(Line) {
			x, y := cellOf(d.at(d.Setup.Course.Start))
			d.sign(x, y, 'D', dogMark, figure)
		}
		return
	}
	if d.Layers.Has(Handler) {
		d.handler(d.now.Hand)
	}
	b := d.now.Dog
	x, y := cellOf(d.at(b.At))
	m := aheadMark
	if d.Layers.Has(Strides) && d.Layers.Has(Line) {
		m = strideMark
	}
	u := d.Camera.towards(b.Heading)
	d.beside(x, y, u, ink{sign: arrow(u.X, u.Y/canvas.Aspect), role: table[m].Role, mark: m, rank: dogArrow})
	d.sign(x, y, 'D', dogMark, figure)
}

// beside puts a sign into the cell next to x, y that lies along u.
func (d *pen) beside(x, y int, u geom.Point, i ink) {
	step := func(v float64) int {
		switch {
		case v > .38:
			return 1
		case v < -.38:
			return -1
		}
		return 0
	}
	d.put(x+step(u.X), y+step(u.Y), i)
}

// handler draws H and where his arm points.
func (d *pen) handler(h sim.Hand) {
	x, y := cellOf(d.at(h.At))
	if h.Arm != plan.SameArm && !d.Bare && d.Camera.Scale >= armFrom {
		out := geom.Deg(70)
		switch h.Signal {
		case plan.Pull:
			out = geom.Deg(45)
		case plan.Push:
			out = geom.Deg(110)
		}
		u := d.Camera.towards(h.Chest + geom.Angle(h.Arm.Sign())*out)
		d.beside(x, y, u, ink{sign: 'a', role: table[armMark].Role, mark: armMark, rank: handlerWay})
	}
	d.sign(x, y, 'H', handlerMark, figure)
}

// armFrom is the scale in columns to a metre from which his arm is drawn.
const armFrom = 1.5
