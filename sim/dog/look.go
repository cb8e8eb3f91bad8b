package dog

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
)

const (
	baseRate  = 2.0  // per second: how fast one obstacle in front gets an idle dog (C)
	airPull   = 0.13 // pull while in the air, of the ground's (C)
	bell      = 12   // degrees: how narrowly the handler's lead points (C)
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
	g := d.gaze(v)
	first := len(dst)
	dst = s.notice(&g, dst)
	g.mean(s, dst[first:])
	sum, n := 0.0, first
	for i := first; i < len(dst); i++ {
		if seen, ok := s.weigh(d, &g, dst[i]); ok {
			dst[n] = seen
			sum += seen.Pull
			n++
		}
	}
	return dst[:n], sum
}

// notice appends to dst every entry the dog may notice, with its pull whatever its
// handler means and whatever hides it.
func (s *Scene) notice(g *gaze, dst []Seen) []Seen {
	at := g.Body.At
	for _, i := range s.grid.at(at).entries {
		m := &s.mouths[i]
		to := m.at.Sub(at)
		ahead := to.Dot(g.fwd)
		if ahead < -behind || to.Dot(m.way) < 0 && m.kind != course.Tunnel {
			continue // well behind the dog, or seen from behind: nothing to take there
		}
		square := to.Dot(to)
		if square > FarSight*FarSight {
			continue
		}
		rng := math.Sqrt(square)
		if ahead < g.edge*rng {
			continue
		}
		if pull, ok := g.interest(m, rng); ok {
			line := to.Mul(1 / max(rng, 1e-9))
			dst = append(dst, Seen{Entry: int(i), Range: rng, Pull: pull, line: line})
		}
	}
	return dst
}

// weigh completes what was noticed of an entry, and reports whether it pulls enough
// to be looked at.
func (s *Scene) weigh(d *Dog, g *gaze, seen Seen) (Seen, bool) {
	m, line := &s.mouths[seen.Entry], seen.line
	if seen.Pull *= g.turned(line, m.half/seen.Range); seen.Pull < faint && !g.All {
		return seen, false
	}
	if seen.Pull *= d.reach(g, m, line, seen.Range); seen.Pull < faint && !g.All {
		return seen, false
	}
	ahead := line.Dot(g.fwd)
	seen.Bearing = geom.Angle(math.Atan2(-g.fwd.Cross(line), ahead))
	seen.Visible, seen.Width, seen.ByBody = s.open(g.Sight, seen.Entry, line, seen.Range)
	if ahead < g.notices {
		seen.Pull = 0
	}
	seen.Pull *= seen.Visible
	return seen, seen.Visible > 0 || seen.ByBody || g.All
}

// behind is how far behind its middle a dog still notices an opening, in metres.
const behind = 1.45

// gaze is what is the same for every entry at one look. Bearings are kept as
// cosines, so that a look needs hardly an angle.
type gaze struct {
	*Sight
	fwd, lead geom.Point // one metre along the dog's heading and its handler's lead
	edge      float64    // cosine of the bearing beyond which nothing is looked at
	notices   float64    // cosine of the bearing beyond which nothing pulls
	narrow    float64    // 1 / attention squared
	rate      float64    // pull of a jump dead ahead, per second, before distance
	draw      *[course.KindCount]float64
	slip      slip // by how much the lead may miss what it means
}

func (d *Dog) gaze(v *Sight) gaze {
	a := float64(d.Attention)
	g := gaze{
		Sight: v, fwd: v.Body.Heading.Unit(), lead: v.Lead.Heading.Unit(), edge: d.edge, notices: d.edge, narrow: 1 / (a * a),
		rate: baseRate * (0.25 + 1.5*d.Focus), draw: &d.Draw,
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
// the pull of an entry that lies along line and fills half of the given angle (its
// sine, near enough) to either side. Attention is exp((cos b - 1) / s2), the bell
// on a circle: exp(-(b / s)2 / 2) for small bearings b, with no corner behind.
func (g *gaze) turned(line geom.Point, half float64) float64 {
	return math.Exp((line.Dot(g.fwd)-1)*g.narrow + g.Lead.Strength*g.slip.agreement(line.Dot(g.lead), half))
}

// distance is how much an entry at range r counts: what is close ahead cannot be put
// off, what is far hardly counts. The fall beyond 5.3 m is C: a flatter one has a dog
// look past the next jump at what lies two jumps on.
func distance(r float64) float64 {
	near, far := 3.5/max(r, 0.4), r/5.3
	square := far * far
	return (1 + near*near) / (1 + square*square*square)
}

// A handler seldom points exactly: he runs beside the line he means, and turns before
// or after it. Where he points at nothing, the dog takes for meant what lies near to
// where he points and to where it is going, within reach: all C. A handler who calls
// the dog in means himself.
const (
	misread    = 30 * math.Pi / 180 // what is meant lies no farther off the lead than that
	misreadTo  = 10.0               // m
	misreadFar = 6 * math.Pi / 180  // less for each metre beyond
	likeliest  = 15 * math.Pi / 180 // how far off it lies as a rule
)

// slip is an angle, with sine and cosine.
type slip struct{ angle, sin, cos float64 }

func slipOf(a float64) slip {
	sin, cos := math.Sincos(a)
	return slip{a, sin, cos}
}

// mean finds what of all that is noticed the handler means.
func (g *gaze) mean(s *Scene, noticed []Seen) {
	g.slip = slip{cos: 1}
	nearest, meant, best := -1.0, -1.0, math.Inf(-1) // cosines off the lead; how likely it is that it is meant
	by := 0.0
	for i := range noticed {
		seen := &noticed[i]
		m := &s.mouths[seen.Entry]
		allowed := misread - misreadFar*max(0, seen.Range-misreadTo)
		if allowed <= 0 || m.obstacle == g.Last {
			continue
		}
		cos := beyond(seen.line.Dot(g.lead), slipOfHalf(m.half/seen.Range))
		nearest = max(nearest, cos)
		likely := (seen.line.Dot(g.fwd)-1)*g.narrow + (cos-1)/(likeliest*likeliest)
		if likely > best {
			best, meant, by = likely, cos, allowed
		}
	}
	if by == 0 || nearest >= 1 {
		return
	}
	// Pointing at something is pointing at nothing else.
	if by = min(by, math.Acos(max(-1, meant)), 1.5*math.Acos(nearest)) * (1 - g.Lead.Called); by > 0 {
		g.slip = slipOf(by)
	}
}

// slipOfHalf returns the angle that half an opening fills, given its sine.
func slipOfHalf(sin float64) slip {
	sin = min(sin, 1)
	return slip{sin: sin, cos: math.Sqrt(1 - sin*sin)}
}

// beyond returns the cosine of what is left of an angle with cosine cos beyond by; 1
// where nothing is.
func beyond(cos float64, by slip) float64 {
	if cos >= by.cos {
		return 1
	}
	return cos*by.cos + math.Sqrt(max(0, 1-cos*cos))*by.sin
}

// agreement is +1 where the lead points at the entry, -1 where it points away; cos is
// the cosine of the angle between, half the sine of half the opening. It points at the
// entry where it points at any part of the opening: near to, a lead need not be so
// exact. The bell is one on a circle, as in turned.
func (by slip) agreement(cos, half float64) float64 {
	cos = beyond(cos, slipOfHalf(half))
	if cos < 1 && by.angle > 0 {
		cos = beyond(cos, by)
	}
	if cos < 0.3 { // the bell is below 1e-5 there
		return -1
	}
	const narrow = (180 / math.Pi / bell) * (180 / math.Pi / bell)
	return 2*math.Exp((cos-1)*narrow) - 1
}

// reach is 1 where an arc within the dog's limits gets it to the entry, which lies
// along line, inside its approach angle, falling smoothly to 0.
func (d *Dog) reach(g *gaze, m *mouth, line geom.Point, rng float64) float64 {
	fit := m.fit(g.fwd, line)
	if fit == 0 {
		return 0
	}
	return fit * (1 - smooth(1, 1.12, bend(g.fwd, line, rng, m.half)/d.tightest(d.slowed(g.Body.Speed, rng))))
}

// fit is 1 where a dog that heads along fwd can come to the entry along line inside
// its approach angle, falling smoothly to 0: straight, on one arc, or on anything between.
func (m *mouth) fit(fwd, line geom.Point) float64 {
	arc := line.Mul(2 * line.Dot(fwd)).Sub(fwd) // the way an arc from fwd arrives
	cos, side := line.Dot(m.way), -m.way.Cross(line)
	arcCos, arcSide := arc.Dot(m.way), -m.way.Cross(arc)
	const far = -0.8 // cosine of 2.5: beyond, left and right of the way through mean nothing
	switch {
	case cos > far && arcCos > far && (side > 0) != (arcSide > 0):
		return 1 // something between the two arrives straight through
	case arcCos > cos:
		cos, side = arcCos, arcSide
	}
	limit := &m.right
	if side > 0 {
		limit = &m.left
	}
	if cos >= limit.easy {
		return 1
	}
	return 1 - smooth(limit.angle-slack, limit.angle, math.Acos(max(-1, cos)))
}

// bend returns the curvature of the arc to the nearer part of an opening along line.
func bend(fwd, line geom.Point, rng, half float64) float64 {
	// The angle to the middle, less the angle the near part lies inside it.
	cos, sin := line.Dot(fwd), math.Abs(fwd.Cross(line))
	wide := 0.6 * half
	edge := math.Sqrt(rng*rng + wide*wide)
	sin, cos = (sin*rng-cos*wide)/edge, (cos*rng+sin*wide)/edge
	switch {
	case sin <= 0 && cos > 0:
		return 0
	case cos <= 0:
		return 2 / rng
	}
	return 2 * sin / rng
}

// slowed returns the speed the dog can brake to on half the way to range rng.
func (d *Dog) slowed(v, rng float64) float64 {
	return max(d.Collected, math.Sqrt(max(0, v*v-d.Braking*0.8*rng)))
}
