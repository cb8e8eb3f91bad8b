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
		p.Cues = append(p.Cues, plan.Cue{When: plan.Moment{Number: 2, Event: plan.TakeOff, Strides: offset}, Stand: geom.Point{X: 21.5, Y: 11 + 1.9*(offset+1.5)}, HasStand: true, Pace: plan.Run, Cross: plan.FrontCross},
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
		l := r.Legs[2]
		t.Logf("stop at %v: clean %.2f leg2 to %.2f ld %.2f; faults %v", off, l.Clean, r.Legs[1].TakeOff, r.Legs[1].Landing, brief(l))
		if off == -1.5 && testing.Short() {
			t.Log(trackOf(r))
		}
	}
}

func brief(l Leg) string {
	out := ""
	for _, f := range l.Faults {
		if f.Chance > 0.005 {
			out += fmt.Sprintf("%v/%d %.3f; ", f.Kind, f.Obstacle, f.Chance)
		}
	}
	return out
}

func TestCalibrateLoop(t *testing.T) {
	for _, ahead := range []float64{-5, 0, 5, 10, 15, 20} {
		calibrateLoop(t, ahead)
	}
}

func calibrateLoop(t *testing.T, ahead float64) {
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
	p := &plan.Plan{LeadOut: at(R-3, -15+ahead)}
	p.Cues = []plan.Cue{{When: plan.Moment{Event: plan.Release}, Pace: plan.Run}}
	for k := 2; k <= 11; k++ {
		p.Cues = append(p.Cues, plan.Cue{When: plan.Moment{Number: k, Event: plan.TakeOff}, Stand: at(R-3, float64(k-1)*30+ahead), HasStand: true})
	}
	s := New(c, p, largeTeam())
	r := s.Rehearse()
	t.Logf("ahead %.0f clean %.3f leg6 %.3f time %.2f len %.1f v %.2f", ahead, r.Clean, r.Legs[5].Clean, r.Time, r.Length, r.Length/r.Time)
	for _, l := range r.Legs {
		t.Logf("   %d %.3f %s", l.Number, l.Clean, brief(l))
	}
	if testing.Short() && ahead == 0 {
		t.Log(trackOf(r))
	}
}

// gapLayout: out of jump 1 the right jump lies 9.5 m off after a turn of 60 degrees,
// the trap 5 m off, sep degrees nearer to straight on.
func gapLayout(sep float64, how string, focus float64) *Setup {
	turn := 60.0
	from := geom.Pose{At: geom.Point{X: 30, Y: 15}}
	place := func(d, deg float64) geom.Point {
		return geom.Pose{At: from.At.Add(geom.Point{Y: 1.2}), Heading: geom.Deg(deg)}.Ahead(d)
	}
	r, tr := place(9.5, turn), place(5, turn-sep)
	c := layout(geom.Point{X: 30, Y: 5}, []course.Step{{Obstacle: 0}, {Obstacle: 1}, {Obstacle: 2}},
		jumpAt("z", 30, 9, 0), jumpAt("a", 30, 15, 0), jumpAt("right", r.X, r.Y, turn), jumpAt("trap", tr.X, tr.Y, turn-sep))
	p := &plan.Plan{LeadOut: geom.Point{X: 31.5, Y: 12}}
	run := geom.Deg(turn)
	side := func(q geom.Point, d float64) geom.Point { return geom.Pose{At: q, Heading: run}.Beside(d) }
	p.Cues = []plan.Cue{{When: plan.Moment{Event: plan.Release}, Pace: plan.Run}}
	switch how {
	case "between": // dog between handler and trap: handler on the inside of the turn
		p.Cues = append(p.Cues,
			plan.Cue{When: plan.Moment{Number: 2, Event: plan.TakeOff, Strides: -1.5}, Stand: geom.Point{X: 32, Y: 14}, HasStand: true},
			plan.Cue{When: plan.Moment{Number: 3, Event: plan.TakeOff}, Stand: side(r, 2), HasStand: true})
	case "body": // the handler on the trap's side, his body on the line of sight, dog on the far arm
		stand := geom.Pose{At: geom.Point{X: 30, Y: 17}, Heading: geom.Deg(turn - sep)}.Ahead(3.5)
		p.LeadOut = stand.Sub(run.Unit().Mul(3.5))
		p.Cues = append(p.Cues,
			plan.Cue{When: plan.Moment{Number: 2, Event: plan.TakeOff, Strides: -1.5}, Stand: stand, HasStand: true},
			plan.Cue{When: plan.Moment{Number: 3, Event: plan.TakeOff, Strides: -1}, Stand: stand.Add(run.Unit().Mul(4)), HasStand: true},
			plan.Cue{When: plan.Moment{Number: 3, Event: plan.Landing}, Stand: side(r, -2), HasStand: true})
	case "pull":
		p.Cues = append(p.Cues,
			plan.Cue{When: plan.Moment{Number: 2, Event: plan.TakeOff, Strides: -1.5}, Stand: geom.Point{X: 32, Y: 14}, HasStand: true, Signal: plan.Pull, Word: "come"},
			plan.Cue{When: plan.Moment{Number: 3, Event: plan.TakeOff}, Stand: side(r, 2), HasStand: true})
	}
	tm := largeTeam()
	tm.Dog.Focus = focus
	return New(c, p, tm)
}

func TestCalibrateGap(t *testing.T) {
	for _, how := range []string{"between", "body", "pull"} {
		for _, sep := range []float64{12, 16, 20} {
			r := gapLayout(sep, how, 0.5).Rehearse()
			t.Logf("%s %v: %.2f %s hidden %v", how, sep, r.Legs[2].Clean, brief(r.Legs[2]), r.Legs[2].Hidden)
			if how == "body" && sep == 16 && testing.Short() {
				t.Log(trackOf(r))
			}
		}
	}
	for _, f := range []float64{0.2, 0.5, 0.8} {
		r := gapLayout(16, "between", f).Rehearse()
		t.Logf("focus %v: %.2f %s", f, r.Legs[2].Clean, brief(r.Legs[2]))
	}
}

func TestCalibrateTunnel(t *testing.T) {
	for _, run := range []bool{false, true} {
		tube := course.Obstacle{ID: "tube", Kind: course.Tunnel, Through: []geom.Point{{X: 33, Y: 20}, {X: 33, Y: 25}}}
		tube.At = geom.Point{X: 33, Y: 22.5}
		tube.Defaults(0.6)
		c := layout(geom.Point{X: 30, Y: 5}, []course.Step{{Obstacle: 0}, {Obstacle: 1}, {Obstacle: 2}, {Obstacle: 3}},
			jumpAt("a", 30, 9, 0), jumpAt("b", 30, 15, 0), jumpAt("c", 30, 21, 0), jumpAt("d", 30, 27, 0), tube)
		p := &plan.Plan{LeadOut: geom.Point{X: 28, Y: 11}}
		if run {
			p.Cues = []plan.Cue{{When: plan.Moment{Event: plan.Release}, Pace: plan.Run},
				{When: plan.Moment{Number: 4, Event: plan.TakeOff}, Stand: geom.Point{X: 28, Y: 28}, HasStand: true}}
		} else {
			p.LeadOut = geom.Point{X: -300, Y: -300}
		}
		r := New(c, p, largeTeam()).Rehearse()
		t.Logf("run %v\n%s", run, show(r))
	}
}
