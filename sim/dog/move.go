package dog

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// Event is what happened to the dog in one sample.
type Event uint8

// The events.
const (
	Nothing Event = iota
	Took          // it left the ground over an entry, or went into one: State.Entry
	Done          // it landed, or came out
	Missed        // it ran past the entry it had committed to
)

// Samples is how many times a stride is looked at; AirSamples, how many times a
// flight, in which nothing turns the dog.
const (
	Samples    = 8
	AirSamples = 5
)

// unwatched is how many of these times a dog lets pass that has made up its mind and
// has some way to go: it looks at nothing, and runs its arc.
const unwatched = 2

// insideTime is how often a dog inside an obstacle is looked at, in seconds: it decides
// nothing there, only its handler moves.
const insideTime = 0.09

// SampleTime returns the seconds until the next look at what is around the dog.
func (s *Scene) SampleTime(d *Dog, st *State) float64 {
	switch st.Mode {
	case Ground:
		n := 1.0
		if st.Commit >= 0 && s.farFrom(d, st, &s.mouths[st.Commit]) {
			n = unwatched
		}
		return n / Samples * StrideTime(d.Withers, max(st.Speed, 1))
	case Air:
		return min(st.Total/AirSamples, st.Total-st.Gone+1e-9)
	case Inside:
		return min(insideTime, st.Total-st.Gone+1e-9)
	}
	return 0.06
}

// farFrom reports whether the dog has more to go to a mouth than it can need for its
// take-off and a pair of looks.
func (s *Scene) farFrom(d *Dog, st *State, m *mouth) bool {
	to := m.at.Sub(st.At)
	room := d.TakeOffExtended - d.span/2 + 0.6
	return to.Dot(to) > room*room
}

// StrideShare returns how much of a stride dt seconds are; a passage counts as strides
// of 1.4 seconds, a flight as one.
func (d *Dog) StrideShare(st *State, dt float64) float64 {
	switch st.Mode {
	case Ground:
		return dt / StrideTime(d.Withers, max(st.Speed, 1))
	case Inside:
		return dt / 1.4
	}
	return 0
}

// Luck is what varies from run to run at the obstacle the dog is about to take.
type Luck struct {
	Spot float64 // m by which the take-off misses its spot
}

// Advance moves the dog on by dt seconds, with what it reads of its handler, and
// says what happened. dt should be what SampleTime gave, or less.
func (s *Scene) Advance(d *Dog, st *State, l *Lead, luck Luck, dt float64) Event {
	st.SinceLast += dt
	d.readTurn(st, l, dt)
	switch st.Mode {
	case Air:
		return d.fly(st, s.at(st.Entry), dt)
	case Inside:
		return s.pass(d, st, l, dt)
	case Ground, Standing:
		return s.gallop(d, st, l, luck, dt)
	}
	return Nothing
}

func (s *Scene) at(i int) *course.Entry { return &s.Entries[i] }

// readTurn keeps count of how long the dog has read that it is to turn.
func (d *Dog) readTurn(st *State, l *Lead, dt float64) {
	heading := st.Heading
	if st.Mode == Air {
		heading = st.Track
	}
	asked := smooth(0.3, 0.9, turn(l.Heading.Off(heading))) * clamp01(l.Strength/1.5)
	if asked > 0.3 {
		st.TurnRead += asked * dt
	} else {
		st.TurnRead = max(0, st.TurnRead-dt)
	}
}

// gallop runs one sample on the ground.
func (s *Scene) gallop(d *Dog, st *State, l *Lead, luck Luck, dt float64) Event {
	st.Mode = Ground
	if st.Commit >= 0 {
		switch d.arrives(st, s.at(st.Commit), s.mouths[st.Commit].way, luck) {
		case Took:
			s.take(d, st, l, luck)
			return Took
		case Missed:
			st.Commit = -1
			return Missed
		}
	} else if i := s.underfoot(d, st); i >= 0 {
		st.Commit = i
		s.take(d, st, l, luck)
		return Took
	}
	s.steer(d, st, l, dt)
	return Nothing
}

// steer turns and paces the dog for one sample: along the arc to the entry it has
// committed to, else after the handler's lead.
func (s *Scene) steer(d *Dog, st *State, l *Lead, dt float64) {
	var want float64
	ask, speed := 1.0, d.paced(st, l)
	if st.Commit >= 0 {
		var slow float64
		want, slow = d.aim(st, s.at(st.Commit), s.mouths[st.Commit].way)
		speed = min(speed, slow)
	} else {
		want, ask = d.follow(st, l), clamp01(l.Strength/1.5)
		speed = lerp(speed, min(speed, lerp(d.Extended, d.Collected, smooth(0.5, 1.9, turn(l.Heading.Off(st.Heading))))), ask)
	}
	limit := d.tightest(st.Speed)
	want *= ask
	if k, near := s.avoid(d, st, want); near {
		want = k
		speed = min(speed, d.fastest(k))
	}
	want = max(-limit, min(limit, want))
	st.Turn = d.bendTo(st.Turn, want, dt)
	st.Turn = max(-limit, min(limit, st.Turn))
	st.Speed = max(0.8, d.change(st.Speed, speed, st.Turn, dt))
	st.Stride = StrideLength(d.Withers, st.Speed)
	p := st.Pose().Arc(st.Speed*dt, st.Turn)
	st.At, st.Heading = p.At, p.Heading.Wrap()
}

// bendTo moves the curvature toward want no faster than the dog's legs allow: an
// arc is entered over about half a stride, as in a clothoid (T7), and a change of
// side costs a change of leading leg (G10, T6).
func (d *Dog) bendTo(k, want, dt float64) float64 {
	rate := 1 / d.Radius / 0.16 * dt
	if k*want < 0 {
		change := d.LeadChange * min(1, math.Abs(k)/0.05)
		rate *= 0.16 / (0.16 + change)
	}
	return k + max(-rate, min(rate, want-k))
}

// follow returns the curvature that brings the dog onto the handler's lead.
func (d *Dog) follow(st *State, l *Lead) float64 {
	off := float64(l.Heading.Off(st.Heading))
	return 2 * math.Sin(max(-math.Pi/2, min(math.Pi/2, off))) / max(0.8, 0.35*st.Speed)
}

// paced returns the speed the handler's motion asks for. A handler who stands or
// slows collects the dog only when it is near him: it gallops to him first.
func (d *Dog) paced(st *State, l *Lead) float64 {
	const comfort = 4.0 // m/s2
	asked := lerp(d.Collected, d.Extended, l.Drive)
	free := math.Sqrt(d.Collected*d.Collected + 2*comfort*max(0, l.Near-2.2))
	return max(asked, min(d.Extended, free))
}

// aim returns the curvature of the arc to a committed entry, which leads along way,
// and the highest speed that lets the dog run it.
func (d *Dog) aim(st *State, e *course.Entry, way geom.Point) (k, speed float64) {
	margin := max(0, e.Half-0.2)
	beside := max(-margin, min(margin, way.Cross(e.At.Sub(st.At))))
	target := e.At.Add(geom.Point{X: way.Y, Y: -way.X}.Mul(beside))
	line := st.At.Towards(target)
	rng := st.At.Dist(target)
	off := float64(line.Off(e.Heading))
	// Within 20 degrees it takes the line it has; beyond that it bends its approach.
	const easy = 0.35
	bent := math.Copysign(max(0, math.Abs(off)-easy), off) * clamp01((rng-0.8)/1.6)
	bearing := float64((line + geom.Angle(bent)).Off(st.Heading))
	need := 2 * math.Sin(max(-math.Pi/2, min(math.Pi/2, bearing))) / max(0.6, min(rng, 2.2))
	speed = math.Inf(1)
	if sharp := 2 * math.Abs(math.Sin(max(-math.Pi/2, min(math.Pi/2, float64(line.Off(st.Heading)))))) / max(rng, 0.5); sharp > 0 {
		speed = max(d.Collected*0.8, math.Sqrt(d.GripHere/sharp+d.Braking*0.5*max(0, rng-2)))
	}
	if e.Height > 0 {
		bar := d.barSpeed(e.Height)
		speed = min(speed, math.Sqrt(bar*bar+2*3*max(0, rng-1.5)))
	} else if e.Kind != course.Tunnel {
		// Weaves, contacts and the table are met collected.
		half := 0.5 * (d.Collected + d.Extended)
		speed = min(speed, math.Sqrt(half*half+2*4*max(0, rng-0.5)))
	}
	return need, speed
}

// ReachOut is how far before an entry the trunk is when the dog takes it.
func (d *Dog) ReachOut(st *State, e *course.Entry) float64 {
	if !e.Kind.Jumped() {
		return 0.3
	}
	takeOff, _ := d.jump(st.Speed, e.Height, FarSight)
	return max(0.25, takeOff-d.span/2)
}

// tooNear is how far before the bar the trunk is at the latest take-off: a dog that has
// come nearer than it meant to jumps all the same, out of a bad spot (C).
const tooNear = 0.2

// arrives reports whether the dog takes, or misses, the entry it has committed to.
func (d *Dog) arrives(st *State, e *course.Entry, way geom.Point, luck Luck) Event {
	if to := e.At.Sub(st.At); to.Dot(to) > 16 {
		return Nothing
	}
	local := from(e.At, way, st.At) // Y < 0 before the opening
	reach := d.ReachOut(st, e)
	if e.Kind.Jumped() { // there is no spot to miss where it runs in
		reach = max(tooNear, reach+luck.Spot)
	}
	if local.Y > 0.2 || turn(st.At.Towards(e.At).Off(st.Heading)) > 2 && st.At.Dist(e.At) < 3 {
		return Missed
	}
	off := st.Heading.Off(e.Heading)
	if turn(off) >= 1.5 || -local.Y > reach*math.Cos(float64(off))+0.02 {
		if local.Y > -0.15 {
			return Missed
		}
		return Nothing
	}
	// Where the straight line from here crosses the opening.
	cross := local.X + math.Tan(float64(off))*-local.Y
	limit := float64(e.Left)
	if off < 0 {
		limit = float64(e.Right)
	}
	if math.Abs(cross) <= e.Half && turn(off) <= limit+0.1 {
		return Took
	}
	if local.Y > -0.25 {
		return Missed
	}
	return Nothing
}

// from returns q as seen from p along the unit vector way: X metres to the right, Y
// metres ahead.
func from(p, way, q geom.Point) geom.Point {
	to := q.Sub(p)
	return geom.Point{X: -way.Cross(to), Y: to.Dot(way)}
}

// underfoot returns the entry that the dog's own momentum carries it over: an
// opening dead ahead inside its take-off distance; -1 for none.
func (s *Scene) underfoot(d *Dog, st *State) int {
	if st.Speed < 1.2 {
		return -1
	}
	best, nearest := -1, math.Inf(1)
	for _, i := range s.grid.at(st.At).entries {
		m := &s.mouths[i]
		if to := m.at.Sub(st.At); to.Dot(to) > 9 || to.Dot(to) > nearest || to.Dot(m.way) < 0 {
			continue
		}
		if m.obstacle == st.Last && st.SinceLast < afterExit {
			continue
		}
		e := s.at(int(i))
		local := from(m.at, m.way, st.At)
		off := float64(st.Heading.Off(e.Heading))
		if local.Y > -0.05 || math.Abs(off) > 0.6 || -local.Y > d.ReachOut(st, e)*0.9 {
			continue
		}
		if cross := local.X + math.Tan(off)*-local.Y; math.Abs(cross) < e.Half-0.15 {
			best, nearest = int(i), local.Y*local.Y+local.X*local.X
		}
	}
	return best
}
