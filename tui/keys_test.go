package tui

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"cuewalk/sim"
)

// Of two bindings that are live at the same time none takes the other's key, apart from those
// that stand before for that.
func TestKeysDoNotHideEachOther(t *testing.T) {
	for _, v := range views {
		o, _ := practice(t)
		s := open(t, fixed(o), 80, 24)
		s.keys(v.keys...)
		seen := map[string]string{}
		for _, b := range s.now() {
			for _, k := range append(append([]string(nil), b.keys...), b.back...) {
				if other, ok := seen[k]; ok && k != "backspace" { // a digit's, or the field's
					t.Errorf("%s: key %q is both %q and %q", v.name, k, other, b.what)
				}
				seen[k] = b.what
			}
		}
	}
}

func TestFooterHasSixAtMostWithHelp(t *testing.T) {
	for _, v := range views {
		o, _ := practice(t)
		s := open(t, fixed(o), 120, 40)
		s.keys(v.keys...)
		foot := s.footer()
		assert.LessOrEqual(t, len(foot), 6, v.name)
		help := false
		for _, b := range foot {
			help = help || b.foot == "help"
		}
		assert.True(t, help, "%s: help has its place", v.name)
	}
}

// Esc goes back from every view to the verdict, one step at a time, and no plan changes.
func TestEscLosesNothing(t *testing.T) {
	for _, v := range views {
		o, _ := practice(t)
		s := open(t, fixed(o), 80, 24)
		s.keys(v.keys...)
		plan, at, walked := s.doc().Plan(), s.at, s.mode == walking
		for range 6 {
			s.keys("esc")
		}
		assert.Equal(t, judging, s.mode, v.name)
		assert.Nil(t, s.prompt, v.name)
		assert.Equal(t, noPage, s.page, v.name)
		assert.Equal(t, camera{last: s.camera.last}, s.camera, v.name)
		assert.Same(t, plan, s.doc().Plan(), v.name)
		if !walked { // that has an axis of its own
			assert.Equal(t, at, s.at, v.name)
		}
	}
}

func TestGoToNumber(t *testing.T) {
	o, _ := practice(t)
	s := open(t, fixed(o), 80, 24)
	s.keys("1", "2", "enter")
	assert.Equal(t, 12, s.leg())
	s.keys("1", "backspace", "7", "enter")
	assert.Equal(t, 7, s.leg())
	s.keys("9", "9", "enter")
	assert.Equal(t, 7, s.leg())
	assert.Contains(t, s.View(), "no number 99")
}

func TestOpensOnTheWorstLeg(t *testing.T) {
	o, _ := practice(t)
	s := open(t, fixed(o), 80, 24)
	worst := s.run().Worst(2)
	assert.Equal(t, worst[0], s.leg())
	r := s.run()
	l := r.Legs[legIndex(r, s.at)]
	l.Faults[0].Leaves = l.First + 5
	assert.Equal(t, l.First+5, s.crisis(r, l.Number), "at the moment it leaves the line")
	s.keys("n")
	assert.Equal(t, worst[1], s.leg())
	s.keys("N")
	assert.Equal(t, worst[0], s.leg())
}

// Where a fault has no way of its own to be drawn, the screen opens on what its sentence says:
// the obstacle as far off and as far to the side.
func TestOpensOnWhatTheSentenceSays(t *testing.T) {
	o, _ := practice(t)
	s := open(t, fixed(o), 80, 24)
	r := s.run()
	l := &r.Legs[3]
	for _, i := range []int{l.First + 2, l.First + 9, l.Last - 3} {
		d := r.Trace.Samples[i].Dog
		e := r.Setup.Right(l.Number)
		to := r.Setup.Entries[e].At
		f := sim.Fault{Kind: sim.Refusal, Entry: e, Leaves: -1, Range: d.At.Dist(to), Bearing: d.At.Towards(to).Off(d.Heading)}
		l.Faults = []sim.Fault{f}
		assert.Equal(t, i, s.crisis(r, l.Number))
	}
}
