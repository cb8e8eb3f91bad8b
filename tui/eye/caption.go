package eye

import (
	"fmt"
	"slices"

	"cuewalk/course/geom"
	"cuewalk/sim/dog"
	"cuewalk/tui/canvas"
)

// caption is what is written under one thing: its forms from the longest to the shortest, each
// in up to two rows.
type caption struct {
	obstacle int
	x        float64 // column of its middle
	forms    [][2]string
	role     canvas.Role
	placed   bool
	form     int
	at       int // first column
}

// width is the room that form k takes.
func (c *caption) width(k int) int {
	return max(canvas.Width(c.forms[k][0]), canvas.Width(c.forms[k][1]))
}

// captions writes under each thing what it is, how far off, and how hard it pulls. The right
// one and the one that is told of have theirs in full; the others are all named first and then
// told as fully as there is room, those that pull hardest first.
func (f *frame) captions() {
	if f.blind() {
		return
	}
	all := f.laid()
	for i := range all {
		f.write(&all[i])
	}
}

// laid is the captions in their places.
func (f *frame) laid() []caption {
	all := f.things()
	full := 0
	for full < len(all) && f.matters(all[full].obstacle) {
		full++
	}
	for _, part := range [2][2]int{{0, full}, {full, len(all)}} {
		for i := part[0]; i < part[1]; i++ {
			f.settle(all, i, len(all[i].forms)-1)
		}
		for i := part[0]; i < part[1]; i++ {
			for k := 0; k < all[i].form && !f.settle(all, i, k); k++ {
			}
		}
	}
	return all
}

// matters reports whether obstacle i is the right one or the one told of.
func (f *frame) matters(i int) bool { return f.isRight(i) || i == f.Told }

// things lists what gets a caption: the right one, the one told of, the rest by their pull.
func (f *frame) things() []caption {
	var out []caption
	add := func(i int) {
		if i >= 0 && i < len(f.extent) && !f.extent[i].named && !f.within(i) {
			f.extent[i].named = true
			if c, ok := f.captionOf(i); ok {
				c.form = len(c.forms) - 1
				out = append(out, c)
			}
		}
	}
	if r := f.entry(f.Right); r != nil {
		add(r.Obstacle)
	}
	add(f.Told)
	order := make([]*dog.Seen, len(f.Seen))
	for k := range f.Seen {
		order[k] = &f.Seen[k]
	}
	slices.SortStableFunc(order, func(a, b *dog.Seen) int {
		switch {
		case a.Pull > b.Pull:
			return -1
		case a.Pull < b.Pull:
			return 1
		}
		return 0
	})
	for _, s := range order {
		if e := f.entry(s.Entry); e != nil {
			add(e.Obstacle)
		}
	}
	return out
}

// captionOf is the caption of obstacle i; ok is false for what is out of sight and does not matter.
func (f *frame) captionOf(i int) (caption, bool) {
	seen, e := f.seen(i), f.extent[i]
	if seen == nil && !f.matters(i) || seen != nil && !e.drawn && !seen.ByBody && !f.matters(i) {
		return caption{}, false
	}
	bearing, far := f.whereabouts(i, seen)
	c := caption{obstacle: i, x: f.lens.column(bearing.Clamp(f.lens.half)), role: f.role(i, seen)}
	if e.drawn {
		c.x = min(max(c.x, float64(e.left)), float64(e.right))
	}
	name := f.name(i, seen)
	what := name + " " + f.Course.Obstacles[i].Kind.String()
	off := fmt.Sprintf("%.1f %v", far/f.Course.Units.Factor(), f.Course.Units)
	long, short := f.draws(seen, bearing)
	if f.under < 2 {
		c.forms = [][2]string{{what + " " + off + ", " + long}, {name + " " + off + ", " + short}, {name + " " + off}, {name}}
	} else {
		c.forms = [][2]string{{what, off + ", " + long}, {what, off + ", " + short}, {name, off}, {name}}
	}
	return c, true
}

// whereabouts is where obstacle i lies: as the dog sees it, or where it would.
func (f *frame) whereabouts(i int, seen *dog.Seen) (geom.Angle, float64) {
	if seen != nil {
		return seen.Bearing, seen.Range
	}
	at := f.Course.Obstacles[i].At
	if r := f.entry(f.Right); r != nil && r.Obstacle == i {
		at = r.At
	}
	return f.Dog.At.Towards(at).Off(f.Dog.Heading), f.Dog.At.Dist(at)
}

// name is what obstacle i is called: the right one in brackets, the one told of with a star, a
// hidden one with a question mark.
func (f *frame) name(i int, seen *dog.Seen) string {
	s := f.label(i)
	switch {
	case f.isRight(i):
		s = "[" + s + "]"
	case i == f.Told:
		s = "*" + s
	}
	if seen != nil && seen.Visible < openBelow {
		s += "?"
	}
	return s
}

// Pulls from which a thing pulls, and pulls hard, in chances per second of a dog that looks at
// nothing else; less than faint is none.
const (
	faint = 0.02
	firm  = 0.25
	hard  = 0.9
)

// draws says how hard a thing pulls, or why it does not, long and short.
func (f *frame) draws(seen *dog.Seen, bearing geom.Angle) (long, short string) {
	switch {
	case seen == nil && bearing.Abs() > f.lens.half:
		return "behind the dog", "behind"
	case seen == nil:
		return "out of its sight", "unseen"
	case seen.Visible < openBelow && seen.ByBody:
		return "hidden by the handler", "hidden"
	case seen.Visible < openBelow:
		return "hidden by what is nearer", "hidden"
	}
	return pulls(seen.Pull)
}

func pulls(pull float64) (long, short string) {
	switch {
	case pull < faint:
		return "does not pull", "no pull"
	case pull < firm:
		return "pulls weakly", "weak"
	case pull < hard:
		return "pulls", "pulls"
	}
	return "pulls hard", "hard"
}

// apart is the least room between two captions, in columns.
const apart = 2

// settle places caption i in form k if there is room under its thing, and reports whether.
func (f *frame) settle(all []caption, i, k int) bool {
	c := &all[i]
	n := c.width(k)
	if n > f.w || f.under == 0 {
		return false
	}
	mid, most := int(c.x)-n/2, n/2+1
	if f.matters(c.obstacle) {
		most = f.w // farther off rather than not at all
	}
	for by := 0; by <= most; by++ {
		for _, at := range [2]int{min(max(mid+by, 0), f.w-n), min(max(mid-by, 0), f.w-n)} {
			if f.free(all, i, at, n) {
				c.placed, c.form, c.at = true, k, at
				return true
			}
		}
	}
	return false
}

func (f *frame) free(all []caption, i, at, n int) bool {
	for j := range all {
		if o := &all[j]; j != i && o.placed && at < o.at+o.width(o.form)+apart && o.at < at+n+apart {
			return false
		}
	}
	return true
}

// write writes a placed caption, each row in its middle; one that found no room is written over
// its thing if that is free.
func (f *frame) write(c *caption) {
	if !c.placed {
		f.over(c)
		return
	}
	n := c.width(c.form)
	for row, s := range c.forms[c.form] {
		if s != "" && row < f.under {
			f.v.Text(c.at+(n-canvas.Width(s))/2, f.floor+row, s, c.role)
		}
	}
}

// over writes the name right over its thing.
func (f *frame) over(c *caption) {
	s := c.forms[len(c.forms)-1][0]
	n := canvas.Width(s)
	e := f.extent[c.obstacle]
	if !e.drawn || n > f.w {
		return
	}
	x := min(max(int(c.x)-n/2, 0), f.w-n)
	for y := e.top - 1; y >= 0; y-- {
		if f.clear(x, y, n) {
			f.texts = append(f.texts, text{x, y, n})
			f.v.Text(x, y, s, c.role)
			return
		}
	}
}

// clear reports whether nothing stands in n cells from x, y on, nor another name beside them.
func (f *frame) clear(x, y, n int) bool {
	for _, t := range f.texts {
		if t.y == y && x <= t.x+t.n && t.x <= x+n {
			return false
		}
	}
	for _, o := range f.owner[y*f.w+x : y*f.w+min(x+n, f.w)] {
		if o != 0 {
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
