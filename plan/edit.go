package plan

import (
	"math"
	"slices"

	"cuewalk/course/geom"
)

// WithCue returns p with cue i replaced. The cue keeps its place among the others
// even where its moment no longer fits there: Check says so. i must be a cue of p.
func (p Plan) WithCue(i int, cue Cue) Plan {
	p.Cues = slices.Clone(p.Cues)
	if cue.Line == 0 {
		cue.Line = p.Cues[i].Line // still the same table of the file
	}
	p.Cues[i] = cue
	return p
}

// Insert returns p with one more cue, placed in the order of moments (behind those
// of the same moment), and its index.
func (p Plan) Insert(cue Cue) (Plan, int) {
	cue.Line = 0
	i := len(p.Cues)
	for i > 0 && cue.When.Before(p.Cues[i-1].When) {
		i--
	}
	p.Cues = slices.Insert(slices.Clone(p.Cues), i, cue)
	return p, i
}

// Delete returns p without cue i, which must be one of p.
func (p Plan) Delete(i int) Plan {
	p.Cues = slices.Delete(slices.Clone(p.Cues), i, i+1)
	return p
}

// WithLeadOut returns p with the handler standing elsewhere when the dog is released.
func (p Plan) WithLeadOut(at geom.Point) Plan {
	p.LeadOut = at
	return p
}

// StandAt returns the stand cue i has or, where it has none, the last one before
// it; the lead-out for i = -1.
func (p Plan) StandAt(i int) geom.Point {
	for ; i >= 0; i-- {
		if p.Cues[i].HasStand {
			return p.Cues[i].Stand
		}
	}
	return p.LeadOut
}

// Shift returns the cue some strides later (sooner where negative), kept to halves
// and to what a moment can be.
func (k Cue) Shift(strides float64) Cue {
	least := -float64(MostStrides)
	if k.When.Event == Release {
		least = 0
	}
	s := math.Round((k.When.Strides+strides)*2) / 2
	k.When.Strides = max(least, min(MostStrides, s))
	return k
}

// Move returns the cue with its stand moved; a cue without a stand stays so.
func (k Cue) Move(by geom.Point) Cue {
	if k.HasStand {
		k.Stand = k.Stand.Add(by)
	}
	return k
}

// PutAt returns the cue with this stand.
func (k Cue) PutAt(at geom.Point) Cue {
	k.Stand, k.HasStand = at, true
	return k
}

// Equal reports whether two plans say the same, wherever they came from: File and
// Line do not count.
func (p Plan) Equal(o Plan) bool {
	return p.Name == o.Name && p.For == o.For && p.LeadOut == o.LeadOut &&
		slices.EqualFunc(p.Cues, o.Cues, func(a, b Cue) bool {
			a.Line, b.Line = 0, 0
			return a == b
		})
}
