package eye

import (
	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/tui/canvas"
)

// Heights of what stands beside an opening, metres (usual sizes, no source).
const (
	wingInner  = 1.15 // beside the opening
	wingOuter  = 0.55 // at the far end
	poleHeight = 1.1  // weave poles and the marking poles of a long jump
	tyreHeight = 1.45
)

// builder collects the parts of one obstacle, given as it lies: x to its right, y ahead.
type builder struct {
	pose     geom.Pose
	eye      geom.Point
	out      []part
	role     canvas.Role
	hidden   bool
	obstacle int
}

func (k *builder) place(x, y, z float64) corner {
	return corner{k.pose.At.Add(k.pose.Heading.Right().Mul(x)).Add(k.pose.Heading.Unit().Mul(y)), z}
}

func (k *builder) add(s shape, t texture, c ...corner) {
	p := part{shape: s, texture: t, role: k.role, obstacle: k.obstacle}
	if k.hidden {
		p.texture = veiled
	}
	copy(p.corner[:], c)
	for _, at := range c {
		p.far += at.at.Dist(k.eye) / float64(len(c))
	}
	k.out = append(k.out, p)
}

func (k *builder) rail(x0, y0, z0, x1, y1, z1 float64, t texture) {
	k.add(rail, t, k.place(x0, y0, z0), k.place(x1, y1, z1))
}

func (k *builder) pole(x, y, z float64) {
	k.add(pole, edge, k.place(x, y, 0), k.place(x, y, z))
}

// upright is a panel standing on the line from x0, y0 to x1, y1.
func (k *builder) upright(x0, y0, x1, y1, z float64, t texture) {
	k.add(panel, t, k.place(x0, y0, 0), k.place(x1, y1, 0), k.place(x1, y1, z), k.place(x0, y0, z))
}

// build appends the parts of an obstacle.
func (k *builder) build(o *course.Obstacle) {
	half, far, y := o.Width/2, o.Width/2+o.Wing, o.Length/2
	switch o.Kind {
	case course.Jump:
		k.bar(o, 0, o.Height)
	case course.Spread:
		k.bar(o, -y, o.Height*.75)
		k.bar(o, y, o.Height)
	case course.LongJump:
		k.longJump(o)
	case course.Wall:
		k.upright(-half, 0, half, 0, max(o.Height, .3), brick)
		k.wings(half, far, 0)
	case course.Tyre:
		k.tyre(o, half, far)
	case course.Tunnel:
		k.tunnel(o)
	case course.Weaves:
		for i := range o.Poles {
			z := -y + float64(i)*course.Spacing
			k.add(pole, weaves, k.place(0, z, 0), k.place(0, z, poleHeight))
		}
	case course.AFrame:
		k.slope(half, -y, 0, 0, o.Height)
		k.slope(half, y, 0, 0, o.Height)
	case course.DogWalk:
		third := o.Length / 6
		k.slope(half, -y, 0, -third, o.Height)
		k.slope(half, y, 0, third, o.Height)
		k.slope(half, -third, o.Height, third, o.Height)
	case course.Seesaw:
		k.seesaw(half, y, o.Height)
	case course.Table:
		k.box(half, y, o.Height)
	}
}

// bar is a bar at depth y between wings or posts.
func (k *builder) bar(o *course.Obstacle, y, z float64) {
	half, far := o.Width/2, o.Width/2+o.Wing
	k.rail(-half, y, z, half, y, z, edge)
	if o.Wing > 0 {
		k.wings(half, far, y)
		return
	}
	k.pole(-half, y, wingInner)
	k.pole(half, y, wingInner)
}

// wings stand at depth y beside an opening and slope down outwards.
func (k *builder) wings(half, far, y float64) {
	for _, side := range [2]float64{-1, 1} {
		in, out := side*half, side*far
		k.add(panel, wing, k.place(in, y, 0), k.place(out, y, 0), k.place(out, y, wingOuter), k.place(in, y, wingInner))
	}
}

// longJump is low units between four marking poles.
func (k *builder) longJump(o *course.Obstacle) {
	half, y := o.Width/2, o.Length/2
	const units = 4
	for i := range units {
		d, z := -y+o.Length*float64(i)/(units-1), o.Height*(.5+.5*float64(i)/(units-1))
		k.add(panel, ramp, k.place(-half, d, 0), k.place(half, d, 0), k.place(half, d, z), k.place(-half, d, z))
	}
	for _, x := range [2]float64{-half, half} {
		k.pole(x, -y, poleHeight)
		k.pole(x, y, poleHeight)
	}
}

// tyre is a ring hanging in a frame.
func (k *builder) tyre(o *course.Obstacle, half, far float64) {
	k.pole(-far, 0, tyreHeight)
	k.pole(far, 0, tyreHeight)
	k.rail(-far, 0, tyreHeight, far, 0, tyreHeight, edge)
	low := max(o.Height-.1, .1)
	k.add(hoop, edge, k.place(-half, 0, low), k.place(half, 0, low), k.place(0, 0, low+2*half))
}

// tunnel is its pipe seen from outside and the mouths that face the dog.
func (k *builder) tunnel(o *course.Obstacle) {
	n := len(o.Through)
	for i := 1; i < n; i++ {
		a, b := o.Through[i-1], o.Through[i]
		k.add(panel, pipe, corner{a, 0}, corner{b, 0}, corner{b, o.Height}, corner{a, o.Height})
	}
	k.mouth(o, o.Through[0], o.Through[1])
	k.mouth(o, o.Through[n-1], o.Through[n-2])
}

// mouth is the hole at end, seen only from outside; next is the pipe's next point.
func (k *builder) mouth(o *course.Obstacle, end, next geom.Point) {
	in := end.Towards(next)
	if in.Unit().Dot(end.Sub(k.eye)) <= 0 {
		return
	}
	r := in.Right().Mul(o.Width / 2)
	k.add(mouth, dark, corner{end.Sub(r), 0}, corner{end.Add(r), 0}, corner{end, o.Height})
	k.out[len(k.out)-1].far -= .35 // before its own pipe
}

// slope is a plank from depth y0 at height z0 to depth y1 at z1.
func (k *builder) slope(half, y0, z0, y1, z1 float64) {
	k.add(panel, ramp, k.place(-half, y0, z0), k.place(half, y0, z0), k.place(half, y1, z1), k.place(-half, y1, z1))
	k.rail(-half, y0, z0, -half, y1, z1, edge)
	k.rail(half, y0, z0, half, y1, z1, edge)
}

// seesaw is a plank down on the side the dog stands and up on the other.
func (k *builder) seesaw(half, y, z float64) {
	near := -1.0
	if k.pose.Local(k.eye).Y > 0 {
		near = 1
	}
	k.slope(half, near*y, 0, -near*y, 2*z)
	k.pole(0, 0, z)
}

// box is a table: its sides.
func (k *builder) box(x, y, z float64) {
	k.upright(-x, -y, x, -y, z, ramp)
	k.upright(x, -y, x, y, z, ramp)
	k.upright(x, y, -x, y, z, ramp)
	k.upright(-x, y, -x, -y, z, ramp)
}
