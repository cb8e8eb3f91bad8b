package sim

import (
	"testing"

	"github.com/stretchr/testify/require"

	"cuewalk/course/geom"
	"cuewalk/plan"
)

// The laws about the team: what a slower handler, another dog, a contradicting arm
// or a word changes.

// wrap is a jump to be wrapped: a wrong one straight on behind it, the right one back
// beside the way the dog came, on the side away from the handler. He stops some
// strides before the take-off, turns to the dog and changes arms: a front cross.
func wrap(seed uint64, later float64) *turning {
	r := dice(seed)
	l := newTurning(r, 0, 12)
	b := l.obs[1].At
	l.obs[l.right] = jumpAt("back", 50-l.s*within(r, 2.7, 3.1), b.Y-within(r, 4.5, 5.5), 180)
	l.trap = l.add(b.Add(geom.Point{Y: within(r, 4, 6)}), 0)
	strides := -within(r, 1.2, 1.5) + later
	l.leadOut = geom.Point{X: 50 + l.s*1.3, Y: b.Y - within(r, 5, 6)}
	l.cue(released())
	l.cue(plan.Cue{When: takeOff(2, strides), Stand: geom.Point{X: 50 + l.s*1.3, Y: b.Y - 0.8 + 1.9*(strides+1)}, HasStand: true, Pace: plan.Stop, Cross: plan.FrontCross})
	l.stand(takeOff(3, 0), geom.Point{X: 50 - l.s*1.1, Y: l.obs[l.right].At.Y + 1})
	return l
}

func TestLaw12LaterIsNeverBetter(t *testing.T) {
	directional(t, 150, nineInTen, func(seed uint64) (float64, float64, bool) {
		later := within(dice(seed+1<<33), 0.4, 1.2)
		return wrap(seed, later).leg().Clean, wrap(seed, 0).leg().Clean, true
	})
}

// A slower handler falls behind in the turn and leads the dog out of it from
// farther back.
func TestLaw12SlowerIsNeverBetter(t *testing.T) {
	directional(t, 150, nineInTen, func(seed uint64) (float64, float64, bool) {
		fast := trapped(seed)
		fast.leadOut.Y -= 4
		fast.lead()
		slow := fast.copy()
		slow.team.Handler.Speed = 3.8 // the slow preset
		f, s := fast.rehearse(), slow.rehearse()
		return s.Legs[2].Clean, f.Legs[2].Clean, s.Cues[2].Off > f.Cues[2].Off+0.3
	})
}

// trapped is a turn with a nearer trap that the turn sweeps over.
func trapped(seed uint64) *turning {
	r := dice(seed)
	l := newTurning(r, within(r, 45, 70), within(r, 8, 10))
	l.trapAt(l.turn-within(r, 13, 20), within(r, 4.8, 6))
	return l
}

func TestLaw13RightCuesMoreFocusOnObstaclesMoreOffCourses(t *testing.T) {
	directional(t, 150, nineInTen, func(seed uint64) (float64, float64, bool) {
		watches, ignores := trapped(seed), trapped(seed)
		watches.team.Dog.Focus, ignores.team.Dog.Focus = 0.2, 0.8
		watches.lead()
		ignores.lead()
		return watches.leg().ends(watches.trap), ignores.leg().ends(ignores.trap), true
	})
}

// The handler drives at the trap: the dog that watches him goes there, the other
// may still find the jump ahead of it.
func TestLaw13WrongCuesAreFollowedByTheDogThatWatches(t *testing.T) {
	directional(t, 150, nineInTen, func(seed uint64) (float64, float64, bool) {
		made := func(focus float64) float64 {
			r := dice(seed)
			l := newTurning(r, within(r, 0, 15), within(r, 5, 6))
			deg := l.turn + within(r, 25, 35)
			l.trapAt(deg, within(r, 5.5, 7))
			l.team.Dog.Focus = focus
			l.cue(released())
			l.cues[0].Shoulders = plan.Shoulders{Facing: plan.FaceWay} // nor does he support the right one
			l.stand(takeOff(2, -1.5), l.obs[1].At.Add(geom.Point{X: l.s * 1.8, Y: -1}))
			l.stand(takeOff(3, 0), geom.Pose{At: l.obs[l.trap].At, Heading: geom.Deg(l.s * deg)}.Beside(l.s*1.8))
			return l.leg().ends(l.trap)
		}
		return made(0.8), made(0.2), true
	})
}

// With a trap on either side of the right jump an arm that contradicts the motion
// gains nothing on one side that it does not lose on the other.
func TestLaw14ContradictingArmIsNeverBetter(t *testing.T) {
	directional(t, 150, nineInTen, func(seed uint64) (float64, float64, bool) {
		made := func(contradict bool) float64 {
			r := dice(seed)
			l := newTurning(r, within(r, 40, 65), within(r, 7.5, 9))
			sep, rng := within(r, 18, 28), within(r, 5, 6.5)
			l.trapAt(l.turn-sep, rng)
			l.trapAt(l.turn+sep, rng)
			l.leadShort()
			if contradict { // he is on the right of a dog that turns right: it is on his left
				l.cues[1].Arm = plan.RightArm
				if l.s < 0 {
					l.cues[1].Arm = plan.LeftArm
				}
			}
			return l.leg().Clean
		}
		return made(true), made(false), true
	})
}

// asked is a turn with a trap on this side of it, asked for by the body, by the word
// for the side, by both or by neither. Without the body the handler is far off.
func asked(seed uint64, body, word bool) Leg {
	r := dice(seed)
	l := newTurning(r, within(r, 40, 60), within(r, 6.5, 8))
	l.trapAt(l.turn-within(r, 18, 28), within(r, 5, 6))
	said := "right"
	if l.s < 0 {
		said = "left"
	}
	if !word {
		said = ""
	}
	if body {
		l.lead()
		l.cues[1].Word = said
		return l.leg()
	}
	l.leadOut = l.pivot.At.Add(geom.Point{Y: -45})
	l.cue(plan.Cue{When: takeOff(2, -1.5), Word: said})
	return l.leg()
}

func TestLaw15WordAloneIsWeakerThanTheBody(t *testing.T) {
	directional(t, 150, nineInTen, func(seed uint64) (float64, float64, bool) {
		return asked(seed, false, true).Clean, asked(seed, true, false).Clean, true
	})
}

func TestLaw15WordAddsToTheBody(t *testing.T) {
	directional(t, 150, nineInTen, func(seed uint64) (float64, float64, bool) {
		return asked(seed, true, false).Clean, asked(seed, true, true).Clean, true
	})
}

func TestLaw15WordAloneSaysSomething(t *testing.T) {
	directional(t, 150, nineInTen, func(seed uint64) (float64, float64, bool) {
		return asked(seed, false, false).Clean, asked(seed, false, true).Clean, true
	})
}

// Over a plain, well-led course the speed over the course as measured, straight
// from bar to bar, is one that is run in competition: 4.1 to 6.4 m/s for large dogs
// (S1: median of all heights 4.3; S2: top dogs over 6; S5: 4.1-5.9, peak 6.4).
func TestLaw17PlainCourseAtCompetitionSpeed(t *testing.T) {
	for seed := range uint64(layouts(100)) {
		r := plainCourse(seed).rehearse()
		speed, n := measured(r), len(r.Legs)
		require.Equal(t, n, cleanish(r), "seed %d: the course is not well led", seed)
		require.GreaterOrEqual(t, speed, 4.1, "seed %d", seed)
		require.LessOrEqual(t, speed, 6.4, "seed %d", seed)
	}
}

// plainCourse is a gentle curve of jumps, the handler running on its inside.
func plainCourse(seed uint64) *sketch {
	r := dice(seed)
	l := &sketch{team: *largeTeam(), start: geom.Point{X: 50, Y: 15}}
	l.team.Handler.Speed = 6.5 // a handler who keeps up
	s := side(r)
	at := geom.Pose{At: l.start.Add(geom.Point{Y: within(r, 4, 5)})}
	l.leadOut = at.At.Add(geom.Point{X: s * 2.5, Y: 1})
	l.cue(released())
	way := within(r, 5, 6.5)
	for n := 1; n <= 10; n++ {
		l.next(at.At, at.Heading)
		if n > 1 {
			l.stand(takeOff(n, -1), at.Beside(s*2.5))
		}
		bend := geom.Deg(s * within(r, 0, 25))
		at = geom.Pose{At: geom.Pose{At: at.At, Heading: at.Heading + bend/2}.Ahead(way), Heading: at.Heading + bend}
	}
	return l
}

// measured returns metres from bar to bar and on from the start, over the time.
func measured(r *Rehearsal) float64 {
	c := r.Setup.Course
	sum := c.Start.Dist(c.Obstacles[c.Order[0].Obstacle].At)
	for n := 1; n < len(c.Order); n++ {
		sum += c.Obstacles[c.Order[n-1].Obstacle].At.Dist(c.Obstacles[c.Order[n].Obstacle].At)
	}
	return sum / r.Time
}

// cleanish counts the legs that are more likely clean than not.
func cleanish(r *Rehearsal) int {
	n := 0
	for _, l := range r.Legs {
		if l.Clean > 0.5 {
			n++
		}
	}
	return n
}
