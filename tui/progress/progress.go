// Package progress keeps how far the learning of each plan has come, in the user's data
// folder by the platform's convention: one small JSON file for each plan, replaced whole,
// safe from two programs at once, and put aside when it is damaged.
package progress

import (
	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/learn"
)

// version of the files. A file of a later one is left alone.
const version = 1

// Cue is what is known of one cue, kept by what the cue says (learn.Known): it stays true
// of it whatever else in the plan is changed.
type Cue struct {
	Right int         `json:"right"`
	Wrong int         `json:"wrong"`
	Knows bool        `json:"knows"` // the last answer was right
	Tries learn.Tries `json:"tries,omitempty"`
}

// Progress is all that is kept of a plan.
type Progress struct {
	Version int            `json:"version"`
	Course  string         `json:"course"`
	Plan    string         `json:"plan"`
	Cues    map[string]Cue `json:"cues"`
	Order   []string       `json:"order,omitempty"`   // the cues that the session is over
	Session *learn.Session `json:"session,omitempty"` // where it was left; nil for none
	Learnt  int            `json:"learnt"`            // sessions brought to their end
	Runs    int            `json:"runs"`              // of the timing drill
	Delay   *learn.Delay   `json:"delay,omitempty"`
}

// New is nothing learnt of a plan yet.
func New(c *course.Course, p *plan.Plan) Progress {
	return Progress{Version: version, Course: c.Name, Plan: p.Name, Cues: map[string]Cue{}}
}

// keys are the cues of a plan as they are kept.
func keys(p *plan.Plan) []string {
	out := make([]string, len(p.Cues))
	for i := range p.Cues {
		out[i] = learn.Known(&p.Cues[i])
	}
	return out
}

// Resume returns the session where it was left. Where the plan has changed since, a new one
// begins that asks the cues still known only together with others; then changed is true.
func (g *Progress) Resume(c *course.Course, p *plan.Plan) (s learn.Session, changed bool) {
	now := keys(p)
	if g.Session != nil && same(g.Order, now) && g.Session.Fits(len(now)) && !g.Session.Done() {
		return *g.Session, false
	}
	changed = len(g.Order) > 0 && !same(g.Order, now)
	known := func(i int) bool { return changed && g.Cues[now[i]].Knows }
	return learn.Start(learn.Sections(c, p), known), changed
}

func same(a, b []string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// Keep notes where a session stands.
func (g *Progress) Keep(p *plan.Plan, s learn.Session) {
	g.Order, g.Session = keys(p), &s
}

// Answered notes an answer to cue k.
func (g *Progress) Answered(p *plan.Plan, k int, right bool) {
	key := learn.Known(&p.Cues[k])
	c := g.Cues[key]
	if c.Knows = right; right {
		c.Right++
	} else {
		c.Wrong++
	}
	g.Cues[key] = c
}

// Timed notes how late cue k was given.
func (g *Progress) Timed(p *plan.Plan, k int, x learn.Try) {
	key := learn.Known(&p.Cues[k])
	c := g.Cues[key]
	c.Tries = c.Tries.With(x)
	g.Cues[key] = c
}

// Tries are those of cue k.
func (g *Progress) Tries(p *plan.Plan, k int) learn.Tries {
	return g.Cues[learn.Known(&p.Cues[k])].Tries
}

// Knows reports whether the last answer to cue k was right.
func (g *Progress) Knows(p *plan.Plan, k int) bool { return g.Cues[learn.Known(&p.Cues[k])].Knows }
