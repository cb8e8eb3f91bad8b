package sim

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"cuewalk/course/geom"
)

// rows is a course of n jumps in rows of ten, 5.5 m apart, the handler beside the dog.
func rows(n int) *Setup {
	l := sketch{team: *largeTeam(), start: geom.Point{X: 10, Y: 5}, leadOut: geom.Point{X: 12, Y: 8}}
	l.cue(released())
	for i := range n {
		k, r := i%10, i/10
		y, deg, side := 10+5.5*float64(k), 0.0, 2.0
		if r%2 == 1 {
			y, deg, side = 10+5.5*float64(9-k), 180, -2
		}
		x := 10 + 6*float64(r)
		l.next(geom.Point{X: x, Y: y}, geom.Deg(deg))
		l.stand(takeOff(i+1, 0), geom.Point{X: x + side, Y: y})
	}
	return l.setup()
}

func BenchmarkLikelyRun(b *testing.B) {
	for _, n := range []int{20, 100, 500} {
		b.Run(fmt.Sprintf("%d obstacles", n), func(b *testing.B) {
			s := rows(n)
			b.ReportAllocs()
			for b.Loop() {
				s.Rehearse()
			}
		})
	}
}

// line is a course of n jumps in one line, 5.5 m apart: every jump has the same company,
// so that what n costs shows by itself. (In rows of ten a larger ring is a fuller one.)
func line(n int) *Setup {
	l := sketch{team: *largeTeam(), start: geom.Point{X: 10, Y: 5}, leadOut: geom.Point{X: 12, Y: 8}}
	l.cue(released())
	for i := range n {
		y := 10 + 5.5*float64(i)
		l.next(geom.Point{X: 10, Y: y}, 0)
		l.stand(takeOff(i+1, 0), geom.Point{X: 12, Y: y})
	}
	return l.setup()
}

func BenchmarkLikelyRunInLine(b *testing.B) {
	for _, n := range []int{20, 100, 500} {
		b.Run(fmt.Sprintf("%d obstacles", n), func(b *testing.B) {
			s := line(n)
			b.ReportAllocs()
			for b.Loop() {
				s.Rehearse()
			}
		})
	}
}

func BenchmarkTwoThousandRuns(b *testing.B) {
	for _, workers := range []int{1, 2} {
		b.Run(fmt.Sprintf("%d workers", workers), func(b *testing.B) {
			s := rows(20)
			for b.Loop() {
				if _, err := s.runMany(context.Background(), 1, 2000, workers, true, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// A stride allocates nothing: not with luck, not without.
func TestNoAllocationPerStride(t *testing.T) {
	s := rows(20)
	for _, luck := range []Luck{{}, {seed: 1, run: 1, on: true}} {
		var r run
		r.begin(s, luck)
		st := s.Start(luck)
		for range 40 { // the list of what is seen has grown by now
			r.step(&st)
		}
		n := testing.AllocsPerRun(200, func() { r.step(&st) })
		require.Zero(t, n)
	}
}

// Seeded runs allocate a handful each, however many strides they take: fewer than one
// for ten strides.
func TestAllocationsDoNotGrowWithStrides(t *testing.T) {
	s := rows(20)
	cost := func(n int) float64 {
		return testing.AllocsPerRun(3, func() {
			if _, err := s.runMany(context.Background(), 1, n, 1, true, nil); err != nil {
				t.Fatal(err)
			}
		})
	}
	strides := float64(len(s.Rehearse().Trace.Strides))
	each := (cost(120) - cost(20)) / 100
	t.Logf("%.1f allocations a run of %.0f strides", each, strides)
	require.Less(t, each, strides/10)
}
