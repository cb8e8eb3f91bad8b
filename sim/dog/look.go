package dog

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
)

const (
	baseRate  = 1.2  // per second: how fast one obstacle in front gets an idle dog (C)
	airPull   = 0.15 // pull while in the air, of the ground's (C)
	bell      = 14   // degrees: how narrowly the handler's lead points (C)
	faint     = 2e-3 // per second: what pulls less is not looked at
	afterExit = 1.0  // seconds an obstacle just taken does not pull (C)
)

// Sight is what a dog looks at: where it is, what it reads, and the body in its way.
type Sight struct {
	Body    Body
	Lead    Lead
	Handler geom.Point // where the handler's body is now
	Girth   float64    // radius of that body, m
	Last    int        // obstacle just taken; -1 for none
	Since   float64    // seconds since then
	All     bool       // also what pulls too faintly to matter, for showing
}

// Look appends to dst every entry that pulls the dog, with all that is known of
// it, and returns it with the sum of the pulls per second.
func (s *Scene) Look(d *Dog, v *Sight, dst []Seen) ([]Seen, float64) {
	if v.Body.Mode != Ground && v.Body.Mode != Air && v.Body.Mode != Standing {
		return dst, 0
	}
	sum := 0.0
	fwd := v.Body.Heading.Unit()
	c := s.grid.at(v.Body.At)
	for _, i := range c.entries {
		e := &s.Entries[i]
		to := e.At.Sub(v.Body.At)
		if to.Dot(to) > FarSight*FarSight {
			continue
		}
		// Seen from behind, or well behind the dog: nothing to take there.
		ahead, through := to.Dot(fwd), to.Dot(s.way[i])
		if through < 0 && e.Kind != course.Tunnel || ahead < -0.2-0.05*FarSight {
			continue
		}
		seen := s.weigh(d, v, int(i), to)
		if seen.Pull < faint && (!v.All || turn(seen.Bearing) > float64(d.FieldOfView)/2) {
			continue
		}
		seen.Visible, seen.Width, seen.ByBody = s.open(v, int(i), seen.Range)
		seen.Pull *= seen.Visible
		if seen.Visible > 0 || seen.ByBody || v.All {
			dst = append(dst, seen)
			sum += seen.Pull
		}
	}
	return dst, sum
}

// weigh returns entry i with its pull as if nothing hid it.
func (s *Scene) weigh(d *Dog, v *Sight, i int, to geom.Point) Seen {
	e := &s.Entries[i]
	rng := to.Norm()
	line := geom.Angle(math.Atan2(to.X, to.Y))
	b := line.Off(v.Body.Heading)
	seen := Seen{Entry: i, Bearing: b, Range: rng}
	x := float64(b) / float64(d.Attention)
	if math.Abs(x) > 3.5 || turn(b) > float64(d.FieldOfView)/2 {
		return seen
	}
	draw := d.Draw[e.Kind]
	if v.Lead.Named > 0 && e.Kind == v.Lead.Kind {
		draw *= 1 + v.Lead.Named
	}
	if e.Obstacle == v.Last {
		draw *= smooth(0.8*afterExit, 1.3*afterExit, v.Since)
	}
	pull := baseRate * (0.5 + d.Focus) * draw * math.Exp(-x*x/2) * distance(rng)
	if pull < faint {
		return seen
	}
	pull *= math.Exp(v.Lead.Strength * agreement(v.Lead.Heading.Off(line), e.Half/rng))
	if v.Body.Mode == Air {
		pull *= airPull
	}
	if pull < faint {
		return seen
	}
	seen.Pull = pull * d.reach(v.Body, e, b, line, rng)
	return seen
}

// distance is how much an entry at range r counts: what is close ahead cannot be
// put off, what is far hardly counts. The fall beyond 6.5 m is C: a flatter one has
// a dog look past the next jump at what lies two jumps on.
func distance(r float64) float64 {
	near, far := 2/max(r, 0.4), r/6.5
	square := far * far
	return (1 + near*near) / (1 + square*square*far)
}

// agreement is +1 where the lead points at the entry, -1 where it points away. It
// points at the entry where it points at any part of the opening, which fills half
// of the given angle (its sine, near enough) to either side of the middle: near to,
// a lead need not be so exact.
func agreement(off geom.Angle, half float64) float64 {
	beside := max(0, turn(off)-half) * (180 / math.Pi / bell)
	return 2*math.Exp(-beside*beside/2) - 1
}

// reach is 1 where an arc within the dog's limits gets it to the entry inside its
// approach angle, falling smoothly to 0.
func (d *Dog) reach(b Body, e *course.Entry, bearing, line geom.Angle, rng float64) float64 {
	off := line.Off(e.Heading)                    // arriving straight
	arc := (b.Heading + 2*bearing).Off(e.Heading) // arriving on one arc
	best := off
	switch {
	case turn(off) < 2.5 && turn(arc) < 2.5 && (off > 0) != (arc > 0):
		best = 0 // something between the two arrives straight through
	case turn(arc) < turn(off):
		best = arc
	}
	limit := float64(e.Left)
	if best < 0 {
		limit = float64(e.Right)
	}
	fit := 1 - smooth(limit-0.15, limit, turn(best))
	if fit == 0 {
		return 0
	}
	return fit * (1 - smooth(1, 1.12, d.bend(bearing, rng, e.Half)/d.tightest(d.slowed(b.Speed, rng))))
}

// bend returns the curvature of the arc to the nearer part of an opening.
func (d *Dog) bend(bearing geom.Angle, rng, half float64) float64 {
	a := max(0, turn(bearing)-math.Atan2(0.6*half, rng))
	if a >= math.Pi/2 {
		return 2 / rng
	}
	return 2 * math.Sin(a) / rng
}

// slowed returns the speed the dog can brake to on half the way to range rng.
func (d *Dog) slowed(v, rng float64) float64 {
	return max(d.Collected, math.Sqrt(max(0, v*v-d.Braking*0.8*rng)))
}
