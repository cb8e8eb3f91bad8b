package sim

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/plan/team"
)

// sketch is a small course with a plan and a team, under construction.
type sketch struct {
	start   geom.Point
	obs     []course.Obstacle
	order   []course.Step
	leadOut geom.Point
	cues    []plan.Cue
	team    team.Team
}

func (l *sketch) setup() *Setup {
	c := &course.Course{Name: "layout", Ring: geom.Point{X: 100, Y: 100}, Start: l.start, Obstacles: l.obs, Order: l.order}
	return New(c, &plan.Plan{LeadOut: l.leadOut, Cues: l.cues}, &l.team)
}

func (l *sketch) rehearse() *Rehearsal { return l.setup().Rehearse() }

// copy returns a layout that can be changed without changing l.
func (l *sketch) copy() *sketch {
	k := *l
	k.obs = append([]course.Obstacle(nil), l.obs...)
	for i := range k.obs {
		k.obs[i].Through = append([]geom.Point(nil), l.obs[i].Through...)
	}
	k.order = append([]course.Step(nil), l.order...)
	k.cues = append([]plan.Cue(nil), l.cues...)
	return &k
}

// add puts a jump in the ring and returns its index.
func (l *sketch) add(at geom.Point, facing geom.Angle) int {
	o := course.Obstacle{ID: fmt.Sprintf("o%d", len(l.obs)), Kind: course.Jump, At: at, Facing: facing.Wrap(), Wings: true}
	o.Defaults(0.6)
	l.obs = append(l.obs, o)
	return len(l.obs) - 1
}

// next puts a jump in the ring and gives it the next number.
func (l *sketch) next(at geom.Point, facing geom.Angle) int {
	i := l.add(at, facing)
	l.order = append(l.order, course.Step{Obstacle: i})
	return i
}

func (l *sketch) cue(k plan.Cue) { l.cues = append(l.cues, k) }

// stand adds a cue at a moment with a stand.
func (l *sketch) stand(m plan.Moment, at geom.Point) {
	l.cue(plan.Cue{When: m, Stand: at, HasStand: true})
}

func released() plan.Cue { return plan.Cue{When: plan.Moment{Event: plan.Release}, Pace: plan.Run} }

func takeOff(n int, strides float64) plan.Moment {
	return plan.Moment{Number: n, Event: plan.TakeOff, Strides: strides}
}

func landing(n int) plan.Moment { return plan.Moment{Number: n, Event: plan.Landing} }

func largeTeam() *team.Team {
	t, err := team.Preset("large", "average")
	if err != nil {
		panic(err)
	}
	return &t
}

func jumpAt(id string, x, y, deg float64) course.Obstacle {
	o := course.Obstacle{ID: id, Kind: course.Jump, At: geom.Point{X: x, Y: y}, Facing: geom.Deg(deg), Wings: true}
	o.Defaults(0.6)
	return o
}

func dice(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 0x6c61)) }

func within(r *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }

func side(r *rand.Rand) float64 {
	if r.IntN(2) == 0 {
		return -1
	}
	return 1
}

// turning is the layout most laws are tried on: two jumps in a line, then the right
// jump after a turn. The handler runs on the inside of the turn.
type turning struct {
	sketch
	s     float64   // +1 turns right, -1 left
	turn  float64   // degrees
	pivot geom.Pose // where the dog lands from the second jump, heading as it flew
	right int
	trap  int // -1 for none
}

// newTurning makes a turn of turn degrees at the second jump with the right jump
// dist metres from the landing.
func newTurning(r *rand.Rand, turn, dist float64) *turning {
	t := &turning{s: side(r), turn: turn, trap: -1}
	t.team = *largeTeam()
	t.start = geom.Point{X: 50, Y: 30}
	a := t.start.Add(geom.Point{X: within(r, -0.3, 0.3), Y: within(r, 4, 5)})
	b := geom.Point{X: 50, Y: a.Y + within(r, 5, 6.5)}
	t.next(a, 0)
	t.next(b, 0)
	t.pivot = geom.Pose{At: b.Add(geom.Point{Y: 1.2})}
	t.right = t.next(t.spot(turn, dist), geom.Deg(t.s*turn))
	t.leadOut = geom.Point{X: 50 + t.s*within(r, 1.4, 2), Y: b.Y - within(r, 2.5, 3.5)}
	return t
}

// spot returns the place dist metres from the landing, deg degrees off straight on
// toward the side of the turn.
func (t *turning) spot(deg, dist float64) geom.Point {
	return geom.Pose{At: t.pivot.At, Heading: geom.Deg(t.s * deg)}.Ahead(dist)
}

// trapAt puts a wrong jump in the ring, facing the landing.
func (t *turning) trapAt(deg, dist float64) int {
	t.trap = t.add(t.spot(deg, dist), geom.Deg(t.s*deg))
	return t.trap
}

// lead lets the handler run the turn on its inside, in good time.
func (t *turning) lead() {
	b, right := t.obs[1].At, t.obs[t.right].At
	t.cue(released())
	t.stand(takeOff(2, -1.5), b.Add(geom.Point{X: t.s * 2, Y: -1}))
	t.stand(takeOff(3, 0), geom.Pose{At: right, Heading: geom.Deg(t.s * t.turn)}.Beside(t.s*2))
}

// leadShort lets the handler go the way of the turn on its inside, short of any jump
// beyond it, so that no way round one leads him off.
func (t *turning) leadShort() {
	way := geom.Pose{Heading: geom.Deg(t.s * t.turn)}
	for _, at := range []struct {
		when plan.Moment
		dist float64
	}{{takeOff(2, -1.5), 0.8}, {takeOff(3, 0), 4}} {
		if len(t.cues) == 0 {
			t.cue(released())
		}
		way.At = t.spot(t.turn, at.dist)
		t.stand(at.when, way.Beside(t.s*1.9))
	}
}

// leg returns the chances of the leg to the right jump.
func (t *turning) leg() Leg { return t.rehearse().Legs[2] }

// ends returns the chance that a leg ends at an obstacle it should not.
func (l Leg) ends(obstacle int) float64 {
	sum := 0.0
	for _, f := range l.Faults {
		if f.Obstacle == obstacle && (f.Kind == OffCourse || f.Kind == WrongSide) {
			sum += f.Chance
		}
	}
	return sum
}

func (l Leg) chance(kind FaultKind) float64 {
	sum := 0.0
	for _, f := range l.Faults {
		if f.Kind == kind {
			sum += f.Chance
		}
	}
	return sum
}

// layouts is how many random layouts a law is tried on.
func layouts(n int) int {
	if testing.Short() {
		return n / 5
	}
	return n
}

// directional holds a law that is a matter of direction against random layouts:
// high must be above low in the mean, and at least share of the layouts must show
// it or a difference under two points. measure may pass a layout over.
func directional(t *testing.T, n int, share float64, measure func(seed uint64) (low, high float64, ok bool)) {
	t.Helper()
	tried, held, sum := 0, 0, 0.0
	worst, worstSeed := 0.0, uint64(0)
	for seed := range uint64(layouts(n)) {
		low, high, ok := measure(seed)
		if !ok {
			continue
		}
		tried++
		sum += high - low
		if high > low-0.02 {
			held++
		}
		if high-low < worst {
			worst, worstSeed = high-low, seed
		}
	}
	if tried < layouts(n)/2 {
		t.Fatalf("only %d of %d layouts could be tried", tried, layouts(n))
	}
	mean, got := sum/float64(tried), float64(held)/float64(tried)
	t.Logf("mean difference %+.3f, held on %.0f %% of %d layouts, worst %+.3f at seed %d", mean, 100*got, tried, worst, worstSeed)
	if mean <= 0 {
		t.Errorf("mean difference %+.4f has the wrong sign (worst seed %d: %+.3f)", mean, worstSeed, worst)
	}
	if got < share {
		t.Errorf("held on %.0f %% of %d layouts, want %.0f %% (worst seed %d: %+.3f)", 100*got, tried, 100*share, worstSeed, worst)
	}
}

const nineInTen = 0.9

// field returns a random course of mixed obstacles and a plausible plan for it, for
// laws that hold exactly whatever the layout.
func field(seed uint64) *sketch {
	r := dice(seed ^ 0xf1e1d)
	l := &sketch{team: *largeTeam()}
	l.start = geom.Point{X: within(r, 40, 60), Y: within(r, 40, 60)}
	at := geom.Pose{At: l.start, Heading: geom.Deg(within(r, -180, 180))}
	inside := side(r)
	l.leadOut = geom.Pose{At: at.Ahead(within(r, 2, 6)), Heading: at.Heading}.Beside(inside * within(r, 1.5, 2.5))
	l.cue(released())
	n := 4 + r.IntN(4)
	for k := range n {
		way := within(r, 5, 7)
		if k == 0 {
			way = within(r, 4, 5)
		}
		next, ok := l.free(r, at, way, inside)
		if !ok {
			break
		}
		at = next
		l.obs = append(l.obs, someKind(r, len(l.obs), at))
		l.order = append(l.order, course.Step{Obstacle: k})
		if k > 0 {
			l.someCue(r, k+1, at, &inside)
		}
	}
	for range 2 {
		at := geom.Pose{At: geom.Point{X: within(r, 35, 65), Y: within(r, 35, 65)}, Heading: geom.Deg(within(r, -180, 180))}
		if l.clear(at.At, 3.5) {
			l.obs = append(l.obs, someKind(r, len(l.obs), at))
		}
	}
	return l
}

// free finds a place for the next obstacle of a field.
func (l *sketch) free(r *rand.Rand, from geom.Pose, way, inside float64) (geom.Pose, bool) {
	for range 20 {
		turn := geom.Deg(within(r, 0, 75) * inside)
		h := from.Heading + turn
		at := geom.Pose{At: from.At, Heading: h}.Ahead(way)
		if l.clear(at, 4) {
			return geom.Pose{At: at, Heading: (h + turn/3).Wrap()}, true
		}
	}
	return from, false
}

func (l *sketch) clear(at geom.Point, room float64) bool {
	for i := range l.obs {
		if l.obs[i].At.Dist(at) < room {
			return false
		}
	}
	return true
}

func someKind(r *rand.Rand, i int, at geom.Pose) course.Obstacle {
	o := course.Obstacle{ID: fmt.Sprintf("o%d", i), Kind: course.Jump, At: at.At, Facing: at.Heading, Wings: r.IntN(2) == 0}
	switch r.IntN(8) {
	case 0:
		o.Kind = course.Wall
	case 1:
		o.Kind = course.LongJump
	case 2:
		o.Kind = course.Tyre
	case 3:
		o.Kind, o.Wings = course.Tunnel, false
		o.Through = []geom.Point{at.Ahead(-1.5), geom.Pose{At: at.Ahead(0.5), Heading: at.Heading}.Beside(0.3), at.Ahead(1.5)}
	}
	o.Wings = o.Wings && o.Kind == course.Jump
	o.Defaults(0.6)
	return o
}

// someCue adds a cue for number n: where to be, now and then a cross, a stop, a
// drawn-in arm or a word.
func (l *sketch) someCue(r *rand.Rand, n int, at geom.Pose, inside *float64) {
	k := plan.Cue{When: plan.Moment{Number: n, Event: plan.TakeOff, Strides: -float64(r.IntN(3))}, Pace: plan.Run, HasStand: true}
	before, _ := plan.EventsOf(l.obs[n-1].Kind)
	k.When.Event = before
	k.Stand = at.Beside(*inside * within(r, 1.5, 3))
	switch r.IntN(6) {
	case 0:
		k.Cross = plan.FrontCross
		*inside = -*inside
	case 1:
		k.Pace = plan.Stop
	case 2:
		k.Signal = plan.Pull
	case 3:
		k.Word = []string{"come", "go", "left", "right", "turn", "out", "tunnel"}[r.IntN(7)]
	case 4:
		k.Shoulders = plan.Shoulders{Facing: plan.FaceDog}
	}
	l.cue(k)
}

// figures lists everything the report says of a run's legs, for comparing.
func figures(r *Rehearsal) []float64 {
	out := []float64{r.Time, r.Length, r.Clean}
	for _, l := range r.Legs {
		radius := l.Radius
		if math.IsInf(radius, 1) || radius > 50 { // as good as straight
			radius = 50
		}
		out = append(out, l.Clean, l.Speed, l.Stride, l.TakeOff, l.Landing, l.Flight, l.Time, radius)
		for k := range FaultKinds {
			out = append(out, l.chance(k))
		}
	}
	return out
}

// sameFigures requires two runs to have the same figures within tol.
func sameFigures(t *testing.T, seed uint64, want, got *Rehearsal, tol float64) {
	t.Helper()
	w, g := figures(want), figures(got)
	if len(w) != len(g) {
		t.Errorf("seed %d: %d figures, want %d", seed, len(g), len(w))
		return
	}
	const perLeg = 8 + int(FaultKinds)
	for i := range w {
		if math.Abs(w[i]-g[i]) > tol*(1+math.Abs(w[i])) {
			t.Errorf("seed %d: figure %d of leg %d is %.9g, want %.9g", seed, (i-3)%perLeg, (i-3)/perLeg+1, g[i], w[i])
			return
		}
	}
}
