package dog

import (
	"math"

	"cuewalk/course/geom"
)

// Parts is what the handler says of one entry, part by part: above 0 it gains by it,
// below 0 it loses. The pull changes by exp of the sum.
type Parts struct {
	Motion float64 // the way he runs
	Toward float64 // drawn in, sent away, "come", "out"
	Chest  float64 // what his chest points at
	Arm    float64 // what his arm points at
	Side   float64 // a word that names a side
}

// Sum returns what all parts say together.
func (p *Parts) Sum() float64 { return p.Motion + p.Toward + p.Chest + p.Arm + p.Side }

// parts returns what the lead says of an entry that is seen. Pointing is relative: what is
// pointed at gains, other things lose only as far as something is pointed at.
func (g *gaze) parts(m *mouth, seen *Seen) Parts {
	open := halfAngle(m.half / seen.Range)
	before := geom.Smooth(0, beforeHim, g.Lead.From.Sub(m.at).Dot(g.fwd))
	drawn := g.toward.along(seen.line, open, towardBell) * (1 - geom.Smooth(g.Lead.Spot+spotPast, g.Lead.Spot+spotPast+spotFade, seen.Range))
	drawn = max(drawn, g.between(m, seen.Range))
	p := Parts{
		Motion: g.motion.says(seen.motion, before), Toward: g.toward.says(drawn, before),
		Chest: g.chest.says(seen.chest, before), Arm: g.arm.says(seen.arm, before),
	}
	if g.Lead.Side != 0 {
		p.Side = g.Lead.Side * max(-1, min(1, -g.fwd.Cross(seen.line)/sideWidth))
	}
	return p
}

// between returns how well, 0..1, an opening lies on the way to the spot a dog is drawn to:
// the way through it leads there, and it is no great way about.
func (g *gaze) between(m *mouth, rng float64) float64 {
	if g.toward.loud < 1e-9 || g.Lead.Spot >= FarSight {
		return 0
	}
	on := g.Body.At.Add(g.toward.way.Mul(g.Lead.Spot)).Sub(m.at)
	left := on.Norm()
	about := (rng + left - g.Lead.Spot) / betweenAbout
	return math.Exp(-about*about) * geom.Smooth(0, 0.5, on.Dot(m.way)/max(left, 1e-9))
}

// said returns what the lead says, all in all, of what the dog is bound for.
func (g *gaze) said(m *mouth) float64 {
	to := m.at.Sub(g.Body.At)
	seen := Seen{Range: max(to.Norm(), 1e-9), chest: g.chest.at(&g.Lead, m), arm: g.arm.at(&g.Lead, m)}
	seen.line = to.Mul(1 / seen.Range)
	seen.motion = g.motion.along(seen.line, halfAngle(m.half/seen.Range), motionBell)
	p := g.parts(m, &seen)
	return p.Sum()
}

// heeded returns the factor on the pull of an opening at range r of what the handler says of
// it, all in all: no handler makes a dog quite blind to what lies before it, least of all
// near by.
func heeded(sum, r float64) float64 {
	if sum >= 0 {
		return math.Exp(sum)
	}
	least := leastHeed + nearHeed*(1-geom.Smooth(heedNear, heedFar, r))
	return least + (1-least)*math.Exp(sum)
}

// ray is a part of the lead: how loud, the way it points, and how well that is at anything.
type ray struct {
	loud float64
	way  geom.Point // one metre
	best float64    // 0..1
	off  float64    // 0..1: how well away from where the dog goes it points
	sum  geom.Point // toward what it points at
}

func rayOf(part geom.Point) ray {
	loud := part.Norm()
	return ray{loud: loud, way: part.Mul(1 / max(loud, 1e-9))}
}

// elsewhere notes that somebody points well away from the way the dog goes: where that is
// at nothing it sees, it is all the same not at what lies before it.
func (r *ray) elsewhere(fwd geom.Point) {
	r.off = 1 - geom.Smooth(elsewhereFull, elsewhereNone, r.way.Dot(fwd))
}

// at is 1 where the ray, from where the handler is, points at an opening, falling to 0:
// it counts by the angle at the handler, not by a heading at the dog. What lies across his
// line from the side the dog works on he means less.
func (r *ray) at(l *Lead, m *mouth) float64 {
	if r.loud < 1e-9 {
		return 0
	}
	at := m.at.Sub(l.From)
	n := at.Norm()
	if n <= m.half {
		return 1
	}
	cos := at.Dot(r.way) / n
	if cos < 0.6 {
		return 0 // the bell is below 1e-4 there, half the opening taken off
	}
	bell := pointBell
	if -r.way.Cross(at)*l.Hand < 0 {
		bell = acrossBell
	}
	return math.Exp((beyond(cos, halfAngle(pointedShare*m.half/n)) - 1) * bell)
}

// note takes in that the ray points at something along line with weight w.
func (r *ray) note(w, rng float64, line geom.Point) {
	r.best = max(r.best, w)
	r.sum = r.sum.Add(line.Mul(w * distance(rng)))
}

// indicated returns where the ray sends the dog and how loud: toward what it points at,
// else faintly the way it points.
func (r *ray) indicated(fwd geom.Point) geom.Point {
	if r.loud < 1e-9 {
		return geom.Point{}
	}
	to := r.sum.Add(r.way.Mul(pointNothing))
	return to.Mul(r.loud * max(pointFloor, r.best, r.off) / max(to.Norm(), 1e-9))
}

// says returns what the ray says of an entry that it points at with weight w, and that lies
// this side of him by so much, 0..1: pointing at nothing there, he shows the turn where he
// is, and does not refuse what the dog takes on the way to him.
func (r *ray) says(w, before float64) float64 {
	return r.loud * (2*w - max(r.best, r.off*(1-before)))
}

// along is 1 where a heading read at the dog leads along line into any part of an opening,
// falling to 0.
func (r *ray) along(line geom.Point, open halved, bell float64) float64 {
	if r.loud < 1e-9 {
		return 0
	}
	return math.Exp((beyond(r.way.Dot(line), open) - 1) * bell)
}

// halved is half the angle an opening fills.
type halved struct{ sin, cos float64 }

// halfAngle returns half the angle that an opening fills, given its sine.
func halfAngle(sin float64) halved {
	sin = min(sin, 1)
	return halved{sin, math.Sqrt(1 - sin*sin)}
}

// beyond returns the cosine of what is left of an angle with cosine cos beyond by; 1
// where nothing is.
func beyond(cos float64, by halved) float64 {
	if cos >= by.cos {
		return 1
	}
	return cos*by.cos + math.Sqrt(max(0, 1-cos*cos))*by.sin
}

// total sets heading and strength from the parts; pointed is what chest and arm indicate.
func (l *Lead) total(b *Body, pointed geom.Point) {
	sum := l.Motion.Add(pointed).Add(l.Toward)
	if l.Side != 0 {
		sum = sum.Add((b.Heading + geom.Angle(math.Copysign(float64(wordAside), l.Side))).Unit().Mul(math.Abs(l.Side)))
	}
	l.Strength, l.Heading = sum.Norm(), b.Heading
	if l.Strength > 1e-9 {
		l.Heading = geom.Point{}.Towards(sum)
	}
}
