package dog

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// Sight is what a dog looks at: where it is, what it reads, and the body in its way.
type Sight struct {
	Body    Body
	Lead    Lead
	Handler geom.Point // where the handler's body is now
	Girth   float64    // radius of that body, m
	Last    int        // obstacle just taken; -1 for none
	Since   float64    // seconds since then
	Bound   bool       // its mind is made up: it only heeds its handler
	Goal    int        // entry it has made up its mind for, where it is bound
	Seeking float64    // 0..1: it looks about, not only where it goes
	All     bool       // also what pulls too faintly to matter, for showing
}

// View is what came of one look.
type View struct {
	Seen []Seen     // what pulls, in no order
	Sum  float64    // of the pulls, per second
	own  geom.Point // where it would go of itself, as far as it would
	work float64    // what lies where it goes pulls so much, per second
	goal float64    // what the handler says of what it has made up its mind for: see Parts
}

// Look takes in every entry that pulls the dog, appended to dst, and makes out of the
// parts of the lead where the handler wants it: Heading and Strength of v.Lead.
func (s *Scene) Look(d *Dog, v *Sight, dst []Seen) View {
	if v.Body.Mode != Ground && v.Body.Mode != Air && v.Body.Mode != Standing {
		v.Lead.total(&v.Body, v.Lead.Chest.Add(v.Lead.Arm))
		return View{Seen: dst}
	}
	g := d.gaze(v)
	first := len(dst)
	dst = s.notice(d, &g, dst)
	v.Lead.total(&v.Body, g.chest.indicated(g.fwd).Add(g.arm.indicated(g.fwd)))
	sum, n := 0.0, first
	var own geom.Point
	for i := first; i < len(dst); i++ {
		seen := &dst[i]
		if seen.Parts = g.parts(&s.mouths[seen.Entry], seen); seen.Parts.Sum() != 0 {
			seen.Pull *= heeded(seen.Parts.Sum(), seen.Range)
		}
		own = own.Add(seen.line.Mul(seen.Pull))
		if v.Bound {
			continue
		}
		if seen.Pull < faint && !g.All && !seen.ByBody {
			continue
		}
		sum += seen.Pull
		dst[n] = *seen
		n++
	}
	out := View{Seen: dst[:n], Sum: sum, own: own, work: g.work}
	if v.Bound {
		out.goal = g.said(&s.mouths[v.Goal])
	}
	return out
}

// notice appends to dst every entry the dog may notice, with its pull whatever its
// handler says, and finds how well the handler points at any of it.
func (s *Scene) notice(d *Dog, g *gaze, dst []Seen) []Seen {
	at := g.Body.At
	for _, i := range s.grid.at(at).entries {
		m := &s.mouths[i]
		to := m.at.Sub(at)
		ahead := to.Dot(g.fwd)
		if to.Dot(m.way) < 0 && m.kind != course.Tunnel {
			continue // seen from behind: nothing to take there
		}
		square := to.Dot(to)
		if square > FarSight*FarSight {
			continue
		}
		rng := math.Sqrt(square)
		if ahead < d.rim*rng {
			continue
		}
		seen := Seen{Entry: int(i), Range: rng, line: to.Mul(1 / max(rng, 1e-9))}
		pointed := m.obstacle != g.Last || g.Since >= afterExit
		if pointed {
			seen.chest, seen.arm = g.chest.at(&g.Lead, m), g.arm.at(&g.Lead, m)
		}
		pointed = seen.chest > faintPointing || seen.arm > faintPointing
		if ahead > -behind && (!g.Bound || m.obstacle != g.Last) && (ahead >= g.edge*rng || g.All) {
			off := seen.line.Dot(g.fwd) - 1
			seen.Pull = g.interest(m, rng)
			g.work += seen.Pull * math.Exp(off*g.narrow)
			seen.Pull *= math.Exp(off * g.wide)
		}
		if seen.Pull*g.most < faint && !g.All {
			if !pointed {
				continue
			}
			seen.Pull = 0
		}
		if seen.Pull > 0 {
			seen.Pull *= d.reach(g, m, seen.line, rng)
		}
		seen.Visible, seen.Width, seen.ByBody = s.open(g.Sight, seen.Entry, seen.line, rng)
		if ahead < g.edge*rng {
			seen.Pull = 0
		}
		seen.Pull *= seen.Visible
		if g.motion.loud > 0 && rng < alongFar {
			seen.motion = g.motion.along(seen.line, halfAngle(m.half/rng), motionBell)
			g.motion.best = max(g.motion.best, seen.motion*seen.Visible)
		}
		if pointed {
			g.chest.note(seen.chest*seen.Visible, rng, seen.line)
			g.arm.note(seen.arm*seen.Visible, rng, seen.line)
		}
		if seen.Visible > 0 || seen.ByBody || g.All {
			if g.All {
				seen.Bearing = geom.Angle(math.Atan2(-g.fwd.Cross(seen.line), ahead/max(rng, 1e-9)))
			}
			dst = append(dst, seen)
		}
	}
	return dst
}

// gaze is what is the same for every entry at one look. Bearings are kept as
// cosines, so that a look needs hardly an angle.
type gaze struct {
	*Sight
	fwd    geom.Point // one metre along the dog's heading
	edge   float64    // cosine of the bearing beyond which nothing pulls
	narrow float64    // 1 / attention squared
	wide   float64    // the same as widely as it looks now
	work   float64
	rate   float64 // pull of a jump dead ahead, per second, before distance
	most   float64 // factor by which the handler can raise a pull at most
	draw   *[course.KindCount]float64
	motion ray
	toward ray
	chest  ray
	arm    ray
}

func (d *Dog) gaze(v *Sight) gaze {
	a := float64(d.Attention)
	wide := 1 + seekWidth*v.Seeking
	g := gaze{
		Sight: v, fwd: v.Body.Heading.Unit(), edge: d.edge, narrow: 1 / (a * a), wide: 1 / (a * a * wide * wide),
		rate: baseRate * (focusBase + focusGain*d.Focus), draw: &d.Draw,
	}
	if v.Seeking > 0 {
		g.edge = math.Cos(min(tails*a*wide, float64(d.FieldOfView)/2, math.Pi))
	}
	g.motion, g.toward, g.chest, g.arm = rayOf(v.Lead.Motion), rayOf(v.Lead.Toward), rayOf(v.Lead.Chest), rayOf(v.Lead.Arm)
	g.toward.best = drawRefuses // he means a spot: what lies elsewhere he does not mean
	g.chest.elsewhere(g.fwd)
	g.arm.elsewhere(g.fwd)
	g.most = math.Exp(g.motion.loud + g.toward.loud + g.chest.loud + g.arm.loud + math.Abs(v.Lead.Side))
	if v.Body.Mode == Air {
		g.rate *= airPull
	}
	g.rate *= 1 - (1-lostPull)*v.Lead.Lost
	return g
}

// interest returns how much an entry at range rng pulls whatever its bearing.
func (g *gaze) interest(m *mouth, rng float64) float64 {
	pull := g.rate * g.draw[m.kind] * distance(rng)
	if g.Lead.Named > 0 && m.kind == g.Lead.Kind {
		pull *= 1 + g.Lead.Named
	}
	if m.obstacle == g.Last {
		pull *= geom.Smooth(0.8*afterExit, 1.3*afterExit, g.Since)
	}
	return pull
}

// distance is how much an entry at range r counts: what is close ahead cannot be put
// off, what is far hardly counts. A flatter fall has a dog look past the next jump at
// what lies two jumps on.
func distance(r float64) float64 {
	near, far := nearRange/max(r, 0.4), r/farRange
	return (1 + near*near) / (1 + math.Pow(far, farPower))
}
