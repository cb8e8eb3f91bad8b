package dog

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// steer turns and paces the dog for one step: along the arc to the entry it has
// committed to, else after the handler's lead and its own interest, as they were midway.
func (s *Scene) steer(d *Dog, st *State, mid *Body, l *Lead, v *View, dt float64) {
	var want float64
	ask, speed := 1.0, d.paced(mid, l)
	if st.Commit >= 0 {
		var slow float64
		want, slow = d.aim(mid, s.at(st.Commit), s.mouths[st.Commit].way, l.Drive)
		speed = min(speed, slow)
	} else {
		heading, loud := d.wanted(mid.Heading, l, v)
		want, ask = d.follow(mid, heading), clamp01(loud/leadFull)
		off := turn(heading.Off(mid.Heading))
		round := d.fastest(2 * math.Sin(min(off, math.Pi/2)) / turnRoom)
		speed = lerp(speed, min(speed, max(d.Collected, round), lerp(d.Extended, d.Collected, geom.Smooth(0.5, 1.9, off))), ask)
	}
	if st.Commit < 0 {
		d.seek(st, v, dt)
		speed = lerp(speed, min(speed, max(d.Collected, seekPace*d.Extended)), st.Seeking)
	} else {
		st.Seeking = 0
	}
	limit := d.tightest(st.Speed)
	want *= ask
	if k, near := s.avoid(d, st, mid, want); near {
		want = k
		speed = min(speed, d.fastest(k))
	}
	k, pace := st.Turn, st.Speed
	st.Turn = d.bendTo(k, max(-limit, min(limit, want)), dt)
	st.Turn = max(-limit, min(limit, st.Turn))
	st.Speed = max(0.8, d.change(pace, speed, (k+st.Turn)/2, dt))
	st.Stride = StrideLength(d.Withers, st.Speed)
	p := st.Pose().Arc((pace+st.Speed)/2*dt, (k+st.Turn)/2)
	st.At, st.Heading = p.At, p.Heading.Wrap()
}

// wanted returns the heading the dog wants, and how much: its handler's lead and its own
// interest together.
func (d *Dog) wanted(heading geom.Angle, l *Lead, v *View) (geom.Angle, float64) {
	return along(heading, l.Heading.Unit().Mul(l.Strength).Add(d.interest(v)))
}

// landing returns the heading a dog that jumps along track wants to land on, and how much.
// A flight is bent by what points aside; somebody who runs aside only drives it on less.
func (d *Dog) landing(track geom.Angle, l *Lead, v *View) (geom.Angle, float64) {
	on := track.Unit()
	aside := l.Motion.Sub(on.Mul(l.Motion.Dot(on)))
	return along(track, l.Heading.Unit().Mul(l.Strength).Sub(aside).Add(d.interest(v).Mul(ownLanding)))
}

// along returns the heading of a wish and how loud it is; without one, the heading it has.
func along(heading geom.Angle, wish geom.Point) (geom.Angle, float64) {
	if loud := wish.Norm(); loud > 1e-9 {
		return geom.Point{}.Towards(wish), loud
	}
	return heading, 0
}

// seek lets a dog look about that sees nothing to do where it goes.
func (d *Dog) seek(st *State, v *View, dt float64) {
	to, time := 1-geom.Smooth(0, seekWork, v.work), seekRise
	if to < st.Seeking {
		time = seekFall
	}
	st.Seeking = lerp(st.Seeking, to, -math.Expm1(-dt/time))
}

// interest is where the dog would go of itself, and how loud that is to it beside its
// handler: to what lies before it, the more the more it looks for obstacles.
func (d *Dog) interest(v *View) geom.Point {
	return v.own.Mul(ownLoud * (ownBase + (1-ownBase)*2*d.Focus) / (v.own.Norm() + ownHalf))
}

// bendTo moves the curvature toward want no faster than the dog's legs allow: an
// arc is entered over about half a stride, as in a clothoid (T7), and a change of
// side costs a change of leading leg (G10, T6).
func (d *Dog) bendTo(k, want, dt float64) float64 {
	rate := 1 / d.Radius / bendTime * dt
	if k*want < 0 {
		change := d.LeadChange * min(1, math.Abs(k)/0.05)
		rate *= bendTime / (bendTime + change)
	}
	return k + max(-rate, min(rate, want-k))
}

// follow returns the curvature that brings the dog onto a heading.
func (d *Dog) follow(b *Body, heading geom.Angle) float64 {
	off := float64(heading.Off(b.Heading))
	return 2 * math.Sin(max(-math.Pi/2, min(math.Pi/2, off))) / max(followRoom, followTime*b.Speed)
}

// paced returns the speed the handler's motion asks for. A handler who stands or
// slows collects the dog only when it is near him: it gallops to him first.
func (d *Dog) paced(b *Body, l *Lead) float64 {
	asked := lerp(d.Collected, d.Extended, l.Drive)
	free := math.Sqrt(d.Collected*d.Collected + 2*comfort*max(0, l.Near-nearHandler))
	return max(asked, min(d.Extended, free))
}

// aim returns the curvature of the arc to a committed entry, which leads along way,
// and the highest speed that lets the dog run it, with a handler who drives it on so much.
func (d *Dog) aim(b *Body, e *course.Entry, way geom.Point, drive float64) (k, speed float64) {
	margin := max(0, e.Half-0.2)
	beside := max(-margin, min(margin, way.Cross(e.At.Sub(b.At))))
	target := e.At.Add(geom.Point{X: way.Y, Y: -way.X}.Mul(beside))
	line := b.At.Towards(target)
	rng := b.At.Dist(target)
	off := float64(line.Off(e.Heading))
	// Within easyLine it takes the line it has; beyond that it bends its approach.
	bent := math.Copysign(max(0, math.Abs(off)-easyLine), off) * clamp01((rng-0.8)/1.6)
	bearing := float64((line + geom.Angle(bent)).Off(b.Heading))
	need := 2 * math.Sin(max(-math.Pi/2, min(math.Pi/2, bearing))) / max(0.6, min(rng, 2.2))
	speed = math.Inf(1)
	if sharp := 2 * math.Abs(math.Sin(max(-math.Pi/2, min(math.Pi/2, float64(line.Off(b.Heading)))))) / max(rng, 0.5); sharp > 0 {
		speed = max(d.Collected*0.8, math.Sqrt(d.GripHere/sharp+d.Braking*0.5*max(0, rng-2)))
	}
	if e.Height > 0 {
		bar := d.barSpeed(e.Height)
		speed = min(speed, math.Sqrt(bar*bar+2*3*max(0, rng-1.5)))
	} else if e.Kind != course.Tunnel {
		// Weaves, contacts and the table are met collected, the less the more the handler drives.
		half := lerp(d.Collected, d.Extended, lerp(metCalm, metDriven, drive))
		speed = min(speed, math.Sqrt(half*half+2*4*max(0, rng-0.5)))
	}
	return need, speed
}

// CallOff returns the rate per second at which a strong contrary cue calls the dog off
// the entry it has committed to: only outside the commitment distance, only one that leads
// well away, and only as far as it speaks against that entry.
func (d *Dog) CallOff(st *State, mid *Body, l *Lead, v *View, e *course.Entry) float64 {
	loud := min(l.Strength, -v.goal)
	if st.Mode != Ground || loud <= 1 || mid.At.Dist(e.At) < d.ReachOut(st, e)+CallOffRoom {
		return 0
	}
	if turn(l.Heading.Off(mid.At.Towards(e.At))) < callOffTurn {
		return 0
	}
	return callOffRate * (loud - 1)
}
