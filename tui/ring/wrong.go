package ring

import (
	"strconv"

	"cuewalk/course/geom"
	"cuewalk/sim"
	"cuewalk/tui/canvas"
)

// mayTrap is the chance from which a wrong way is worth its ink.
const mayTrap = 0.02

// mostNamed is how many wrong ways of a leg are told of.
const mostNamed = 2

// Named lists the faults of a leg that are told of where nothing else is asked for: the two
// likeliest that end it, indices in its Faults, likeliest first.
func Named(l *sim.Leg) []int {
	out := make([]int, 0, mostNamed)
	for i := range l.Faults {
		if f := &l.Faults[i]; len(out) < mostNamed && f.Kind.Ends() && f.Chance >= mayTrap {
			out = append(out, i)
		}
	}
	return out
}

// told calls do for each fault that is told of, if wrong ways are shown; the last first, so
// that the first lies over it.
func (d *pen) told(do func(f *sim.Fault)) {
	if d.leg == nil || !d.Layers.Has(WrongWays) {
		return
	}
	for k := len(d.Told) - 1; k >= 0; k-- {
		if i := d.Told[k]; i >= 0 && i < len(d.leg.Faults) {
			do(&d.leg.Faults[i])
		}
	}
}

// wrongStep is the distance of two stars of a wrong way in columns.
const wrongStep = 3.0

// wrongWays draws each from where the dog leaves its line to what it takes.
func (d *pen) wrongWays() {
	d.told(func(f *sim.Fault) {
		left := wrongStep * .7 // columns to the next star
		for i := 1; i < len(f.Path); i++ {
			a, b := d.at(f.Path[i-1]), d.at(f.Path[i])
			l := span(a, b)
			for ; left < l; left += wrongStep {
				x, y := cellOf(lerp(a, b, left/l))
				d.sign(x, y, '*', wrongMark, wrongWay)
			}
			left -= l
			if d.fine {
				d.p.Line(a, b, canvas.Dotted, canvas.Wrong)
			}
		}
	})
}

// end is where a fault happens: where its way ends, its wrong entry, or its obstacle.
func (d *pen) end(f *sim.Fault) (geom.Point, bool) {
	switch {
	case len(f.Path) > 0:
		return f.Path[len(f.Path)-1], true
	case f.Entry >= 0 && f.Entry < len(d.Setup.Entries):
		return d.Setup.Entries[f.Entry].At, true
	case f.Obstacle >= 0 && f.Obstacle < len(d.boxes):
		return d.of(f.Obstacle).At, true
	}
	return geom.Point{}, false
}

// isWrong reports whether a told fault takes obstacle i.
func (d *pen) isWrong(i int) bool {
	found := false
	d.told(func(f *sim.Fault) { found = found || f.Obstacle == i && f.Kind != sim.Refusal })
	return found
}

// percent is a chance in whole per cent, never rounded to nothing or to all.
func percent(chance float64) string {
	return strconv.Itoa(max(1, min(99, int(chance*100+.5)))) + "%"
}
