package tui

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/sim"
	"cuewalk/sim/dog"
	"cuewalk/sim/reading"
)

// nowhere is so far off that the dog sees nobody there; nobody is no place at all, which is
// not drawn.
var (
	nowhere = geom.Point{X: -1e6, Y: -1e6}
	nobody  = geom.Point{X: math.NaN(), Y: math.NaN()}
)

// bestRun is the dog's best line as a run that nobody handles: its strides, and each leg's
// traps as what may go wrong on it.
func bestRun(w *walk) *sim.Rehearsal {
	read := w.read
	setup := sim.New(read.Course, &plan.Plan{LeadOut: read.Course.Start}, read.Team)
	r := &sim.Rehearsal{Setup: setup, Length: read.Length, Clean: 1}
	t := tracer{run: r, withers: read.Team.Dog.Withers}
	for i := range read.Line.Samples {
		t.sample(&read.Line.Samples[i])
	}
	before := 0
	for i := range read.Legs {
		l := &read.Legs[i]
		leg := sim.Leg{Number: l.Number, Clean: 1, First: l.First, Last: l.Last, Speed: l.Speed, Radius: l.Radius}
		if leg.First < 0 {
			leg.First, leg.Last = before, before
		}
		before = leg.Last
		for _, p := range w.traps[i] {
			leg.Clean -= p.Pull
			leg.Faults = append(leg.Faults, t.lured(leg, p))
		}
		leg.Clean = max(leg.Clean, 0)
		leg.Low, leg.High = leg.Clean, leg.Clean
		r.Clean *= leg.Clean
		r.Legs = append(r.Legs, leg)
	}
	r.Low, r.High = r.Clean, r.Clean
	return r
}

// tracer turns samples of a line into those of a run.
type tracer struct {
	run     *sim.Rehearsal
	withers float64
	stride  int
	next    float64 // metres at which the next stride ends
	last    int     // obstacle the dog came out of; -1
	out     float64 // seconds since the release when it did
}

// right is the entry to take at course number n; -1 beyond the course.
func (t *tracer) right(n int) int {
	if n < 1 || n > len(t.run.Setup.Course.Order) {
		return -1
	}
	return t.run.Setup.Right(n)
}

func (t *tracer) sample(s *reading.Sample) {
	tr := &t.run.Trace
	k := len(tr.Samples)
	if k == 0 {
		t.last = -1
	}
	b := dog.Body{At: s.At, Heading: s.Heading, Speed: s.Speed, Turn: s.Curvature, Mode: s.Mode, Entry: -1,
		Stride: dog.StrideLength(t.withers, s.Speed)}
	to := s.Leg
	if !s.Committed {
		to-- // past the bar the samples belong to the next leg
	}
	if b.Mode == dog.Air || b.Mode == dog.Inside {
		if b.Entry = t.right(to); b.Entry < 0 {
			b.Mode = dog.Ground
		}
	}
	air, was := b.Mode == dog.Air, k > 0 && tr.Samples[k-1].Dog.Mode == dog.Air
	switch {
	case air && !was:
		t.step(s.At, k, sim.TakeOffMark)
	case was && !air:
		t.step(s.At, k, sim.LandingMark)
		t.next = s.Odo + b.Stride
	case b.Mode == dog.Ground && s.Odo >= t.next:
		t.step(s.At, k, sim.GroundStride)
		t.next = s.Odo + b.Stride
	case b.Mode == dog.Inside && tr.Samples[k-1].Dog.Mode != dog.Inside:
		t.step(s.At, k, sim.GroundStride)
		t.next = s.Odo
	}
	if b.Entry >= 0 {
		t.last, t.out = t.run.Setup.Entries[b.Entry].Obstacle, s.Time
	}
	tr.Samples = append(tr.Samples, sim.Sample{Time: s.Time, Stride: t.stride, Dog: b, Hand: sim.Hand{At: nobody},
		Leg: min(s.Leg, len(t.run.Setup.Course.Order)), Commit: -1, Lead: dog.Lead{Heading: s.Heading}, Last: t.last, Since: s.Time - t.out, Survive: 1})
	t.run.Time = s.Time
}

func (t *tracer) step(at geom.Point, k int, mark sim.Mark) {
	tr := &t.run.Trace
	t.stride++
	tr.Paws = append(tr.Paws, sim.PawPrint{At: at, Sample: k, Mark: mark})
	if mark != sim.LandingMark {
		tr.Strides = append(tr.Strides, k)
	}
}

// lured is a trap as a fault: the dog leaves its line where the trap pulls most.
func (t *tracer) lured(l sim.Leg, p *reading.Trap) sim.Fault {
	e := &t.run.Setup.Entries[p.Entry]
	f := sim.Fault{Kind: sim.OffCourse, Entry: p.Entry, Obstacle: e.Obstacle, Chance: p.Pull, Bearing: p.Bearing,
		Range: p.Range, InView: p.InView, Ahead: p.Ahead, Leaves: -1}
	if p.Wrong {
		f.Kind = sim.WrongSide
	}
	off := math.Inf(1)
	ss := t.run.Trace.Samples
	for i := max(l.First, 0); i <= l.Last && i < len(ss); i++ {
		b := ss[i].Dog
		d := math.Abs(b.At.Dist(e.At)-p.Range) + math.Abs(float64(b.At.Towards(e.At).Off(b.Heading)-p.Bearing))
		if d < off {
			off, f.Leaves = d, i
		}
	}
	if f.Leaves >= 0 {
		f.Path = t.way(ss[f.Leaves].Dog, e)
	}
	return f
}

// way is how the dog runs from where it is to an entry, as tightly as it can at its speed.
func (t *tracer) way(b dog.Body, e *course.Entry) []geom.Point {
	const apart = 0.3 // metres
	p := geom.ToPoint(geom.Pose{At: b.At, Heading: b.Heading}, e.At, 1/t.run.Setup.Dog().Tightest(b.Speed))
	n := int(min(max(p.Length/apart, 1), 200))
	out := make([]geom.Point, n+1)
	for i := range out {
		out[i] = p.At(p.Length * float64(i) / float64(n)).At
	}
	return out
}
