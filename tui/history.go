package tui

import (
	"slices"

	"cuewalk/course"
	"cuewalk/plan"
)

// document is a plan open on the screen: every version it has had, so that undo has no limit.
type document struct {
	file     string     // where it is saved; empty for nowhere yet
	raw      []byte     // the file as it is on the disk, as far as known
	disk     *plan.Plan // what raw says
	versions []version
	now      int       // index of the version shown
	outside  *PlanFile // what the file holds after a change outside that was not taken over
	dropped  bool      // its changes may be lost: the user said so
}

// version is a plan that is never changed, and what made it so.
type version struct {
	plan *plan.Plan
	what string // "move the stand of cue 4", for undo and redo
}

func newDocument(f PlanFile) *document {
	return &document{file: f.Plan.File, raw: f.Raw, disk: f.Plan, versions: []version{{plan: f.Plan}}}
}

func (d *document) plan() *plan.Plan { return d.versions[d.now].plan }

// altered reports whether the plan says something else than its file.
func (d *document) altered() bool { return d.plan() != d.disk && !d.plan().Equal(*d.disk) }

// unsaved reports whether leaving would lose something that the user has not given up.
func (d *document) unsaved() bool { return d.altered() && !d.dropped }

// push makes p the version shown; what was undone before is gone.
func (d *document) push(p *plan.Plan, what string) {
	d.versions = append(slices.Clip(d.versions[:d.now+1]), version{p, what})
	d.now++
	d.dropped = false
}

// step goes back (-1) or forward (+1) one version and returns what was undone or redone;
// empty if there is none.
func (d *document) step(dir int) string {
	to := d.now + dir
	if to < 0 || to >= len(d.versions) {
		return ""
	}
	what := d.versions[max(to, d.now)].what
	d.now, d.dropped = to, false
	return what
}

// take makes what the file holds the version shown; the one before stays in the history.
func (d *document) take(f PlanFile) {
	d.push(f.Plan, "change outside")
	d.raw, d.disk, d.outside = f.Raw, f.Plan, nil
}

// contents is what the file has to hold to say p: only the values that differ are changed.
func (d *document) contents(p *plan.Plan, c *course.Course) ([]byte, error) {
	if d.raw == nil {
		return plan.Format(p, c), nil
	}
	return plan.Save(d.raw, d.disk, p, c)
}
