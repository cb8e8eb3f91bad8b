package dog

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan/team"
)

// Gesture is what the handler's arm does.
type Gesture uint8

// The gestures.
const (
	Along Gesture = iota // held along the way
	Pull                 // drawn in to this side
	Push                 // away from the handler
)

// Handler is the handler as a dog sees him at one instant.
type Handler struct {
	At      geom.Point
	Vel     geom.Point // m/s, where he will be in a moment taken in: see Anticipate
	Chest   geom.Angle
	Arm     float64 // +1 right, -1 left: the side the dog works on
	Gesture Gesture
	Word    team.Meaning
	Dark    bool // the dog could not see him: it was in a tunnel
}

// Anticipation is how far ahead a dog reads a moving body, in seconds (C).
const Anticipation = 0.25

// Anticipate returns the velocity a dog reads off a body with velocity v and
// acceleration a: a braking body is read before it stands, braking is never read
// as running backwards.
func Anticipate(v, a geom.Point) geom.Point {
	w := v.Add(a.Mul(Anticipation))
	if w.Dot(v) < 0 && a.Dot(v) < 0 {
		return geom.Point{}
	}
	return w
}

// How loud each part of the handler is (order: gesture over word V5, V6; body
// first is common practice; values C).
const (
	motionLoud    = 0.8 // at fullMotion and over
	shouldersLoud = 3.0
	armLoud       = 0.65
	wordLoud      = 0.45 // times how well the dog knows it
	fullMotion    = 3.5  // m/s
)

// Lead is what the dog reads off its handler.
type Lead struct {
	Heading  geom.Angle // the way he indicates
	Strength float64    // how loud, from 0
	Drive    float64    // 0 collect .. 1 extend
	Called   float64    // 0 sent on .. 1 called in
	Near     float64    // metres to the handler
	Kind     course.Kind
	Named    float64    // how much a named kind of obstacle gains; 0 for none
	sum      geom.Point // heading and strength as a displacement
}

// Read returns what a dog in state b makes of handler h as he was a latency ago
// and of the word w.
func (d *Dog) Read(b Body, h Handler, w team.Meaning) Lead {
	l := d.read(&b, &h, w)
	l.point(b.Heading)
	return l
}

// Reread returns what the dog makes of handler h and word w when it made l of them
// dt seconds ago: it lets go of that only by and by.
func (d *Dog) Reread(l Lead, b Body, h Handler, w team.Meaning, dt float64) Lead {
	now := d.read(&b, &h, w)
	t := 1 - math.Exp(-dt/persistence)
	now.sum, now.Drive, now.Called = l.sum.Lerp(now.sum, t), lerp(l.Drive, now.Drive, t), lerp(l.Called, now.Called, t)
	now.point(b.Heading)
	return now
}

// read is Read with the sum not yet made into heading and strength.
func (d *Dog) read(b *Body, h *Handler, w team.Meaning) Lead {
	var l Lead
	l.Near = b.At.Dist(h.At)
	if !h.Dark && b.Mode != Inside {
		l.sum = d.bodyLead(b, h, &l)
	} else {
		l.Drive = 0.6 // nobody to be seen: it goes on at its own pace
	}
	l.sum = l.sum.Add(d.wordLead(b, h, w, &l)).Mul(1.3 - 0.6*d.Focus)
	return l
}

// bodyLead adds up motion, shoulders with position, and arm.
func (d *Dog) bodyLead(b *Body, h *Handler, l *Lead) geom.Point {
	away := b.At.Sub(h.At)
	dist := max(away.Norm(), 1e-6)
	away = away.Mul(1 / dist)
	speed := h.Vel.Norm()
	moving := clamp01(speed / fullMotion)
	u := h.Chest.Unit()
	right := geom.Point{X: u.Y, Y: -u.X}

	// His chest is turned to the dog, and not just the way it runs on ahead of him.
	fwd := b.Heading.Unit()
	facing := smooth(0.2, 0.85, u.Dot(away)) * (1 - smooth(0.3, 0.9, u.Dot(fwd)))
	// Running the way his chest points, he drives the dog on; he does not call it in.
	forward := 0.0
	if speed > 1e-6 {
		forward = moving * max(0, h.Vel.Dot(u)/speed)
	}
	turned := facing * (1 - forward)
	if h.Gesture == Pull {
		turned = max(turned, 0.35)
	}
	// The spot the dog is drawn to lies at his cue-arm side.
	// Where he moves, it moves ahead of him.
	spot := h.At.Add(right.Mul(0.7 * h.Arm)).Add(u.Mul(0.3)).Add(h.Vel.Mul(0.5))
	draw := spot.Sub(b.At)
	toSpot := draw.Norm()
	near := clamp01(toSpot / 0.8) // it has arrived: the spot says no more
	draw = draw.Mul(near / max(toSpot, 1e-6))

	var sum geom.Point
	if speed > 1e-6 {
		sum = h.Vel.Mul(motionLoud * moving / speed)
	}
	sum = sum.Add(u.Mul(shouldersLoud * (1 - turned))).Add(draw.Mul(shouldersLoud * turned))
	sum = sum.Add(d.arm(h, u, right, draw, away, away.Dot(right)*dist, turned))

	l.Drive, l.Called = moving*(1-0.75*turned), turned
	return sum.Mul(d.clear(-away.Dot(fwd), dist))
}

// arm returns what the arm says: along the way, toward this side, or away; and, to
// a dog on the wrong side of it, which side to come to.
func (d *Dog) arm(h *Handler, u, right, draw, away geom.Point, lateral, turned float64) geom.Point {
	switch h.Gesture {
	case Pull:
		return draw.Mul(armLoud)
	case Push:
		return away.Mul(armLoud)
	}
	wrong := clamp01((0.6 - h.Arm*lateral) / 1.2)
	return u.Mul(armLoud * (1 - wrong) * (1 - turned)).Add(right.Mul(armLoud * h.Arm * wrong)).Add(draw.Mul(armLoud * turned * (1 - wrong)))
}

// clear is how well the dog has the handler in view: less beyond its field of view
// (V1), where steps and breath still tell something (C), and less from far (C). ahead
// is the cosine of his bearing, dist the metres to him.
func (d *Dog) clear(ahead, dist float64) float64 {
	if dist < 0.05 {
		return 1
	}
	far := dist / 16
	full := 1 / (1 + far*far)
	if ahead >= d.plain {
		return full
	}
	off := math.Acos(max(-1, ahead))
	edge := float64(d.FieldOfView) / 2
	return (1 - 0.6*smooth(edge-dim, edge+0.15, off)) * full
}

// dim is how far inside the edge of the field of view the handler begins to fade, in
// radians (C).
const dim = 0.25

// wordLead returns what a word says, and notes a named obstacle.
func (d *Dog) wordLead(b *Body, h *Handler, w team.Meaning, l *Lead) geom.Point {
	if w.Sense == team.Silent {
		return geom.Point{}
	}
	loud := wordLoud * d.Knows[w.Sense]
	to := h.At.Sub(b.At)
	dist := max(to.Norm(), 1e-6)
	to = to.Mul(1 / dist)
	const aside = math.Pi / 3
	switch w.Sense {
	case team.Come:
		return to.Mul(loud)
	case team.Go:
		return b.Heading.Unit().Mul(loud)
	case team.Out:
		return to.Mul(-loud)
	case team.Left:
		return (b.Heading - aside).Unit().Mul(loud)
	case team.Right:
		return (b.Heading + aside).Unit().Mul(loud)
	case team.Turn:
		side := 1.0
		if b.Heading.Right().Dot(to) < 0 {
			side = -1
		}
		return (b.Heading + geom.Angle(side*aside)).Unit().Mul(loud)
	case team.Name:
		l.Kind, l.Named = w.Kind, 1.5*d.Knows[team.Name]
	}
	return geom.Point{}
}

// persistence is how long a dog takes to let go of what it read before, in seconds
// (C; V9: a dog's looks are slower and last longer than a person's).
const persistence = 0.07

// point sets heading and strength from the sum; the heading is fallback where there
// is none.
func (l *Lead) point(fallback geom.Angle) {
	l.Strength, l.Heading = l.sum.Norm(), fallback
	if l.Strength > 1e-9 {
		l.Heading = geom.Point{}.Towards(l.sum)
	}
}
