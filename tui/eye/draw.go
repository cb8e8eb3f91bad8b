package eye

import (
	"slices"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim/dog"
	"cuewalk/tui/canvas"
)

// Draw draws the strip over the whole view, best from 40 by 5 cells up: the picture, under each
// thing what it is, how far off, and how hard it pulls, and the bearings in words.
func Draw(v canvas.View, s Strip) {
	w, h := v.Size()
	if s.Course == nil || w < 1 || h < 1 {
		return
	}
	f := newFrame(v, &s)
	f.horizon()
	f.picture()
	f.captions()
	f.scale()
	f.state()
}

// frame is a strip on its way onto a view.
type frame struct {
	*Strip
	brush
	w, h     int
	under    int // rows of captions under the picture
	scaleRow int
	field    geom.Angle
	wrong    int // entry that pulls more than the right one, -1
}

func newFrame(v canvas.View, s *Strip) *frame {
	f := &frame{Strip: s, field: s.Field}
	f.w, f.h = v.Size()
	if f.field <= 0 {
		f.field = geom.Deg(240)
	}
	f.wrong = f.strongest()
	f.under = max(0, min(2, f.h-4))
	f.scaleRow = f.h - 1
	floor := f.h - 1 - f.under
	f.brush = brush{
		v: v, fine: v.Fine(), top: 0, floor: max(floor, 1), person: s.person(),
		lens:   newLens(geom.Pose{At: s.Dog.At, Heading: s.Dog.Heading}, f.field, f.w, 0, max(floor, 1)),
		extent: make([]extent, len(s.Course.Obstacles)),
		owner:  make([]int16, f.w*f.h),
	}
	return f
}

// horizon is a quiet line as high as the dog's eyes, where there is room for one.
func (f *frame) horizon() {
	if f.floor < 5 || !f.fine {
		return
	}
	y := int(f.lens.horizon)
	for x := 0; x < f.w; x += 3 {
		f.v.Set(x, y, '⠐', canvas.Quiet)
	}
}

// picture draws everything the dog has before its eyes, the farthest first.
func (f *frame) picture() {
	if f.blind() {
		return
	}
	parts := make([]part, 0, 8*len(f.Seen)+16)
	for i := range f.Course.Obstacles {
		parts = f.parts(i, parts)
	}
	if f.Handler {
		parts = append(parts, f.handler())
	}
	slices.SortStableFunc(parts, func(a, b part) int {
		switch {
		case a.far > b.far:
			return -1
		case a.far < b.far:
			return 1
		}
		return 0
	})
	for i := range parts {
		f.paint(&parts[i])
	}
	f.measure()
}

// parts appends those of obstacle i if the dog has it in view.
func (f *frame) parts(i int, dst []part) []part {
	o := &f.Course.Obstacles[i]
	seen := f.seen(i)
	if f.within(i) || !o.Kind.Solid() && (seen == nil || seen.Visible <= 0 && !seen.ByBody && !f.isRight(i)) {
		return dst
	}
	k := builder{
		pose: geom.Pose{At: o.At, Heading: o.Facing}, eye: f.Dog.At, out: dst, role: f.role(i, seen), obstacle: i,
		hidden: seen != nil && seen.Visible < openBelow && !seen.ByBody,
	}
	k.build(o)
	return k.out
}

// within reports whether the dog is over or inside obstacle i.
func (f *frame) within(i int) bool {
	e := f.Dog.Entry
	return (f.Dog.Mode == dog.Air || f.Dog.Mode == dog.Inside) && e >= 0 && e < len(f.Entries) && f.Entries[e].Obstacle == i
}

// openBelow is the share of its opening below which an obstacle counts as hidden.
const openBelow = 0.35

// seen is the look at obstacle i that pulls most; nil where the dog has none.
func (f *frame) seen(i int) *dog.Seen {
	var best *dog.Seen
	for k := range f.Seen {
		s := &f.Seen[k]
		if e := f.entry(s.Entry); e != nil && e.Obstacle == i && (best == nil || s.Pull > best.Pull || s.Pull == best.Pull && f.faces(e)) {
			best = s
		}
	}
	return best
}

func (f *frame) entry(i int) *course.Entry {
	if i < 0 || i >= len(f.Entries) {
		return nil
	}
	return &f.Entries[i]
}

// faces reports whether the dog stands on the side from which e is taken.
func (f *frame) faces(e *course.Entry) bool { return e.Heading.Unit().Dot(e.At.Sub(f.Dog.At)) > 0 }

// isRight reports whether obstacle i is the one that should come next.
func (f *frame) isRight(i int) bool {
	r := f.entry(f.Right)
	return r != nil && r.Obstacle == i
}

// loud is the pull from which a wrong obstacle is the loud thing of the picture, per second.
const loud = 0.4

// strongest is the wrong entry that pulls most, if it pulls more than the right one and
// hard enough to matter; -1 for none.
func (f *frame) strongest() int {
	best, most := -1, loud
	for _, s := range f.Seen {
		e := f.entry(s.Entry)
		switch {
		case e == nil:
		case s.Entry == f.Right:
			if s.Pull >= most {
				best, most = -1, s.Pull
			}
		case s.Pull > most:
			best, most = s.Entry, s.Pull
		}
	}
	return best
}

// role is how obstacle i counts: the one that is told of is the only loud one.
func (f *frame) role(i int, seen *dog.Seen) canvas.Role {
	switch wrong := f.entry(f.wrong); {
	case i == f.Told && !f.isRight(i):
		return canvas.Wrong
	case seen == nil:
		return canvas.Quiet
	case f.isRight(i):
		return canvas.Right | canvas.Strong
	case seen.Visible < openBelow:
		return canvas.Hidden
	case wrong != nil && wrong.Obstacle == i:
		return canvas.Caution
	}
	return canvas.Obstacle
}
