package tui

import (
	"math"

	"cuewalk/course/geom"
	"cuewalk/sim/reading"
	"cuewalk/tui/canvas"
	"cuewalk/tui/ring"
)

// What the ring of a course that is read shows on the ground, beneath obstacles and line:
// a dot where the handler can be when the dog takes the obstacle, shade where his body
// hides the chosen trap, and the line on which a dog goes that nobody turns.

// drawGround draws them.
func (m *Model) drawGround(v canvas.View, cam ring.Camera, l *reading.Leg, t *reading.Trap) ground {
	g := ground{v: v, cam: cam, read: m.walked().read}
	g.reach(l.Number)
	g.hides(t) // where both are, the dots show through
	g.natural(l)
	return g
}

type ground struct {
	v    canvas.View
	cam  ring.Camera
	read *reading.Reading
}

// dotsApart is how many columns there are between dots of the reachable set at least.
const dotsApart = 3.5

func (g *ground) reach(n int) {
	r := &g.read.Reach
	if n < 1 || n > len(r.Legs) || r.W < 1 {
		return
	}
	each := max(1, int(math.Ceil(dotsApart/(r.Cell*g.cam.Scale))))
	for i, can := range r.Legs[n-1].Cells {
		if can && i%r.W%each == 0 && i/r.W%each == 0 {
			x, y := cellOf(g.cam.ToView(r.At(i)))
			g.v.Set(x, y, '.', canvas.Handler)
		}
	}
}

// hides shades the places from which a body hides the trap.
func (g *ground) hides(t *reading.Trap) {
	if t == nil {
		return
	}
	half := t.Cover.Cell / 2
	p := g.v.Plane()
	for _, c := range t.Cover.Places {
		if x, y := cellOf(g.cam.ToView(c.At)); !g.v.Fine() {
			g.v.Set(x, y, ':', canvas.Hidden) // small places between the middles of cells would be lost
		}
	}
	for _, c := range t.Cover.Places {
		var square [4]canvas.Pt
		for k, d := range [4]geom.Point{{X: -half, Y: -half}, {X: half, Y: -half}, {X: half, Y: half}, {X: -half, Y: half}} {
			square[k] = g.cam.ToView(c.At.Add(d))
		}
		p.Shade(square[:], canvas.Dense, canvas.Hidden)
	}
	p.Flush()
}

// naturalReach is how far the natural exit line is drawn where it meets nothing, metres.
const naturalReach = 10.0

// natural draws the line of a dog that nobody turns, to what it meets first.
func (g *ground) natural(l *reading.Leg) {
	if l.Number < 2 {
		return
	}
	far := naturalReach
	if len(l.Meets) > 0 {
		far = min(far, l.Meets[0].Range)
	}
	a, b := g.cam.ToView(l.Natural.At), g.cam.ToView(l.Natural.Ahead(far))
	const apart = 3.0 // columns
	n := max(1, int(math.Hypot(b.X-a.X, canvas.Aspect*(b.Y-a.Y))/apart))
	for i := 1; i <= n; i++ {
		t := float64(i) / float64(n)
		x, y := cellOf(canvas.Pt{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)})
		g.v.Set(x, y, '"', canvas.Caution)
	}
}

// best marks the place that hides most of the trap, over everything.
func (g *ground) best(t *reading.Trap) {
	if t == nil {
		return
	}
	if p, ok := bestCover(&t.Cover); ok {
		x, y := cellOf(g.cam.ToView(p.At))
		g.v.Set(x, y, 'B', canvas.Hidden|canvas.Strong)
	}
}

// bestCover is the place that hides most; ok is false where there is none.
func bestCover(c *reading.Cover) (best reading.CoverPlace, ok bool) {
	for _, p := range c.Places {
		if !ok || p.Trap > best.Trap {
			best, ok = p, true
		}
	}
	return best, ok
}

func cellOf(p canvas.Pt) (x, y int) {
	if !(math.Abs(p.X)+math.Abs(p.Y) < 1e6) {
		return -1, -1
	}
	return int(math.Floor(p.X)), int(math.Floor(p.Y))
}
