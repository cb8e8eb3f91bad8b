package reading

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim/dog"
)

// The best line is the quickest one that this dog can run through the numbered
// course with nobody handling: each leg is a shortest path of bounded curvature
// (Dubins 1957) from landing to take-off, at the radius of the speed it turns at;
// over a jump the track is straight. Which speed, which part of the bar and which
// angle are chosen over the whole course at once, by dynamic programming on a grid
// that is refined once. The shortest line at any speed would be that of a dog
// crawling at its smallest radius; quickness settles the speed.

// hitCost is what running through an obstacle costs in seconds, so that it is
// chosen only where nothing else was found.
const hitCost = 3.0

// chosen is the best way to one crossing.
type chosen struct {
	crossing
	path  geom.Path
	speed float64 // the turn's
	cost  float64
	hits  int
	from  int     // index among those of the number before
	way   float64 // metres over or through the obstacle
}

// run returns the best line, and the entry it takes at each number.
func run(c *course.Course, scene *dog.Scene, d *dog.Dog) (Line, []int) {
	r := &runner{course: c, scene: scene, dog: d}
	for _, share := range []float64{0, 0.4, 1} {
		r.levels = append(r.levels, d.Collected+share*(d.Extended-d.Collected))
	}
	for i := range c.Obstacles {
		r.walls = append(r.walls, c.Obstacles[i].Footprint()...)
	}
	mid := (d.Collected + d.Extended) / 2
	choices := make([]choice, len(c.Order))
	for i := range choices {
		choices[i] = choice{entry: -1, angleStep: 0.5, offsetStep: 1, angles: 2, offsetsEach: 1, speedIn: mid, speedOut: mid}
	}
	best := r.search(choices)
	r.refine(choices, best)
	best = r.search(choices)
	right := make([]int, len(best))
	for i := range best {
		right[i] = best[i].entry
	}
	return r.line(best), right
}

// refine narrows the choices to what lies round the best, with the speeds found.
func (r *runner) refine(choices []choice, best []chosen) {
	for i := range choices {
		b, e := &best[i], &r.scene.Entries[best[i].entry]
		ch := &choices[i]
		ch.entry = b.entry
		if limit := limited(e, math.Copysign(1, float64(b.angle))).Abs(); limit > 0 {
			ch.angle = float64(b.angle / limit)
		}
		if room(e) > 0 {
			ch.offset = b.offset / room(e)
		}
		ch.angleStep, ch.offsetStep = 0.17, 0.4
		ch.speedIn = min(b.speed+0.5*(r.dog.Extended-b.speed), r.dog.BarSpeed(e.Height))
		ch.speedOut = ch.speedIn
		if i+1 < len(best) {
			ch.speedOut = min(ch.speedIn, best[i+1].speed)
			ch.speedIn = min(ch.speedIn, best[i+1].speed+1.5) // it brakes before it takes off
		}
	}
}

// search returns the best crossing of every number.
func (r *runner) search(choices []choice) []chosen {
	first := r.course.Entry(1)
	layers := make([][]chosen, len(choices)+1)
	layers[0] = []chosen{{crossing: crossing{entry: -1, out: geom.Pose{At: r.course.Start, Heading: r.course.Start.Towards(first.At)}}}}
	var tried []crossing
	for i := range choices {
		tried = r.crossings(r.course.Order[i], choices[i], tried[:0])
		r.nearby(layers[i][0].out.At, tried[0].in.At)
		layer := make([]chosen, len(tried))
		for k := range tried {
			layer[k] = r.reachBest(layers[i], tried[k])
		}
		layers[i+1] = layer
	}
	return trace(layers)
}

func trace(layers [][]chosen) []chosen {
	last := len(layers) - 1
	at := 0
	for k := range layers[last] {
		if layers[last][k].cost < layers[last][at].cost {
			at = k
		}
	}
	best := make([]chosen, last)
	for i := last; i > 0; i-- {
		best[i-1] = layers[i][at]
		at = layers[i][at].from
	}
	return best
}

// nearby keeps the walls that a leg between two places may meet.
func (r *runner) nearby(a, b geom.Point) {
	leg := geom.Segment{A: a, B: b}
	r.near = r.near[:0]
	for _, w := range r.walls {
		if leg.Gap(w) < 5 {
			r.near = append(r.near, w)
		}
	}
}

// reachBest returns the quickest way to c from any crossing of the number before.
func (r *runner) reachBest(before []chosen, c crossing) chosen {
	best := chosen{crossing: c, cost: math.Inf(1)}
	slice := 0.15*float64(c.angle*c.angle) + 0.03*c.offset*c.offset // seconds: a bar met askew is a riskier one (C)
	for i := range before {
		b := &before[i]
		base := b.cost + slice
		if base+b.out.At.Dist(c.in.At)/r.dog.Extended >= best.cost {
			continue
		}
		for _, v := range r.levels {
			path := geom.Dubins(b.out, c.in, 1/r.dog.Tightest(v))
			cost := base + r.seconds(&path, v)
			if cost >= best.cost-1e-9 {
				continue
			}
			hits := hits(&path, r.near)
			if cost += hitCost * float64(hits); cost < best.cost-1e-9 {
				best.path, best.speed, best.cost, best.from, best.hits = path, v, cost, i, hits
			}
		}
	}
	return best
}

// seconds estimates the time of a leg: arcs at speed v, the straight with a burst
// of speed and back.
func (r *runner) seconds(p *geom.Path, v float64) float64 {
	straight := 0.0
	for _, s := range p.Segments {
		if s.Turn == geom.Straight {
			straight += s.Length
		}
	}
	a, b := r.dog.Acceleration, r.dog.Braking
	top := math.Sqrt(v*v + 2*a*b/(a+b)*straight)
	if top <= r.dog.Extended {
		return (p.Length-straight)/v + (top-v)/a + (top-v)/b
	}
	top = r.dog.Extended
	burst := (top*top - v*v) / 2 * (1/a + 1/b)
	return (p.Length-straight)/v + (top-v)/a + (top-v)/b + (straight-burst)/top
}

// hits returns how many times a path meets walls. Its ends are left out: there the
// dog takes an obstacle.
func hits(p *geom.Path, walls []geom.Segment) int {
	const ends, chord = 0.25, 0.45
	if len(walls) == 0 {
		return 0
	}
	count, pose, gone := 0, p.From, 0.0
	for _, seg := range p.Segments {
		first, last := max(0, ends-gone), min(seg.Length, p.Length-ends-gone)
		gone += seg.Length
		k := float64(seg.Turn) / p.Radius
		if last > first {
			n := 1.0
			if seg.Turn != geom.Straight {
				n = math.Ceil((last - first) / chord)
			}
			from := pose.Arc(first, k).At
			for i := 1.0; i <= n; i++ {
				to := pose.Arc(first+(last-first)*i/n, k).At
				count += met(geom.Segment{A: from, B: to}, walls)
				from = to
			}
		}
		pose = pose.Arc(seg.Length, k)
	}
	return count
}

// met returns how many walls a step meets.
func met(step geom.Segment, walls []geom.Segment) int {
	count := 0
	for _, w := range walls {
		if _, ok := step.Meets(w); ok {
			count++
		}
	}
	return count
}
