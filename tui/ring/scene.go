package ring

import (
	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim"
	"cuewalk/sim/dog"
	"cuewalk/tui/canvas"
)

// Scene is what to draw. Setup must be set; everything else may be left out.
type Scene struct {
	Setup  *sim.Setup
	Run    *sim.Rehearsal // nil: the course alone, its line straight from number to number
	Before *sim.Rehearsal // the run before a change: its dog's line stays beside the new one; nil for none
	Sample int            // the instant shown, index in Run.Trace.Samples
	Seen   []dog.Seen     // what the dog sees then (Setup.See); says what is hidden
	Leg    int            // course number whose leg has the weight; 0: the one of the sample
	Told   []int          // which of that leg's faults are told of, indices in its Faults; nil: Named
	Ground *Ground        // what reading a course shows on the ground; nil for none
	Camera Camera
	Layers Layers
	All    bool // the lines of all legs, not of this one alone
	Bare   bool // numbers and figures only, for a small map
	Chosen Place
}

// Place is a thing on the ring: an obstacle (index in the course) or a stand (index in
// Setup.Actions); the other is -1.
type Place struct{ Obstacle, Stand int }

// None is no place.
var None = Place{-1, -1}

// pen is a scene on its way onto a view: both with what is worked out once per frame.
type pen struct {
	Scene
	sheet
	v     canvas.View
	p     canvas.Plane
	fine  bool
	now   *sim.Sample
	leg   *sim.Leg
	right int    // obstacle that should come next, -1
	boxes []rect // the cells that each obstacle took, by its index
}

// Draw draws the scene over the whole view and returns which signs stand in it.
func Draw(v canvas.View, s Scene) Used {
	w, h := v.Size()
	if s.Setup == nil || s.Setup.Course == nil || w < 1 || h < 1 {
		return 0
	}
	d := ready(v, s)
	defer d.done()
	d.draw()
	return d.onto(v)
}

// ready is a pen for a scene.
func ready(v canvas.View, s Scene) *pen {
	w, h := v.Size()
	if s.Camera.Scale <= 0 {
		s.Camera = Whole(s.Setup.Course, s.Camera.Turn, w, h)
	}
	if s.Camera.W != w || s.Camera.H != h {
		s.Camera = s.Camera.Sized(w, h)
	}
	d := &pen{Scene: s, sheet: newSheet(w, h), v: v, p: v.Plane(), fine: v.Fine(), right: -1,
		boxes: make([]rect, len(s.Setup.Course.Obstacles))}
	d.lookUp()
	return d
}

// draw fills the sheet, and the plane where that is finer. The order does not matter where
// ranks differ.
func (d *pen) draw() {
	d.rulers()
	d.underfoot()
	d.lines()
	d.obstacles()
	d.team()
	d.wayUp()
	d.labels()
	d.p.Flush()
}

// lookUp finds the instant, its leg and what is told of it.
func (d *pen) lookUp() {
	c := d.Setup.Course
	if d.Run != nil {
		if n := len(d.Run.Trace.Samples); n > 0 {
			d.now = &d.Run.Trace.Samples[max(0, min(d.Sample, n-1))]
			if d.Leg == 0 {
				d.Leg = d.now.Leg
			}
		}
		d.leg = legOf(d.Run, d.Leg)
	}
	if d.Leg >= 1 && d.Leg <= len(c.Order) {
		d.right = c.Order[d.Leg-1].Obstacle
	}
	if d.leg != nil && d.Told == nil {
		d.Told = Named(d.leg)
	}
}

// legOf is the leg to course number n; nil where the run has none.
func legOf(r *sim.Rehearsal, n int) *sim.Leg {
	for i := range r.Legs {
		if r.Legs[i].Number == n {
			return &r.Legs[i]
		}
	}
	return nil
}

// at is a place on the map in cells.
func (d *pen) at(p geom.Point) canvas.Pt { return d.Camera.ToView(p) }

// of is obstacle i.
func (d *pen) of(i int) *course.Obstacle { return &d.Setup.Course.Obstacles[i] }

// sign puts a sign of the table into a cell.
func (d *pen) sign(x, y int, r rune, m mark, k rank) bool {
	return d.put(x, y, ink{sign: r, role: table[m].Role, mark: m, rank: k})
}

// word writes a text of the table's role.
func (d *pen) word(x, y int, s string, m mark, k rank) {
	for i, r := range s {
		d.sign(x+i, y, r, m, k)
	}
}

// inView reports whether a place in cells lies in the view, off the rulers.
func (d *pen) inView(p canvas.Pt) bool {
	x, y := cellOf(p)
	return x >= 0 && y >= 0 && x < d.w && y < d.h && d.cell(x, y).rank != ruler
}
