package search

import (
	"cuewalk/course/geom"
	"cuewalk/plan"
)

// Together returns the plan with cues k to k+n-1 all given half a stride and a stride
// sooner and later, and with all their stands moved by a metre in eight directions; nothing
// where there are fewer. Neighbouring cues that hang together are changed together.
func (d Draft) Together(k, n int) []plan.Plan {
	if n < 2 || k+n > len(d.plan.Cues) {
		return nil
	}
	var out []plan.Plan
	for _, strides := range []float64{-1, -0.5, 0.5, 1} {
		p := *d.plan
		for i := k; i < k+n; i++ {
			p = p.WithCue(i, p.Cues[i].Shift(strides))
		}
		out = append(out, p)
	}
	for deg := 0; deg < 360; deg += 45 {
		p := *d.plan
		by := geom.Deg(float64(deg)).Unit()
		for i := k; i < k+n; i++ {
			cue := p.Cues[i].Move(by)
			cue.Stand = d.course.Units.Tenths(cue.Stand)
			p = p.WithCue(i, cue)
		}
		out = append(out, p)
	}
	return out
}

// OtherSide returns the plan with cues k to k+n-1 given from the other side of the dog's
// line, a line of poses: the stands mirrored in it, the dog on the other arm, and from the
// cue behind them on as before. Where the handler changes sides he crosses, by each of the
// crosses, or by the arm alone. Cue k must not be the release.
func (d Draft) OtherSide(k, n int, line []geom.Pose) []plan.Plan {
	if k+n > len(d.plan.Cues) || len(line) == 0 {
		return nil
	}
	p := *d.plan
	for i := k; i < k+n; i++ {
		cue := p.Cues[i]
		if cue.HasStand {
			cue.Stand = d.course.Units.Tenths(mirror(cue.Stand, line))
		}
		cue.Arm, cue.Cross = d.acts[i+1].Arm.Other(), plan.NoCross
		p = p.WithCue(i, cue)
	}
	if k+n < len(p.Cues) {
		cue := p.Cues[k+n]
		cue.Arm, cue.Cross = d.acts[k+n+1].Arm, plan.NoCross
		p = p.WithCue(k+n, cue)
	}
	out := []plan.Plan{p}
	for _, cross := range []plan.Cross{plan.FrontCross, plan.BlindCross, plan.RearCross} {
		q := Crossing(p, k, cross)
		if k+n < len(p.Cues) {
			out = append(out, Crossing(q, k+n, plan.FrontCross), Crossing(q, k+n, plan.RearCross))
		}
		out = append(out, q)
	}
	return out
}

// Crossing returns the plan with a cross at cue k in the place of a mere change of arm.
func Crossing(p plan.Plan, k int, cross plan.Cross) plan.Plan {
	cue := p.Cues[k]
	cue.Arm, cue.Cross = plan.SameArm, cross
	return p.WithCue(k, cue)
}

// mirror returns the place as far on the other side of the line, at its nearest pose.
func mirror(at geom.Point, line []geom.Pose) geom.Point {
	best := line[0]
	for _, p := range line {
		if p.At.Dist(at) < best.At.Dist(at) {
			best = p
		}
	}
	local := best.Local(at)
	return best.Ahead(local.Y).Add(best.Beside(-local.X).Sub(best.At))
}

// Fewer returns the plan without cue k, what lasts from it said by the next; nothing for a
// cue that changes the side, or the first.
func (d Draft) Fewer(k int) []plan.Plan {
	if k < 1 || d.acts[k+1].Arm != d.acts[k].Arm {
		return nil
	}
	p := d.plan.Delete(k)
	if k < len(p.Cues) {
		p = p.WithCue(k, lasting(p.Cues[k], d.acts[k], d.acts[k+2]))
	}
	return []plan.Plan{p}
}

// More returns the plan with one cue more, at the moment and with the stand given: the dog
// drawn in, or shown the obstacle with number n. It lasts until the next cue.
func (d Draft) More(when plan.Moment, stand geom.Point, n int) []plan.Plan {
	var out []plan.Plan
	for _, w := range []plan.Cue{DrawsIn, Opens, {}} {
		p, _ := d.Inserted(d.facing(w, when, stand, n))
		out = append(out, p)
	}
	return out
}

// Pairs returns the plan with cue k and one cue more behind it, at the moment and with the
// stand given, that together take the dog to the far side of number n: sent out and kept out,
// or drawn past and opened out again (common practice, no source). With k negative only the
// one cue more.
func (d Draft) Pairs(k int, when plan.Moment, stand geom.Point, n int) []plan.Plan {
	var out []plan.Plan
	for _, w := range [][2]plan.Cue{{SendsOut, SendsOut}, {DrawsIn, Opens}, {DrawsIn, SendsOut}, {Turns, {Pace: plan.Run}}} {
		e := d
		if k >= 0 {
			p := d.Showing(k, n, w[0])
			e.plan, e.acts = &p, p.Resolve(d.course, d.team)
		}
		p, at := e.Inserted(d.facing(w[1], when, stand, n))
		out = append(out, p)
		if k >= 0 {
			out = append(out, Crossing(p, at, plan.FrontCross))
		}
	}
	return out
}

// facing returns the cue given at a moment and stand on the way to number n.
func (d Draft) facing(cue plan.Cue, when plan.Moment, stand geom.Point, n int) plan.Cue {
	cue.When, cue.Stand, cue.HasStand = when, d.course.Units.Tenths(stand), true
	if cue.Shoulders.Facing == plan.FaceNumber {
		cue.Shoulders.Number = n
	}
	return cue
}

// Inserted returns the plan with one cue more, and the index of that cue. What the cue sets
// lasts until the next, which says what lasted before.
func (d Draft) Inserted(cue plan.Cue) (plan.Plan, int) {
	p, i := d.plan.Insert(cue)
	if i+1 < len(p.Cues) {
		p = p.WithCue(i+1, lasting(p.Cues[i+1], p.Resolve(d.course, d.team)[i+1], d.acts[i+1]))
	}
	return p, i
}
