package ring

import (
	"cuewalk/course/geom"
	"cuewalk/tui/canvas"
)

// branchLine draws the wrong way, dotted.
func (d *pen) branchLine() {
	f := d.fault()
	if f == nil || !d.Show.Branch || !d.fine {
		return
	}
	path := make([]canvas.Pt, len(f.Path))
	for i, p := range f.Path {
		path[i] = d.at(p)
	}
	d.p.Path(path, canvas.Dotted, canvas.Wrong)
}

// branchSigns marks the wrong way with an x every so often and its end with X.
func (d *pen) branchSigns() {
	f := d.fault()
	if f == nil || !d.Show.Branch || len(f.Path) == 0 {
		return
	}
	gap := max(1.2, 3/d.Camera.Scale)
	next := gap / 2
	for i := 1; i < len(f.Path); i++ {
		a, b := f.Path[i-1], f.Path[i]
		l := a.Dist(b)
		for ; next < l; next += gap {
			d.mark(a.Lerp(b, next/l), 'x', canvas.Wrong)
		}
		next -= l
	}
	d.mark(f.Path[len(f.Path)-1], 'X', canvas.Wrong)
}

func (d *pen) mark(p geom.Point, sign rune, role canvas.Role) {
	x, y := cell(d.at(p))
	d.put(x, y, sign, role)
}
