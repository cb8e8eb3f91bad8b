package dog

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// take starts the passage of the entry the dog has committed to.
func (s *Scene) take(d *Dog, st *State, l *Lead, v *View, luck Luck) {
	e := s.at(st.Commit)
	st.Entry, st.Commit = st.Commit, -1
	if e.Kind.Jumped() {
		s.jumpOver(d, st, e, l, v, luck)
		return
	}
	st.Mode = Inside
	st.Passage = Passage{Track: e.Heading, Off: st.Heading.Off(e.Heading), Total: d.Through(e, st.Speed)}
	st.Turn, st.Seeking = 0, 0
}

// TakeNow sends the dog over or into the entry it has committed to, from where it is.
func (s *Scene) TakeNow(d *Dog, st *State, l *Lead) { s.take(d, st, l, &View{}, Luck{}) }

// ready returns how far, 0..1, the dog has read a turn by now; a dog that needs no time for it
// is ready when it has read any.
func (d *Dog) ready(st *State) float64 {
	if d.TurnRead <= 0 {
		if st.TurnRead > 0 {
			return 1
		}
		return 0
	}
	return clamp01(st.TurnRead / d.TurnRead)
}

// jumpOver starts a flight. A turn the dog has read for long enough before this
// moment bends the flight's end: it lands shorter and already turned.
func (s *Scene) jumpOver(d *Dog, st *State, e *course.Entry, l *Lead, v *View, luck Luck) {
	takeOff, landing := d.jump(st.Speed, e.Height, s.room[st.Entry])
	to, loud := d.landing(st.Heading, l, v)
	asked := to.Off(st.Heading)
	ready := d.ready(st)
	turned := asked.Clamp(d.LandingTurn * geom.Angle(ready))
	if loud < leadFaint {
		turned = 0
	}
	if d.LandingTurn > 0 {
		landing *= 1 - 0.3*turn(turned)/float64(d.LandingTurn)
	}
	st.Mode = Air
	st.Passage = Passage{
		Track: st.Heading, Off: st.Heading.Off(e.Heading), TakeOff: takeOff + luck.Spot, Landing: landing,
		Misfit: luck.Spot, Late: st.TurnRead > 0 && ready < 0.5,
		Lateness: geom.Smooth(turnFrom, turnFull, turn(asked)) * clamp01(loud/leadFull) * (1 - ready),
	}
	// Trunk to bar along the flight, over any depth, and out to the landing.
	local := geom.Pose{At: e.At, Heading: e.Heading}.Local(st.At)
	path := -local.Y/max(0.2, math.Cos(float64(st.Off))) + e.Length + max(0.3, landing-d.span/2)
	st.Total = max(0.12, path/max(st.Speed, 1))
	st.Heading = (st.Heading + turned).Wrap()
	st.Stride = path
	st.Turn = 0
}

// fly moves the dog through the air: its ground track is straight.
func (d *Dog) fly(st *State, e *course.Entry, dt float64) Event {
	dt = min(dt, st.Total-st.Gone)
	st.At = st.At.Add(st.Track.Unit().Mul(st.Stride / st.Total * dt))
	if st.Gone += dt; st.Gone < st.Total-1e-6 {
		return Nothing
	}
	st.Mode, st.Last, st.SinceLast, st.Entry = Ground, e.Obstacle, 0, -1
	// A landing already turned sheds speed to the new line (C).
	st.Speed = max(d.Collected*0.8, st.Speed*(1-0.25*turn(st.Heading.Off(st.Track))))
	st.Stride = StrideLength(d.Withers, st.Speed)
	st.TurnRead = 0
	return Done
}

// Through returns the seconds an obstacle with an inside takes.
func (d *Dog) Through(e *course.Entry, v float64) float64 {
	switch e.Kind {
	case course.Tunnel:
		pace := min(0.9*d.Extended, max(d.Collected, v))
		if bent := turn(e.Exit.Heading.Off(e.Heading)); bent > 0.15 {
			pace *= 0.85 // curved (C)
		}
		return e.Length / pace
	case course.Weaves:
		gaps := math.Round(e.Length / course.Spacing)
		return d.Weaves * max(1, gaps) / 11
	case course.AFrame:
		return d.AFrame
	case course.DogWalk:
		return d.DogWalk
	case course.Seesaw:
		return d.Seesaw
	}
	return d.Table
}

// pass moves the dog on inside an obstacle and out at its end.
func (s *Scene) pass(d *Dog, st *State, l *Lead, dt float64) Event {
	e := s.at(st.Entry)
	st.Gone += min(dt, st.Total-st.Gone)
	t := clamp01(st.Gone / st.Total)
	switch pipe := s.pipes[st.Entry]; {
	case pipe != nil:
		st.At, st.Heading = alongPipe(pipe, t*e.Length)
	case e.Kind == course.Table:
		st.At, st.Speed = e.At.Lerp(e.Exit.At, min(0.5, t*5)), 0
	default:
		st.At = e.At.Lerp(e.Exit.At, t)
	}
	if st.Gone < st.Total-1e-6 {
		return Nothing
	}
	st.Mode, st.Last, st.SinceLast, st.Entry = Ground, e.Obstacle, 0, -1
	st.At, st.Heading = e.Exit.Ahead(0.3), e.Exit.Heading
	if out := d.outSpeed(e); e.Kind == course.Tunnel { // who goes in slowly does not come out fast
		st.Speed = min(out, max(d.Collected, st.Speed+tunnelGain))
	} else {
		st.Speed = out
	}
	if e.Kind == course.Table {
		st.At = e.At.Lerp(e.Exit.At, 0.5)
		st.Heading = l.Heading
	}
	st.Stride = StrideLength(d.Withers, st.Speed)
	st.TurnRead, st.Turn = 0, 0
	return Done
}

// alongPipe returns the place d metres into a pipe and the way it runs there.
func alongPipe(pipe []geom.Point, d float64) (geom.Point, geom.Angle) {
	last := len(pipe) - 1
	for i := 1; i < last; i++ {
		n := pipe[i].Dist(pipe[i-1])
		if d <= n {
			return pipe[i-1].Lerp(pipe[i], d/n), pipe[i-1].Towards(pipe[i])
		}
		d -= n
	}
	n := pipe[last].Dist(pipe[last-1])
	return pipe[last-1].Lerp(pipe[last], min(1, d/n)), pipe[last-1].Towards(pipe[last])
}

// outSpeed returns the speed a dog comes out with (C).
func (d *Dog) outSpeed(e *course.Entry) float64 {
	switch e.Kind {
	case course.Tunnel:
		return min(0.85*d.Extended, e.Length/d.Through(e, d.Extended))
	case course.Weaves:
		return d.Collected * 1.1
	case course.Table:
		return 1
	}
	return 0.5 * (d.Collected + d.Extended)
}
