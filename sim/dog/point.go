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
	p := Parts{
		Motion: g.motion.says(seen.motion), Toward: g.toward.says(g.toward.along(seen.line, open, towardBell) * (1 - geom.Smooth(g.Lead.Spot+spotPast, g.Lead.Spot+spotPast+spotFade, seen.Range))),
		Chest: g.chest.says(seen.chest), Arm: g.arm.says(seen.arm),
	}
	if g.Lead.Side != 0 {
		p.Side = g.Lead.Side * max(-1, min(1, -g.fwd.Cross(seen.line)/sideWidth))
	}
	return p
}

// heeded returns the factor on a pull of what the handler says of it, all in all: no
// handler makes a dog quite blind to what lies before it.
func heeded(sum float64) float64 {
	if sum >= 0 {
		return math.Exp(sum)
	}
	return leastHeed + (1-leastHeed)*math.Exp(sum)
}

// ray is a part of the lead: how loud, the way it points, and how well that is at anything.
type ray struct {
	loud float64
	way  geom.Point // one metre
	best float64    // 0..1
	sum  geom.Point // toward what it points at
}

func rayOf(part geom.Point) ray {
	loud := part.Norm()
	return ray{loud: loud, way: part.Mul(1 / max(loud, 1e-9))}
}

// elsewhere notes that somebody points well away from the way the dog goes: where that is
// at nothing it sees, it is all the same not at what lies before it.
func (r *ray) elsewhere(fwd geom.Point) {
	r.best = 1 - geom.Smooth(elsewhereFull, elsewhereNone, r.way.Dot(fwd))
}

// at is 1 where the ray, from where the handler is, points at an opening, falling to 0:
// it counts by the angle at the handler, not by a heading at the dog.
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
	return math.Exp((beyond(cos, halfAngle(pointedShare*m.half/n)) - 1) * pointBell)
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
	return to.Mul(r.loud * max(pointFloor, r.best) / max(to.Norm(), 1e-9))
}

// says returns what the ray says of an entry that it points at with weight w.
func (r *ray) says(w float64) float64 { return r.loud * (2*w - r.best) }

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
