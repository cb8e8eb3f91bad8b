package reading

import (
	"math"
	"sort"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim/dog"
)

// View is one entry that comes before the dog's eyes on a leg. Bearing, range and
// the comparison with the right one are those of the moment when it stood nearest
// to straight ahead.
type View struct {
	Entry      int
	Right      bool       // it is the one to take
	First      float64    // seconds since the release when it first came before the dog's eyes
	InView     float64    // seconds before its eyes in all
	Bearing    geom.Angle // off the dog's heading, right positive
	Range      float64    // metres
	Separation geom.Angle // between it and the right one, from where the dog then is
	Farther    float64    // metres it is farther off than the right one; negative: nearer
	Pull       float64    // chance that it gets an unhandled dog on this leg
	Wrong      bool       // wrong side or wrong end of the obstacle to take
}

// Before the dog's eyes is: open to view at least this much, no farther off than
// this, and within the dog's width of attention off its heading.
const (
	openEnough = 0.25
	viewRange  = 20.0
)

// flux is the chance that a trap gets the dog at one sample.
type flux struct {
	sample, entry int
	p             float64
}

// looker goes through the samples of a leg.
type looker struct {
	r     *Reading
	scene *dog.Scene
	dog   *dog.Dog
	seen  []dog.Seen
	views []View // by entry; Entry -1 where not seen yet
	order []int
	flux  []flux
}

// look fills the views of every leg and ranks the traps.
func (r *Reading) look(scene *dog.Scene, d *dog.Dog) {
	k := &looker{r: r, scene: scene, dog: d, views: make([]View, len(r.Entries))}
	for i := range r.Legs {
		k.leg(&r.Legs[i])
	}
	sort.SliceStable(r.Traps, func(a, b int) bool { return r.Traps[a].Pull > r.Traps[b].Pull })
}

// leg looks at every sample of one leg with nobody to be seen.
func (k *looker) leg(l *Leg) {
	for i := range k.views {
		k.views[i] = View{Entry: -1}
	}
	k.order, k.flux = k.order[:0], k.flux[:0]
	left := 1.0
	for i := l.First; i >= 0 && i < l.Last; i++ {
		s := &k.r.Line.Samples[i]
		if s.Committed || s.Mode == dog.Inside {
			continue
		}
		left = k.sample(l, i, left)
	}
	k.keep(l)
}

// sample looks once; left is the share of dogs that nothing has got yet.
func (k *looker) sample(l *Leg, i int, left float64) float64 {
	s := &k.r.Line.Samples[i]
	dt := k.r.Line.Samples[i+1].Time - s.Time
	last, since := -1, 10.0
	if l.Number > 1 {
		last, since = k.r.Entries[k.r.right[l.Number-2]].Obstacle, s.Time-k.r.Legs[l.Number-2].Time
		if s.Mode == dog.Air {
			since = 0
		}
	}
	sight := dog.Sight{
		Body: dog.Body{At: s.At, Heading: s.Heading, Speed: s.Speed, Turn: s.Curvature, Mode: s.Mode, Entry: -1},
		Lead: dog.Lead{Heading: s.Heading}, Handler: geom.Point{X: -1e6, Y: -1e6}, Last: last, Since: since, All: true,
	}
	view := k.scene.Look(k.dog, &sight, k.seen[:0])
	k.seen = view.Seen
	sum := view.Sum
	gone := 0.0
	if sum > 0 {
		gone = left * (1 - math.Exp(-sum*dt))
	}
	right := k.r.right[l.Number-1]
	for j := range k.seen {
		k.note(l, s, &k.seen[j], right, dt)
		if v := &k.seen[j]; v.Pull > 0 {
			k.views[v.Entry].Pull += gone * v.Pull / sum
			if v.Entry != right {
				k.flux = append(k.flux, flux{i, v.Entry, gone * v.Pull / sum})
			}
		}
	}
	return left - gone
}

// note keeps what is before the dog's eyes.
func (k *looker) note(l *Leg, s *Sample, seen *dog.Seen, right int, dt float64) {
	if seen.Visible < openEnough || seen.Range > viewRange || seen.Bearing.Abs() > k.dog.Attention {
		return
	}
	e := &k.r.Entries[seen.Entry]
	to := &k.r.Entries[right]
	v := &k.views[seen.Entry]
	if v.Entry < 0 {
		pull := v.Pull
		*v = View{Entry: seen.Entry, Right: seen.Entry == right, First: s.Time, Bearing: math.Pi, Pull: pull}
		v.Wrong = !v.Right && e.Obstacle == to.Obstacle
		k.order = append(k.order, seen.Entry)
	}
	v.InView += dt
	if seen.Bearing.Abs() < v.Bearing.Abs() || v.Bearing == math.Pi {
		v.Bearing, v.Range = seen.Bearing, seen.Range
		v.Separation = s.At.Towards(e.At).Off(s.At.Towards(to.At)).Abs()
		v.Farther = seen.Range - s.At.Dist(to.At)
	}
}

// leastPull is the chance below which an entry is no trap (C).
const leastPull = 0.01

// keep moves what was gathered to the leg and the traps.
func (k *looker) keep(l *Leg) {
	tables := map[int]bool{}
	for _, i := range k.order {
		e := &k.r.Entries[i]
		if e.Kind == course.Table { // its four sides are one thing to look at
			if tables[e.Obstacle] {
				continue
			}
			tables[e.Obstacle] = true
		}
		l.Views = append(l.Views, k.views[i])
	}
	for i := range k.views {
		right := k.r.right[l.Number-1]
		table := k.r.Entries[i].Kind == course.Table && k.r.Entries[i].Obstacle == k.r.Entries[right].Obstacle
		if i != right && !table && k.views[i].Pull >= leastPull {
			k.r.Traps = append(k.r.Traps, k.trap(l, i))
		}
	}
}
