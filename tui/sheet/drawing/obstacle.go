package drawing

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// Breadths of strokes on paper, in millimetres.
const (
	wingLine = 1.0
	barLine  = 0.35
	edgeLine = 0.3
)

// contactZone is how far a contact zone reaches up each end, metres (0.9 m of plank in the
// FCI texts, from memory).
const contactZone = 0.9

var thing = &nib{0.45, things}

// plot draws one obstacle in its own frame: x to the right of the way it is drawn, y ahead.
type plot struct {
	*Picture
	pose geom.Pose
	o    *course.Obstacle
}

// obstacle draws obstacle i as course maps do: seen from above, to scale. A dummy is grey.
func (p *Picture) obstacle(i int) {
	o := &p.scene.Course.Obstacles[i]
	colour := "#000"
	if len(p.scene.Course.Numbers(i)) == 0 {
		colour = "#777"
	}
	p.open(`fill="none" stroke="` + colour + `" stroke-width="` + num(barLine) + `"`)
	d := plot{p, geom.Pose{At: o.At, Heading: o.Facing}, o}
	switch o.Kind {
	case course.Jump:
		d.jump(0)
	case course.Spread:
		d.jump(-o.Length / 2)
		d.jump(o.Length / 2)
		d.line("", 0, -o.Length/2, 0, o.Length/2)
	case course.LongJump:
		d.units()
	case course.Wall:
		d.wall()
	case course.Tyre:
		d.tyre()
	case course.Tunnel:
		d.tunnel()
	case course.Weaves:
		d.weaves()
	case course.AFrame:
		d.frame()
	case course.DogWalk, course.Seesaw:
		d.plank()
	case course.Table:
		d.box(o.Width/2, -o.Length/2, o.Length/2)
		d.line("", -o.Width/2, -o.Length/2, o.Width/2, o.Length/2)
		d.line("", -o.Width/2, o.Length/2, o.Width/2, -o.Length/2)
	}
	p.shut()
}

func (d *plot) spot(x, y float64) point {
	return d.at(d.pose.At.Add(d.pose.Heading.Right().Mul(x)).Add(d.pose.Heading.Unit().Mul(y)))
}

func (d *plot) line(attributes string, x0, y0, x1, y1 float64) {
	a, b := d.spot(x0, y0), d.spot(x1, y1)
	if attributes == "" {
		d.path(thing, false, a, b)
		return
	}
	d.styled(thing, attributes, false, a, b)
}

func (d *plot) thick(x0, y0, x1, y1 float64) {
	d.line(`stroke-linecap="butt" stroke-width="`+num(wingLine)+`"`, x0, y0, x1, y1)
}

func (d *plot) dot(x, y, r float64) {
	d.disc(thing, `fill="#000" stroke="none"`, d.spot(x, y), r)
}

// box is a rectangle of half a breadth of half.
func (d *plot) box(half, y0, y1 float64) {
	d.styled(thing, `fill="#fff"`, true, d.spot(-half, y0), d.spot(half, y0), d.spot(half, y1), d.spot(-half, y1))
}

// jump is a bar between two wings, or two posts.
func (d *plot) jump(y float64) {
	half := d.o.Width / 2
	d.line("", -half, y, half, y)
	if d.o.Wing == 0 {
		d.dot(-half, y, 0.5)
		d.dot(half, y, 0.5)
		return
	}
	d.thick(-half-d.o.Wing, y, -half, y)
	d.thick(half, y, half+d.o.Wing, y)
}

// units are the low elements of a long jump between four marking poles.
func (d *plot) units() {
	o := d.o
	n := max(3, min(5, int(o.Length/0.35)+1))
	for i := range n {
		y := -o.Length/2 + o.Length*float64(i)/float64(n-1)
		d.line("", -o.Width/2, y, o.Width/2, y)
		if i == 0 || i == n-1 {
			d.dot(-o.Width/2, y, 0.5)
			d.dot(o.Width/2, y, 0.5)
		}
	}
}

func (d *plot) wall() {
	half := d.o.Width / 2
	depth := max(d.o.Length/2, 0.1)
	d.styled(thing, `fill="#ccc"`, true, d.spot(-half, -depth), d.spot(half, -depth), d.spot(half, depth), d.spot(-half, depth))
	d.thick(-half-d.o.Wing, 0, -half, 0)
	d.thick(half, 0, half+d.o.Wing, 0)
}

func (d *plot) tyre() {
	half := d.o.Width / 2
	d.line("", -half-d.o.Wing, 0, -half, 0)
	d.line("", half, 0, half+d.o.Wing, 0)
	d.dot(-half-d.o.Wing, 0, 0.5)
	d.dot(half+d.o.Wing, 0, 0.5)
	d.disc(thing, `stroke-width="0.6"`, d.spot(0, 0), max(half*d.Scale, 0.8))
}

// tunnel is a pipe with ribs, its mouths open.
func (d *plot) tunnel() {
	way := rounded(d.o.Through)
	var left, right []point
	for i, q := range way {
		pose := geom.Pose{At: q, Heading: along(way, i)}
		left = append(left, d.at(pose.Beside(-d.o.Width/2)))
		right = append(right, d.at(pose.Beside(d.o.Width/2)))
	}
	outline := append([]point(nil), left...)
	for i := len(right) - 1; i >= 0; i-- {
		outline = append(outline, right[i])
	}
	d.styled(thing, `fill="#e4e4e4" stroke="none"`, true, outline...)
	d.path(thing, false, left...)
	d.path(thing, false, right...)
	gone := 0.0
	for i := 1; i < len(way); i++ {
		if gone += way[i].Dist(way[i-1]); gone >= 0.55 && i < len(way)-1 {
			gone = 0
			d.styled(nil, `stroke-width="0.15"`, false, left[i], right[i])
		}
	}
}

// rounded is a chain of points with more of them, its corners cut off (Chaikin 1974).
func rounded(way []geom.Point) []geom.Point {
	for range 3 {
		if len(way) < 3 {
			a, b := way[0], way[len(way)-1]
			n := max(2, int(a.Dist(b)/0.3))
			way = nil
			for i := range n + 1 {
				way = append(way, a.Lerp(b, float64(i)/float64(n)))
			}
			return way
		}
		cut := []geom.Point{way[0]}
		for i := 1; i < len(way); i++ {
			if i > 1 {
				cut = append(cut, way[i-1].Lerp(way[i], 0.25))
			}
			if i < len(way)-1 {
				cut = append(cut, way[i-1].Lerp(way[i], 0.75))
			}
		}
		way = append(cut, way[len(way)-1])
	}
	return way
}

// along is the heading of a chain of points at point i.
func along(way []geom.Point, i int) geom.Angle {
	return way[max(0, i-1)].Towards(way[min(len(way)-1, i+1)])
}

// weaves are poles on a line.
func (d *plot) weaves() {
	y := d.o.Length / 2
	d.line(`stroke-width="0.15"`, 0, -y, 0, y)
	for i := range d.o.Poles {
		d.dot(0, -y+float64(i)*course.Spacing, 0.55)
	}
}

// frame is the two ramps of an A-frame with contact zones and apex.
func (d *plot) frame() {
	half, y := d.o.Width/2, d.o.Length/2
	d.box(half, -y, y)
	d.zones(half, y, min(contactZone, y))
	d.line(`stroke-width="0.6"`, -half, 0, half, 0)
}

// plank is a dog walk of three parts, or a seesaw with its pivot.
func (d *plot) plank() {
	half, y := max(d.o.Width/2, 0.15), d.o.Length/2
	d.box(half, -y, y)
	d.zones(half, y, min(contactZone, y/2))
	if d.o.Kind == course.Seesaw {
		d.line(`stroke-width="0.6"`, -2.2*half, 0, 2.2*half, 0)
		return
	}
	for _, at := range [2]float64{-d.o.Length / 6, d.o.Length / 6} {
		d.line("", -half, at, half, at)
	}
}

// zones shades the contact zones.
func (d *plot) zones(half, y, deep float64) {
	for _, at := range [2]float64{-y, y} {
		in := at - math.Copysign(deep, at)
		d.styled(nil, `fill="#999"`, true, d.spot(-half, at), d.spot(half, at), d.spot(half, in), d.spot(-half, in))
	}
}
