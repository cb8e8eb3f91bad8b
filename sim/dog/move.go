package dog

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// Event is what happened to the dog in one step.
type Event uint8

// The events.
const (
	Nothing Event = iota
	Took          // it left the ground over an entry, or went into one: State.Entry
	Done          // it landed, or came out
	Missed        // it ran past the entry it had committed to
)

// How often things are looked at: a step is a share of a stride or of a flight, or a time.
// Figures must not hang on them: see Scene.Fine.
const (
	strideSteps  = 8
	flightSteps  = 6
	insideStep   = 0.06 // s in an obstacle, where the dog decides nothing and only its handler moves
	standingStep = 0.06 // s
)

// StepTime returns the seconds the next step should take.
func (s *Scene) StepTime(d *Dog, st *State) float64 {
	switch st.Mode {
	case Ground:
		return StrideTime(d.Withers, max(st.Speed, 1)) / (strideSteps * s.Fine)
	case Air:
		return min(st.Total/(flightSteps*s.Fine), st.Total-st.Gone)
	case Inside:
		return min(insideStep/s.Fine, st.Total-st.Gone)
	}
	return standingStep / s.Fine
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

// Midway returns the body as it will be half of dt on, near enough: what the dog sees and
// reads in a step it sees and reads there.
func (st *State) Midway(dt float64) Body {
	b := st.Body
	switch st.Mode {
	case Ground, Standing:
		p := st.Pose().Arc(st.Speed*dt/2, st.Turn)
		b.At, b.Heading = p.At, p.Heading.Wrap()
	case Air:
		b.At = b.At.Add(st.Track.Unit().Mul(st.Stride / st.Total * dt / 2))
	}
	return b
}

// Luck is what varies from run to run at the obstacle the dog is about to take.
type Luck struct {
	Spot float64 // m by which the take-off misses its spot
}

// Advance moves the dog on by dt seconds, or until something happens, with what it saw
// and read midway. It says what happened and the seconds that took.
func (s *Scene) Advance(d *Dog, st *State, mid *Body, l *Lead, v *View, luck Luck, dt float64) (Event, float64) {
	if st.Mode == Air || st.Mode == Inside {
		st.SinceLast += dt
		d.readTurn(st, l, v, dt)
		if st.Mode == Air {
			return d.fly(st, s.at(st.Entry), dt), dt
		}
		return s.pass(d, st, l, dt), dt
	}
	st.Mode = Ground
	if event, entry := s.meets(d, st, luck); event != Nothing {
		return s.met(d, st, l, v, luck, event, entry), 0
	}
	before := *st
	st.SinceLast += dt
	d.readTurn(st, l, v, dt)
	s.steer(d, st, mid, l, v, dt)
	event, _ := s.meets(d, st, luck)
	if event == Nothing {
		return Nothing, dt
	}
	end := *st
	lo, hi := 0.0, 1.0
	for range 7 { // to a hundredth of a step
		half := (lo + hi) / 2
		*st = before.part(&end, half, dt)
		if e, _ := s.meets(d, st, luck); e != Nothing {
			hi = half
		} else {
			lo = half
		}
	}
	*st = before.part(&end, hi, dt)
	event, entry := s.meets(d, st, luck)
	if event == Nothing { // by rounding
		return Nothing, hi * dt
	}
	return s.met(d, st, l, v, luck, event, entry), hi * dt
}

// part returns the dog a share of the way from here to end, which lies dt on along one arc.
func (st *State) part(end *State, share, dt float64) State {
	out := *st
	out.Speed, out.Turn = lerp(st.Speed, end.Speed, share), lerp(st.Turn, end.Turn, share)
	p := st.Pose().Arc((st.Speed+out.Speed)/2*share*dt, (st.Turn+out.Turn)/2)
	out.At, out.Heading, out.Stride = p.At, p.Heading.Wrap(), end.Stride
	out.SinceLast += share * dt
	out.TurnRead, out.Seeking = lerp(st.TurnRead, end.TurnRead, share), lerp(st.Seeking, end.Seeking, share)
	return out
}

// meets returns whether the dog takes or misses an entry where it is, and which.
func (s *Scene) meets(d *Dog, st *State, luck Luck) (Event, int) {
	if st.Commit >= 0 {
		return d.arrives(st, s.at(st.Commit), s.mouths[st.Commit].way, luck), st.Commit
	}
	if i := s.underfoot(d, st); i >= 0 {
		return Took, i
	}
	return Nothing, -1
}

// met lets happen what the dog meets.
func (s *Scene) met(d *Dog, st *State, l *Lead, v *View, luck Luck, event Event, entry int) Event {
	if event == Missed {
		st.Commit = -1
		return Missed
	}
	st.Commit = entry
	s.take(d, st, l, v, luck)
	return Took
}

func (s *Scene) at(i int) *course.Entry { return &s.Entries[i] }

// readTurn keeps count of how long the dog has read that it is to turn.
func (d *Dog) readTurn(st *State, l *Lead, v *View, dt float64) {
	heading := st.Heading
	if st.Mode == Air {
		heading = st.Track
	}
	to, loud := d.landing(heading, l, v)
	asked := geom.Smooth(turnFrom, turnFull, turn(to.Off(heading))) * clamp01(loud/leadFull)
	st.TurnRead = max(0, st.TurnRead+lerp(-1, asked, geom.Smooth(0.15, 0.45, asked))*dt)
}

// ReachOut is how far before an entry the trunk is when the dog takes it.
func (d *Dog) ReachOut(st *State, e *course.Entry) float64 {
	if !e.Kind.Jumped() {
		return goesIn
	}
	takeOff, _ := d.jump(st.Speed, e.Height, FarSight)
	return max(0.25, takeOff-d.span/2)
}

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
	if aside := math.Abs(local.X) - e.Half; aside > swingAside { // room yet to swing round before it
		if local.Y > swingPast {
			return Missed
		}
		return Nothing
	}
	if local.Y > 0.2 || turn(st.At.Towards(e.At).Off(st.Heading)) > 2 && st.At.Dist(e.At) < 3 {
		return Missed
	}
	off := st.Heading.Off(e.Heading)
	if turn(off) >= 1.5 || -local.Y > reach*math.Cos(float64(off)) {
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
