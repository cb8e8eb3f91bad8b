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
	tails     = 3.5  // attention widths beyond which nothing is noticed (C)
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
	g := d.gaze(v)
	for _, i := range s.grid.at(v.Body.At).entries {
		m := &s.mouths[i]
		to := m.at.Sub(v.Body.At)
		square, ahead, through := to.Dot(to), to.Dot(g.fwd), to.Dot(m.way)
		// Seen from behind, or well behind the dog: nothing to take there.
		if square > FarSight*FarSight || through < 0 && m.kind != course.Tunnel || ahead < -behind {
			continue
		}
		rng := math.Sqrt(square)
		if ahead < g.edge*rng {
			continue
		}
		pull, ok := g.interest(m, rng)
		if !ok {
			continue
		}
		b := geom.Angle(math.Atan2(-g.fwd.Cross(to), ahead))
		if pull *= g.turned(b, m.half/rng); pull < faint && !v.All {
			continue
		}
		seen := Seen{Entry: int(i), Bearing: b, Range: rng}
		if turn(b) <= g.notices {
			seen.Pull = pull * d.reach(v.Body, m, b, rng)
			if seen.Pull < faint && !v.All {
				continue
			}
		}
		seen.Visible, seen.Width, seen.ByBody = s.open(v, int(i), to, rng)
		seen.Pull *= seen.Visible
		if seen.Visible > 0 || seen.ByBody || v.All {
			dst = append(dst, seen)
			sum += seen.Pull
		}
	}
	return dst, sum
}

// behind is how far behind its middle a dog still notices an opening, in metres.
const behind = 1.45

// gaze is what is the same for every entry at one look.
type gaze struct {
	*Sight
	fwd     geom.Point
	edge    float64    // cosine of the bearing beyond which nothing is looked at
	notices float64    // bearing beyond which nothing pulls
	narrow  float64    // 1 / (2 attention squared)
	lead    geom.Angle // bearing of the lead
	rate    float64    // pull of a jump dead ahead, per second, before distance
	draw    *[course.KindCount]float64
}

func (d *Dog) gaze(v *Sight) gaze {
	a := float64(d.Attention)
	g := gaze{
		Sight: v, fwd: v.Body.Heading.Unit(), edge: d.edge, notices: min(tails*a, float64(d.FieldOfView)/2), narrow: 1 / (2 * a * a),
		lead: v.Lead.Heading.Off(v.Body.Heading), rate: baseRate * (0.5 + d.Focus), draw: &d.Draw,
	}
	if v.All {
		g.edge = d.rim
	}
	if v.Body.Mode == Air {
		g.rate *= airPull
	}
	return g
}

// interest returns how much an entry at range rng pulls whatever its bearing, and
// false where that is too little to look at.
func (g *gaze) interest(m *mouth, rng float64) (float64, bool) {
	pull := g.rate * g.draw[m.kind] * distance(rng)
	if g.Lead.Named > 0 && m.kind == g.Lead.Kind {
		pull *= 1 + g.Lead.Named
	}
	if m.obstacle == g.Last {
		pull *= smooth(0.8*afterExit, 1.3*afterExit, g.Since)
	}
	return pull, pull >= faint || g.All
}

// turned returns how attention, and the lead, which points at it or away, change
// the pull of an entry at bearing b that fills half of the given angle to either side.
func (g *gaze) turned(b geom.Angle, half float64) float64 {
	return math.Exp(g.Lead.Strength*agreement((g.lead-b).Wrap(), half) - float64(b*b)*g.narrow)
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
	if beside > 5 { // the bell is below 4e-6 there
		return -1
	}
	return 2*math.Exp(-beside*beside/2) - 1
}

// reach is 1 where an arc within the dog's limits gets it to the entry inside its
// approach angle, falling smoothly to 0.
func (d *Dog) reach(b Body, m *mouth, bearing geom.Angle, rng float64) float64 {
	askew := b.Heading - m.heading
	off := (askew + bearing).Wrap()   // arriving straight
	arc := (askew + 2*bearing).Wrap() // arriving on one arc
	best := off
	switch {
	case turn(off) < 2.5 && turn(arc) < 2.5 && (off > 0) != (arc > 0):
		best = 0 // something between the two arrives straight through
	case turn(arc) < turn(off):
		best = arc
	}
	limit := m.left
	if best < 0 {
		limit = m.right
	}
	fit := 1 - smooth(limit-0.15, limit, turn(best))
	if fit == 0 {
		return 0
	}
	return fit * (1 - smooth(1, 1.12, bend(bearing, rng, m.half)/d.tightest(d.slowed(b.Speed, rng))))
}

// bend returns the curvature of the arc to the nearer part of an opening.
func bend(bearing geom.Angle, rng, half float64) float64 {
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
