package session

import (
	"slices"

	"cuewalk/course"
	"cuewalk/plan"
)

// Document is a plan that is open, with the versions it has had.
type Document struct {
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

// MostVersions is how many versions of a plan are kept; the oldest go first.
const MostVersions = 500

func newDocument(f PlanFile) *Document {
	return &Document{file: f.Plan.File, raw: f.Raw, disk: f.Plan, versions: []version{{plan: f.Plan}}}
}

// Plan is the version shown.
func (d *Document) Plan() *plan.Plan { return d.versions[d.now].plan }

// File is where the plan is saved; empty for nowhere yet.
func (d *Document) File() string { return d.file }

// Saved is the plan as its file has it.
func (d *Document) Saved() *plan.Plan { return d.disk }

// Version tells versions apart: it changes with every push, undo and redo.
func (d *Document) Version() int { return d.now }

// CanUndo and CanRedo report whether there is a version to go to.
func (d *Document) CanUndo() bool { return d.now > 0 }
func (d *Document) CanRedo() bool { return d.now+1 < len(d.versions) }

// Altered reports whether the plan says something else than its file.
func (d *Document) Altered() bool { return d.Plan() != d.disk && !d.Plan().Equal(*d.disk) }

// Unsaved reports whether leaving would lose something that the user has not given up.
func (d *Document) Unsaved() bool { return d.Altered() && !d.dropped }

// Drop gives up what is not saved: leaving asks no more about it, until it is changed again.
func (d *Document) Drop() { d.dropped = true }

// Outside reports whether the file was changed outside and not taken over.
func (d *Document) Outside() bool { return d.outside != nil }

// Push makes p the version shown; what was undone before is gone.
func (d *Document) Push(p *plan.Plan, what string) {
	d.versions = append(slices.Clip(d.versions[:d.now+1]), version{p, what})
	if n := len(d.versions) - MostVersions; n > 0 {
		d.versions = slices.Clone(d.versions[n:])
	}
	d.now = len(d.versions) - 1
	d.dropped = false
}

// Replace puts p in the place of the version shown, as a hand does that is still dragging.
func (d *Document) Replace(p *plan.Plan) { d.versions[d.now].plan = p }

// Step goes back (-1) or forward (+1) one version and returns what was undone or redone;
// empty if there is none.
func (d *Document) Step(dir int) string {
	to := d.now + dir
	if to < 0 || to >= len(d.versions) {
		return ""
	}
	what := d.versions[max(to, d.now)].what
	d.now, d.dropped = to, false
	return what
}

// TakeOutside makes what the file holds the version shown; the one before stays, for undo. It
// does nothing where the file was not changed outside.
func (d *Document) TakeOutside() {
	if d.outside != nil {
		d.take(*d.outside)
	}
}

func (d *Document) take(f PlanFile) {
	d.Push(f.Plan, "change outside")
	d.raw, d.disk, d.outside = f.Raw, f.Plan, nil
}

// contents is what the file has to hold to say p: only the values that differ are changed.
func (d *Document) contents(p *plan.Plan, c *course.Course) ([]byte, error) {
	if d.raw == nil {
		return plan.Format(p, c), nil
	}
	return plan.Save(d.raw, d.disk, p, c)
}
