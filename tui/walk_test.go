package tui

import (
	"errors"
	"fmt"
	"io/fs"
	"testing"

	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/sim/dog"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// unplanned is the practice course without a plan.
func unplanned(t *testing.T) (Options, disk) {
	o, d := practice(t)
	o.Plans, o.first = nil, anyPlan
	return o, d
}

// anyPlan is a plan at once, where trying one out would take too long.
func anyPlan(c *course.Course, t *team.Team) *plan.Plan {
	p := &plan.Plan{Name: "Any", For: c.Name, LeadOut: c.Start}
	for n := range c.Order {
		p.Cues = append(p.Cues, plan.Cue{When: plan.Moment{Number: n + 1, Event: eventOf(c.Obstacles[c.Order[n].Obstacle].Kind, false)}, Pace: plan.Jog})
	}
	return p
}

func TestReadsTheCourseWhereThereIsNoPlan(t *testing.T) {
	o, _ := unplanned(t)
	s := open(t, fixed(o), 80, 24)
	assert.Equal(t, walking, s.mode)
	assert.Contains(t, s.View(), "no plan")
	assert.Contains(t, s.View(), "start to 1")
	golden(t, "no-plan-80x24", s.View())
	s.keys("esc", "esc", "w", "a", "c", "u", "S", "p", "[", "R")
	assert.Equal(t, walking, s.mode, "there is nothing to go back to")
	s.keys("down", "down")
	assert.Contains(t, s.View(), "2 to 3")
	assert.NotNil(t, s.quit(), "nothing is unsaved")
}

// From the rehearsal and back the course number stays.
func TestWalkAndBack(t *testing.T) {
	o, _ := practice(t)
	s := open(t, fixed(o), 120, 40)
	s.keys("7", "enter", "w")
	assert.Equal(t, walking, s.mode)
	assert.Equal(t, 7, s.leg())
	s.keys("down", "esc")
	assert.Equal(t, rehearsing, s.mode)
	assert.Equal(t, 8, s.leg())
	s.keys("w", "w")
	assert.Equal(t, rehearsing, s.mode)
	s.keys("w", "t")
	assert.Contains(t, s.View(), s.s.Teams()[1].Name, "the other team reads it its own way")
}

// The plan that is started is the simulator's first plan, in a new file that reads again.
func TestStartPlan(t *testing.T) {
	o, d := unplanned(t)
	o.first = nil
	d["course-plan.toml"] = []byte("somebody's own")
	s := open(t, o, 80, 24)
	s.keys("4", "enter", "s")
	assert.Len(t, d, 6, "nothing is written unasked")
	assert.Equal(t, "course-plan-2.toml", s.prompt.value)
	s.keys("enter")
	assert.Equal(t, "somebody's own", string(d["course-plan.toml"]), "never over a file that is there")
	require.Contains(t, d, "course-plan-2.toml")
	p, err := plan.Parse("course-plan-2.toml", d["course-plan-2.toml"], o.Course, o.Teams[0])
	require.NoError(t, err)
	assert.GreaterOrEqual(t, len(p.Cues), len(o.Course.Order), "a cue or more for each leg")
	assert.Equal(t, judging, s.mode)
	assert.Contains(t, s.View(), "course-plan-2.toml")
	assert.False(t, s.doc().Altered())
	s.keys("a", "left")
	assert.True(t, s.doc().Altered(), "it can be altered")
	s.keys("s")
	assert.NotEqual(t, string(plan.Format(p, o.Course)), string(d["course-plan-2.toml"]), "and saved")
}

// A course from no file has no name to call a plan after: it is asked for.
func TestStartPlanAsksForAName(t *testing.T) {
	o, d := unplanned(t)
	c := *o.Course
	c.File = ""
	o.Course = &c
	d["plan.toml"] = []byte("somebody's own")
	s := open(t, o, 80, 24)
	s.keys("s", "ctrl+u")
	s.typeText("plan.toml")
	s.keys("enter")
	assert.Equal(t, walking, s.mode)
	assert.Equal(t, "somebody's own", string(d["plan.toml"]))
	require.NotNil(t, s.prompt, "that name is taken: asked again")
	s.keys("ctrl+u", "enter")
	assert.Contains(t, s.View(), "no name was given")
	s.keys("s", "ctrl+u")
	s.typeText("mine.toml")
	s.keys("enter")
	assert.Equal(t, judging, s.mode)
	assert.Contains(t, d, "mine.toml")
}

func TestStartPlanThatCannotBeWritten(t *testing.T) {
	o, _ := unplanned(t)
	o.Create = func(string, []byte) error { return errors.New("the disk is full") }
	s := open(t, o, 80, 24)
	s.keys("s", "enter")
	assert.Equal(t, walking, s.mode)
	assert.Contains(t, s.View(), "the disk is full")
	s.keys("esc")
	o.Create = func(path string, _ []byte) error { return fmt.Errorf("%s: %w", path, fs.ErrExist) }
	s = open(t, o, 80, 24)
	s.keys("s", "enter")
	require.NotNil(t, s.prompt, "that name is not free: asked again")
}

// The best line as a run: strides a stride apart, legs in order, traps as what goes wrong,
// and each look of the dog can be drawn.
func TestBestRun(t *testing.T) {
	o, _ := unplanned(t)
	s := open(t, o, 80, 24)
	w := s.walked()
	require.Len(t, w.run.Legs, len(o.Course.Order))
	h := o.Teams[0].Dog.Withers
	var before sim.PawPrint
	for i, p := range w.run.Trace.Paws {
		d := w.run.Trace.Samples[p.Sample].Dog
		if gap := p.At.Dist(before.At); i > 0 && p.Mark == sim.GroundStride && before.Mark != sim.TakeOffMark &&
			d.Entry < 0 && w.run.Trace.Samples[before.Sample].Dog.Mode != dog.Inside {
			assert.Less(t, gap, 8*h, "no dog strides so far")
		}
		before = p
	}
	last := -1
	for i, l := range w.run.Legs {
		assert.GreaterOrEqual(t, l.First, last)
		last = l.First
		assert.Len(t, l.Faults, len(w.traps[i]))
		for _, f := range l.Faults {
			assert.GreaterOrEqual(t, f.Leaves, l.First)
			assert.LessOrEqual(t, f.Leaves, l.Last)
			assert.InDelta(t, 0, f.Path[len(f.Path)-1].Dist(w.run.Setup.Entries[f.Entry].At), 1e-6)
		}
	}
	for range w.run.Trace.Strides {
		s.keys("right")
		wellFormed(t, s.View(), 80, 24)
	}
	assert.Equal(t, len(o.Course.Order), s.leg())
}

// A course that changes outside is read anew.
func TestWalkReload(t *testing.T) {
	o, d := unplanned(t)
	s := open(t, o, 80, 24)
	before := s.walked()
	d["course.toml"] = append([]byte("# a remark\n"), d["course.toml"]...)
	s.writtenOutside("course.toml")
	assert.NotSame(t, before, s.walked())
	assert.Contains(t, s.View(), "taken over")
	d["course.toml"] = []byte("ring =")
	s.writtenOutside("course.toml")
	assert.Contains(t, s.View(), "last good state")
}

// Reading too small a window, and stepping at every size, keeps to it.
func TestWalkWidths(t *testing.T) {
	o, _ := unplanned(t)
	o = fixed(o)
	for _, fine := range []bool{false, true} {
		o.Fine = fine
		for _, size := range [][2]int{{0, 0}, {1, 1}, {20, 4}, {39, 12}, {40, 12}, {41, 13}, {71, 20}, {72, 20}, {80, 24}, {100, 30}, {120, 40}, {200, 60}, {300, 100}} {
			s := open(t, o, size[0], size[1])
			for _, k := range []string{"down", "tab", "right", "z", "z", "f", "e", "esc", "r", "pgdown", "esc", "m", "esc", "?", "esc", "end"} {
				s.keys(k)
				wellFormed(t, s.View(), size[0], size[1])
			}
		}
	}
}
