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
	Run    *sim.Rehearsal // nil: the course alone
	Sample int            // the instant shown, index in Run.Trace.Samples
	Seen   []dog.Seen     // what the dog sees then (Setup.See); says what is hidden
	Leg    int            // course number whose leg has the weight; 0: the one of the sample
	Fault  int            // which of that leg's faults branches off, index in its Faults
	Camera Camera
	Show   Show
	Chosen Pick
}

// Show says which layers are drawn over the obstacles. Whether lines are ASCII or braille
// is the canvas's Fine.
type Show struct {
	Tracks    bool // the dog's line, the handler's way
	Handler   bool // the handler at the instant
	Stands    bool // where he has to be, numbered as the cues; late ones
	Shadow    bool // what his body covers
	Attention bool // the wedge the dog attends to
	Traps     bool // how strongly the traps of the leg pull
	Branch    bool // the likely wrong way
	Grid      bool // ticks at the edge every 5 m or 10 ft
	All       bool // other legs' lines too; otherwise the leg's and a little of its neighbours
	Bare      bool // numbers alone, no obstacles: where there is no room for more
}

// Everything shows all layers.
func Everything() Show {
	return Show{true, true, true, true, true, true, true, true, true, false}
}

// Pick is what the cursor is on: an obstacle (index in the course) with Stand -1, or
// a stand (index in Setup.Actions) with Obstacle -1. The zero value picks nothing.
type Pick struct{ Obstacle, Stand int }

// None picks nothing.
var None = Pick{-1, -1}

// pen is a scene on its way onto a view: both with what is worked out once per frame.
type pen struct {
	Scene
	v     canvas.View
	p     canvas.Plane
	fine  bool
	taken []bool // cells that a label must not cover
	now   *sim.Sample
	leg   *sim.Leg
	right int // obstacle that should come next, -1
	wrong int // obstacle that the branch ends at, -1
}

// Draw draws the scene over the whole view.
func Draw(v canvas.View, s Scene) {
	w, h := v.Size()
	if s.Setup == nil || s.Setup.Course == nil || w < 1 || h < 1 {
		return
	}
	if s.Camera.Scale <= 0 {
		s.Camera = Whole(s.Setup.Course, w, h)
	}
	if s.Camera.W != w || s.Camera.H != h {
		s.Camera = s.Camera.Sized(w, h)
	}
	d := pen{Scene: s, v: v, p: v.Plane(), fine: v.Fine(), taken: make([]bool, w*h), right: -1, wrong: -1}
	d.lookUp()
	d.grid()
	d.lines()
	d.p.Flush()
	d.signs()
}

// lookUp finds the instant, its leg and the obstacles that matter on it.
func (d *pen) lookUp() {
	c := d.Setup.Course
	if d.Run != nil {
		if n := len(d.Run.Trace.Samples); n > 0 {
			d.now = &d.Run.Trace.Samples[max(0, min(d.Sample, n-1))]
			if d.Leg == 0 {
				d.Leg = d.now.Leg
			}
		}
		for i := range d.Run.Legs {
			if d.Run.Legs[i].Number == d.Leg {
				d.leg = &d.Run.Legs[i]
			}
		}
	}
	if d.Leg >= 1 && d.Leg <= len(c.Order) {
		d.right = c.Order[d.Leg-1].Obstacle
	}
	if f := d.fault(); f != nil && d.Show.Branch {
		d.wrong = f.Obstacle
	}
}

// fault is the one that branches off: the one asked for or, where that has no way to draw, the
// next likely one that has; nil for none.
func (d *pen) fault() *sim.Fault {
	if d.leg == nil {
		return nil
	}
	return Drawn(d.leg, d.Fault)
}

// Drawn is the fault whose way is drawn when fault from, counted from 0, of a leg is talked
// about: that one or the next that has a way; nil for none.
func Drawn(leg *sim.Leg, from int) *sim.Fault {
	for i := max(from, 0); i < len(leg.Faults); i++ {
		if f := &leg.Faults[i]; f.Kind.Ends() && f.Chance >= mayTrap && len(f.Path) > 0 {
			return f
		}
	}
	return nil
}

// lines draws what goes through the plane, the least important first.
func (d *pen) lines() {
	d.shadow()
	d.attention()
	d.handlerTrack()
	d.flights()
	d.branchLine()
	for i := range d.Setup.Course.Obstacles {
		if !d.Show.Bare {
			d.obstacle(i)
		}
	}
}

// signs draws what stands in single cells over the lines.
func (d *pen) signs() {
	d.strides()
	d.branchSigns()
	d.team()
	d.labels()
	d.traps()
	d.stands()
}

// at is a place on the map in cells.
func (d *pen) at(p geom.Point) canvas.Pt { return d.Camera.ToView(p) }

// of is obstacle i.
func (d *pen) of(i int) *course.Obstacle { return &d.Setup.Course.Obstacles[i] }
