package plan

import (
	"cuewalk/course"
	"cuewalk/course/geom"
)

// nominalStride is the length in metres a stride is taken to have where a plan is
// judged without a dog (between collected and extended; common practice, no source).
const nominalStride = 1.6

// line is the dog's nominal line: straight from the start to the first entry,
// through each numbered obstacle, and straight from its exit to the next entry.
// It is what a handler draws on his map; no dog runs it.
type line struct {
	pts    []geom.Point
	along  []float64 // metres along the line to each point
	enter  []int     // index in pts of each number's entry; 0 is the start
	leave  []int     // and of its exit
	passes []course.Entry
}

func newLine(c *course.Course) *line {
	l := &line{enter: []int{0}, leave: []int{0}, passes: []course.Entry{{}}}
	l.add(c.Start)
	for n := 1; n <= len(c.Order); n++ {
		e := c.Entry(n)
		l.add(e.At)
		l.enter = append(l.enter, len(l.pts)-1)
		for _, p := range bends(c.Obstacles[e.Obstacle], e) {
			l.add(p)
		}
		l.add(e.Exit.At)
		l.leave = append(l.leave, len(l.pts)-1)
		l.passes = append(l.passes, e)
	}
	return l
}

// bends returns the points of a tunnel's line between its mouths, in the order
// the dog meets them.
func bends(o course.Obstacle, e course.Entry) []geom.Point {
	if o.Kind != course.Tunnel || len(o.Through) < 3 {
		return nil
	}
	inner := append([]geom.Point(nil), o.Through[1:len(o.Through)-1]...)
	if e.Reverse {
		for i, j := 0, len(inner)-1; i < j; i, j = i+1, j-1 {
			inner[i], inner[j] = inner[j], inner[i]
		}
	}
	return inner
}

func (l *line) add(p geom.Point) {
	at := 0.0
	if n := len(l.pts); n > 0 {
		at = l.along[n-1] + l.pts[n-1].Dist(p)
	}
	l.pts, l.along = append(l.pts, p), append(l.along, at)
}

// last returns the highest course number.
func (l *line) last() int { return len(l.enter) - 1 }

// distance returns how far along the line a moment is, within the line's ends; a
// number the course does not have is taken for the nearest that it has.
func (l *line) distance(m Moment) float64 {
	n := max(0, min(l.last(), m.Number))
	i := l.enter[n]
	if m.Event.After() {
		i = l.leave[n]
	}
	return max(0, min(l.along[len(l.along)-1], l.along[i]+m.Strides*nominalStride))
}

// at returns the point a distance along the line.
func (l *line) at(d float64) geom.Point {
	for i := 1; i < len(l.pts); i++ {
		if d <= l.along[i] {
			if span := l.along[i] - l.along[i-1]; span > 0 {
				return l.pts[i-1].Lerp(l.pts[i], (d-l.along[i-1])/span)
			}
			return l.pts[i]
		}
	}
	return l.pts[len(l.pts)-1]
}

// gone returns the number whose exit the dog has passed at a moment: 0 until it
// has taken the first.
func (l *line) gone(m Moment) int {
	d := l.distance(m)
	n := 0
	for n < l.last() && l.along[l.leave[n+1]] <= d {
		n++
	}
	if m.Event != Release && !m.Event.After() && n >= m.Number && m.Strides <= 0 {
		return m.Number - 1
	}
	return n
}

// way is a straight stretch of the dog's line: a pose at its beginning, and metres.
type way struct {
	geom.Pose
	length float64
}

// leg returns the way from number n (0 is the start) to number n+1, and whether
// there is one.
func (l *line) leg(n int) (way, bool) {
	if n < 0 || n >= l.last() {
		return way{}, false
	}
	a, b := l.pts[l.leave[n]], l.pts[l.enter[n+1]]
	if a.Dist(b) < 0.01 {
		return way{geom.Pose{At: b, Heading: l.passes[n+1].Heading}, 0}, true
	}
	return way{geom.Pose{At: a, Heading: a.Towards(b)}, a.Dist(b)}, true
}

// turn returns by how much the dog turns once it has taken number n, to head
// straight for the next: right positive. It is 0 for the start and the last number.
func (l *line) turn(n int) geom.Angle {
	leg, ok := l.leg(n)
	if n < 1 || !ok {
		return 0
	}
	return leg.Heading.Off(l.passes[n].Exit.Heading)
}

// through returns the way into number n, and whether there is one.
func (l *line) through(n int) (way, bool) {
	if n < 1 || n > l.last() {
		return way{}, false
	}
	return way{geom.Pose{At: l.passes[n].At, Heading: l.passes[n].Heading}, 0}, true
}
