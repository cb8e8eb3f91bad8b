package options

import (
	"cmp"
	"context"
	"math"
	"slices"

	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/sim/compare"
	"cuewalk/sim/reading"
	"cuewalk/sim/score"
	"cuewalk/sim/slack"
)

// Proposal is a plan made from nothing.
type Proposal struct {
	Plan     plan.Plan
	Told     string         // its manoeuvres in the trade's words
	Likely   *sim.Rehearsal // with the figures of the final runs
	Result   compare.Option // the final runs, on luck that the search never saw
	Searched float64        // share of clean runs on the luck it was searched with
	Late     float64        // seconds by which the handler misses the stand he misses by most
	Moved    []bool         // by cue: he could not be in time where the leg would have him
	Slack    *slack.Slack   // nil until all are made
}

// How proposals are made (C).
const (
	MostProposals = 4
	finalRuns     = 400
	firstRuns     = 60
	firstTries    = 1500 // legs rehearsed for a plan to begin with: it has to be there soon
	tooBad        = 0.4  // a plan that is clean in less than this share of the best's clean runs is not proposed beside it
	tooMuch       = 0.35 // nor one that is clean so much more seldom
	alike         = 0.03 // plans that differ by less are ordered by their slack
	fresh         = 1000 // part of the luck that is kept for the final runs
)

// Propose makes up to four different plans for a course that has been read, best first.
// found, where not nil, is called with what there is so far: first with a plan that can be
// run though it was not searched for, then with each one done. The same reading and seed
// give the same plans on any number of cores. When ctx ends it returns the best so far.
// Every one can be run: no stand is missed by more than score.LateAllowed on its likely run.
func Propose(ctx context.Context, r *reading.Reading, seed uint64, found func([]Proposal)) []Proposal {
	if len(r.Legs) == 0 {
		return nil
	}
	p := proposer{r: r, seed: seed}
	var all []Proposal
	tell := func() {
		if found != nil {
			found(all)
		}
	}
	for i, sides := range p.starts() {
		draft := r.Draft(sides)
		if len(draft.Check(r.Course, r.Team)) > 0 {
			continue
		}
		if p.base == nil {
			p.base = sim.New(r.Course, draft, r.Team)
		}
		if i == 0 {
			first, moved := Reachable(p.base, *draft)
			if one, ok := p.judged(context.WithoutCancel(ctx), first, moved, firstRuns); ok {
				all = append(all, one)
				tell()
			}
		}
		if ctx.Err() != nil {
			break
		}
		one, ok := p.searched(ctx, *draft)
		if !ok || one.Late > score.LateAllowed {
			continue
		}
		if len(all) == 1 && all[0].Result.Worlds == firstRuns {
			all = nil // the search's takes the place of the first
		}
		all = ranked(append(all, one))
		tell()
	}
	if len(all) > 1 && ctx.Err() == nil {
		all = p.exchanged(ctx, all)
		tell()
	}
	out := chosen(all)
	if len(out) == 1 && ctx.Err() == nil {
		out = chosen(append(out, p.otherCrosses(ctx, &out[0])...))
	}
	return withRoom(context.WithoutCancel(ctx), out)
}

// withRoom works out the slack of what is proposed, and puts it in order by that too.
func withRoom(ctx context.Context, all []Proposal) []Proposal {
	var out []Proposal
	for _, one := range all {
		var err error
		if one.Slack, err = slack.Of(ctx, one.Likely); err == nil {
			out = append(out, one)
		}
	}
	return ranked(out)
}

// First returns one plan to begin with for a course and team, searched for as proposals are.
func First(c *course.Course, t *team.Team) *plan.Plan {
	r := reading.Read(c, t, nil)
	p := proposer{r: r, seed: 1}
	draft := r.Draft(r.Sides(reading.SwapCost, nil, 0))
	if len(r.Legs) == 0 || len(draft.Check(c, t)) > 0 {
		return draft
	}
	p.base = sim.New(c, draft, t)
	better, _ := p.worked(context.Background(), *draft, firstTries)
	better.Name = draft.Name
	return &better
}

// proposer makes plans for one reading.
type proposer struct {
	r    *reading.Reading
	base *sim.Setup
	seed uint64
}

// starts returns sides by leg to begin with, each different from the others: the inside of
// turns, few changes of side, the sides those shun, and many changes.
func (p *proposer) starts() [][]reading.Side {
	inside := p.r.Sides(reading.SwapCost, nil, 0)
	few := p.r.Sides(6, nil, 0)
	other := p.r.Sides(reading.SwapCost, inside, 1.5)
	var out [][]reading.Side
	for _, sides := range [][]reading.Side{
		inside, few, other, p.r.Sides(6, few, 1), p.r.Sides(0.3, nil, 0), p.r.Sides(reading.SwapCost, inside, 3),
	} {
		if len(out) < MostProposals && !slices.ContainsFunc(out, func(o []reading.Side) bool { return slices.Equal(o, sides) }) {
			out = append(out, sides)
		}
	}
	return out
}

// searched betters a draft and counts what became of it.
func (p *proposer) searched(ctx context.Context, draft plan.Plan) (Proposal, bool) {
	better, moved := p.worked(ctx, draft, mostTries)
	return p.judged(context.WithoutCancel(ctx), better, moved, finalRuns)
}

// worked betters a draft in so many tries: what cannot be reached is made reachable before and after.
func (p *proposer) worked(ctx context.Context, draft plan.Plan, tries int) (plan.Plan, []bool) {
	at, _ := Reachable(p.base, draft)
	t := newTuner(p.base, at, p.seed, tries)
	t.tune(ctx)
	at, _ = Reachable(p.base, t.plan)
	at, moved := Reachable(p.base, crossed(ctx, p.base, at))
	return plainer(ctx, p.base, at, p.seed), moved
}

// judged runs a plan on luck that no search sees.
func (p *proposer) judged(ctx context.Context, at plan.Plan, moved []bool, runs int) (Proposal, bool) {
	setup := p.base.WithPlan(&at)
	final, err := setup.RunMany(ctx, compare.Luck(p.seed, fresh), runs, nil)
	if err != nil {
		return Proposal{}, false
	}
	seen, err := setup.RunMany(ctx, p.seed, runsEach, nil)
	if err != nil {
		return Proposal{}, false
	}
	likely := setup.Rehearse()
	one := Proposal{Plan: at, Moved: moved, Late: latest(likely), Likely: likely.With(final)}
	one.Told, one.Searched = Told(likely), float64(seen.Clean)/runsEach
	one.Plan.Name = one.Told
	one.Likely.Setup = p.base.WithPlan(&one.Plan)
	one.Result = compare.Outcomes([][]sim.Outcome{final.Each}).Options[0]
	return one, true
}

// crossed returns the plan with each mere change of arm written as the cross that the
// positions make, where that makes the likely run no worse.
func crossed(ctx context.Context, base *sim.Setup, p plan.Plan) plan.Plan {
	likes := score.Likely(base.WithPlan(&p).Rehearse())
	for k := range p.Cues {
		acts := p.Resolve(base.Course, base.Team)
		if k == 0 || acts[k+1].Arm == acts[k].Arm || p.Cues[k].Cross != plan.NoCross {
			continue
		}
		best, worth := p, math.Inf(-1)
		for _, cross := range []plan.Cross{plan.FrontCross, plan.BlindCross, plan.RearCross} {
			cue := p.Cues[k]
			cue.Arm, cue.Cross = plan.SameArm, cross
			q := p.WithCue(k, cue)
			if len(q.Check(base.Course, base.Team)) > 0 || ctx.Err() != nil {
				continue
			}
			if w := score.Likely(base.WithPlan(&q).Rehearse()); w > worth {
				best, worth = q, w
			}
		}
		if worth >= likes-worthwhile {
			p, likes = best, worth
		}
	}
	return p
}

// ranked orders proposals: cleaner first; of those about equally clean, more slack first.
func ranked(all []Proposal) []Proposal {
	slices.SortStableFunc(all, func(a, b Proposal) int {
		x, y := math.Floor(a.Result.Share()/alike), math.Floor(b.Result.Share()/alike)
		return cmp.Or(cmp.Compare(y, x), cmp.Compare(room(b.Slack), room(a.Slack)))
	})
	return all
}

// room sums up how much room the cues of a plan have, seconds, no cue counting for more
// than half a second either way; 0 while it is not known.
func room(s *slack.Slack) float64 {
	if s == nil {
		return 0
	}
	sum := 0.0
	for i := range s.Cues {
		if c := &s.Cues[i]; c.Timed {
			sum += math.Min(0.5, c.Early) + math.Min(0.5, c.Late)
		}
	}
	return sum / float64(max(1, len(s.Cues)))
}

// chosen leaves out plans that are handled like a better one, and those that are much worse
// than the best.
func chosen(all []Proposal) []Proposal {
	var out []Proposal
	for _, one := range all {
		if slices.ContainsFunc(out, func(o Proposal) bool { return sameHandling(&o, &one) }) {
			continue
		}
		if len(out) > 0 && one.Result.Share() < max(tooBad*out[0].Result.Share(), out[0].Result.Share()-tooMuch) {
			continue
		}
		out = append(out, one)
	}
	return out
}

// sameHandling reports whether two plans are told alike, or run on the same side on all legs
// but one at most with the same crosses.
func sameHandling(a, b *Proposal) bool {
	if a.Told == b.Told {
		return true
	}
	n, x, y := 0, sides(a.Likely), sides(b.Likely)
	for i := range x {
		if x[i] != y[i] {
			n++
		}
	}
	return n <= 1 && slices.Equal(crosses(&a.Plan), crosses(&b.Plan))
}

// crosses returns the crosses of a plan in their order.
func crosses(p *plan.Plan) []plan.Cross {
	var out []plan.Cross
	for i := range p.Cues {
		if x := p.Cues[i].Cross; x != plan.NoCross {
			out = append(out, x)
		}
	}
	return out
}
