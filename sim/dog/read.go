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
	Pointer geom.Angle // the heading his arm points along
	Reach   float64    // 0 arm let down .. 1 held out
	Arm     float64    // +1 right, -1 left: the side the dog works on
	Gesture Gesture
	Dark    bool    // the dog could not see him: it was in a tunnel
	Told    float64 // 0..1: what is left of his last word, see Fresh
	Sent    float64 // 0..1: what is left of his sending it away
}

// Fresh returns what is left, 0..1, of a word or a push read age seconds of running ago.
func Fresh(age float64) float64 { return 1 - geom.Smooth(toldHeld, toldHeld+toldFade, age) }

// Anticipate returns the velocity a dog reads off a body with velocity v and
// acceleration a: a braking body is read before it stands, braking is never read
// as running backwards.
func Anticipate(v, a geom.Point) geom.Point {
	w := v.Add(a.Mul(anticipation))
	if w.Dot(v) < 0 && a.Dot(v) < 0 {
		return geom.Point{}
	}
	return w
}

// Lead is what the dog reads off its handler: parts, each a direction as long as it is
// loud.
type Lead struct {
	Motion geom.Point // parallel to his own way
	Chest  geom.Point // along his chest, from where he is: it points at a place
	Arm    geom.Point // along his arm, likewise
	Toward geom.Point // where the dog is to come to or go from, read at the dog
	Spot   float64    // metres to the place it is drawn to; far where it is sent
	Hand   float64    // +1 right, -1 left: the side he has the dog work on
	Side   float64    // a word that names a side, right positive
	From   geom.Point // where he is
	Drive  float64    // 0 collect .. 1 extend
	Called float64    // 0 sent on .. 1 called in
	Lost   float64    // 0..1: it does not know yet where he is, and looks for him
	Near   float64    // metres to the handler
	Kind   course.Kind
	Named  float64 // how much a named kind of obstacle gains; 0 for none

	// What comes of the parts for a dog that looks at the ring: see Heed.
	Heading  geom.Angle // the way he indicates, all in all
	Strength float64    // how loud, from 0
}

// Read returns what a dog in state b makes of handler h as he was a latency ago
// and of the word w.
func (d *Dog) Read(b *Body, h *Handler, w team.Meaning) Lead {
	var l Lead
	l.Near, l.From, l.Hand = b.At.Dist(h.At), h.At, h.Arm
	if !h.Dark && b.Mode != Inside {
		d.readBody(&l, b, h)
	} else {
		l.Drive = driveAlone
		if b.Mode != Inside {
			l.Lost = 1
		}
	}
	d.readWord(&l, b, h, w)
	k := handlerFocus - d.Focus
	l.Motion, l.Chest, l.Arm, l.Toward, l.Side = l.Motion.Mul(k), l.Chest.Mul(k), l.Arm.Mul(k), l.Toward.Mul(k), l.Side*k
	l.Heading = b.Heading
	return l
}

// Blend returns what the dog makes of its handler that made l of him dt seconds before
// it read now: it lets go only gradually of what it read.
func (l *Lead) Blend(now *Lead, dt float64) Lead {
	t := -math.Expm1(-dt / persistence)
	out := *now
	out.Motion, out.Chest, out.Arm, out.Toward = l.Motion.Lerp(now.Motion, t), l.Chest.Lerp(now.Chest, t), l.Arm.Lerp(now.Arm, t), l.Toward.Lerp(now.Toward, t)
	out.Lost = lerp(l.Lost, now.Lost, t)
	out.Side, out.Drive, out.Called = lerp(l.Side, now.Side, t), lerp(l.Drive, now.Drive, t), lerp(l.Called, now.Called, t)
	return out
}

// readBody adds motion, chest and arm.
func (d *Dog) readBody(l *Lead, b *Body, h *Handler) {
	away := b.At.Sub(h.At)
	dist := max(away.Norm(), 1e-6)
	away = away.Mul(1 / dist)
	speed := h.Vel.Norm()
	moving := clamp01(speed / fullMotion)
	u, fwd := h.Chest.Unit(), b.Heading.Unit()
	right := geom.Point{X: u.Y, Y: -u.X}

	// His chest is turned to the dog, and not just the way it runs on ahead of him.
	facing := geom.Smooth(0.2, 0.85, u.Dot(away)) * (1 - geom.Smooth(0.3, 0.9, u.Dot(fwd)))
	// Running the way his chest points, he drives the dog on; he does not call it in.
	forward := 0.0
	if speed > 1e-6 {
		forward = moving * max(0, h.Vel.Dot(u)/speed)
	}
	turned := facing * (1 - forward)
	if h.Gesture == Pull {
		turned = max(turned, pulledIn)
	}
	// The spot the dog is drawn to lies at his cue-arm side; where he moves, ahead of him.
	// Square before him the arm tells less of a side.
	spot := h.At.Add(right.Mul(spotBeside * h.Arm * (1 - squareOn*facing))).Add(u.Mul(spotBefore)).Add(h.Vel.Mul(spotLead))
	draw := spot.Sub(b.At)
	toSpot := draw.Norm()
	draw = draw.Mul(clamp01(toSpot/spotReached) / max(toSpot, 1e-6)) // there, the spot says no more

	clear := d.clear(-away.Dot(fwd), dist)
	// A chest carried along says no more than the running does; turned off it, it points.
	carried := 0.0
	if speed > 1e-6 {
		carried = chestCarried * moving * geom.Smooth(0.6, 0.97, h.Vel.Dot(u)/speed)
		l.Motion = running(b, h, fwd.Dot(away)).Mul(clear * (motionLoud*moving + chestLoud*carriedAs*(1-turned)*carried))
	}
	l.Chest = u.Mul(clear * chestLoud * (1 - turned) * (1 - carried))
	toward := draw.Mul(drawLoud * turned)
	switch h.Gesture {
	case Pull:
		toward = toward.Add(draw.Mul(handLoud))
	case Push:
		toward = toward.Add(outward(fwd, away).Mul(handLoud * h.Sent))
	default:
		// To a dog on the wrong side of it the arm says which side to come to.
		wrong := clamp01((0.6 - h.Arm*away.Dot(right)*dist) / 1.2)
		l.Arm = h.Pointer.Unit().Mul(clear * armLoud * h.Reach * (1 - wrong) * (1 - turned))
		toward = toward.Add(right.Mul(sideLoud * h.Arm * wrong)).Add(draw.Mul(handLoud * turned * (1 - wrong)))
	}
	l.Toward, l.Spot = toward.Mul(clear), toSpot
	if h.Gesture == Push {
		l.Spot = FarSight
	}
	l.Drive, l.Called = moving*(1-0.75*turned), turned
}

// outward returns the way a dog that goes along fwd is sent out, one metre: on, and off its
// line to the side its handler is not on; straight on with him behind it.
func outward(fwd, away geom.Point) geom.Point {
	if back := away.Dot(fwd); back < 0 {
		away = away.Sub(fwd.Mul(back))
	}
	way := away.Add(fwd.Mul(outAhead))
	return way.Mul(1 / max(way.Norm(), 1e-6))
}

// running returns the way a running handler takes a dog along, one metre: it runs along
// with one beside it or behind, and after one before it, toward where he is going. ahead
// is the cosine of his bearing, less than 0 for one before the dog.
func running(b *Body, h *Handler, ahead float64) geom.Point {
	after := h.At.Add(h.Vel.Mul(chaseLead)).Sub(b.At)
	chase := geom.Smooth(chaseNone, chaseFull, -ahead)
	way := h.Vel.Mul((1 - chase) / h.Vel.Norm()).Add(after.Mul(chase / max(after.Norm(), 1e-6)))
	return way.Mul(1 / max(way.Norm(), 1e-6))
}

// clear is how well the dog has the handler in view: less beyond its field of view
// (V1), where steps and breath still tell something (C), and less from far (C). ahead
// is the cosine of his bearing, dist the metres to him.
func (d *Dog) clear(ahead, dist float64) float64 {
	if dist < 0.05 {
		return 1
	}
	far := dist / clearRange
	full := 1 / (1 + far*far)
	if ahead >= d.plain {
		return full
	}
	off := math.Acos(max(-1, ahead))
	edge := float64(d.FieldOfView) / 2
	return (1 - behindLoss*geom.Smooth(edge-dim, edge+0.15, off)) * full
}

// readWord adds what a word says, and notes a named obstacle.
func (d *Dog) readWord(l *Lead, b *Body, h *Handler, w team.Meaning) {
	if w.Sense == team.Silent {
		return
	}
	loud := wordLoud * d.Knows[w.Sense] * h.Told
	to := h.At.Sub(b.At)
	to = to.Mul(1 / max(to.Norm(), 1e-6))
	switch w.Sense {
	case team.Come:
		l.Toward, l.Spot = l.Toward.Add(to.Mul(loud)), l.Near
		l.Called = max(l.Called, 0.5*d.Knows[w.Sense]*h.Told)
	case team.Go:
		l.Motion = l.Motion.Add(b.Heading.Unit().Mul(loud))
		l.Drive = max(l.Drive, 0.8*d.Knows[w.Sense]*h.Told)
	case team.Out:
		l.Toward, l.Spot = l.Toward.Add(outward(b.Heading.Unit(), to.Mul(-1)).Mul(loud*h.Sent)), FarSight
	case team.Left:
		l.Side -= loud
	case team.Right:
		l.Side += loud
	case team.Turn:
		if b.Heading.Right().Dot(to) < 0 {
			loud = -loud
		}
		l.Side += loud
	case team.Name:
		l.Kind, l.Named = w.Kind, namedGain*d.Knows[team.Name]*h.Told
	}
}
