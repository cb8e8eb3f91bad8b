package ring

import (
	"cuewalk/course"
	"cuewalk/course/geom"
)

// nib is what a stroke of an obstacle stands for.
type nib uint8

const (
	bar   nib = iota // what falls
	thin             // an edge that only shows the outline
	wing             // what stands beside an opening; solid
	tube             // the middle line of a pipe
	plank            // the middle line of a narrow plank
	ridge            // the middle of a broad ramp, where there is no room for its edges
	zone             // the same where it is a contact zone
	post             // one upright: a dot
	pivot            // where a plank tips, where two planks meet, an apex
	tower            // the pillar of a wall
	hoop             // the ring of a tyre
	nibs
)

// stroke is one line of an obstacle seen from above, in metres on the map.
type stroke struct {
	a, b geom.Point
	nib  nib
}

// Contact zones reach this far up each end, metres (0.9 m of plank in the FCI texts, from memory).
const contactZone = 0.9

// strokes appends the drawing of an obstacle from above to dst.
func strokes(o *course.Obstacle, dst []stroke) []stroke {
	s := sketch{geom.Pose{At: o.At, Heading: o.Facing}, dst}
	half, far := o.Width/2, o.Width/2+o.Wing
	switch o.Kind {
	case course.Jump:
		s.barAt(0, half, far)
	case course.Spread:
		s.barAt(-o.Length/2, half, far)
		s.barAt(o.Length/2, half, far)
	case course.LongJump:
		s.units(o)
	case course.Wall:
		s.line(-half, 0, half, 0, wing)
		s.line(-far, 0, -half, 0, tower)
		s.line(half, 0, far, 0, tower)
	case course.Tyre:
		s.line(-far, 0, -half, 0, bar)
		s.line(half, 0, far, 0, bar)
		s.line(-half, 0, half, 0, hoop)
	case course.Tunnel:
		for i := 1; i < len(o.Through); i++ {
			s.out = append(s.out, stroke{o.Through[i-1], o.Through[i], tube})
		}
	case course.Weaves:
		for i := range o.Poles {
			y := -o.Length/2 + float64(i)*course.Spacing
			s.line(0, y, 0, y, post)
		}
	case course.AFrame:
		s.ramps(o, half)
	case course.DogWalk, course.Seesaw:
		s.planks(o)
	case course.Table:
		s.rectangle(half, o.Length/2, wing)
	}
	return s.out
}

// sketch collects strokes given as the obstacle sees them: x to its right, y ahead.
type sketch struct {
	pose geom.Pose
	out  []stroke
}

func (s *sketch) place(x, y float64) geom.Point {
	return s.pose.At.Add(s.pose.Heading.Right().Mul(x)).Add(s.pose.Heading.Unit().Mul(y))
}

func (s *sketch) line(x0, y0, x1, y1 float64, n nib) {
	s.out = append(s.out, stroke{s.place(x0, y0), s.place(x1, y1), n})
}

// barAt is a bar between its wings or, without them, its posts.
func (s *sketch) barAt(y, half, far float64) {
	s.line(-half, y, half, y, bar)
	if far == half {
		s.line(-half, y, -half, y, post)
		s.line(half, y, half, y, post)
		return
	}
	s.line(-far, y, -half, y, wing)
	s.line(half, y, far, y, wing)
}

// units are the low elements of a long jump between its four marking poles.
func (s *sketch) units(o *course.Obstacle) {
	n := max(3, min(5, int(o.Length/0.35)+1))
	for i := range n {
		y := -o.Length/2 + o.Length*float64(i)/float64(n-1)
		s.line(-o.Width/2, y, o.Width/2, y, bar)
		if i == 0 || i == n-1 {
			s.line(-o.Width/2, y, -o.Width/2, y, post)
			s.line(o.Width/2, y, o.Width/2, y, post)
		}
	}
}

func (s *sketch) rectangle(x, y float64, n nib) {
	s.line(-x, -y, x, -y, n)
	s.line(x, -y, x, y, n)
	s.line(x, y, -x, y, n)
	s.line(-x, y, -x, -y, n)
}

// ramps are the two sides of an A-frame with their contact zones, and its apex.
func (s *sketch) ramps(o *course.Obstacle, half float64) {
	y := o.Length / 2
	z := min(contactZone, y)
	for _, x := range [2]float64{-half, half} {
		s.line(x, -y, x, y, thin)
	}
	s.line(0, -y, 0, -y+z, zone)
	s.line(0, y-z, 0, y, zone)
	s.line(0, -y+z, 0, y-z, ridge)
	s.line(-half, -y, half, -y, thin)
	s.line(-half, y, half, y, thin)
	s.line(-half, 0, half, 0, pivot)
}

// planks is a dog walk of three parts or a seesaw with its pivot.
func (s *sketch) planks(o *course.Obstacle) {
	y := o.Length / 2
	z := min(contactZone, y/2)
	s.line(0, -y+z, 0, y-z, plank)
	s.line(0, -y, 0, -y+z, zone)
	s.line(0, y-z, 0, y, zone)
	if o.Kind == course.Seesaw {
		s.line(-o.Width, 0, o.Width, 0, pivot)
		return
	}
	for _, j := range [2]float64{-o.Length / 6, o.Length / 6} {
		s.line(-o.Width/2, j, o.Width/2, j, pivot)
	}
}
