package eye

import (
	"math"
	"strconv"

	"cuewalk/course/geom"
	"cuewalk/sim/dog"
	"cuewalk/tui/canvas"
)

// names puts the name of each obstacle over it: the right one in brackets, a hidden one
// in parentheses.
func (f *frame) names() {
	// The right one first, so that it gets its place.
	if r := f.entry(f.Right); r != nil && r.Obstacle < len(f.extent) {
		f.name(r.Obstacle)
	}
	for k := range f.Seen {
		if e := f.entry(f.Seen[k].Entry); e != nil && (f.entry(f.Right) == nil || e.Obstacle != f.Entries[f.Right].Obstacle) {
			f.name(e.Obstacle)
		}
	}
}

func (f *frame) name(i int) {
	x := f.extent[i]
	if !x.drawn || x.named {
		return
	}
	seen := f.seen(i)
	s := f.label(i)
	role := f.role(i, seen)
	if r := f.entry(f.Right); r != nil && r.Obstacle == i {
		s = "[" + s + "]"
		if e := f.entry(seen.Entry); seen != nil && e != nil && seen.Entry != f.Right && !f.faces(r) {
			s = f.label(i) + " back"
			role = canvas.Caution
		}
	} else if seen != nil && seen.Visible < openBelow {
		s = "(" + s + ")"
	}
	n := canvas.Width(s)
	at := min(max((x.left+x.right+1)/2-n/2, 0), f.w-n)
	for y := max(x.top-1, 0); y >= 0; y-- {
		if f.clear(at, y, n) {
			f.v.Text(at, y, s, role)
			break
		}
	}
	f.extent[i].named = true
}

// clear reports whether no obstacle's name stands in n cells from x, y on.
func (f *frame) clear(x, y, n int) bool {
	for _, t := range f.texts {
		if t.y == y && x <= t.x+t.n && t.x <= x+n {
			return false
		}
	}
	f.texts = append(f.texts, text{x, y, n})
	return true
}

type text struct{ x, y, n int }

func (f *frame) label(i int) string {
	if i < len(f.Labels) && f.Labels[i] != "" {
		return f.Labels[i]
	}
	return f.Course.Obstacles[i].ID
}

// fullPull is the pull (per second) that makes the longest bar.
const fullPull = 4.0

// pulls draws a level bar below each obstacle that pulls, as long as it pulls hard.
func (f *frame) pulls() {
	if f.pullRows < 1 || f.blind() {
		return
	}
	longest := float64(f.w) / 5
	for k := range f.Seen {
		s := &f.Seen[k]
		if s.Pull <= 0.01 {
			continue
		}
		n := max(1, int(math.Round(longest*min(1, s.Pull/fullPull))))
		x := int(math.Floor(f.lens.column(s.Bearing.Clamp(f.lens.half)))) - n/2
		sign, role := f.pick('#', '▬'), canvas.Caution
		if s.Entry == f.Right {
			sign, role = f.pick('=', '▬'), canvas.Right
		}
		for i := range n {
			f.v.Set(x+i, f.floor+k%f.pullRows, sign, role)
		}
	}
}

// scale draws the bearings below everything, heavier where the dog attends.
func (f *frame) scale() {
	att := f.Attention
	if att <= 0 {
		att = geom.Deg(26)
	}
	y := f.scaleRow
	f.v.Rule(0, y, f.w, canvas.Quiet)
	x0, x1 := int(f.lens.column(-att)), int(f.lens.column(att))
	f.v.Fill(x0, y, x1-x0+1, 1, f.pick('=', '━'), canvas.Quiet)
	for _, deg := range [...]int{-90, -60, -30, 30, 60, 90} {
		f.tick(geom.Deg(float64(deg)), strconv.Itoa(max(deg, -deg)))
	}
	f.tick(0, "ahead")
	if f.Strength > 0 {
		if b := f.Lead.Off(f.Dog.Heading); b.Abs() <= f.lens.half {
			x := int(f.lens.column(b))
			f.v.Text(max(0, min(x-2, f.w-4)), y, "hand", canvas.Handler|canvas.Strong)
		}
	}
}

func (f *frame) tick(b geom.Angle, s string) {
	if b.Abs() > f.lens.half {
		return
	}
	if f.fine && s != "ahead" {
		s += "°"
	}
	x := int(f.lens.column(b)) - canvas.Width(s)/2
	f.v.Text(x, f.scaleRow, s, canvas.Quiet)
}

// blind reports whether the dog sees nothing of the ring.
func (f *frame) blind() bool { return f.Dog.Mode == dog.Inside && len(f.Seen) == 0 }

// state says in a word why the strip is empty or still.
func (f *frame) state() {
	s := ""
	switch {
	case f.blind():
		s = "inside"
		if e := f.entry(f.Dog.Entry); e != nil {
			s = "in the " + e.Kind.String()
		}
		f.v.Text(max(0, (f.w-len(s))/2), f.floor/2, s, canvas.Hidden)
		return
	case f.Dog.Mode == dog.Air:
		s = "in the air"
	case f.Dog.Mode == dog.Waiting, f.Dog.Mode == dog.Standing:
		s = f.Dog.Mode.String()
	case len(f.Seen) == 0:
		s = "nothing in view"
	}
	f.v.Text(0, 0, s, canvas.Quiet)
}
