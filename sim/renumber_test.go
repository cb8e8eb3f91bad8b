package sim

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/sim/dog"
)

// unled is a turn with a trap where the handler only stands and faces one way: what
// he does does not depend on any number.
func unled(seed uint64) *turning {
	r := dice(seed)
	l := newTurning(r, within(r, 40, 90), within(r, 6, 9))
	l.trapAt(l.turn-within(r, 20, 60), within(r, 5, 7))
	l.leadOut = l.spot(l.turn, within(r, 3, 5))
	l.cue(plan.Cue{When: plan.Moment{Event: plan.Release}, Arm: plan.RightArm, Pace: plan.Stop,
		Shoulders: plan.Shoulders{Facing: plan.FaceHeading, Heading: geom.Deg(l.s * l.turn)}, Word: "turn"})
	return l
}

// dogs returns where the dog is, sample by sample, for the first n samples of run i.
func dogs(s *Setup, luck Luck, n int) []dog.Body {
	var r run
	r.begin(s, luck)
	s.Actions[0].Shoulders = plan.Shoulders{Facing: plan.FaceHeading} // what he supports hangs on the numbers
	st := s.Start(luck)
	var out []dog.Body
	for range n {
		r.step(&st)
		out = append(out, st.Dog.Body)
	}
	return out
}

// Another order on the same ring with the same handler changes nothing in what the
// dog does: not where it goes, not how fast, not what it takes. What varies is drawn
// by course number, so it is held still here.
func TestRenumberingDoesNotMoveTheDog(t *testing.T) {
	swapped := 0
	for seed := range uint64(layouts(100)) {
		l := unled(seed)
		l.obs[0].At.X = 50 // in line with the second: the dog is set up facing number 1, whichever it is
		was := l.setup()
		k := l.copy()
		k.order = []course.Step{{Obstacle: 1}, {Obstacle: l.trap}, {Obstacle: 0}, {Obstacle: l.right, Reverse: true}}
		is := k.setup()
		a, b := likely(was), likely(is)
		n := min(len(a), len(b))
		require.Equal(t, a[:n], b[:n], "seed %d", seed)
		for i := range n {
			swapped += boolInt(a[i].Entry >= 4) // past the two jumps that both orders begin with
		}
	}
	require.Positive(t, swapped, "no dog came as far as the renumbered obstacles")
}

// likely follows a dog that takes what pulls it most as soon as half of it has
// committed: no number is looked at, and nothing is drawn.
func likely(s *Setup) []dog.Body {
	var r run
	r.begin(s, Luck{})
	s.Actions[0].Shoulders = plan.Shoulders{Facing: plan.FaceHeading}
	st := s.Start(Luck{})
	var out []dog.Body
	pulled := 0.0
	for range 220 {
		free := st.Dog.Commit < 0
		dt := r.move(&st, s.stepTime(&st))
		if seen := r.view.Seen; free && st.Dog.Commit < 0 && len(seen) > 0 {
			if pulled += r.view.Sum * dt; pulled > 0.7 {
				best := 0
				for i := range seen {
					if seen[i].Pull > seen[best].Pull {
						best = i
					}
				}
				st.Dog.Commit, pulled = seen[best].Entry, 0
			}
		}
		out = append(out, st.Dog.Body)
	}
	return out
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

// The whole run up to the renumbered obstacles is the same too, luck and all.
func TestRenumberingLeavesSeededRunsAlone(t *testing.T) {
	for seed := range uint64(layouts(50)) {
		l := unled(seed)
		k := l.copy()
		k.order = []course.Step{{Obstacle: 0}, {Obstacle: 1}, {Obstacle: l.trap}}
		luck := Luck{seed: seed, run: 3, on: true}
		a, b := dogs(l.setup(), luck, 200), dogs(k.setup(), luck, 200)
		for i := range a { // from the take-off at 3 on the judge counts legs, and luck with them
			if a[i].Entry >= 4 || b[i].Entry >= 4 {
				break
			}
			require.Equal(t, a[i], b[i], "seed %d sample %d", seed, i)
		}
	}
}

// Nothing in package dog can know the numbers: it neither imports the plan nor names
// the order.
func TestDogCannotKnowTheNumbers(t *testing.T) {
	files, err := filepath.Glob("dog/*.go")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		require.NoError(t, err)
		for _, imp := range f.Imports {
			path, err := strconv.Unquote(imp.Path.Value)
			require.NoError(t, err)
			require.NotEqual(t, "cuewalk/plan", path, name)
			require.NotEqual(t, "cuewalk/sim", path, name)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if id, ok := n.(*ast.Ident); ok {
				require.NotContains(t, []string{"Step", "Order", "Course", "Plan", "Number", "Numbers", "Leg"}, id.Name, name)
			}
			return true
		})
	}
}
