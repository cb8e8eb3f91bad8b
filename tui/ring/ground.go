package ring

import (
	"math"

	"cuewalk/course/geom"
	"cuewalk/tui/canvas"
)

// Ground is what reading a course shows on the ground, beneath obstacles and line.
type Ground struct {
	Reach   []geom.Point // where the handler can be, one place for each square of Cell metres
	Cell    float64
	Hides   []geom.Point // where his body would hide the chosen trap, by squares of Square metres
	Square  float64
	Best    geom.Point // where it hides most
	HasBest bool
	Natural [2]geom.Point // where a dog goes that nobody turns, from and to; equal for nowhere
}

// dotsApart is how many columns there are between dots of the reachable set at least.
const dotsApart = 3.5

// ground draws them.
func (d *pen) ground() {
	g := d.Ground
	if g == nil {
		return
	}
	d.hides(g)
	if each := g.Cell * math.Ceil(dotsApart/max(g.Cell*d.Camera.Scale, .01)); each > 0 {
		for _, p := range g.Reach {
			if onGrid(p.X, g.Cell, each) && onGrid(p.Y, g.Cell, each) {
				x, y := cellOf(d.at(p))
				d.sign(x, y, '\'', wayMark, ground)
			}
		}
	}
	a, b := d.at(g.Natural[0]), d.at(g.Natural[1])
	for l, way := span(a, b), 3.0; way <= l; way += 3 {
		x, y := cellOf(lerp(a, b, way/l))
		d.sign(x, y, '"', beforeMark, before)
	}
	if g.HasBest {
		x, y := cellOf(d.at(g.Best))
		d.sign(x, y, 'B', bestMark, figure)
	}
}

// onGrid reports whether a square of cell metres at v is the first of its every metres.
func onGrid(v, cell, every float64) bool { return math.Mod(v, every) < cell }

func (d *pen) hides(g *Ground) {
	half := max(g.Square/2, .6/d.Camera.Scale) // small places between the middles of cells would be lost
	for _, at := range g.Hides {
		var square [4]canvas.Pt
		for k, c := range [4]geom.Point{{X: -half, Y: -half}, {X: half, Y: -half}, {X: half, Y: half}, {X: -half, Y: half}} {
			square[k] = d.at(at.Add(c))
		}
		d.shaded(square[:], 'b', hidesMark)
	}
}
