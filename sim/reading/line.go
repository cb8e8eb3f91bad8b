package reading

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim/dog"
)

// Line is the dog's best line, sampled.
type Line struct {
	Samples []Sample
	Ground  [][]geom.Path // by leg: the paths on the ground, one after another
	across  []chosen
	blocked []bool
}

// Sample is one instant of the best line.
type Sample struct {
	At        geom.Point
	Heading   geom.Angle
	Odo       float64 // metres since the start
	Time      float64 // seconds since the release
	Speed     float64 // m/s
	Curvature float64 // 1/m, right positive
	Mode      dog.Mode
	Leg       int // number the dog is on its way to; over or in an obstacle, the one before it is past the bar
	Committed bool
}

// spacing is the distance between two samples in metres: about what a dog covers
// between two looks.
const spacing = 0.2

// length returns the metres from the start to the last bar or exit.
func (l *Line) length() float64 {
	sum := 0.0
	for i := range l.across {
		sum += l.distance(i) + l.across[i].way
	}
	return sum
}

// distance returns the metres of leg i (from 0), from exit or bar to entry or bar.
func (l *Line) distance(i int) float64 {
	sum := l.across[i].before
	if i > 0 {
		sum += l.across[i-1].behind
	}
	for k := range l.Ground[i] {
		sum += l.Ground[i][k].Length
	}
	return sum
}

// line puts the samples of the chosen crossings together.
func (r *runner) line(best []chosen) Line {
	l := Line{across: best, Ground: make([][]geom.Path, len(best)), blocked: make([]bool, len(best))}
	w := writer{r: r, l: &l}
	from := geom.Pose{At: r.course.Start, Heading: r.course.Start.Towards(r.course.Entry(1).At)}
	for i := range best {
		b := &best[i]
		e := &r.scene.Entries[b.entry]
		b.way = b.through(e)
		r.nearby(from.At, b.in.At)
		l.Ground[i], l.blocked[i] = r.round(from, b)
		for k := range l.Ground[i] {
			w.ground(&l.Ground[i][k], b.speed, i+1)
		}
		w.obstacle(b, e, i+1)
		from = b.out
	}
	w.pace()
	return l
}

// round returns the ground path of a leg, round what stands in its way where there
// is such a way, and whether it still runs through something.
func (r *runner) round(from geom.Pose, b *chosen) ([]geom.Path, bool) {
	if b.hits == 0 {
		return []geom.Path{b.path}, false
	}
	via, ok := geom.Way(from.At, b.in.At, r.near, 0.35, nil)
	if !ok || len(via) < 2 {
		return []geom.Path{b.path}, true
	}
	radius := 1 / r.dog.Tightest(r.dog.Collected)
	var paths []geom.Path
	at, count := from, 0
	for i := range via {
		to := b.in
		if i < len(via)-1 {
			before := at.At.Towards(via[i])
			to = geom.Pose{At: via[i], Heading: (before + via[i].Towards(via[i+1]).Off(before)/2).Wrap()}
		}
		p := geom.Dubins(at, to, radius)
		count += hits(&p, r.near)
		paths = append(paths, p)
		at = to
	}
	if count >= b.hits {
		return []geom.Path{b.path}, true
	}
	b.speed = r.dog.Collected
	return paths, count > 0
}

// writer appends samples.
type writer struct {
	r     *runner
	l     *Line
	odo   float64
	limit []float64 // highest speed at each sample
	held  []float64 // seconds from the sample before inside an obstacle; 0 elsewhere
}

func (w *writer) add(p geom.Pose, odo, k, limit, held float64, mode dog.Mode, leg int, committed bool) {
	w.l.Samples = append(w.l.Samples, Sample{At: p.At, Heading: p.Heading, Odo: odo, Curvature: k, Mode: mode, Leg: leg, Committed: committed})
	w.limit, w.held = append(w.limit, limit), append(w.held, held)
}

// ground samples one path.
func (w *writer) ground(p *geom.Path, v float64, leg int) {
	n := max(1, int(math.Ceil(p.Length/spacing)))
	for i := range n {
		s := p.Length * float64(i) / float64(n)
		k, limit := 0.0, w.r.dog.Extended
		if t := bendAt(p, s); t != geom.Straight {
			k, limit = float64(t)/p.Radius, v
		}
		w.add(p.At(s), w.odo+s, k, limit, 0, dog.Ground, leg, false)
	}
	w.odo += p.Length
}

func bendAt(p *geom.Path, s float64) geom.Turn {
	for _, seg := range p.Segments {
		if s < seg.Length {
			return seg.Turn
		}
		s -= seg.Length
	}
	return geom.Straight
}

// obstacle samples the way over or through an obstacle.
func (w *writer) obstacle(b *chosen, e *course.Entry, leg int) {
	if e.Kind.Jumped() {
		w.flight(b, e, leg)
		return
	}
	last := w.r.dog.Through(e, 0.5*(w.r.dog.Collected+w.r.dog.Extended))
	n := max(2, int(math.Ceil(b.way/1.0)))
	way := pipe(w.r.course, e)
	for i := range n {
		t := float64(i) / float64(n)
		p := geom.Pose{At: along(way, t), Heading: along(way, t).Towards(along(way, t+1/float64(n)))}
		held := last / float64(n)
		if i == 0 {
			held = 0
		}
		w.add(p, w.odo+t*b.way, 0, w.r.dog.Extended, held, dog.Inside, leg, true)
	}
	w.odo += b.way
	// Out again: already on the next leg.
	w.add(geom.Pose{At: e.Exit.At, Heading: b.out.Heading}, w.odo, 0, w.r.dog.OutSpeed(e), last/float64(n), dog.Ground, leg+1, false)
	w.odo += b.behind
}

// flight samples a jump: to the bar it belongs to this leg, behind it to the next.
func (w *writer) flight(b *chosen, e *course.Entry, leg int) {
	limit := w.r.dog.BarSpeed(e.Height)
	total := b.before + b.way + b.behind
	n := max(2, int(math.Ceil(total/spacing)))
	for i := range n {
		s := total * float64(i) / float64(n)
		at := leg
		if s > b.before {
			at = leg + 1
		}
		w.add(geom.Pose{At: b.in.Ahead(s), Heading: b.in.Heading}, w.odo+s, 0, limit, 0, dog.Air, at, at == leg)
	}
	w.odo += total
}

// pipe returns the line through an obstacle as the dog meets it.
func pipe(c *course.Course, e *course.Entry) []geom.Point {
	o := &c.Obstacles[e.Obstacle]
	if e.Kind == course.Table {
		return []geom.Point{e.At, e.At.Lerp(e.Exit.At, 0.5)}
	}
	if e.Kind != course.Tunnel {
		return []geom.Point{e.At, e.Exit.At}
	}
	pts := append([]geom.Point(nil), o.Through...)
	if e.Reverse {
		for i, j := 0, len(pts)-1; i < j; i, j = i+1, j-1 {
			pts[i], pts[j] = pts[j], pts[i]
		}
	}
	return pts
}

// along returns the point a share t of the way along pts.
func along(pts []geom.Point, t float64) geom.Point {
	rest := t * geom.PathLength(pts)
	for i := 1; i < len(pts); i++ {
		d := pts[i-1].Dist(pts[i])
		if rest <= d || i == len(pts)-1 {
			return pts[i-1].Lerp(pts[i], min(1, rest/max(d, 1e-9)))
		}
		rest -= d
	}
	return pts[0]
}

// pace works out speeds and times: never faster than a sample's limit, within the
// dog's acceleration and braking. In the air nothing changes its speed.
func (w *writer) pace() {
	s, d := w.l.Samples, w.r.dog
	v := append([]float64(nil), w.limit...)
	for i := len(v) - 2; i >= 0; i-- {
		switch {
		case w.held[i+1] > 0: // an obstacle that has its own time
		case s[i].Mode == dog.Air:
			v[i] = min(v[i], v[i+1])
		default:
			v[i] = min(v[i], math.Sqrt(v[i+1]*v[i+1]+2*d.Braking*(s[i+1].Odo-s[i].Odo)))
		}
	}
	v[0] = min(v[0], 1.5) // as the simulator's dog sets off
	s[0].Speed = v[0]
	for i := 1; i < len(s); i++ {
		ds := s[i].Odo - s[i-1].Odo
		switch {
		case w.held[i] > 0:
			s[i].Time = s[i-1].Time + w.held[i]
			s[i].Speed = v[i]
			continue
		case s[i-1].Mode == dog.Air:
			s[i].Speed = min(v[i], s[i-1].Speed)
		default:
			s[i].Speed = min(v[i], math.Sqrt(s[i-1].Speed*s[i-1].Speed+2*d.Acceleration*ds))
		}
		s[i].Time = s[i-1].Time + ds/max(0.5, 0.5*(s[i].Speed+s[i-1].Speed))
	}
}
