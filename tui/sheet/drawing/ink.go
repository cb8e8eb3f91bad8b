package drawing

import (
	"math"

	"cuewalk/tui/place"
)

// grain is the side of a cell of the ink map, in millimetres.
const grain = 0.4

// layer is how much what is drawn matters to labels.
type layer uint8

const (
	things layer = iota // no label may cover it
	dogs                // the dog's line
	others              // other lines
	layers
)

// ink is a map of what is drawn, for keeping labels off it: for each layer, the cells in which
// something is.
type ink struct {
	w, h   int
	marked [layers][]int32
	sums   [layers][]int32 // over all cells above and to the left; made by settle
}

func newInk(width, height float64) *ink {
	k := &ink{w: int(width/grain) + 2, h: int(height/grain) + 2}
	for l := range k.marked {
		k.marked[l] = make([]int32, k.w*k.h)
	}
	return k
}

// stroke marks a line of half a breadth of half.
func (k *ink) stroke(a, b point, half float64, l layer) {
	n := int(math.Hypot(b.x-a.x, b.y-a.y)/(grain/2)) + 1
	for i := range n + 1 {
		t := float64(i) / float64(n)
		k.spot(point{a.x + (b.x-a.x)*t, a.y + (b.y-a.y)*t}, half, l)
	}
}

// spot marks a square.
func (k *ink) spot(c point, half float64, l layer) {
	m := k.marked[l]
	x0, x1 := k.cell(c.x-half, k.w), k.cell(c.x+half, k.w)
	y0, y1 := k.cell(c.y-half, k.h), k.cell(c.y+half, k.h)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			m[y*k.w+x] = 1
		}
	}
}

// box marks a rectangle as a thing.
func (k *ink) box(r place.Rect) {
	for y := k.cell(r.Y, k.h); y <= k.cell(r.Y+r.H, k.h); y++ {
		for x := k.cell(r.X, k.w); x <= k.cell(r.X+r.W, k.w); x++ {
			k.marked[things][y*k.w+x] = 1
		}
	}
}

func (k *ink) cell(v float64, n int) int { return max(0, min(n-1, int(math.Floor(v/grain)))) }

// settle adds up what is marked so far, for under.
func (k *ink) settle() {
	sum := func(m []int32) []int32 {
		s := make([]int32, (k.w+1)*(k.h+1))
		for y := range k.h {
			row := int32(0)
			for x := range k.w {
				row += m[y*k.w+x]
				s[(y+1)*(k.w+1)+x+1] = s[y*(k.w+1)+x+1] + row
			}
		}
		return s
	}
	for l := range k.marked {
		k.sums[l] = sum(k.marked[l])
	}
}

// under counts the marked cells that r touches, by layer.
func (k *ink) under(r place.Rect) (n [layers]int) {
	x0, x1 := k.cell(r.X, k.w), k.cell(r.X+r.W, k.w)+1
	y0, y1 := k.cell(r.Y, k.h), k.cell(r.Y+r.H, k.h)+1
	w := k.w + 1
	for l, s := range k.sums {
		n[l] = int(s[y1*w+x1] - s[y0*w+x1] - s[y1*w+x0] + s[y0*w+x0])
	}
	return n
}
