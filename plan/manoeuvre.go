package plan

import (
	"cuewalk/course"
	"cuewalk/course/geom"
)

// How a cue without `cross` gets its name, the first that fits. The dog's line is
// the nominal one, the cue's number is that of its moment. Common practice, no
// source; the figures are our reading of it.
//
//   - Front, blind, rear: the arm changes, and the stands change the side of the
//     dog's line. Rear where he is behind the dog at the cue. Front where he is
//     ahead and faces the dog (shoulders "dog") or turns back by more than turnsBack
//     from the dog's way in; blind where he goes on.
//   - Threadle: the arm pulls, and the dog comes to the next obstacle from beside
//     or behind it (its way begins no more than level in front of the entry): it has
//     to come through between two obstacles first.
//   - Wrap: after the number the dog turns by more than wrapTurn, and the handler
//     waits or walks within nearUpright of it.
//   - Serpentine: three numbers that the dog weaves through, turning by more than
//     weaveTurn one way and then the other, with the shoulders to the dog and
//     without a change of arm.
//   - Layering: the handler is more than layerGap from the dog's way to the next
//     number, with an obstacle in between that is neither this number nor the next.
//   - Post turn: after the number the dog turns by more than postTurn, and the
//     handler on the inside goes round the same way by more than postWay.
//
// A cue that changes neither place, pace, arm, signal nor shoulders has no name.
var (
	wrapTurn  = geom.Deg(135)
	weaveTurn = geom.Deg(45)
	postTurn  = geom.Deg(45)
	postWay   = geom.Deg(30)
	turnsBack = geom.Deg(120)
)

const (
	nearUpright = 3.5 // metres from the middle of the obstacle
	levelWith   = 1.0 // metres in front of an entry that count as beside it
	layerGap    = 2.0 // metres
)

// recogniser names the manoeuvres of one plan.
type recogniser struct {
	c       *course.Course
	p       *Plan
	actions []Action // the lead-out, then one for each cue
	line    *line
}

// recognise names cue i in the trade's words.
func (r *recogniser) recognise(i int) Manoeuvre {
	switch r.p.Cues[i].Cross {
	case FrontCross:
		return Front
	case BlindCross:
		return Blind
	case RearCross:
		return Rear
	}
	k := r.p.Cues[i]
	if !k.HasStand && k.Pace == SamePace && k.Arm == SameArm && k.Signal == Along && k.Shoulders.Facing == SameFacing {
		return NoManoeuvre
	}
	g := r.line.passage(r.p, i)
	switch {
	case r.actions[i+1].Arm != r.actions[i].Arm && g.changesSide():
		return r.unwritten(i, &g)
	case r.threadle(i):
		return Threadle
	case r.wrap(i):
		return Wrap
	case r.serpentine(i):
		return Serpentine
	case r.layering(i, &g):
		return Layering
	case r.postTurn(i, &g):
		return PostTurn
	}
	return NoManoeuvre
}

// changesSide reports whether the stands are clearly on different sides of the
// dog's line before and after the cue.
func (g *passage) changesSide() bool {
	if !g.hasS || !g.hasN {
		return false
	}
	before := firstSide(g.in, g.p, g.s)
	after := firstSide(g.beforeN, g.n)
	if after == neither {
		after = firstSide(g.out, g.n, g.s)
	}
	return before != neither && after != neither && before != after
}

// firstSide returns the first side that one of the places has of one of the ways.
func firstSide(ways []way, places ...geom.Point) side {
	for _, p := range places {
		for _, w := range ways {
			if s := sideOf(w, p); s != neither {
				return s
			}
		}
	}
	return neither
}

// unwritten names a change of sides that the file does not call a cross.
func (r *recogniser) unwritten(i int, g *passage) Manoeuvre {
	back := g.s.Towards(g.n).Off(g.dog.Heading).Abs() > turnsBack
	switch {
	case g.dog.Local(g.s).Y < 0:
		return Rear
	case back || r.actions[i+1].Shoulders.Facing == FaceDog:
		return Front
	}
	return Blind
}

func (r *recogniser) threadle(i int) bool {
	if r.p.Cues[i].Signal != Pull {
		return false
	}
	when := r.p.Cues[i].When
	next := r.line.gone(when) + 1
	return r.fromBehind(next) || when.Number == next && r.fromBehind(next+1)
}

// fromBehind reports whether the dog comes to number n from beside or behind it.
func (r *recogniser) fromBehind(n int) bool {
	w, ok := r.line.through(n)
	return ok && n > 1 && w.Local(r.line.pts[r.line.leave[n-1]]).Y > -levelWith
}

func (r *recogniser) wrap(i int) bool {
	n := r.p.Cues[i].When.Number
	w, ok := r.line.through(n)
	pace := r.actions[i+1].Pace
	return ok && r.line.turn(n).Abs() > wrapTurn && (pace == Stop || pace == Walk) &&
		r.p.StandAt(i).Dist(w.At) <= nearUpright
}

func (r *recogniser) serpentine(i int) bool {
	a := r.actions[i+1]
	if a.Shoulders.Facing != FaceDog || a.Arm != r.actions[i].Arm {
		return false
	}
	n := a.When.Number
	return r.weaves(n) || r.weaves(n-1)
}

// weaves reports whether the dog turns one way after n and the other after n+1.
func (r *recogniser) weaves(n int) bool {
	first, second := r.line.turn(n), r.line.turn(n+1)
	return min(first.Abs(), second.Abs()) > weaveTurn && (first > 0) != (second > 0)
}

func (r *recogniser) layering(i int, g *passage) bool {
	done := r.line.gone(r.p.Cues[i].When)
	w, ok := r.line.through(done + 1)
	if !ok {
		return false
	}
	at := r.p.StandAt(i)
	between := geom.Segment{A: at, B: geom.Segment{A: g.dog.At, B: w.At}.Nearest(at)}
	if between.Length() <= layerGap {
		return false
	}
	for o := range r.c.Obstacles {
		if o == r.c.Order[done].Obstacle || done > 0 && o == r.c.Order[done-1].Obstacle {
			continue
		}
		for _, s := range r.c.Obstacles[o].Footprint() {
			if _, meets := between.Meets(s); meets {
				return true
			}
		}
	}
	return false
}

func (r *recogniser) postTurn(i int, g *passage) bool {
	n := r.p.Cues[i].When.Number
	turn := r.line.turn(n)
	w, ok := r.line.through(n)
	if !ok || turn.Abs() <= postTurn || !g.hasN || g.p.Dist(g.s) < shortestMove || g.s.Dist(g.n) < shortestMove || !g.hasS {
		return false
	}
	inside, round := left, g.s.Towards(g.n).Off(g.p.Towards(g.s))
	if turn > 0 {
		inside = right
	} else {
		round = -round
	}
	return sideOf(w, g.s) == inside && round > postWay
}
