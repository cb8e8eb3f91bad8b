// Package handler is the person who runs the dog: how he walks from stand to stand,
// when he gives a cue, which way his chest and his arm face. He knows the course
// numbers and his plan; of the dog he knows what he can see and what running it has
// taught him (Dog and Mark), and no figure of how it decides.
//
// Lengths are metres, times seconds, angles radians. Ids such as H1 name rows of the
// table of sources; C marks common practice or a fitted value with no source.
package handler

import (
	"slices"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/plan/team"
)

// Dog is what a handler sees of his dog at one instant.
type Dog struct {
	Time    float64 // seconds since the release
	At      geom.Point
	Heading geom.Angle
	Speed   float64    // m/s
	Stride  float64    // length of its present gallop stride, m
	Run     float64    // metres it has run since the release
	Aloft   bool       // over a jump
	Inside  bool       // in or on an obstacle that takes its time
	Left    float64    // seconds left of that flight or passage
	Out     geom.Point // where it will come out, where Inside
	Next    int        // course number it is to take next, from 1; one past the last when done
	Took    float64    // Run at its last right take-off or entry
	Came    float64    // Run at the landing or exit after that
	Sure    float64    // seconds it has visibly been bound for the right obstacle
}

// Mark is what a handler knows of one course number from walking the course and from
// running his dog.
type Mark struct {
	Entry   *course.Entry
	Along   float64 // metres of way, or what they are worth in time, from number 1's entry to this one's
	Worth   float64 // metres the dog gallops in the time the obstacle takes it
	TakeOff float64 // metres before the entry at which the trunk leaves the ground, at the usual speed
	Landing float64 // metres behind it at which the dog comes down; 0 where it is not jumped
}

// Luck is what varies from run to run in what a person does.
type Luck interface {
	Early(action int) float64         // seconds by which the cue comes early
	Given(action int) (float64, bool) // seconds after the release at which somebody else gives the cue; false where nobody does
	Astray(action int) geom.Point     // by how much he misses the place he means to stand at
}

// Handler is one person with a plan, ready to run. He is not changed by runs.
type Handler struct {
	team.Handler
	Actions []plan.Action
	Marks   []Mark  // by course number; index 0 is number 1
	Usual   float64 // m/s, the speed he reckons with ahead of time
	Stride  float64 // m, his dog's stride at that speed

	walls []geom.Segment
	clear []bool // by action: the first steps from its stand to the next are free
}

// New returns a person with a plan among walls nobody walks through.
func New(f team.Handler, actions []plan.Action, marks []Mark, usual, stride float64, walls []geom.Segment) *Handler {
	h := &Handler{Handler: f, Actions: actions, Marks: marks, Usual: usual, Stride: stride, walls: walls}
	h.clear = make([]bool, len(actions))
	for k := range actions {
		h.clear[k] = h.leavesFreely(k)
	}
	return h
}

// leavesFreely reports whether the first steps from the stand of action k to the next
// are free.
func (h *Handler) leavesFreely(k int) bool {
	next, ok := h.NextStand(k)
	if !ok || !h.Actions[k].HasStand {
		return false
	}
	from, to := h.Actions[k].Stand, h.Actions[next].Stand
	step := geom.Segment{A: from, B: from.Lerp(to, min(1, 1.5/max(from.Dist(to), 1e-9)))}
	return !slices.ContainsFunc(h.walls, func(w geom.Segment) bool { return step.Gap(w) < room })
}

// Hand is the handler at one instant, as he can be seen.
type Hand struct {
	At      geom.Point
	Vel     geom.Point // m/s
	Acc     geom.Point // m/s2
	Chest   geom.Angle // heading the chest faces
	Pointer geom.Angle // heading the working arm points along
	Reach   float64    // 0 arm let down .. 1 held out
	Arm     plan.Arm
	Signal  plan.Signal
}

// Speed returns how fast the handler goes, m/s.
func (h Hand) Speed() float64 { return h.Vel.Norm() }

// State is the handler between two steps. It is a plain value: copying it forks the run.
type State struct {
	Hand
	Action  int // the action in force
	Met     bool
	ways    ways
	watched float64 // m/s: the dog's speed as he has it, a reaction behind
	early   float64 // seconds by which the next cue comes early
	drew    float64 // seconds he has seen the dog come in to a pull
}

// ways are the places he walks to one after another.
type ways struct {
	at    [6]geom.Point
	n, i  int
	stand int // action whose stand is the end of the way; -1 for none
	spin  float64
}

// Start returns the handler at the release, facing chest, with a dog that moves off at
// the given speed.
func (h *Handler) Start(d *Dog, luck Luck) State {
	var s State
	s.Hand = Hand{At: h.stand(0, luck), Arm: h.Actions[0].Arm}
	s.watched = d.Speed
	h.head(&s, 0, luck)
	s.Chest = s.At.Towards(d.At)
	if to, ok := h.NextStand(0); ok && h.Actions[to].Stand.Dist(s.At) > 0.5 {
		s.Chest = s.At.Towards(h.Actions[to].Stand)
	}
	s.Chest = h.facing(&s, d) // he has stood there for a while
	s.Pointer = h.pointing(&s, d)
	return s
}

// Act lets the handler do what he does in dt seconds: give the cues whose moment has
// come, turn, and move. The dog is as he sees it at the start of them.
func (h *Handler) Act(s *State, d *Dog, luck Luck, dt float64) {
	for s.Action+1 < len(h.Actions) && h.due(s, d, s.Action+1, luck, dt) {
		h.give(s, d, s.Action+1, luck)
	}
	mid, end := d.on(dt/2), d.on(dt) // what he wants is a matter of the middle of the step, what he turns to of its end
	h.release(s, &mid, dt)
	here := s.At
	s.At = here.Add(s.Vel.Mul(dt))
	h.turn(s, &end, dt)
	s.At = here
	h.walk(s, &mid, dt)
	s.Pointer = h.pointing(s, &end)
}

// on returns the dog as it will be dt on, near enough.
func (d Dog) on(dt float64) Dog {
	d.Time += dt
	d.Run += d.Speed * dt
	d.Left = max(0, d.Left-dt)
	if !d.Inside {
		d.At = d.At.Add(d.Heading.Unit().Mul(d.Speed * dt))
	}
	if d.Sure > 0 {
		d.Sure += dt
	}
	return d
}

// NextStand returns the first action after k that says where to stand.
func (h *Handler) NextStand(k int) (int, bool) {
	for i := k + 1; i < len(h.Actions); i++ {
		if h.Actions[i].HasStand {
			return i, true
		}
	}
	return 0, false
}

// stand returns where the handler will in fact be when he means the stand of action k.
func (h *Handler) stand(k int, luck Luck) geom.Point {
	return h.Actions[k].Stand.Add(luck.Astray(k))
}
