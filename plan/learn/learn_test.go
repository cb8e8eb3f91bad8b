package learn

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
)

func sections(sizes ...int) []Section {
	var out []Section
	at := 0
	for _, n := range sizes {
		out = append(out, Section{at, at + n})
		at += n
	}
	return out
}

// A session worked by hand on two sections of three cues: 0 1 2 and 3 4 5. Passes: 1, 2,
// 1+2, then whole recalls until two in a row are without a mistake.
func TestSessionByHand(t *testing.T) {
	s := Start(sections(3, 3), nil)
	var asked []int
	answer := func(right ...bool) {
		for _, r := range right {
			cue, ok := s.Cue()
			require.True(t, ok)
			asked = append(asked, cue)
			s.Answer(r)
		}
	}
	const y, n = true, false
	answer(n, y, y, y) // 0 is wrong: after 1 it comes again
	assert.Equal(t, []int{0, 1, 0, 2}, asked)
	asked = nil
	answer(y, y, n, y) // 5 is the last and wrong: it comes again at once, there is nothing between
	assert.Equal(t, []int{3, 4, 5, 5}, asked)
	asked = nil
	answer(y, y, n, n, n, y, y, y, y) // 2 wrong, 3 wrong, 2 wrong again
	assert.Equal(t, []int{0, 1, 2, 3, 2, 3, 2, 4, 5}, asked)
	assert.Equal(t, Pass{0, 1, true}, s.Now())
	answer(y, y, y, y, y, y)
	assert.Equal(t, 1, s.Clean)
	answer(y, n, y, y, y, y, y) // a mistake: both whole recalls are to be made again
	assert.Equal(t, 0, s.Clean)
	s.Hint() // costs nothing
	answer(y, y, y, y, y, y)
	assert.False(t, s.Done())
	answer(y, y, y, y, y, y)
	assert.True(t, s.Done())
	_, more := s.Cue()
	assert.False(t, more)
	assert.Equal(t, 1, s.Hints)
	assert.Equal(t, 6, s.Wrong)
}

// The number of questions without a mistake is that of the published description: for m
// sections of s cues s(m + m(m+1)/2 - 1) in the passes, and two whole recalls.
func TestSessionLength(t *testing.T) {
	for _, c := range []struct{ m, s, want int }{{5, 4, 76}, {4, 4, 52}, {1, 3, 3}} {
		sizes := make([]int, c.m)
		for i := range sizes {
			sizes[i] = c.s
		}
		s := Start(sections(sizes...), nil)
		for !s.Done() {
			s.Answer(true)
		}
		assert.Equal(t, c.want+2*c.m*c.s, s.Asked)
	}
}

// What is known from before is not learnt in passes of its own again.
func TestStartWithKnown(t *testing.T) {
	s := Start(sections(3, 3, 3), func(i int) bool { return i != 4 })
	assert.Equal(t, []Pass{{First: 1, Last: 1}, {First: 0, Last: 1}, {First: 2, Last: 2}, {First: 0, Last: 2}}, s.Passes)
	s = Start(sections(3, 3), func(int) bool { return true })
	assert.True(t, s.Now().Whole)
	assert.Len(t, s.Queue, 6)
}

// However it is answered: the order within a pass is the run's but for what is asked again,
// a session kept and read again goes on alike, and it ends.
func TestSessionLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sizes := rapid.SliceOfN(rapid.IntRange(3, 5), 1, 5).Draw(t, "sections")
		all := sections(sizes...)
		s := Start(all, nil)
		n := all[len(all)-1].To
		wrong := rapid.SliceOfN(rapid.IntRange(0, 150), 0, 20).Draw(t, "wrong")
		bad := map[int]bool{}
		for _, i := range wrong {
			bad[i] = true
		}
		last, pass := -1, 0
		for i := 0; !s.Done(); i++ {
			if i > 2000 {
				t.Fatal("it never ends")
			}
			if !s.Fits(n) {
				t.Fatal("a session does not fit itself")
			}
			if s.Pass != pass {
				pass, last = s.Pass, -1
			}
			cue, _ := s.Cue()
			if cue > last+1 && s.Mistakes == 0 && last >= 0 {
				t.Fatalf("cue %d after %d", cue, last)
			}
			last = max(last, cue)
			kept, err := json.Marshal(s)
			if err != nil {
				t.Fatal(err)
			}
			var back Session
			if err := json.Unmarshal(kept, &back); err != nil {
				t.Fatal(err)
			}
			s = back
			s.Answer(!bad[i])
		}
	})
}

func testCourse(t *testing.T) *course.Course {
	t.Helper()
	c, err := course.Parse("c.toml", []byte(`
course = "Six"
ring = [30, 40]
start = [15, 3]
order = "a b pipe c d e"
[obstacles]
a    = { kind = "jump", at = [15, 8], facing = 0 }
b    = { kind = "jump", at = [15, 14], facing = 0 }
pipe = { kind = "tunnel", through = [[15, 19], [15, 23]] }
c    = { kind = "jump", at = [15, 29], facing = 0 }
d    = { kind = "jump", at = [10, 33], facing = 290 }
e    = { kind = "jump", at = [5, 33], facing = 270 }
`))
	require.NoError(t, err)
	return c
}

func testPlan(t *testing.T, c *course.Course) *plan.Plan {
	t.Helper()
	p, err := plan.Parse("p.toml", []byte(`
plan = "Six"
lead-out = [17, 9]
[[cue]]
when = "release"
pace = "run"
[[cue]]
when = "1 take-off"
stand = [17, 14]
[[cue]]
when = "2 take-off"
stand = [17, 18]
[[cue]]
when = "3 exit"
stand = [13, 27]
cross = "blind"
word = "come"
[[cue]]
when = "4 take-off -1"
stand = [11, 29]
signal = "pull"
shoulders = "to 5"
[[cue]]
when = "5 take-off"
stand = [8, 31]
`), c, nil)
	require.NoError(t, err)
	return p
}

func TestSections(t *testing.T) {
	c := testCourse(t)
	p := testPlan(t, c)
	assert.Equal(t, sections(3, 3), Sections(c, p), "the tunnel and the change of sides come before the fourth cue")
	assert.True(t, Break(c, p, 3))
	assert.False(t, Break(c, p, 2))
	for n := range len(p.Cues) + 1 {
		part := *p
		part.Cues = p.Cues[:n]
		at := 0
		for _, s := range Sections(c, &part) {
			assert.Equal(t, at, s.From)
			assert.LessOrEqual(t, s.To-s.From, most)
			at = s.To
		}
		assert.Equal(t, n, at, "every cue is in a section")
	}
}

// Only what a cue sets is asked; a place is right up to the radius that is told.
func TestQuestion(t *testing.T) {
	c := testCourse(t)
	p := testPlan(t, c)
	q := Ask(c, p, 3)
	assert.Equal(t, "The dog is at 3: what now?", q.Ask)
	require.Len(t, q.Fields, 2)
	assert.Equal(t, []string{"cross", "word"}, []string{q.Fields[0].Name, q.Fields[1].Name})
	at := func(dx float64) Answer {
		return Answer{Place: geom.Point{X: 13 + dx, Y: 27}, Placed: true, Words: []string{"blind", " Come"}}
	}
	assert.True(t, q.Judge(at(Radius)).Right)
	assert.False(t, q.Judge(at(Radius+0.01)).Right)
	wrong := at(0)
	wrong.Words[0] = "front"
	v := q.Judge(wrong)
	assert.Equal(t, []bool{false, true}, v.Words)
	assert.True(t, v.Place)
	assert.False(t, v.Right)
	assert.False(t, q.Judge(Answer{Words: []string{"blind", "come"}}).Right, "no place was pointed at")
	assert.Equal(t, "4 is done: what now?", Ask(c, p, 5).Ask)
	for k := range p.Cues {
		q := Ask(c, p, k)
		a := Answer{Place: q.Place, Placed: true}
		for _, f := range q.Fields {
			a.Words = append(a.Words, f.Right)
			if f.Name != "word" {
				assert.Contains(t, f.Options, f.Right)
			}
		}
		assert.True(t, q.Judge(a).Right, "the plan's own answer is right")
	}
}

func TestKnown(t *testing.T) {
	c := testCourse(t)
	p := testPlan(t, c)
	seen := map[string]bool{}
	for k := range p.Cues {
		seen[Known(&p.Cues[k])] = true
	}
	assert.Len(t, seen, len(p.Cues))
}

func TestCalibrate(t *testing.T) {
	_, ok := Calibrate([]float64{0.1, 0.1})
	assert.False(t, ok)
	d, ok := Calibrate([]float64{9, 0.080, 0.090, 0.100, 0.110, 0.120, 0.130, 0.140, 0.900})
	require.True(t, ok)
	assert.InDelta(t, 0.115, d.Seconds, 1e-12, "the median of the last eight: one slip does not matter")
	assert.InDelta(t, 0.015, d.Spread, 1e-12, "0.10 to 0.13 hold the middle half")
	for _, x := range []float64{-0.3, 0, 0.05, 0.39} {
		assert.InDelta(t, x, NearestBeat(7+5*0.8+x, 7, 0.8), 1e-9)
	}
	assert.InDelta(t, 1.234, Press(2.583, Delay{Seconds: 0.115}, 0.5), 1e-9, "exact to the millisecond")
}

// The spread is the sample standard deviation (NIST handbook 1.3.5.6), from ten tries on.
func TestSpread(t *testing.T) {
	var tries Tries
	for i := range 10 {
		_, ok := tries.Spread()
		assert.False(t, ok)
		tries = tries.With(Try(0.1 * float64(i%2)))
	}
	spread, ok := tries.Spread()
	require.True(t, ok)
	assert.InDelta(t, 0.05*math.Sqrt(10.0/9), spread, 1e-12)
	assert.InDelta(t, 0.05, tries.Mean(), 1e-12)
	for range 100 {
		tries = tries.With(0.2)
	}
	assert.Len(t, tries, keptTries)
	assert.True(t, Try(-0.15).InTime())
	assert.False(t, Try(0.151).InTime())
	assert.True(t, Try(-1.01).Forgotten())
	assert.False(t, Try(1).Forgotten())
	assert.Equal(t, "0.2", fmt.Sprint(Try(0.151).Tenths()))
}
