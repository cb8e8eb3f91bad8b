// Package slack says how much room each cue of a plan has: from how early to how late it
// may come, and how far off its place the handler may be, before the run gets worse. It is
// worked out from likely runs, chances by integration: no luck is drawn, so that it is the
// same each time.
//
// Lengths are metres, times seconds. A constant marked C is chosen here and has no source.
package slack

import (
	"context"
	"runtime"
	"sync"

	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/sim"
	"cuewalk/sim/search"
)

// Allowed is by how much the chance of a clean run may fall below the best that the cue
// could do before it has no slack left.
const Allowed = 0.05

// How far is looked (C).
const (
	mostStrides = 2.5 // either way
	mostOff     = 3.0 // metres
	further     = 2   // numbers past the one a cue is for: what comes later is told by these
)

// offs are the distances off a stand that are tried, metres, nearest first.
var offs = [...]float64{0.5, 1, 2, mostOff}

// Cue is the room of one cue.
type Cue struct {
	Timed       bool    // it has a moment that can be shifted; else Early and Late mean nothing
	Early, Late float64 // seconds it may come sooner and later; negative: it is too soon, or too late, by so much already
	EarlyStep   float64 // the same in strides
	LateStep    float64
	EarlyMore   bool    // there is more room than was looked at
	LateMore    bool    //
	Placed      bool    // it has a stand; else Off means nothing
	Off         float64 // metres the handler may be off his place, any way; negative: he should stand so far off it
	Way         Way     // the way in which he may be off least, or should be
	OffMore     bool    // there is more room than was looked at
}

// Way is a way off a place, seen along the dog's line.
type Way uint8

// The ways.
const (
	Ahead Way = iota
	ToTheRight
	Behind
	ToTheLeft
	ways
)

// String returns the way in words, as the dog runs.
func (w Way) String() string {
	return [...]string{"ahead", "to the right", "behind", "to the left"}[w]
}

// Slack is the room of all cues of a plan.
type Slack struct {
	Cues     []Cue // by cue of the plan
	Tightest int   // the cue with the least room in time; -1 for none
}

// Of works out the slack of every cue of a rehearsed plan, over all cores. It returns ctx's
// error when cancelled.
func Of(ctx context.Context, r *sim.Rehearsal) (*Slack, error) {
	s := &Slack{Cues: make([]Cue, len(r.Setup.Plan.Cues)), Tightest: -1}
	likely := *r.Setup.Rehearse() // r's own legs may be counted in runs
	likely.Clean = r.Clean
	var wg sync.WaitGroup
	next := make(chan int)
	for range min(runtime.GOMAXPROCS(0), len(s.Cues)) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for k := range next {
				if ctx.Err() == nil {
					s.Cues[k] = newProbe(&likely, k).cue()
				}
			}
		}()
	}
	for k := range s.Cues {
		next <- k
	}
	close(next)
	wg.Wait()
	for k := range s.Cues {
		if c := &s.Cues[k]; c.Timed && (s.Tightest < 0 || c.tighter(&s.Cues[s.Tightest])) {
			s.Tightest = k
		}
	}
	return s, ctx.Err()
}

// tighter reports whether c has less room in time than o. A cue that is best moved first
// says nothing of how exactly it must be given, and comes behind those that are not.
func (c *Cue) tighter(o *Cue) bool {
	if a, b := min(c.Early, c.Late), min(o.Early, o.Late); (a >= 0) != (b >= 0) {
		return a >= 0
	} else if a != b {
		return a < b
	}
	return c.Early+c.Late < o.Early+o.Late
}

// probe tries changes of one cue.
type probe struct {
	r     *sim.Rehearsal
	k     int
	to    int     // number up to which is looked
	run   float64 // chance of a clean run of the plan as it is
	near  float64 // and of a clean run up to there
	draft search.Draft
	flaws int
}

func newProbe(r *sim.Rehearsal, k int) *probe {
	s := r.Setup
	p := &probe{r: r, k: k, run: r.Clean, draft: search.NewDraft(s.Course, s.Plan, s.Team)}
	p.to = min(len(r.Legs), s.Plan.Cues[k].When.Number+1+further)
	p.near = product(r.Legs[:p.to])
	p.flaws = len(s.Plan.Check(s.Course, s.Team))
	return p
}

func product(legs []sim.Leg) float64 {
	all := 1.0
	for i := range legs {
		all *= legs[i].Clean
	}
	return all
}

// chance returns the chance of a clean run of a changed plan; -1 where it cannot be run.
func (p *probe) chance(q plan.Plan) float64 {
	s := p.r.Setup
	if len(q.Check(s.Course, s.Team)) > p.flaws {
		return -1
	}
	if p.near == 0 {
		return 0
	}
	return min(1, p.run*product(s.WithPlan(&q).RehearseTo(p.to).Legs)/p.near)
}

func (p *probe) cue() Cue {
	var c Cue
	was := &p.r.Setup.Plan.Cues[p.k]
	if was.When.Event != plan.Release {
		p.times(&c)
	}
	if was.HasStand {
		p.places(&c)
	}
	return c
}

// times fills in the room in time.
func (p *probe) times(c *Cue) {
	const steps = int(2 * mostStrides)
	var chances [2*steps + 1]float64
	best := steps
	for i := range chances {
		chances[i] = p.run
		if by := float64(i-steps) / 2; by != 0 {
			chances[i] = p.chance(p.draft.Shifted(p.k, by))
		}
		if chances[i] > chances[best] {
			best = i
		}
	}
	if chances[steps] >= chances[best]-Allowed {
		best = steps // it is as good as any where it is: the room is round it
	}
	top := chances[best]
	for _, x := range chances {
		top = max(top, x)
	}
	from, to := best, best
	for from > 0 && chances[from-1] >= top-Allowed {
		from--
	}
	for to < len(chances)-1 && chances[to+1] >= top-Allowed {
		to++
	}
	c.Timed = true
	c.EarlyStep, c.LateStep = float64(steps-from)/2, float64(to-steps)/2
	c.EarlyMore, c.LateMore = from == 0, to == len(chances)-1
	stride := p.stride()
	c.Early, c.Late = c.EarlyStep*stride, c.LateStep*stride
}

// stride returns the seconds a stride takes on the leg the cue is given on.
func (p *probe) stride() float64 {
	leg := &p.r.Legs[min(len(p.r.Legs), max(1, p.r.Setup.Plan.Cues[p.k].When.Number))-1]
	if leg.Speed <= 0 {
		return 0
	}
	return leg.Stride / leg.Speed
}

// places fills in the room in place: the least of four ways.
func (p *probe) places(c *Cue) {
	along := geom.Angle(0)
	if i := p.r.Cues[p.k+1].Sample; i >= 0 {
		along = p.r.Trace.Samples[i].Dog.Heading
	}
	at := p.r.Setup.Plan.Cues[p.k].Stand
	var chances [ways][len(offs)]float64
	best := p.run
	for w := range ways {
		way := (along + geom.Deg(90)*geom.Angle(w)).Unit()
		for i, off := range offs {
			chances[w][i] = p.chance(p.draft.Put(p.k, at.Add(way.Mul(off))))
			best = max(best, chances[w][i])
		}
	}
	c.Placed = true
	if p.run < best-Allowed {
		c.Off, c.Way = nearest(&chances, best)
		return
	}
	c.Off, c.OffMore = mostOff, true
	for w := range ways {
		room := 0.0
		for i, off := range offs {
			if chances[w][i] < best-Allowed {
				if room < c.Off {
					c.Off, c.Way, c.OffMore = room, w, false
				}
				break
			}
			room = off
		}
	}
}

// nearest returns the nearest place that is good enough, its distance as a negative number.
func nearest(chances *[ways][len(offs)]float64, best float64) (float64, Way) {
	for i, off := range offs {
		for w := range ways {
			if chances[w][i] >= best-Allowed {
				return -off, w
			}
		}
	}
	return 0, Ahead
}
