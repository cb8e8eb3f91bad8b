//go:build unix

package command

import (
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/vt"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/learn"
	"cuewalk/plan/team"
)

// pupil is a handler at a terminal who knows the plan.
type pupil struct {
	*screenTest
	c *course.Course
	p *plan.Plan
}

// learns opens "cuewalk rehearse" on a terminal in dir, with the user's data there too.
func learns(t *testing.T, dir, c, p, tm string) *pupil {
	t.Helper()
	read := func(name string) []byte {
		data, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err)
		return data
	}
	u := &pupil{}
	var err error
	u.c, err = course.Parse(c, read(c))
	require.NoError(t, err)
	who, err := team.Parse(tm, read(tm))
	require.NoError(t, err)
	u.p, err = plan.Parse(p, read(p), u.c, who)
	require.NoError(t, err)
	u.screenTest = onTerminal(t, dir, "env", "XDG_DATA_HOME="+filepath.Join(dir, "data"), "cuewalk", "rehearse", c, p, tm)
	u.sees("1 Recall")
	return u
}

// screen is what stands on the terminal now.
func (u *pupil) screen() string {
	e := vt.NewEmulator(80, 24)
	answers := e.InputPipe().(io.Closer) // nobody's: read so that writing does not stand still
	drained := make(chan struct{})
	go func() {
		defer close(drained)
		_, _ = io.Copy(io.Discard, e)
	}()
	defer func() {
		_ = answers.Close()
		<-drained
	}()
	_, _ = e.Write([]byte(u.text()))
	return e.String()
}

// sees waits until the words stand on the screen, or beside the ring, however they are broken
// into lines, and returns it.
func (u *pupil) sees(text string) string {
	u.t.Helper()
	var now string
	for end := time.Now().Add(40 * time.Second); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		if now = u.screen(); strings.Contains(flowing(now, 0), text) || strings.Contains(flowing(now, 50), text) {
			return now
		}
	}
	u.t.Fatalf("%q never came; the screen is\n%s", text, now)
	return now
}

// flowing is what stands on a screen from a column on, as running text.
func flowing(screen string, from int) string {
	var words []string
	for _, line := range strings.Split(screen, "\n") {
		if len(line) > from {
			words = append(words, strings.Fields(line[from:])...)
		}
	}
	return strings.Join(words, " ")
}

var whereIs = regexp.MustCompile(`where: X at \(([-0-9.]+), ([-0-9.]+)\)`)

// point moves the X to a place with the arrow keys.
func (u *pupil) point(q *learn.Question) {
	u.t.Helper()
	m := whereIs.FindStringSubmatch(u.sees("where: X at"))
	require.NotNil(u.t, m)
	x, _ := strconv.ParseFloat(m[1], 64)
	y, _ := strconv.ParseFloat(m[2], 64)
	steps := func(by float64, more, less string) { // half a metre each; the files are in metres
		key := more
		if by < 0 {
			key = less
		}
		u.typeKeys(strings.Repeat(key, int(math.Round(math.Abs(by)/0.5))))
	}
	steps(q.Place.X-x, "\x1b[C", "\x1b[D")
	steps(q.Place.Y-y, "\x1b[A", "\x1b[B")
}

// answers gives the answer to cue k as the plan has it, or a wrong one.
func (u *pupil) answers(k int, right bool) {
	u.t.Helper()
	q := learn.Ask(u.c, u.p, k)
	u.sees(q.Ask)
	if q.HasPlace {
		u.point(&q)
		if !right {
			u.typeKeys(strings.Repeat("\x1b[1;2A", 3)) // far up
		}
		u.typeKeys("\r")
	}
	for i, f := range q.Fields {
		if len(f.Options) == 0 {
			u.typeKeys(f.Right)
		}
		for n, option := range f.Options {
			if (option == f.Right) == (right || q.HasPlace || i > 0) {
				u.typeKeys(strings.Repeat(" ", n+1))
				break
			}
		}
		u.typeKeys("\r")
	}
	if right {
		u.sees("Right.")
	} else {
		u.sees("Not so; it comes again soon.")
	}
	u.typeKeys("\r")
}

// The demonstration is learnt on a terminal through all its sections to the whole recall:
// with wrong answers, a hint, a pause, leaving and coming back.
func TestRehearseTheDemonstration(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, os.DirFS("../../testdata/demo")))
	u := learns(t, dir, "meadow-agility.toml", "meadow-agility-b.toml", "rook.toml")
	u.typeKeys("1")
	u.sees("On your feet, with arms and steps in small")
	session := learn.Start(learn.Sections(u.c, u.p), nil)
	next := func(right bool) {
		k, ok := session.Cue()
		require.True(t, ok)
		u.answers(k, right)
		session.Answer(right)
	}
	u.typeKeys("?")
	u.sees("pace begins with r.")
	next(false)
	next(true)
	u.typeKeys("p")
	u.sees("Paused.")
	u.typeKeys("x")
	next(true)
	next(false)
	u.typeKeys("q")
	require.NoError(t, u.wait())
	u.restored()
	u = learns(t, dir, "meadow-agility.toml", "meadow-agility-b.toml", "rook.toml")
	u.typeKeys("1")
	u.sees("You go on where you left.")
	for !session.Now().Whole {
		next(true)
	}
	u.sees("whole recall, 0 of 2 without a mistake")
	next(true)
	u.sees("The dog runs.")
	u.typeKeys("q")
	require.NoError(t, u.wait())
	u.restored()
	kept, err := filepath.Glob(filepath.Join(dir, "data", "cuewalk", "progress", "*.json"))
	require.NoError(t, err)
	assert.Len(t, kept, 1)
}

// A small plan is learnt to its end, the whole recalls at the clock of the run.
func TestRehearseToTheEnd(t *testing.T) {
	t.Parallel()
	u := learns(t, ringFolder(t), "course.toml", "plan.toml", "team.toml")
	u.typeKeys("1")
	session := learn.Start(learn.Sections(u.c, u.p), nil)
	begun := time.Now()
	for !session.Done() {
		k, _ := session.Cue()
		u.answers(k, true)
		session.Answer(true)
	}
	u.sees("You know this plan: two whole recalls without a mistake.")
	assert.Greater(t, time.Since(begun), 5*time.Second, "the whole recalls keep the clock of the run")
	u.typeKeys("\x1b")
	u.sees("learn it by heart")
	u.typeKeys("2")
	for n := range learn.Taps {
		u.sees(strconv.Itoa(n) + " of 8")
		time.Sleep(800 * time.Millisecond)
		u.typeKeys(" ")
	}
	u.sees("Your keys come")
	u.typeKeys("ss\r")
	for range u.p.Cues {
		time.Sleep(700 * time.Millisecond)
		u.typeKeys(" ")
	}
	for end := time.Now().Add(30 * time.Second); !strings.Contains(u.screen(), "timing, cue by cue"); time.Sleep(200 * time.Millisecond) {
		require.True(t, time.Now().Before(end), u.screen())
		if strings.Contains(u.screen(), "go on from the next number") {
			u.typeKeys("\r")
		}
	}
	u.sees("In time, that is within 0.15 s")
	u.typeKeys("q")
	require.NoError(t, u.wait())
	u.restored()
}
