package ring

import (
	"cuewalk/course/geom"
	"cuewalk/sim"
	"cuewalk/sim/dog"
	"cuewalk/tui/canvas"
)

// lines draws all that runs over the ground.
func (d *pen) lines() {
	if d.Bare {
		return
	}
	d.oldLine()
	d.handlerWay()
	d.wrongWays()
	if d.Layers.Has(Line) {
		if d.Run == nil {
			d.courseLine()
		} else {
			d.dogLine()
		}
	}
}

// near reports whether a sample belongs to the picture: of the leg, or of the last and first
// strides of its neighbours, or any where all legs are wanted.
func (d *pen) near(i int) bool {
	return d.All && !d.tiny() || d.leg == nil || i >= d.leg.First-12 && i <= d.leg.Last+12
}

// tinyBelow is the scale in columns to a metre below which the lines of all legs would cover
// what they join: that of this leg alone is drawn, and the ring's edge is not.
const tinyBelow = 0.75

func (d *pen) tiny() bool { return d.Camera.Scale < tinyBelow }

// weight is the role of a mark of the dog at sample i: that of other legs is quiet.
func (d *pen) weight(i int) canvas.Role {
	if d.leg == nil || i >= d.leg.First && i <= d.leg.Last {
		return canvas.Dog
	}
	return canvas.Track
}

// trail is a line being drawn: one sign per cell, arrows along it.
type trail struct {
	mark mark
	sign rune
	rank rank
	role canvas.Role
}

// piece draws the way from a to b.
func (d *pen) piece(a, b canvas.Pt, t trail, how canvas.Stroke) {
	sign := t.sign
	if d.fine {
		sign = 0
		d.p.Line(a, b, how, t.role)
	}
	cells(a, b, func(x, y int) { d.put(x, y, ink{sign: sign, role: t.role, mark: t.mark, rank: t.rank}) })
}

// dogLine draws where the dog runs: dots on the ground, waves in the air, nothing inside what
// hides it, and which way it goes.
func (d *pen) dogLine() {
	ss := d.Run.Trace.Samples
	for i := 1; i < len(ss); i++ {
		if !d.near(i) || ss[i].Dog.Mode == dog.Inside && ss[i-1].Dog.Mode == dog.Inside {
			continue
		}
		t := trail{lineMark, '.', dogLine, d.weight(i)}
		how := canvas.Dotted
		if ss[i].Dog.Mode == dog.Air || ss[i-1].Dog.Mode == dog.Air {
			t.mark, t.sign, how = flightMark, '~', canvas.Solid
		}
		d.piece(d.at(ss[i-1].Dog.At), d.at(ss[i].Dog.At), t, how)
	}
	if d.Layers.Has(Strides) {
		d.strides()
		return
	}
	for i := range d.Run.Legs {
		if l := &d.Run.Legs[i]; d.All && !d.tiny() || d.leg == nil || l.Number == d.Leg {
			d.arrows(samplePath(ss, l), d.weight((l.First+l.Last)/2))
		}
	}
}

// samplePath is the dog's way on a leg as far as it runs on the ground.
func samplePath(ss []sim.Sample, l *sim.Leg) []geom.Point {
	var out []geom.Point
	for i := max(l.First, 0); i <= l.Last && i < len(ss); i++ {
		if ss[i].Dog.Mode != dog.Air && ss[i].Dog.Mode != dog.Inside {
			out = append(out, ss[i].Dog.At)
		}
	}
	return out
}

// courseLine joins the numbers of a course that nobody runs: from each way out straight to the
// next way in.
func (d *pen) courseLine() {
	c := d.Setup.Course
	from := c.Start
	if d.tiny() {
		return
	}
	for n := 1; n <= len(c.Order); n++ {
		e := c.Entry(n)
		path := [2]geom.Point{from, e.At}
		d.piece(d.at(path[0]), d.at(path[1]), trail{lineMark, '.', dogLine, canvas.Track}, canvas.Dotted)
		d.arrows(path[:], canvas.Track)
		from = e.Exit.At
	}
}

// arrowsApart is about how far apart arrows stand on a line, in columns.
const arrowsApart = 18.0

// arrows shows which way a path goes, at least once in its middle.
func (d *pen) arrows(path []geom.Point, role canvas.Role) {
	all := 0.0
	for i := 1; i < len(path); i++ {
		all += span(d.at(path[i-1]), d.at(path[i]))
	}
	n := max(1, int(all/arrowsApart))
	for k := range n {
		d.arrow(path, all*(float64(k)+.5)/float64(n), all/float64(n)/2, role)
	}
}

// arrow puts one on the first free cell of the path at or after the way to, or else before it,
// within reach columns of it.
func (d *pen) arrow(path []geom.Point, to, reach float64, role canvas.Role) {
	for _, off := range [...]float64{0, .2, -.2, .4, -.4, .6, -.6, .8, -.8} {
		p, dx, dy, ok := d.along(path, to+off*reach)
		if !ok {
			continue
		}
		x, y := cellOf(p)
		if k := d.cell(x, y); k.rank <= dogLine && (k.mark == lineMark || k.rank < dogLine) {
			d.put(x, y, ink{sign: arrow(dx, dy), role: role, mark: aheadMark, rank: dogArrow})
			return
		}
	}
}

// along is the place at some way along a path, in columns, and its direction there.
func (d *pen) along(path []geom.Point, way float64) (p canvas.Pt, dx, dy float64, ok bool) {
	for i := 1; i < len(path); i++ {
		a, b := d.at(path[i-1]), d.at(path[i])
		l := span(a, b)
		if way <= l && l > 0 {
			return lerp(a, b, max(way, 0)/l), b.X - a.X, b.Y - a.Y, true
		}
		way -= l
	}
	return p, 0, 0, false
}

// strides draws one mark for each stride on the ground, pointing where the dog runs.
func (d *pen) strides() {
	samples := d.Run.Trace.Samples
	for _, p := range d.Run.Trace.Paws {
		if p.Mark != sim.GroundStride || p.Sample < 0 || p.Sample >= len(samples) || !d.near(p.Sample) {
			continue
		}
		u := d.Camera.towards(samples[p.Sample].Dog.Heading)
		x, y := cellOf(d.at(p.At))
		d.put(x, y, ink{sign: arrow(u.X, u.Y/canvas.Aspect), role: d.weight(p.Sample), mark: strideMark, rank: dogArrow})
	}
}

// oldLine draws the dog's line before a change.
func (d *pen) oldLine() {
	if d.Before == nil || !d.Layers.Has(Line) {
		return
	}
	ss := d.Before.Trace.Samples
	l := legOf(d.Before, d.Leg)
	for i := 1; i < len(ss); i++ {
		if d.All && !d.tiny() || l == nil || i >= l.First-12 && i <= l.Last+12 {
			d.piece(d.at(ss[i-1].Dog.At), d.at(ss[i].Dog.At), trail{beforeMark, '"', before, canvas.Quiet}, canvas.Dotted)
		}
	}
}
