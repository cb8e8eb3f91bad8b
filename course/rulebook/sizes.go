package rulebook

import (
	"slices"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// heights checks what is jumped against the class in hand.
func (k *checker) heights() {
	h, ok := k.r.height(k.size)
	if !ok || k.size == "" {
		return
	}
	for _, o := range taken(k.c) {
		if o.Kind != course.Jump && (o.Kind != course.Wall || !h.Wall) {
			continue
		}
		if by := off(o.Height, h.Min, h.Max); by != 0 {
			k.add(h.Source, "jump height", []string{o.ID}, "%s is %s high, asked for class %s is %s: %s",
				o.ID, k.show(o.Height), k.size, k.span(h.Min, h.Max), k.astray(by, "too low", "too high"))
		}
	}
}

// sizes checks the other sizes of obstacles. A size for a class is checked only
// where the class is known.
func (k *checker) sizes() {
	for _, o := range taken(k.c) {
		for _, d := range k.r.Sizes {
			if d.Kind != o.Kind || len(d.For) > 0 && !slices.Contains(d.For, k.size) {
				continue
			}
			k.dimension(o, d)
		}
	}
}

func (k *checker) dimension(o course.Obstacle, d Dimension) {
	if d.What == "poles" {
		if n := float64(o.Poles); n < d.Min || d.Max > 0 && n > d.Max {
			k.add(d.Source, "weave poles", []string{o.ID}, "%s has %d poles, asked are %g to %g", o.ID, o.Poles, d.Min, d.Max)
		}
		return
	}
	v := o.Width
	if d.What == "length" {
		v = o.Length
	}
	if by := off(v, d.Min, d.Max); by != 0 {
		k.add(d.Source, "obstacle size", []string{o.ID}, "the %s of the %s %s is %s, asked is %s: %s",
			d.What, o.Kind, o.ID, k.show(v), k.span(d.Min, d.Max), k.astray(by, "too small", "too large"))
	}
}

// bends checks that tunnels curve one way only.
func (k *checker) bends() {
	if k.r.OneBend == nil {
		return
	}
	for _, o := range taken(k.c) {
		if left, right := turns(o.Through); left && right {
			k.add(*k.r.OneBend, "tunnel shape", []string{o.ID}, "%s curves both ways, allowed is one way only", o.ID)
		}
	}
}

// turns reports whether the chain of points turns left and right. A bend of less
// than a degree is taken for a slip of drawing.
func turns(pts []geom.Point) (left, right bool) {
	for i := 2; i < len(pts); i++ {
		a := pts[i-1].Towards(pts[i]).Off(pts[i-2].Towards(pts[i-1]))
		left = left || a < -geom.Deg(1)
		right = right || a > geom.Deg(1)
	}
	return left, right
}

// room checks for clear ground beside obstacles. A tunnel under a dog walk or an
// A-frame is allowed.
func (k *checker) room() {
	if k.r.Room == nil {
		return
	}
	all := taken(k.c)
	for i, a := range all {
		for _, b := range all[i+1:] {
			if tucked(a, b) || tucked(b, a) {
				continue
			}
			if d := distance(a, b); cm(d) < cm(k.r.Room.Metres) {
				k.add(k.r.Room.Source, "clear ground", []string{a.ID, b.ID}, "%s and %s are %s apart, asked is at least %s",
					a.ID, b.ID, k.show(d), k.show(k.r.Room.Metres))
			}
		}
	}
}

func tucked(a, b course.Obstacle) bool {
	return a.Kind == course.Tunnel && (b.Kind == course.DogWalk || b.Kind == course.AFrame)
}

// distance returns the shortest distance between two obstacles' footprints.
func distance(a, b course.Obstacle) float64 {
	best := a.At.Dist(b.At)
	for _, s := range a.Footprint() {
		for _, t := range b.Footprint() {
			best = min(best, s.Gap(t))
		}
	}
	return best
}
