package sim

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course/geom"
)

// What comes up only off the likely line is told by the runs in which it did: here one run
// at a time, from the same luck, against what the tally of all says.
func TestStrayFaultsAreExplained(t *testing.T) {
	s := bend()
	const runs = 300
	tally, err := s.RunMany(context.Background(), 3, runs, nil)
	require.NoError(t, err)
	type mean struct{ n, bearing, rng, off float64 }
	own := map[[3]int]*mean{} // by leg, entry and side
	arrivals := s.arrivals()
	for i := range runs {
		var r run
		luck := Luck{seed: 3, run: uint64(i), on: true}
		r.begin(s, luck)
		st := s.Start(luck)
		for leg := range s.correct {
			end := r.leg(&st)
			if end >= 0 && int(r.lure.entry) == end {
				k := [3]int{leg, end, 0}
				if r.lure.bearing >= 0 {
					k[2] = 1
				}
				if own[k] == nil {
					own[k] = &mean{}
				}
				own[k].n++
				own[k].bearing += float64(r.lure.bearing)
				own[k].rng += float64(r.lure.rng)
				own[k].off += math.Abs(float64(r.lure.off))
			}
			if end != endClean && end != endBar && end != endContact {
				from := arrivals[leg]
				st = from[min(len(from)-1, int(luck.uniform(drawArrival, leg)*float64(len(from))))]
				s.fresh(&st, luck)
			}
		}
	}
	stray, with := 0, s.Rehearse().With(tally)
	for _, l := range with.Legs {
		for _, f := range l.Faults {
			switch {
			case !f.Stray:
			case f.Kind == Refusal:
				assert.Less(t, math.Abs(f.Wide), lineReach)
			default:
				stray++
				m, other := own[[3]int{l.Number - 1, f.Entry, 0}], own[[3]int{l.Number - 1, f.Entry, 1}]
				if m == nil || other != nil && other.n >= m.n {
					m = other
				}
				require.NotNil(t, m)
				assert.InDelta(t, m.bearing/m.n, float64(f.Bearing), 1e-6)
				assert.InDelta(t, m.rng/m.n, f.Range, 1e-6)
				assert.InDelta(t, m.off/m.n, float64(f.Off), 1e-6)
				assert.Zero(t, f.InView)
				assert.Less(t, f.Range, 25.0)
			}
		}
	}
	assert.Positive(t, stray, "some dogs stray on this course")
}

// bend is a line of jumps with a sharp bend, jumps beside it, and a handler who is hardly
// ahead at the bend: dogs run wide and see what they would not have seen.
func bend() *Setup {
	l := sketch{team: *largeTeam(), start: geom.Point{X: 15, Y: 5}, leadOut: geom.Point{X: 17, Y: 9}}
	l.cue(released())
	at := []geom.Point{{X: 15, Y: 10}, {X: 15, Y: 16}, {X: 15, Y: 22}, {X: 20, Y: 25}, {X: 21, Y: 19}, {X: 21, Y: 13}}
	facing := []float64{0, 0, 20, 130, 180, 180}
	for i, p := range at {
		l.next(p, geom.Deg(facing[i]))
		if i > 0 {
			l.stand(takeOff(i+1, 0), geom.Pose{At: p, Heading: geom.Deg(facing[i])}.Beside(1.5))
		}
	}
	l.team.Dog.Focus = 0.9
	for _, p := range []geom.Point{{X: 12, Y: 27}, {X: 17, Y: 29}, {X: 24, Y: 28}} {
		l.add(p, geom.Deg(10))
	}
	return l.setup()
}
