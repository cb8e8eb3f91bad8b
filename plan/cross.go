package plan

import (
	"fmt"

	"cuewalk/course/geom"
)

// How the positions of a cross are judged. The dog's line is the nominal one:
// straight from exit to entry. P is the handler's stand before the cue (the
// lead-out counts), S his stand at the cue, N the one after. The way in is the
// dog's line up to the cue and through the obstacle it is at, the way out its line
// after that. Common practice, no source; the figures are lenient, so that only
// what clearly contradicts the word is refused.
//
//   - Every cross: before it (P, S against the way in) he is on one side of the
//     dog's line, after it (S, N against the way out) on the other. It is refused
//     where all of them are on the same side. A stand has a side of a stretch only
//     where it is beside it, or within besideEnds of its ends.
//   - Front, blind: at the cue he is ahead of the dog, along the way in or along
//     the way out. It is refused where he is more than crossSlack behind on both.
//   - Front: he turns toward the dog. It is refused where he goes off along the
//     way out (within alongWay) by a turn of frontAway degrees away from the dog:
//     facing the dog would take three quarters of a pirouette.
//   - Blind: he turns away from the dog. It is refused where he goes back, more than
//     90 degrees off the way out, by a turn of more than blindToward toward the dog:
//     that is facing it. Elsewhere the same stands serve both crosses.
//   - Rear: he passes behind the dog. It is refused where at the cue he is more
//     than crossSlack past the obstacle the dog takes next, or where his way from
//     S to N meets the dog's line so far ahead of the dog that he is there more
//     than rearMargin before it.
const (
	crossSlack   = 1.0  // metres
	offLine      = 0.3  // metres from the dog's line that count as on neither side
	besideEnds   = 4.0  // metres
	shortestMove = 1.5  // metres from stand to stand below which no direction is read from it
	dogSpeed     = 5    // m/s, for who is first at a place; S1-S5 give 4-6
	rearMargin   = 0.75 // seconds
)

var (
	alongWay    = geom.Deg(50)
	frontAway   = [2]geom.Angle{geom.Deg(60), geom.Deg(120)}
	blindToward = geom.Deg(120)
)

// crosses notes the crosses that the positions do not make.
func (k *checker) crosses() {
	for i := range k.p.Cues {
		cue := &k.p.Cues[i]
		if cue.Cross == NoCross {
			continue
		}
		k.crossArm(i)
		if k.unsure(i) {
			continue
		}
		g := k.line.passage(k.p, i)
		if text, hint := g.contradicts(cue.Cross); text != "" {
			k.note(i, "cross", text, hint)
		}
	}
}

// crossArm notes a cross whose cue names the arm that an earlier cue named already.
// An arm nobody wrote is the program's reading and contradicts nothing.
func (k *checker) crossArm(i int) {
	arm, was := k.p.Cues[i].Arm, SameArm
	for j := range i {
		switch {
		case k.unread[j]["arm"] || k.unread[j]["cross"]:
			was = SameArm
		case k.p.Cues[j].Arm != SameArm:
			was = k.p.Cues[j].Arm
		case k.p.Cues[j].Cross != NoCross:
			was = was.Other()
		}
	}
	if arm != SameArm && arm == was {
		k.note(i, "arm", fmt.Sprintf("the dog works on his %s arm already: a cross swaps it to the %s", arm, arm.Other()),
			"delete arm, or delete cross")
	}
}

// contradicts says why the positions do not make the cross; nothing where they may.
func (g *passage) contradicts(cross Cross) (text, hint string) {
	if s, same := g.sameSide(); same {
		return fmt.Sprintf("these positions make no %s cross: he is on the %s of the dog's line before it and after it", cross, s),
			fmt.Sprintf("put this stand or the next on the %s of the line, or delete cross", -s)
	}
	if cross == RearCross {
		return g.notRear()
	}
	if g.behind() {
		return fmt.Sprintf("these positions make no %s cross: he is behind the dog when it begins", cross),
			`put the stand ahead of the dog, or write cross = "rear"`
	}
	return g.wrongTurn(cross)
}

// sameSide reports whether all positions are on one side of the dog's line, and which.
func (g *passage) sameSide() (side, bool) {
	var before, after []side
	collect := func(to *[]side, ways []way, at geom.Point, ok bool) {
		for _, w := range ways {
			if s := sideOf(w, at); ok && s != neither {
				*to = append(*to, s)
			}
		}
	}
	collect(&before, g.in, g.p, true)
	collect(&before, g.afterP, g.p, true)
	collect(&before, g.in, g.s, g.hasS)
	collect(&after, g.out, g.s, g.hasS)
	collect(&after, g.out, g.n, g.hasN)
	collect(&after, g.beforeN, g.n, g.hasN)
	if !g.hasN || len(before) == 0 || len(after) == 0 {
		return neither, false
	}
	for _, b := range before {
		for _, a := range after {
			if a != b {
				return neither, false
			}
		}
	}
	return before[0], true
}

// behind reports whether he is clearly behind the dog at the cue.
func (g *passage) behind() bool {
	if !g.hasS || !over(-crossSlack, g.dog.Local(g.s).Y) {
		return false
	}
	for _, w := range g.out {
		if !over(-crossSlack, w.Local(g.s).Y) {
			return false
		}
	}
	return true
}

// wrongTurn says why the way he goes off cannot be begun by this cross's turn.
func (g *passage) wrongTurn(cross Cross) (text, hint string) {
	if !g.hasS || !g.hasN || len(g.in) == 0 || len(g.out) == 0 ||
		over(shortestMove, g.p.Dist(g.s)) || over(shortestMove, g.s.Dist(g.n)) {
		return "", ""
	}
	from, to := g.p.Towards(g.s), g.s.Towards(g.n)
	dogSide := -sideOf(g.in[0], g.p)
	if dogSide == neither {
		dogSide = -sideOf(g.in[0], g.s)
	}
	if dogSide == neither || over(from.Off(g.in[0].Heading).Abs(), geom.Deg(90)) {
		return "", ""
	}
	turn, off := to.Off(from), to.Off(g.out[0].Heading).Abs()
	if !over(geom.Deg(180), turn.Abs()) {
		return "", "" // right about is toward the dog and away from it
	}
	toward := turn * geom.Angle(dogSide)
	switch {
	case cross == FrontCross && !over(off, alongWay) && !over(frontAway[0], -toward) && !over(-toward, frontAway[1]):
		return fmt.Sprintf("these positions make no front cross: he turns %.0f degrees away from the dog", -toward.Degrees()),
			`write cross = "blind", or move a stand`
	case cross == BlindCross && over(off, geom.Deg(90)) && over(toward, blindToward):
		return fmt.Sprintf("these positions make no blind cross: he turns %.0f degrees toward the dog", toward.Degrees()),
			`write cross = "front", or move a stand`
	}
	return "", ""
}

// notRear says why he does not pass behind the dog.
func (g *passage) notRear() (text, hint string) {
	const why = `put the stand behind the dog, or write cross = "front" or "blind"`
	if g.hasS && g.hasNext && over(g.next.Local(g.s).Y, crossSlack) {
		return "these positions make no rear cross: he is past the next obstacle when it begins, ahead of the dog", why
	}
	if !g.hasS || !g.hasN || len(g.out) == 0 || g.pace == Stop || g.pace == SamePace {
		return "", ""
	}
	his := geom.Segment{A: g.s, B: g.n}
	leg := geom.Segment{A: g.dog.At, B: g.out[0].At}
	if g.dog.At.Dist(g.out[0].At) < 0.01 {
		leg.B = g.out[0].Ahead(20)
	}
	t, meets := stretched(leg).Meets(stretched(his))
	if !meets {
		return "", ""
	}
	at := leg.A.Lerp(leg.B, t)
	dogThere, heThere := g.dog.At.Dist(at)/dogSpeed, g.s.Dist(at)/paceSpeed[g.pace]
	if over(dogThere-heThere, rearMargin) {
		return "these positions make no rear cross: he is over the dog's line well before the dog", why
	}
	return "", ""
}

// paceSpeed is how fast a pace is in m/s, where a plan is judged without a
// handler's figures (common practice, no source).
var paceSpeed = [...]float64{Run: 5, Jog: 3, Walk: 1.5}
