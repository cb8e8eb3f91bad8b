package tui

import (
	"testing"

	"cuewalk/sim"

	"github.com/stretchr/testify/assert"
)

// axisRun is two legs of ten samples, strides every five, cues at 3 and 12.
func axisRun() *sim.Rehearsal {
	return &sim.Rehearsal{
		Trace: sim.Trace{Samples: make([]sim.Sample, 20), Strides: []int{0, 5, 10, 15}},
		Legs:  []sim.Leg{{Number: 1, First: 0, Last: 9}, {Number: 2, First: 10, Last: 19}},
		Cues:  []sim.CueTiming{{Action: 2, Sample: 12}, {Action: 1, Sample: 3}, {Action: 3, Sample: -1}},
		Setup: &sim.Setup{},
	}
}

func TestSteps(t *testing.T) {
	r := axisRun()
	for _, c := range []struct {
		name          string
		step          func(*sim.Rehearsal, int, int) int
		at, dir, want int
	}{
		{"stride on", stride, 0, 1, 5}, {"stride on from between", stride, 7, 1, 10}, {"last stride", stride, 16, 1, 19},
		{"stride back", stride, 5, -1, 0}, {"stride back from between", stride, 7, -1, 5}, {"before the first", stride, 0, -1, 0},
		{"cue on", cueStep, 0, 1, 3}, {"cue on again", cueStep, 3, 1, 12}, {"no cue after", cueStep, 12, 1, 12},
		{"cue back", cueStep, 12, -1, 3}, {"no cue before", cueStep, 3, -1, 3},
		{"leg on", legStep, 4, 1, 10}, {"last leg", legStep, 14, 1, 10}, {"back to the beginning of the leg", legStep, 14, -1, 10},
		{"leg back", legStep, 10, -1, 0},
	} {
		assert.Equal(t, c.want, c.step(r, c.at, c.dir), c.name)
	}
	at, ok := atNumber(r, 2)
	assert.True(t, ok)
	assert.Equal(t, 10, at)
	_, ok = atNumber(r, 3)
	assert.False(t, ok)
}

// The second plan stands at the same course number, as far on the way, whatever its second.
func TestJoined(t *testing.T) {
	a, b := axisRun(), axisRun()
	b.Trace.Samples = make([]sim.Sample, 60)
	b.Legs = []sim.Leg{{Number: 1, First: 0, Last: 40}, {Number: 2, First: 41, Last: 59}}
	assert.Equal(t, 0, joined(a, b, 0))
	assert.Equal(t, 22, joined(a, b, 5), "five ninths of the way")
	assert.Equal(t, 41, joined(a, b, 10))
	assert.Equal(t, 59, joined(a, b, 19))
	assert.Equal(t, 19, joined(b, a, 59))
	for at := range a.Trace.Samples {
		assert.Equal(t, at, joined(a, a, at), "a run joined with itself")
	}
}

func TestAxisWithoutRun(t *testing.T) {
	r := &sim.Rehearsal{Setup: &sim.Setup{}}
	for _, step := range []func(*sim.Rehearsal, int, int) int{stride, cueStep, legStep} {
		assert.Equal(t, 0, step(r, 0, 1))
		assert.Equal(t, 0, step(r, 0, -1))
	}
	assert.Equal(t, -1, legIndex(r, 0))
	assert.Equal(t, 0, joined(r, r, 0))
}
