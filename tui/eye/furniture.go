package eye

import (
	"math"
	"strconv"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim/dog"
	"cuewalk/tui/canvas"
)

// names puts the name of each obstacle over it: the right one in brackets, a hidden one
// in parentheses, the loud wrong one after an exclamation mark.
func (f *frame) names() {
	// First those that matter, so that they get their places.
	for _, i := range [2]int{f.Right, f.wrong} {
		if e := f.entry(i); e != nil {
			f.name(e.Obstacle)
		}
	}
	if f.Told >= 0 && f.Told < len(f.Course.Obstacles) {
		f.name(f.Told)
	}
	for k := range f.Seen {
		if e := f.entry(f.Seen[k].Entry); e != nil {
			f.name(e.Obstacle)
		}
	}
}

func (f *frame) name(i int) {
	seen := f.seen(i)
	if f.extent[i].named || seen == nil || f.under(i) {
		return
	}
	f.extent[i].named = true
	s, role := f.title(i, seen)
	x, top := int(f.lens.column(seen.Bearing.Clamp(f.lens.half))), f.floor/2
	switch e := f.extent[i]; {
	case e.drawn:
		x, top = min(max(x, e.left), e.right), e.top
	case !seen.ByBody && !f.isRight(i):
		return // out of sight behind something that stands there
	}
	n := canvas.Width(s)
	if n > f.w {
		return
	}
	x = min(max(x-n/2, 0), f.w-n)
	for y := max(top-1, 0); y >= 0; y-- {
		if f.clear(x, y, n, i) {
			f.texts = append(f.texts, text{x, y, n})
			f.v.Text(x, y, s, role)
			return
		}
	}
}

// title is what is written over obstacle i.
func (f *frame) title(i int, seen *dog.Seen) (string, canvas.Role) {
	s, role := f.label(i), f.role(i, seen)
	right, wrong := f.entry(f.Right), f.entry(f.wrong)
	switch {
	case f.isRight(i) && !f.faces(right):
		return s + " from behind", canvas.Caution
	case f.isRight(i) && wrong != nil && wrong.Obstacle == i:
		return "!" + s + " wrong end", canvas.Wrong
	case f.isRight(i):
		return "[" + s + "]", role
	case wrong != nil && wrong.Obstacle == i:
		return "!" + s, role
	case seen.Visible < openBelow:
		return "(" + s + ")", canvas.Hidden
	case i == f.Told:
		return "x" + s, role
	}
	return s, role
}

// Sign is one line of what the signs of the strip mean.
type Sign struct {
	Sign  string
	Role  canvas.Role
	Means string
}

// Legend says what the signs of the strip mean.
func Legend() []Sign {
	return []Sign{
		{"ahead", canvas.Quiet, "straight ahead of the dog; the numbers are degrees to its left and right; near things are large"},
		{"[3]", canvas.Right | canvas.Strong, "the right obstacle; the dog does not know it"},
		{"x4", canvas.Wrong, "the wrong one that is told of"},
		{"!4", canvas.Wrong, "a wrong one that pulls harder than the right one just now"},
		{"(5)", canvas.Hidden, "hidden: by the handler (H), or by what stands before it"},
		{"####", canvas.Caution, "a bar below an obstacle: how hard it pulls just now; ==== the right one's"},
		{"lead", canvas.Handler, "where the handler points the dog"},
		{"-====-", canvas.Quiet, "on the scale: where the dog's attention is"},
	}
}

// clear reports whether a name of obstacle i may stand in n cells from x, y on: no other
// name beside it, nothing drawn there but its own.
func (f *frame) clear(x, y, n, i int) bool {
	for _, t := range f.texts {
		if t.y == y && x <= t.x+t.n && t.x <= x+n {
			return false
		}
	}
	for _, o := range f.owner[y*f.w+x : y*f.w+min(x+n, f.w)] {
		if o != 0 && int(o) != i+2 && y > 0 {
			return false
		}
	}
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
const fullPull = 2.5

// pulls draws a level bar below each obstacle that pulls, as long as it pulls hard.
func (f *frame) pulls() {
	if f.pullRows < 1 || f.blind() {
		return
	}
	longest := float64(f.w) / 4
	var last [3]int // column after the last bar of each row
	for k := range f.Seen {
		s := &f.Seen[k]
		if s.Pull < faint {
			continue
		}
		n := max(1, int(math.Round(longest*min(1, s.Pull/fullPull))))
		x := int(math.Floor(f.lens.column(s.Bearing.Clamp(f.lens.half)))) - n/2
		row := 0
		for row < f.pullRows-1 && x < last[row] {
			row++
		}
		last[row] = x + n + 1
		sign, role := f.pick('#', '▆'), canvas.Caution
		switch s.Entry {
		case f.Right:
			sign, role = f.pick('=', '▂'), canvas.Right
		case f.wrong:
			role = canvas.Wrong
		}
		for i := range n {
			f.v.Set(x+i, f.floor+row, sign, role)
		}
	}
}

// faint is the pull below which no bar is drawn, per second.
const faint = 0.02

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
	from, to := f.lead(y)
	for _, deg := range [...]int{-90, -60, -30, 0, 30, 60, 90} {
		s := strconv.Itoa(max(deg, -deg)) + f.degree()
		if deg == 0 {
			s = "ahead"
		}
		f.tick(geom.Deg(float64(deg)), s, from, to)
	}
}

// lead writes where the handler leads and returns the columns it took.
func (f *frame) lead(y int) (from, to int) {
	b := f.Lead.Off(f.Dog.Heading)
	if f.Strength <= 0 || b.Abs() > f.lens.half {
		return 0, 0
	}
	s := " lead "
	if f.w >= 100 {
		s = " handler leads "
	}
	from = max(0, min(int(f.lens.column(b))-len(s)/2, f.w-len(s)))
	return from, f.v.Text(from, y, s, canvas.Handler|canvas.Strong)
}

func (f *frame) degree() string {
	if f.fine {
		return "°"
	}
	return ""
}

// tick writes s below a bearing unless it would touch the columns from up to to.
func (f *frame) tick(b geom.Angle, s string, from, to int) {
	n := canvas.Width(s)
	x := int(f.lens.column(b)) - n/2
	if b.Abs() > f.lens.half || x < to+1 && from < x+n+1 {
		return
	}
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
	case f.Coming != course.Jump:
		s = "still in the " + f.Coming.String() + "; this is how it will come out"
	case f.Dog.Mode == dog.Air:
		s = "in the air"
	case f.Dog.Mode == dog.Waiting, f.Dog.Mode == dog.Standing:
		s = f.Dog.Mode.String()
	case len(f.Seen) == 0:
		s = "nothing in view"
	}
	if f.pullRows > 0 {
		f.v.Text(0, f.scaleRow-1, s, canvas.Hidden)
		return
	}
	f.v.Text(0, 0, s, canvas.Hidden)
}
