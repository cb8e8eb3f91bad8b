package dog

import (
	"cmp"
	"math"
	"slices"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// Scene is everything standing in the ring, as a dog can meet it: entries and what
// hides them. It holds no numbers. It is not changed by runs.
type Scene struct {
	Entries []course.Entry
	covers  []cover    // what can hide an entry
	before  [][]ranged // by entry: the covers on its near side, nearest first
	walls   []wall     // what a dog runs round
	room    []float64
	mouths  []mouth        // by entry: what a look needs of it
	pipes   [][]geom.Point // by entry: a tunnel's line from this mouth to the other; nil for the rest
	grid    grid
	Fine    float64 // by how much steps are finer than usual: 1, or more to see that figures do not hang on it
}

// mouth is what a look needs of an entry.
type mouth struct {
	at, way     geom.Point // middle of the opening, direction through it
	half        float64    // metres
	left, right limit      // for a dog from the left and from the right of its axis
	obstacle    int
	kind        course.Kind
}

// limit is a largest approach angle: beyond angle less slack an approach gets harder.
type limit struct{ angle, easy float64 } // easy is the cosine of that

const slack = 0.15 // radians (C)

func limitOf(a geom.Angle) limit {
	return limit{float64(a), math.Cos(max(0, float64(a)-slack))}
}

func mouthOf(e *course.Entry) mouth {
	return mouth{e.At, e.Heading.Unit(), e.Half, limitOf(e.Left), limitOf(e.Right), e.Obstacle, e.Kind}
}

// cover is a line that hides what is behind it: a solid, or the opening of a jump
// that the dog would meet first.
type cover struct {
	geom.Segment
	mid      geom.Point
	half     float64
	obstacle int
}

// ranged is a cover and the least distance from it to the entry it may hide.
type ranged struct {
	cover int32
	least float64
}

type wall struct {
	geom.Segment
	obstacle int
	opening  float64 // half of the part of it that can be jumped; 0 for none
}

// FarSight is the range in metres beyond which nothing pulls.
const FarSight = 25.0

// NewScene makes the scene of a set of obstacles.
func NewScene(obstacles []course.Obstacle) *Scene {
	s := &Scene{Fine: 1}
	for i := range obstacles {
		o := &obstacles[i]
		s.Entries = append(s.Entries, o.Entries(i)...)
		s.addPipes(o)
		for _, seg := range o.Footprint() {
			w := wall{Segment: seg, obstacle: i}
			if o.Kind.Jumped() {
				w.opening = o.Width / 2
			}
			s.walls = append(s.walls, w)
		}
		for _, seg := range covers(o) {
			s.covers = append(s.covers, cover{seg, seg.Mid(), seg.Length() / 2, i})
		}
	}
	s.room = make([]float64, len(s.Entries))
	s.grid = newGrid(s)
	for i := range s.Entries {
		s.mouths = append(s.mouths, mouthOf(&s.Entries[i]))
		s.room[i] = s.roomBehind(&s.Entries[i])
		s.before = append(s.before, s.coversBefore(&s.Entries[i]))
	}
	return s
}

// addPipes keeps pipes in step with Entries after the entries of o were added.
func (s *Scene) addPipes(o *course.Obstacle) {
	if o.Kind == course.Tunnel {
		back := slices.Clone(o.Through)
		slices.Reverse(back)
		s.pipes = append(s.pipes, o.Through, back)
	}
	for len(s.pipes) < len(s.Entries) {
		s.pipes = append(s.pipes, nil)
	}
}

// covers returns what of an obstacle hides entries behind it: all of a solid one,
// the opening of one that is jumped.
func covers(o *course.Obstacle) []geom.Segment {
	if o.Kind.Solid() {
		return o.Solids()
	}
	if !o.Kind.Jumped() {
		return nil
	}
	p := geom.Pose{At: o.At, Heading: o.Facing}
	return []geom.Segment{{A: p.Beside(-o.Width / 2), B: p.Beside(o.Width / 2)}}
}

// coversBefore returns the covers that may stand between a dog and entry e: those
// with a part on the side the dog comes from, nearest first.
func (s *Scene) coversBefore(e *course.Entry) []ranged {
	var near []ranged
	for i := range s.covers {
		k := &s.covers[i]
		u := e.Heading.Unit()
		front := max(e.At.Sub(k.A).Dot(u), e.At.Sub(k.B).Dot(u))
		least := k.Dist(e.At)
		if k.obstacle != e.Obstacle && least < FarSight && (front > 0 || e.Kind == course.Tunnel) {
			near = append(near, ranged{int32(i), least})
		}
	}
	slices.SortFunc(near, func(a, b ranged) int { return cmp.Or(cmp.Compare(a.least, b.least), cmp.Compare(a.cover, b.cover)) })
	return near
}

// roomBehind returns the metres from the far side of e to the nearest opening
// straight on behind it; FarSight where there is none.
func (s *Scene) roomBehind(e *course.Entry) float64 {
	best := FarSight
	cell := s.grid.at(e.Exit.At)
	for _, i := range cell.entries {
		o := &s.Entries[i]
		if o.Obstacle == e.Obstacle || !o.Kind.Jumped() || turn(o.Heading.Off(e.Heading)) > 1 {
			continue
		}
		q := e.Exit.Local(o.At)
		if q.Y > 0.5 && math.Abs(q.X) < 0.35*q.Y && q.Y < best {
			best = q.Y
		}
	}
	return best
}

// grid finds what is near a place, so that a run costs no more in a large ring
// than in a small one. A cell lists what may lie within FarSight of any place in it.
type grid struct {
	low   geom.Point
	w, h  int
	cells []cell
}

type cell struct{ entries, walls []int32 }

const cellSize = 10.0

func newGrid(s *Scene) grid {
	lo, hi := geom.Point{X: math.Inf(1), Y: math.Inf(1)}, geom.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for i := range s.walls {
		for _, p := range []geom.Point{s.walls[i].A, s.walls[i].B} {
			lo = geom.Point{X: math.Min(lo.X, p.X), Y: math.Min(lo.Y, p.Y)}
			hi = geom.Point{X: math.Max(hi.X, p.X), Y: math.Max(hi.Y, p.Y)}
		}
	}
	if len(s.walls) == 0 {
		return grid{w: 1, h: 1, cells: make([]cell, 1)}
	}
	margin := geom.Point{X: 5, Y: 5}
	g := grid{low: lo.Sub(margin)}
	size := hi.Add(margin).Sub(g.low)
	g.w, g.h = 1+int(size.X/cellSize), 1+int(size.Y/cellSize)
	g.cells = make([]cell, g.w*g.h)
	for i := range s.Entries {
		g.spread(s.Entries[i].At, FarSight, func(c *cell) { c.entries = append(c.entries, int32(i)) })
	}
	for i := range s.walls {
		g.spread(s.walls[i].Mid(), 4+s.walls[i].Length()/2, func(c *cell) { c.walls = append(c.walls, int32(i)) })
	}
	return g
}

// spread calls add for every cell with a place within reach of p; places beyond
// the grid belong to the cells at its edge.
func (g *grid) spread(p geom.Point, reach float64, add func(*cell)) {
	for y := range g.h {
		for x := range g.w {
			dx := gap(p.X, g.low.X, x, g.w)
			dy := gap(p.Y, g.low.Y, y, g.h)
			if dx*dx+dy*dy <= reach*reach {
				add(&g.cells[y*g.w+x])
			}
		}
	}
}

func gap(v, low float64, i, n int) float64 {
	lo, hi := low+float64(i)*cellSize, low+float64(i+1)*cellSize
	switch {
	case v < lo && i > 0:
		return lo - v
	case v > hi && i < n-1:
		return v - hi
	}
	return 0
}

func (g *grid) at(p geom.Point) *cell {
	x := max(0, min(g.w-1, int((p.X-g.low.X)/cellSize)))
	y := max(0, min(g.h-1, int((p.Y-g.low.Y)/cellSize)))
	return &g.cells[y*g.w+x]
}
