package sim

import (
	"context"
	"fmt"
	"testing"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
)

// plainSetup is a course of n jumps in rows, 5.5 m apart, led by a handler beside the dog.
func plainSetup(n int) *Setup {
	var obs []course.Obstacle
	var order []course.Step
	p := &plan.Plan{LeadOut: geom.Point{X: 12, Y: 8}}
	p.Cues = []plan.Cue{{When: plan.Moment{Event: plan.Release}, Pace: plan.Run}}
	const row = 10
	for i := range n {
		k, r := i%row, i/row
		y, deg, side := 10+5.5*float64(k), 0.0, 2.0
		if r%2 == 1 {
			y, deg, side = 10+5.5*float64(row-1-k), 180, -2
		}
		x := 10 + 6*float64(r)
		obs = append(obs, jumpAt(fmt.Sprintf("j%d", i), x, y, deg))
		order = append(order, course.Step{Obstacle: i})
		p.Cues = append(p.Cues, plan.Cue{When: plan.Moment{Number: i + 1, Event: plan.TakeOff}, Stand: geom.Point{X: x + side, Y: y}, HasStand: true})
	}
	c := layout(geom.Point{X: 10, Y: 5}, order, obs...)
	c.Ring = geom.Point{X: 500, Y: 100}
	return New(c, p, largeTeam())
}

func BenchmarkLikely(b *testing.B) {
	for _, n := range []int{20, 100, 500} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			s := plainSetup(n)
			b.ReportAllocs()
			for b.Loop() {
				s.Rehearse()
			}
		})
	}
}

func BenchmarkRuns2000(b *testing.B) {
	for _, w := range []int{1, 2} {
		b.Run(fmt.Sprint(w), func(b *testing.B) {
			s := plainSetup(20)
			b.ReportAllocs()
			for b.Loop() {
				s.runMany(context.Background(), 1, 2000, w, true, nil)
			}
		})
	}
}
