package reading

import (
	"math"
	"sort"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim/dog"
)

// Meeting is an obstacle on a line the dog would run if nobody turned it.
type Meeting struct {
	Obstacle int
	Entry    int     // the entry it would take; -1 where the line meets a wing, a pipe or a side
	Range    float64 // metres from the bar or exit that the line comes from
}

// farLine is how far an exit line is followed, metres.
const farLine = 30.0

// legs measures every leg of the line.
func (r *Reading) legs(d *dog.Dog) {
	r.Legs = make([]Leg, len(r.right))
	lead := Neither
	for i := range r.Legs {
		l := &r.Legs[i]
		l.Number, l.First, l.Last = i+1, -1, -1
		l.Distance, l.Blocked = r.Line.distance(i), r.Line.blocked[i]
		l.Approach = r.Line.across[i].angle
		l.Side = side(-l.Approach, geom.Deg(3))
		l.Shape = r.shape(i)
		l.Natural = r.natural(i, d)
		l.Meets = r.meets(l.Natural, i)
		lead = l.bends(r.Line.Ground[i], lead)
		for k := range l.Changes {
			c := &l.Changes[k]
			c.Inside = c.Air && !r.Entries[r.right[i-1]].Kind.Jumped()
			c.Air = c.Air && !c.Inside
		}
	}
	for i := range r.Line.Samples {
		if n := r.Line.Samples[i].Leg; n <= len(r.Legs) {
			l := &r.Legs[n-1]
			if l.First < 0 {
				l.First = i
			}
			l.Last = i
		}
	}
	for i := range r.Legs {
		r.Legs[i].speeds(&r.Line)
	}
}

func side(a, tol geom.Angle) Side {
	switch {
	case a > tol:
		return Right
	case a < -tol:
		return Left
	}
	return Neither
}

// leastArc is the turn below which an arc asks for no lead (C).
var leastArc = geom.Deg(8)

// bends sums up turn, lead and lead changes of a leg; lead is that of the leg before.
func (l *Leg) bends(paths []geom.Path, lead Side) Side {
	l.Radius = math.Inf(1)
	most := geom.Angle(0)
	l.Lead = lead
	first := true
	for k := range paths {
		p := &paths[k]
		s := 0.0
		for _, seg := range p.Segments {
			arc := geom.Angle(float64(seg.Turn) * seg.Length / p.Radius)
			if arc.Abs() > geom.Deg(1) {
				l.Radius = min(l.Radius, p.Radius)
			}
			if now := side(arc, leastArc); now != Neither {
				if lead != Neither && now != lead {
					l.Changes = append(l.Changes, Change{At: p.At(s).At, Air: first && l.Number > 1})
				}
				lead, first = now, false
				if arc.Abs() > most {
					most, l.Lead = arc.Abs(), now
				}
			}
			l.Turn += arc
			s += seg.Length
		}
	}
	return lead
}

// speeds notes the leg's speed and time.
func (l *Leg) speeds(line *Line) {
	if l.First < 0 {
		return
	}
	first, last := &line.Samples[l.First], &line.Samples[l.Last]
	l.Time = last.Time
	if dt := last.Time - first.Time; dt > 0 {
		l.Speed = (last.Odo - first.Odo) / dt
	}
	slowest := math.Inf(1)
	for i := l.First; i <= l.Last; i++ {
		if s := &line.Samples[i]; s.Curvature != 0 && s.Speed < slowest {
			slowest = s.Speed
			l.Speed = slowest
		}
	}
	for i := l.First; i <= l.Last; i++ { // the bar or the entry itself
		if s := &line.Samples[i]; s.Committed {
			l.Time = s.Time
			if s.Mode == dog.Inside {
				break
			}
		}
	}
}

// natural returns where a dog that nobody turns leaves what stands before leg i:
// it came on the shortest way to the middle of the bar and goes straight on.
func (r *Reading) natural(i int, d *dog.Dog) geom.Pose {
	if i == 0 {
		return geom.Pose{At: r.Course.Start, Heading: r.Course.Start.Towards(r.Entries[r.right[0]].At)}
	}
	e := &r.Entries[r.right[i-1]]
	if e.Kind == course.Table {
		return r.Line.across[i-1].out
	}
	if !e.Kind.Jumped() {
		return e.Exit
	}
	from := geom.Pose{At: r.Course.Start, Heading: r.Course.Start.Towards(e.At)}
	if i > 1 {
		from = r.Line.across[i-2].out
	}
	radius := 1 / d.Tightest(0.5*(d.Collected+d.Extended))
	off := geom.ToPoint(from, e.At, radius).End().Heading.Off(e.Heading)
	limit := min(e.Left, widest[e.Kind])
	way := geom.Pose{At: e.At, Heading: (e.Heading + off.Clamp(limit)).Wrap()}
	return geom.Pose{At: way.Ahead(over(e, off.Clamp(limit))), Heading: way.Heading}
}

// meets returns what lies on the exit line of leg i, nearest first.
func (r *Reading) meets(from geom.Pose, i int) []Meeting {
	own := -1
	if i > 0 {
		own = r.Entries[r.right[i-1]].Obstacle
	}
	var met []Meeting
	line := geom.Segment{A: from.At, B: from.Ahead(farLine)}
	entry := 0
	for o := range r.Course.Obstacles {
		m := Meeting{Obstacle: o, Entry: -1, Range: math.Inf(1)}
		for _, w := range r.Course.Obstacles[o].Footprint() {
			if t, ok := line.Meets(w); ok {
				m.Range = min(m.Range, t*farLine)
			}
		}
		for ; entry < len(r.Entries) && r.Entries[entry].Obstacle == o; entry++ {
			if t, ok := r.takes(from, line, &r.Entries[entry]); ok && t*farLine <= m.Range+1e-9 {
				m.Range, m.Entry = t*farLine, entry
			}
		}
		if o != own && m.Range < farLine {
			met = append(met, m)
		}
	}
	sort.SliceStable(met, func(a, b int) bool { return met[a].Range < met[b].Range })
	return met
}

// takes reports where a dog running straight along line goes into e's opening.
func (r *Reading) takes(from geom.Pose, line geom.Segment, e *course.Entry) (float64, bool) {
	off := from.Heading.Off(e.Heading)
	limit := e.Left
	if off < 0 {
		limit = e.Right
	}
	if off.Abs() > min(limit, geom.Deg(80)) {
		return 0, false
	}
	p := geom.Pose{At: e.At, Heading: e.Heading}
	return line.Meets(geom.Segment{A: p.Beside(-e.Half), B: p.Beside(e.Half)})
}
