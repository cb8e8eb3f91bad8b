package reading

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// Reach is where the handler can be, leg by leg, if the dog runs its best line. He
// may lead out up to leadOut metres from the start. From then on he has to be
// within handling metres of the dog's line on every leg, else he did not handle it;
// from there he runs at his top speed round the obstacles. The sets are generous:
// outside one he cannot be, inside it may still be hard to be in time.
type Reach struct {
	Low  geom.Point // middle of the first cell
	Cell float64    // metres
	W, H int
	Legs []ReachLeg
}

// ReachLeg is where the handler can be when the dog takes the leg's obstacle.
type ReachLeg struct {
	Cells    []bool  // W times H, row by row from the bottom
	Nearest  float64 // metres from the obstacle to the nearest of them; +Inf for none
	Ahead    bool    // some of them are past the obstacle, near the dog's next line
	Handling bool    // some of them are near enough to the dog's line to handle this leg
}

// Bounds of handling (C).
const (
	leadOut   = 12.0
	handling  = 10.0
	mostCells = 6000
)

// At returns the middle of cell i.
func (g *Reach) At(i int) geom.Point {
	return g.Low.Add(geom.Point{X: float64(i%g.W) * g.Cell, Y: float64(i/g.W) * g.Cell})
}

// reach works out the reachable sets.
func (r *Reading) reach() {
	g := &r.Reach
	high := r.grid()
	g.W, g.H = 1+int((high.X-g.Low.X)/g.Cell), 1+int((high.Y-g.Low.Y)/g.Cell)
	w := newWalker(r)
	from := make([]bool, g.W*g.H)
	for i := range from {
		from[i] = g.At(i).Dist(r.Course.Start) <= leadOut
	}
	before := 0.0
	for i := range r.Legs {
		l := &r.Legs[i]
		metres := r.Team.Handler.Speed * max(0, l.Time-before)
		if i == 0 {
			metres = started(r.Team.Handler.Speed, r.Team.Handler.Acceleration, l.Time)
		}
		before = l.Time
		cells := w.spread(from, metres)
		leg := ReachLeg{Cells: cells, Nearest: math.Inf(1)}
		from = r.handlingOf(l, cells, &leg)
		g.Legs = append(g.Legs, leg)
	}
}

// grid settles where the cells lie: round the dog's line, coarser where that is far.
func (r *Reading) grid() (high geom.Point) {
	low := geom.Point{X: math.Inf(1), Y: math.Inf(1)}
	high = geom.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for i := range r.Line.Samples {
		p := r.Line.Samples[i].At
		low = geom.Point{X: math.Min(low.X, p.X-6), Y: math.Min(low.Y, p.Y-6)}
		high = geom.Point{X: math.Max(high.X, p.X+6), Y: math.Max(high.Y, p.Y+6)}
	}
	low = geom.Point{X: math.Max(low.X, -2), Y: math.Max(low.Y, -2)}
	high = geom.Point{X: math.Min(high.X, r.Course.Ring.X+2), Y: math.Min(high.Y, r.Course.Ring.Y+2)}
	size := high.Sub(low)
	r.Reach.Low = low
	r.Reach.Cell = max(1, math.Sqrt(max(0, size.X*size.Y)/mostCells))
	return high
}

// started returns how far a handler who stood gets in t seconds.
func started(top, acceleration, t float64) float64 {
	if t*acceleration < top {
		return acceleration * t * t / 2
	}
	return top*t - top*top/acceleration/2
}

// handlingOf returns those cells from which leg l can be handled, and notes what
// they mean; all cells where there are none.
func (r *Reading) handlingOf(l *Leg, cells []bool, leg *ReachLeg) []bool {
	e := &r.Entries[r.right[l.Number-1]]
	way := geom.Pose{At: e.Exit.At, Heading: e.Exit.Heading}
	near := make([]bool, len(cells))
	for i := range cells {
		if !cells[i] {
			continue
		}
		p := r.Reach.At(i)
		leg.Nearest = min(leg.Nearest, p.Dist(e.At))
		if p.Dist(way.At) < 5 && way.Local(p).Y > 0 {
			leg.Ahead = true
		}
		if r.besideLine(p, l) {
			near[i], leg.Handling = true, true
		}
	}
	if !leg.Handling {
		return cells
	}
	return near
}

func (r *Reading) besideLine(p geom.Point, l *Leg) bool {
	for i := l.First; i <= l.Last; i += 3 {
		if r.Line.Samples[i].At.Dist(p) <= handling {
			return true
		}
	}
	return false
}

// free reports whether somebody of that breadth can stand at p.
func free(obstacles []course.Obstacle, p geom.Point, body float64) bool {
	for i := range obstacles {
		if inside(&obstacles[i], p) {
			return false
		}
		for _, s := range obstacles[i].Footprint() {
			if s.Dist(p) < body {
				return false
			}
		}
	}
	return true
}

// inside reports whether p lies between the lines of an obstacle that has some depth.
func inside(o *course.Obstacle, p geom.Point) bool {
	switch o.Kind {
	case course.Spread, course.LongJump, course.AFrame, course.Table:
		q := geom.Pose{At: o.At, Heading: o.Facing}.Local(p)
		return math.Abs(q.X) <= o.Width/2+o.Wing && math.Abs(q.Y) <= o.Length/2
	case course.Tunnel, course.DogWalk, course.Seesaw:
		for _, s := range o.Footprint() {
			if s.Dist(p) <= o.Width/2 {
				return true
			}
		}
	}
	return false
}
