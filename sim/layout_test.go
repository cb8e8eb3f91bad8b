package sim

import (
	"fmt"
	"math"
	"testing"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/plan/team"
)

func jumpAt(id string, x, y, deg float64) course.Obstacle {
	o := course.Obstacle{ID: id, Kind: course.Jump, At: geom.Point{X: x, Y: y}, Facing: geom.Deg(deg), Wings: true}
	o.Defaults(0.6)
	return o
}

func layout(start geom.Point, order []course.Step, obs ...course.Obstacle) *course.Course {
	return &course.Course{Name: "layout", Ring: geom.Point{X: 60, Y: 60}, Start: start, Obstacles: obs, Order: order}
}

func largeTeam() *team.Team {
	t, _ := team.Preset("large", "average")
	return &t
}

func show(r *Rehearsal) string {
	out := ""
	for _, l := range r.Legs {
		out += fmt.Sprintf("leg %d clean %.3f v %.2f stride %.2f to %.2f ld %.2f rad %.2f t %.2f", l.Number, l.Clean, l.Speed, l.Stride, l.TakeOff, l.Landing, l.Radius, l.Time)
		for _, f := range l.Faults {
			out += fmt.Sprintf(" | %v %d %.3f b%.0f r%.1f", f.Kind, f.Obstacle, f.Chance, f.Bearing.Degrees(), f.Range)
		}
		out += "\n"
	}
	return out
}

func trackOf(r *Rehearsal) string {
	out := ""
	for i, s := range r.Trace.Samples {
		if i%4 == 0 {
			out += fmt.Sprintf("%5.2f leg%d %v dog(%.1f,%.1f) h%.0f v%.1f k%.2f c%d lead %.0f/%.1f dr%.2f | hand(%.1f,%.1f) v%.1f chest%.0f cue%d S%.2f\n", s.Time, s.Leg, s.Dog.Mode, s.Dog.At.X, s.Dog.At.Y, s.Dog.Heading.Degrees(), s.Dog.Speed, s.Dog.Turn, s.Commit, s.Lead.Heading.Degrees(), s.Lead.Strength, s.Lead.Drive, s.Hand.At.X, s.Hand.At.Y, s.Hand.Speed(), s.Hand.Chest.Degrees(), s.Cue, s.Survive)
		}
	}
	return out
}

// wrapLayout: jump 1, jump 2 to be wrapped, a wrong jump straight on behind it, the
// right one back beside the handler.
func wrapLayout(offset float64, stop bool) *Setup {
	c := layout(geom.Point{X: 20, Y: 2}, []course.Step{{Obstacle: 0}, {Obstacle: 1}, {Obstacle: 3}},
		jumpAt("a", 20, 6, 0), jumpAt("b", 20, 12, 0), jumpAt("trap", 20, 17, 0), jumpAt("back", 22.5, 7, 180))
	p := &plan.Plan{LeadOut: geom.Point{X: 21.8, Y: 7}}
	p.Cues = []plan.Cue{{When: plan.Moment{Event: plan.Release}, Pace: plan.Run}}
	if stop {
		p.Cues = append(p.Cues, plan.Cue{When: plan.Moment{Number: 2, Event: plan.TakeOff, Strides: offset}, Stand: geom.Point{X: 21.5, Y: 11}, HasStand: true, Pace: plan.Run, Cross: plan.FrontCross},
			plan.Cue{When: plan.Moment{Number: 3, Event: plan.TakeOff}, Stand: geom.Point{X: 23.8, Y: 7}, HasStand: true, Pace: plan.Run})
	} else {
		p.Cues = append(p.Cues, plan.Cue{When: plan.Moment{Number: 2, Event: plan.Landing}, Stand: geom.Point{X: 21.8, Y: 16}, HasStand: true, Pace: plan.Run})
	}
	return New(c, p, largeTeam())
}

func TestCalibrateWrap(t *testing.T) {
	r := wrapLayout(0, false).Rehearse()
	t.Log("run on\n" + show(r))
	for _, off := range []float64{-2.5, -2, -1.5, -1, -.5, 0, .5} {
		r := wrapLayout(off, true).Rehearse()
		t.Logf("stop at %v\n%s", off, show(r))
		if off == -1.5 && testing.Verbose() {
			t.Log(trackOf(r))
		}
	}
}

func TestCalibrateLoop(t *testing.T) {
	var obs []course.Obstacle
	var order []course.Step
	R := 5.5 / (2 * math.Sin(math.Pi/12))
	at := func(r, deg float64) geom.Point {
		return geom.Point{X: 30 - r*math.Cos(deg*math.Pi/180), Y: 30 + r*math.Sin(deg*math.Pi/180)}
	}
	for k := range 12 {
		p := at(R, float64(k)*30)
		obs = append(obs, jumpAt(fmt.Sprintf("j%d", k), p.X, p.Y, float64(k)*30))
		order = append(order, course.Step{Obstacle: k})
	}
	p0 := at(R, -18)
	c := layout(p0, order, obs...)
	p := &plan.Plan{LeadOut: at(R-3, 15)}
	p.Cues = []plan.Cue{{When: plan.Moment{Event: plan.Release}, Pace: plan.Run}}
	for k := 1; k <= 11; k++ {
		p.Cues = append(p.Cues, plan.Cue{When: plan.Moment{Number: k, Event: plan.TakeOff}, Stand: at(R-3, float64(k-1)*30+25), HasStand: true})
	}
	s := New(c, p, largeTeam())
	r := s.Rehearse()
	t.Log(show(r))
	t.Logf("clean %.3f time %.2f len %.1f v %.2f", r.Clean, r.Time, r.Length, r.Length/r.Time)
	if testing.Verbose() {
		t.Log(trackOf(r))
	}
}
