package sim

import (
	"math"
	"math/rand/v2"
	"testing"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/sim/dog"
)

// The laws of direction for a single leg: what the handler's timing, the layout and
// the body do to the chance of a wrong obstacle.

// straightOn is a turn with a wrong jump straight on behind the second jump.
func straightOn(r *rand.Rand) *turning {
	l := newTurning(r, within(r, 70, 170), within(r, 5, 8))
	l.trap = l.add(l.obs[1].At.Add(geom.Point{X: within(r, -0.5, 0.5), Y: within(r, 4, 6)}), geom.Deg(within(r, -15, 15)))
	return l
}

// No cue is a handler who goes on as he was: somewhere beside the dog, running
// straight on. (One who stands still says a good deal: that is law 2.)
func TestLaw01NoCueTakesWhatLiesStraightOn(t *testing.T) {
	directional(t, 150, nineInTen, func(seed uint64) (float64, float64, bool) {
		r := dice(seed)
		l := straightOn(r)
		l.leadOut.Y += within(r, -2, 2)
		l.team.Handler.Speed = within(r, 3.8, 6.5)
		l.cue(released())
		l.stand(landing(2), l.obs[l.trap].At.Add(geom.Point{X: l.s * within(r, 1.5, 2.5), Y: within(r, -2, 2)}))
		return 0.5, l.leg().ends(l.trap), true
	})
}

// slowing returns two copies of a turn: in one the handler runs on, in the other he
// brakes one to two strides before the take-off of the second jump.
func slowing(seed uint64) (on, slow *turning) {
	r := dice(seed)
	on = straightOn(r)
	b := on.obs[1].At
	strides := -within(r, 1, 2)
	// His place when he brakes is the same in both plans.
	place := geom.Point{X: 50 + on.s*within(r, 1.2, 1.8), Y: b.Y + 1.9*(strides+1)}
	on.leadOut = geom.Point{X: place.X, Y: place.Y - within(r, 2.5, 4)}
	on.cue(released())
	on.stand(takeOff(2, strides), place)
	slow = &turning{}
	*slow = *on
	slow.sketch = *on.copy()
	on.stand(landing(2), place.Add(geom.Point{Y: 5}))
	slow.cues[1].Pace = plan.Stop
	slow.cues[1].Shoulders = plan.Shoulders{Facing: plan.FaceDog}
	return on, slow
}

func TestLaw02DecelerationCollects(t *testing.T) {
	parts := []struct {
		name   string
		figure func(r *Rehearsal, l *turning) float64
	}{
		{"stride", func(r *Rehearsal, _ *turning) float64 { return lastStride(r, 2) }},
		{"take-off", func(r *Rehearsal, _ *turning) float64 { return r.Legs[1].TakeOff }},
		{"landing", func(r *Rehearsal, _ *turning) float64 { return r.Legs[1].Landing }},
		{"radius", func(r *Rehearsal, l *turning) float64 { return landingRadius(r, 2) }},
		{"straight on", func(r *Rehearsal, l *turning) float64 { return r.Legs[2].ends(l.trap) }},
	}
	for _, p := range parts {
		t.Run(p.name, func(t *testing.T) {
			directional(t, 150, nineInTen, func(seed uint64) (float64, float64, bool) {
				on, slow := slowing(seed)
				return p.figure(slow.rehearse(), slow), p.figure(on.rehearse(), on), true
			})
		})
	}
}

// lastStride returns the length of the last ground stride before the take-off of
// number n, in metres.
func lastStride(r *Rehearsal, n int) float64 {
	l := &r.Legs[n-1]
	for i := l.Last - 1; i > l.First; i-- {
		if s := &r.Trace.Samples[i]; s.Dog.Mode.String() == "on the ground" {
			return s.Dog.Stride
		}
	}
	return math.NaN()
}

// landingRadius returns the tightest radius the dog can run at the speed it lands
// with from number n, in metres.
func landingRadius(r *Rehearsal, n int) float64 {
	for _, s := range r.Trace.Samples[r.Legs[n-1].Last:] {
		if s.Dog.Mode.String() == "on the ground" {
			return s.Dog.Speed * s.Dog.Speed / r.Setup.Team.Dog.Grip
		}
	}
	return math.NaN()
}

func TestLaw04SweptTrapIsLikelier(t *testing.T) {
	// Whatever handler stands on one side of the line lends that side something; so
	// here the lead is held at the right jump.
	t.Run("than one beyond the right jump", func(t *testing.T) {
		directional(t, 150, nineInTen, func(seed uint64) (float64, float64, bool) {
			r := dice(seed)
			l := newTurning(r, within(r, 50, 80), within(r, 8, 10))
			sep, rng := within(r, 18, 30), within(r, 5, 6.5)
			swept := l.trapAt(l.turn-sep, rng)
			beyond := l.trapAt(l.turn+sep, rng)
			got := l.heldLead(within(r, 4, 6), within(r, 1.5, 3))
			return got[beyond], got[swept], true
		})
	})
	t.Run("than one on the side away from the turn", func(t *testing.T) {
		directional(t, 150, nineInTen, func(seed uint64) (float64, float64, bool) {
			r := dice(seed)
			l := newTurning(r, within(r, 50, 80), within(r, 8, 10))
			off, rng := within(r, 25, 40), within(r, 5, 6.5)
			swept := l.trapAt(off, rng)
			away := l.trapAt(-off, rng)
			l.lead()
			leg := l.leg()
			return leg.ends(away), leg.ends(swept), true
		})
	})
}

// heldLead returns the chance by obstacle that a dog commits to it which lands from
// the second jump at this speed and reads all the while a lead to the right jump.
func (t *turning) heldLead(speed, strength float64) map[int]float64 {
	s := t.setup()
	var st dog.State
	st.Reset(t.pivot, speed)
	st.Last, st.SinceLast = 1, 0
	got, left := map[int]float64{}, 1.0
	var seen []dog.Seen
	for range 60 {
		dt := s.scene.StepTime(s.dog, &st)
		mid := st.Midway(dt)
		toward := mid.At.Towards(t.obs[t.right].At).Unit().Mul(strength)
		sight := dog.Sight{Body: mid, Lead: dog.Lead{Toward: toward, Drive: 0.8}, Handler: geom.Point{X: -99}, Last: st.Last, Since: st.SinceLast}
		view := s.scene.Look(s.dog, &sight, seen[:0])
		if seen = view.Seen; view.Sum > 0 {
			gone := left * -math.Expm1(-view.Sum*dt)
			for _, e := range seen {
				got[s.Entries[e.Entry].Obstacle] += gone * e.Pull / view.Sum
			}
			left -= gone
		}
		if event, _ := s.scene.Advance(s.dog, &st, &mid, &sight.Lead, &view, dog.Luck{}, dt); event == dog.Took {
			break
		}
	}
	return got
}

// bodyBetween is a turn with a trap and the handler on the line from the landing to
// the trap, on the outside of the turn and facing the right jump; the dog works on
// his far side.
func bodyBetween(seed uint64) *turning {
	r := dice(seed)
	l := newTurning(r, within(r, 50, 70), within(r, 8, 10))
	deg := l.turn - within(r, 16, 28)
	l.trapAt(deg, within(r, 5, 6))
	way := geom.Pose{At: l.obs[l.right].At, Heading: geom.Deg(l.s * l.turn)}
	stand := l.spot(deg, within(r, 2.4, 3.2))
	l.leadOut = stand.Sub(way.Heading.Unit().Mul(within(r, 0.3, 1)))
	arm := plan.RightArm
	if l.s < 0 {
		arm = plan.LeftArm
	}
	l.cue(plan.Cue{When: plan.Moment{Event: plan.Release}, Pace: plan.Stop, Arm: arm, Shoulders: plan.Shoulders{Facing: plan.FaceHeading, Heading: way.Heading}})
	l.cue(plan.Cue{When: landing(2), Stand: stand, HasStand: true, Pace: plan.Run})
	l.stand(takeOff(3, 0), geom.Pose{At: way.Ahead(-2), Heading: way.Heading}.Beside(-l.s*1.2))
	return l
}

func TestLaw05BodyBetweenLowersTheChance(t *testing.T) {
	directional(t, 150, nineInTen, func(seed uint64) (float64, float64, bool) {
		solid, glass := bodyBetween(seed), bodyBetween(seed)
		glass.team.Handler.Body = 0.001 // the same run, but nothing is hidden
		leg := solid.leg()
		return leg.ends(solid.trap), glass.leg().ends(glass.trap), leg.hides(solid.trap) > 0.05
	})
}

// hides returns the seconds the handler's body covers an obstacle on the leg.
func (l Leg) hides(obstacle int) float64 {
	for _, h := range l.Hidden {
		if h.Obstacle == obstacle {
			return h.Seconds
		}
	}
	return 0
}

// A trap that the body covers whole has no pull at all, wherever dog, trap and handler
// are; without the body it has. No pull at any look is no chance.
func TestLaw05HiddenAllTheTimeIsZero(t *testing.T) {
	d := dog.New(largeTeam().Dog, "grass")
	for seed := range uint64(layouts(200)) {
		r := dice(seed)
		at := geom.Pose{At: geom.Point{X: within(r, -9, 9), Y: within(r, -9, 9)}, Heading: geom.Deg(within(r, -180, 180))}
		line := at.Heading + geom.Deg(within(r, -30, 30))
		rng := within(r, 4, 9)
		trap := jumpAt("trap", 0, 0, (line + geom.Deg(within(r, -30, 30))).Degrees())
		trap.At = geom.Pose{At: at.At, Heading: line}.Ahead(rng)
		s := dog.NewScene([]course.Obstacle{trap})
		body := dog.Body{At: at.At, Heading: at.Heading, Speed: within(r, 3, 5), Mode: dog.Ground, Entry: -1}
		before := within(r, 0.8, 2)
		sight := dog.Sight{
			Body: body, Lead: dog.Lead{Toward: line.Unit()}, Last: -1, Since: 10,
			Handler: geom.Pose{At: at.At, Heading: line}.Ahead(before), Girth: 1e-6,
		}
		open := s.Look(d, &sight, nil).Sum
		sight.Girth = 1.05 * before * math.Sin(math.Atan2(trap.Width/2, rng-trap.Width/2))
		hidden := s.Look(d, &sight, nil).Sum
		if open <= 0 || hidden != 0 {
			t.Errorf("seed %d: pull %.4f in the open, %.4f hidden", seed, open, hidden)
		}
	}
}

// The dog comes out of the second jump to a handler who runs straight away from it,
// with a jump to either side: it comes to the side of the arm.
func TestLaw06ArmSwapsTheSide(t *testing.T) {
	directional(t, 150, nineInTen, func(seed uint64) (float64, float64, bool) {
		r := dice(seed)
		off, rng := within(r, 1.8, 2.6), within(r, 8, 11)
		start, ahead := within(r, -0.2, 0.2), within(r, 1, 2.5)
		made := func(arm plan.Arm) *turning {
			l := newTurning(dice(seed), 0, 25)
			l.leadOut = l.pivot.At.Add(geom.Point{X: start, Y: ahead})
			k := released()
			k.Arm = arm
			l.cue(k)
			l.stand(landing(2), l.pivot.At.Add(geom.Point{X: start, Y: ahead + 3}))
			l.stand(takeOff(3, 0), l.pivot.At.Add(geom.Point{X: start, Y: 14}))
			l.trap = l.add(l.pivot.At.Add(geom.Point{X: off, Y: rng}), 0)
			l.add(l.pivot.At.Add(geom.Point{X: -off, Y: rng}), 0)
			return l
		}
		right, left := made(plan.RightArm), made(plan.LeftArm)
		a, b := right.leg(), left.leg()
		// How much of the dog goes right rather than left.
		return b.ends(left.trap) - b.ends(left.trap+1), a.ends(right.trap) - a.ends(right.trap+1), true
	})
}

func TestLaw07SmallerAngleHigherChance(t *testing.T) {
	directional(t, 150, nineInTen, func(seed uint64) (float64, float64, bool) {
		made := func(more float64) float64 {
			r := dice(seed)
			rng := within(r, 6, 8)
			l := newTurning(r, within(r, 50, 75), rng)
			sep := within(r, 12, 18)
			more *= within(r, 6, 14)
			l.trapAt(l.turn-sep-more, rng)
			l.lead()
			return l.leg().ends(l.trap)
		}
		return made(1), made(0), true
	})
}

func TestLaw08LongerWayHigherChanceOfANearerTrap(t *testing.T) {
	gap := func(seed uint64, more, sweep float64) float64 {
		r := dice(seed)
		dist := within(r, 6, 8) + more*within(r, 2, 4)
		r = dice(seed + 1<<32)
		l := newTurning(r, within(r, 45, 70), dist)
		l.trapAt(l.turn+sweep*within(r, 18, 26), within(r, 5, 6))
		l.leadShort()
		return l.leg().ends(l.trap)
	}
	t.Run("swept first", func(t *testing.T) {
		directional(t, 200, nineInTen, func(seed uint64) (float64, float64, bool) {
			return gap(seed, 0, -1), gap(seed, 1, -1), true
		})
	})
	t.Run("not swept first", func(t *testing.T) {
		directional(t, 200, 0.75, func(seed uint64) (float64, float64, bool) {
			return gap(seed, 0, 1), gap(seed, 1, 1), true
		})
	})
}
