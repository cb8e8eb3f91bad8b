package eye

import (
	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim/dog"
	"cuewalk/tui/canvas"
)

// Sign is one line of what the signs of the strip mean.
type Sign struct {
	Sign  string
	Role  canvas.Role
	Means string
}

// Legend says what the signs of the strip mean that the ring does not have; a sign of both
// means the same in both.
func Legend() []Sign {
	return []Sign{
		{"straight ahead", canvas.Quiet, "where the dog's nose points; near things are large"},
		{"[3]", canvas.Right | canvas.Strong, "the right obstacle; the dog does not know it"},
		{"*4", canvas.Wrong, "the wrong one that is told of"},
		{"5?", canvas.Hidden, "the dog cannot see it, for the handler or for what is nearer"},
		{"pulls hard", canvas.Obstacle, "how hard it draws the dog just now: weakly, plainly, hard"},
		{"handler points", canvas.Handler | canvas.Strong, "where his arm and chest send the dog"},
		{"===", canvas.Quiet, "on the last row: where the dog's attention is"},
	}
}

// bearings are the directions in words.
var bearings = [...]struct {
	deg         float64
	long, short string
}{
	{0, "straight ahead", "ahead"}, {-90, "left", "left"}, {90, "right", "right"},
	{-45, "half left", "half left"}, {45, "half right", "half right"},
	{-115, "behind left", ""}, {115, "behind right", ""},
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
	var taken []text
	if t, ok := f.points(y); ok {
		taken = append(taken, t)
	}
	for _, b := range bearings {
		s := b.long
		if f.w < 100 {
			s = b.short
		}
		if t, ok := f.tick(geom.Deg(b.deg), s, taken); ok {
			taken = append(taken, t)
		}
	}
}

// points writes where the handler points the dog.
func (f *frame) points(y int) (text, bool) {
	b := f.Lead.Off(f.Dog.Heading)
	if f.Strength <= 0 || b.Abs() > f.lens.half {
		return text{}, false
	}
	s := " handler points "
	if f.w >= 100 {
		s = " handler points here "
	}
	if len(s) > f.w {
		return text{}, false
	}
	x := max(0, min(int(f.lens.column(b))-len(s)/2, f.w-len(s)))
	f.v.Text(x, y, s, canvas.Handler|canvas.Strong)
	return text{x, y, len(s)}, true
}

// tick writes s below a bearing unless it would touch what is written there.
func (f *frame) tick(b geom.Angle, s string, taken []text) (text, bool) {
	n := len(s)
	x := int(f.lens.column(b)) - n/2
	if s == "" || b.Abs() > f.lens.half || x < 0 || x+n > f.w {
		return text{}, false
	}
	for _, t := range taken {
		if x < t.x+t.n+1 && t.x < x+n+1 {
			return text{}, false
		}
	}
	f.v.Text(x, f.scaleRow, s, canvas.Quiet)
	return text{x, f.scaleRow, n}, true
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
	if f.clear(0, 0, min(len(s), f.w)) {
		f.v.Text(0, 0, s, canvas.Hidden)
	}
}
