package reading

import (
	"container/heap"
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// walker measures ways from cell to cell.
type walker struct {
	g     *Reach
	ways  [][]step // from each cell, to its neighbours
	dist  []float64
	queue cells
}

type step struct {
	to int
	d  float64
}

func newWalker(r *Reading) *walker {
	g := &r.Reach
	w := &walker{g: g, ways: make([][]step, g.W*g.H), dist: make([]float64, g.W*g.H)}
	closed := w.close(r.Course)
	for i := range w.ways {
		x, y := i%g.W, i/g.W
		for _, n := range [8][2]int{{1, 0}, {0, 1}, {-1, 0}, {0, -1}, {1, 1}, {-1, 1}, {1, -1}, {-1, -1}} {
			if u, v := x+n[0], y+n[1]; u >= 0 && v >= 0 && u < g.W && v < g.H {
				k := v*g.W + u
				if !crosses(geom.Segment{A: g.At(i), B: g.At(k)}, closed[i]) {
					w.ways[i] = append(w.ways[i], step{k, g.Cell * math.Hypot(float64(n[0]), float64(n[1]))})
				}
			}
		}
	}
	return w
}

// close lists by cell the walls that a step from it may cross.
func (w *walker) close(c *course.Course) [][]geom.Segment {
	near := make([][]geom.Segment, w.g.W*w.g.H)
	for i := range c.Obstacles {
		for _, s := range c.Obstacles[i].Footprint() {
			x0, x1 := w.span(math.Min(s.A.X, s.B.X)-w.g.Low.X, math.Max(s.A.X, s.B.X)-w.g.Low.X, w.g.W)
			y0, y1 := w.span(math.Min(s.A.Y, s.B.Y)-w.g.Low.Y, math.Max(s.A.Y, s.B.Y)-w.g.Low.Y, w.g.H)
			for y := y0; y <= y1; y++ {
				for x := x0; x <= x1; x++ {
					near[y*w.g.W+x] = append(near[y*w.g.W+x], s)
				}
			}
		}
	}
	return near
}

func (w *walker) span(lo, hi float64, n int) (int, int) {
	return max(0, int(math.Floor(lo/w.g.Cell))-1), min(n-1, int(math.Ceil(hi/w.g.Cell))+1)
}

func crosses(s geom.Segment, walls []geom.Segment) bool {
	for _, w := range walls {
		if _, ok := s.Meets(w); ok {
			return true
		}
	}
	return false
}

// spread returns the cells at most metres from any cell of from. Ways over cells
// are up to 8.3 % longer than straight ones, which is given on top, and so is half a
// cell, so that no place is left out that can be reached.
func (w *walker) spread(from []bool, metres float64) []bool {
	limit := metres*1.083 + w.g.Cell/2
	w.queue = w.queue[:0]
	for i := range w.dist {
		w.dist[i] = math.Inf(1)
		if from[i] {
			w.dist[i] = 0
			w.queue = append(w.queue, cell{i, 0})
		}
	}
	for len(w.queue) > 0 {
		c := heap.Pop(&w.queue).(cell)
		if c.d > w.dist[c.i] {
			continue
		}
		for _, s := range w.ways[c.i] {
			if d := c.d + s.d; d <= limit && d < w.dist[s.to] {
				w.dist[s.to] = d
				heap.Push(&w.queue, cell{s.to, d})
			}
		}
	}
	reached := make([]bool, len(w.dist))
	for i, d := range w.dist {
		reached[i] = d <= limit
	}
	return reached
}

type cell struct {
	i int
	d float64
}

// cells is a heap of cells, nearest first.
type cells []cell

func (c cells) Len() int           { return len(c) }
func (c cells) Less(i, j int) bool { return c[i].d < c[j].d }
func (c cells) Swap(i, j int)      { c[i], c[j] = c[j], c[i] }
func (c *cells) Push(x any)        { *c = append(*c, x.(cell)) }
func (c *cells) Pop() any {
	old := *c
	last := old[len(old)-1]
	*c = old[:len(old)-1]
	return last
}
