package command

import (
	"context"
	"math"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/course/rulebook"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
)

// demoRuns is the demonstration, read strictly: one course, its two plans, by name.
type demoRuns struct {
	course *course.Course
	plans  [2]string
	teams  map[string][2]*sim.Rehearsal // by team file
}

const large, small = "rook.toml", "pip.toml"

var demoCourses = map[string][2]string{
	"meadow-jumping.toml": {"meadow-jumping-a.toml", "meadow-jumping-b.toml"},
	"meadow-agility.toml": {"meadow-agility-a.toml", "meadow-agility-b.toml"},
}

// demos is every file of the demonstration, read, with each plan run by each team.
func demos(t *testing.T) map[string]demoRuns {
	t.Helper()
	all, err := rehearsed()
	require.NoError(t, err)
	return all
}

// rehearsed does the work of demos, once for all tests.
var rehearsed = sync.OnceValues(func() (map[string]demoRuns, error) {
	sources, err := demoSources()
	if err != nil {
		return nil, err
	}
	raw := map[string][]byte{}
	for _, s := range sources {
		raw[s.name] = s.data
	}
	all := map[string]demoRuns{}
	for name, plans := range demoCourses {
		c, err := course.ParseWith(name, raw[name], func(rules string) error {
			_, err := rulebook.Find(rules)
			return err
		})
		if err != nil {
			return nil, err
		}
		d := demoRuns{course: c, plans: plans, teams: map[string][2]*sim.Rehearsal{}}
		for _, who := range []string{large, small} {
			if d.teams[who], err = d.pair(raw, who); err != nil {
				return nil, err
			}
		}
		all[name] = d
	}
	return all, nil
})

// pair runs both plans with the team in file who. The figures are those of whole
// seeded runs, as the report gives them: along the one likely run alone a plan may
// look far better than it is.
func (d demoRuns) pair(raw map[string][]byte, who string) (both [2]*sim.Rehearsal, err error) {
	tm, err := team.Parse(who, raw[who])
	if err != nil {
		return both, err
	}
	for i, file := range d.plans {
		p, err := plan.Parse(file, raw[file], d.course, tm)
		if err != nil {
			return both, err
		}
		s := sim.New(d.course, p, tm)
		tally, err := s.RunMany(context.Background(), 1, 400, nil)
		if err != nil {
			return both, err
		}
		both[i] = s.Rehearse().With(tally)
	}
	return both, nil
}

// Nothing else is in the demonstration, and each plan says which course it is for.
func TestDemoIsWhole(t *testing.T) {
	sources, err := demoSources()
	require.NoError(t, err)
	assert.Len(t, sources, 2+4+2, "courses, plans, teams")
	for _, d := range demos(t) {
		for _, pair := range d.teams {
			for _, r := range pair {
				assert.Equal(t, d.course.Name, r.Setup.Plan.For)
				assert.Len(t, r.Legs, len(d.course.Order))
			}
		}
	}
}

// Spacing 5 to 7 m (4 to 7 m for small dogs), ring at least 24 by 40 m, kinds and
// numbers: FCI 2012 layout and FCI 2023 change list, as package rulebook has them.
func TestDemoKeepsTheRules(t *testing.T) {
	for name, d := range demos(t) {
		rules, err := rulebook.Find(d.course.Rules)
		require.NoError(t, err, name)
		for _, size := range []rulebook.Size{"", "S"} {
			assert.Empty(t, rulebook.Check(d.course, rules, size), "%s, class %q", name, size)
		}
		for _, f := range rulebook.Check(d.course, rules, "L") {
			assert.Equal(t, "jump height", f.Rule, "%s: %s", name, f.What)
		}
		assert.GreaterOrEqual(t, d.course.Ring.X, 24.0)
		assert.GreaterOrEqual(t, d.course.Ring.Y, 40.0)
	}
}

// Clean rounds at a trial: a good plan gives something like one in four on a hard round to
// four in five on an easy one for a dog that watches its handler; most legs are near certain
// and a few are not (common practice, no source).
func TestDemoChancesAreATrials(t *testing.T) {
	for name, d := range demos(t) {
		for who, pair := range d.teams {
			better := max(pair[0].Clean, pair[1].Clean)
			assert.Greater(t, better, 0.2, "%s with %s", name, who)
			assert.Less(t, better, 0.88, "%s with %s", name, who)
			for i, r := range pair {
				sure := 0
				for _, l := range r.Legs {
					if l.Clean >= 0.85 {
						sure++
					}
				}
				assert.GreaterOrEqual(t, sure, 2*len(r.Legs)/3, "%s with %s: legs of 85 %% and over", d.plans[i], who)
			}
		}
	}
}

// The plans of a course differ in what a team can tell: on a leg by more than five points,
// or in time by more than three tenths of a second.
func TestDemoPlansDiffer(t *testing.T) {
	for name, d := range demos(t) {
		differ := 0
		for _, pair := range d.teams {
			if math.Abs(pair[0].Time-pair[1].Time) > 0.3 {
				differ++
			}
			for i := range pair[0].Legs {
				if math.Abs(pair[0].Legs[i].Clean-pair[1].Legs[i].Clean) > 0.05 {
					differ++
				}
			}
		}
		assert.GreaterOrEqual(t, differ, 2, name)
	}
}

// Large dogs run jumping courses at 4 to 6 m/s, small dogs and courses with
// contacts slower (common practice, no source).
func TestDemoSpeeds(t *testing.T) {
	all := demos(t)
	speed := func(name, who string, i int) float64 {
		r := all[name].teams[who][i]
		return r.Length / r.Time
	}
	for i := range 2 {
		fast := speed("meadow-jumping.toml", large, i)
		assert.InDelta(t, 5, fast, 1)
		assert.Less(t, speed("meadow-jumping.toml", small, i), fast)
		for who := range all["meadow-agility.toml"].teams {
			assert.Less(t, speed("meadow-agility.toml", who, i), speed("meadow-jumping.toml", who, i), who)
			assert.Greater(t, speed("meadow-agility.toml", who, i), 2.5, who)
		}
	}
}

// The handler gets to where he means to be, about: nothing is planned that a person
// cannot run, and he does not run into the dog.
func TestDemoHandlerIsAPerson(t *testing.T) {
	for _, d := range demos(t) {
		for who, pair := range d.teams {
			for i, r := range pair {
				for _, cue := range r.Cues {
					a := r.Setup.Actions[cue.Action]
					assert.GreaterOrEqual(t, cue.Sample, 0, "%s with %s: %q never comes", d.plans[i], who, a.When)
					assert.Less(t, cue.Late, 0.8, "%s with %s: %q", d.plans[i], who, a.When)
				}
				for _, l := range r.Legs {
					for _, f := range l.Faults {
						if f.Kind == sim.Collision { // now and then is bad luck, oftener a bad line
							assert.Less(t, f.Chance, 0.15, "%s with %s: leg %d", d.plans[i], who, l.Number)
						}
					}
				}
			}
		}
	}
}

// The handling that the plans name is there.
func TestDemoManoeuvres(t *testing.T) {
	seen := map[plan.Manoeuvre]bool{}
	for _, d := range demos(t) {
		for _, r := range d.teams[large] {
			for _, a := range r.Setup.Actions {
				seen[a.Manoeuvre] = true
			}
		}
	}
	for _, m := range []plan.Manoeuvre{plan.LeadOut, plan.Blind, plan.Rear, plan.PostTurn} {
		assert.True(t, seen[m], "no %s", m)
	}
}

// turn is how far the dog must turn from the way out of number n to the way into
// the next one, right positive.
func turn(c *course.Course, n int) float64 {
	return c.Entry(n + 1).Heading.Off(c.Entry(n).Exit.Heading).Degrees()
}

// next is where number n+1 is, seen out of number n: right of it and ahead of it.
func next(c *course.Course, n int) geom.Point {
	return c.Entry(n).Exit.Local(c.Entry(n + 1).At)
}

// The challenges by their plain geometry (names of the trade: common practice, no
// source).
func TestDemoChallenges(t *testing.T) {
	all := demos(t)
	j, a := all["meadow-jumping.toml"].course, all["meadow-agility.toml"].course

	t.Run("pinwheel", func(t *testing.T) { // three jumps round a middle, about a quarter turn each
		for _, n := range []int{6, 7} {
			assert.InDelta(t, 80, turn(j, n), 15)
		}
	})
	t.Run("wrap", func(t *testing.T) { // the next one lies back beside the upright
		back := next(j, 15)
		assert.Positive(t, back.X, "on the right")
		assert.Negative(t, back.Y, "behind")
		assert.Greater(t, math.Abs(turn(j, 15)), 100.0)
	})
	t.Run("turn away from a jump straight on", func(t *testing.T) {
		from := j.Entry(11).Exit
		assert.Greater(t, turn(j, 11), 100.0)
		ahead := 0
		for _, e := range j.Entries() {
			line, d := from.At.Towards(e.At), from.At.Dist(e.At)
			if d > 3 && d < 6.5 && line.Off(from.Heading).Abs().Degrees() < 20 && line.Off(e.Heading).Abs() < e.Left {
				ahead++
			}
		}
		assert.Positive(t, ahead)
	})
	t.Run("curve into a tunnel", func(t *testing.T) {
		require.Equal(t, course.Tunnel, j.Entry(4).Kind)
		for _, n := range []int{2, 3} {
			assert.Negative(t, turn(j, n), "to the left")
		}
	})
	t.Run("tunnel beside the A-frame", func(t *testing.T) {
		ramp, mouth := a.Entry(3), a.Entry(12)
		require.Equal(t, course.AFrame, ramp.Kind)
		require.Equal(t, course.Tunnel, mouth.Kind)
		assert.Less(t, ramp.At.Dist(mouth.At), 4.0)
		assert.Equal(t, a.Entry(2), a.Entry(11), "out of the same jump")
	})
	t.Run("weave entry at speed", func(t *testing.T) { // straight out of a tunnel
		require.Equal(t, course.Weaves, a.Entry(7).Kind)
		require.Equal(t, course.Tunnel, a.Entry(6).Kind)
		out := a.Entry(6).Exit
		assert.Less(t, out.At.Towards(a.Entry(7).At).Off(out.Heading).Abs().Degrees(), 15.0)
		assert.Greater(t, out.At.Dist(a.Entry(7).At), 5.0)
	})
	t.Run("contacts", func(t *testing.T) {
		kinds := map[course.Kind]bool{}
		for n := range a.Order {
			kinds[a.Entry(n+1).Kind] = true
		}
		for _, k := range []course.Kind{course.AFrame, course.DogWalk, course.Seesaw, course.Weaves, course.Tunnel} {
			assert.True(t, kinds[k], "no %s", k)
		}
	})
}
