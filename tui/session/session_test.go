package session

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"time"

	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/sim/advice"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// disk is files in memory.
type disk map[string][]byte

func (d disk) read(path string) ([]byte, error) {
	if b, ok := d[path]; ok {
		return append([]byte(nil), b...), nil
	}
	return nil, fs.ErrNotExist
}

func (d disk) save(path string, data []byte) error { d[path] = data; return nil }

func (d disk) create(path string, data []byte) error {
	if _, ok := d[path]; ok {
		return fmt.Errorf("%s is there already: %w", path, fs.ErrExist)
	}
	return d.save(path, data)
}

// practice is a course with two plans and two teams, on a disk in memory.
func practice(t *testing.T) (Config, disk) {
	t.Helper()
	d := disk{}
	for _, f := range []string{"course.toml", "inside.toml", "outside.toml", "wren.toml", "moth.toml"} {
		b, err := os.ReadFile(filepath.Join("..", "testdata", f))
		require.NoError(t, err)
		d[f] = b
	}
	c, err := course.Parse("course.toml", d["course.toml"])
	require.NoError(t, err)
	o := Config{Course: c, Seed: 1, Runs: 40, Read: d.read, Save: d.save, Create: d.create, First: twoCues}
	for _, f := range []string{"wren.toml", "moth.toml"} {
		tm, err := team.Parse(f, d[f])
		require.NoError(t, err)
		o.Teams = append(o.Teams, tm)
	}
	for _, f := range []string{"inside.toml", "outside.toml"} {
		p, err := plan.Parse(f, d[f], c, o.Teams[0])
		require.NoError(t, err)
		o.Plans = append(o.Plans, PlanFile{p, d[f]})
	}
	return o, d
}

func twoCues(c *course.Course, _ *team.Team) *plan.Plan {
	return &plan.Plan{Name: "First", For: c.Name, LeadOut: c.Start, Cues: []plan.Cue{{When: plan.Moment{Event: plan.Release}, Pace: plan.Run}}}
}

// finish does tasks and what follows from them, and lists the news.
func finish(s *Session, tasks ...Task) (all []News) {
	for len(tasks) > 0 {
		t := tasks[0]
		tasks = tasks[1:]
		if t == nil {
			continue
		}
		news, next := s.Take(t())
		if news != nil {
			all = append(all, news)
		}
		tasks = append(tasks, next...)
	}
	return all
}

func ofType[T News](all []News) (out []T) {
	for _, n := range all {
		if t, ok := n.(T); ok {
			out = append(out, t)
		}
	}
	return out
}

func TestNotReady(t *testing.T) {
	o, _ := practice(t)
	o.Teams = nil
	assert.ErrorIs(t, New(o).Ready(), ErrNoTeam)
	assert.ErrorIs(t, New(Config{}).Ready(), ErrNoCourse)
}

// All that is wanted gets a few runs first, so that there is a range, then the full number.
func TestWantedFiguresSettle(t *testing.T) {
	o, _ := practice(t)
	o.Runs = quickRuns + 10
	s := New(o)
	a, b := s.Question(Pick{}), s.Question(Pick{Doc: 1})
	assert.False(t, s.Settled(a))
	var order []string
	for _, n := range ofType[Counted](finish(s, s.Want(a, b))) {
		order = append(order, n.Question.Plan.File)
	}
	assert.Equal(t, []string{"inside.toml", "outside.toml", "inside.toml", "outside.toml"}, order)
	assert.True(t, s.Settled(a))
	assert.Equal(t, 210, s.Ask(b).Runs)
	assert.Less(t, s.Ask(a).Low, s.Ask(a).High)
	assert.Nil(t, s.Want(a, b), "nothing is lacking")
	done, of, going := s.Progress(a)
	assert.Equal(t, []any{210, 210, false}, []any{done, of, going})
}

// A series given up, and one that is not the present one, change nothing.
func TestStaleAnswersAreDropped(t *testing.T) {
	o, _ := practice(t)
	s := New(o)
	a, b := s.Question(Pick{}), s.Question(Pick{Doc: 1})
	first := s.Want(a)
	number := s.batch.number
	second := s.Want(b)
	require.NotEqual(t, number, s.batch.number)
	news, next := s.Take(talliedEvent{number: number, tally: &sim.Tally{Runs: 200, Clean: 200}})
	assert.Nil(t, news)
	assert.Empty(t, next)
	assert.Zero(t, s.Ask(a).Runs)
	_, _ = s.Take(progressEvent{number, 150})
	assert.Zero(t, s.batch.done)
	finish(s, first, second)
	assert.Zero(t, s.Ask(a).Runs)
	assert.Equal(t, 40, s.Ask(b).Runs)
}

func TestRestAndResume(t *testing.T) {
	o, _ := practice(t)
	o.Runs = 1 << 20
	s := New(o)
	q := s.Question(Pick{})
	task, ctx := s.Want(q), s.batch.ctx
	s.Rest()
	assert.ErrorIs(t, ctx.Err(), context.Canceled)
	finish(s, task)
	assert.Zero(t, s.Ask(q).Runs)
	assert.Nil(t, s.Want(q), "they rest")
	s.c.Runs = 100
	finish(s, s.Resume())
	assert.Equal(t, 100, s.Ask(q).Runs)
}

func TestAnswersAreKeptWithinABound(t *testing.T) {
	o, _ := practice(t)
	s := New(o)
	q := s.Question(Pick{})
	s.Want(q)
	s.Close()
	first := s.Ask(q)
	for range 3 * most {
		p := *q.Plan
		s.keep(Question{&p, q.Team}, first)
	}
	assert.LessOrEqual(t, len(s.answers.known), most+1)
	assert.Same(t, first, s.Ask(q), "what is wanted stays")
}

func TestUndoIsBounded(t *testing.T) {
	o, _ := practice(t)
	d := New(o).Docs()[0]
	for i := range 3 * MostVersions {
		p := *d.Plan()
		p.Name = fmt.Sprint(i)
		d.Push(&p, "rename")
	}
	assert.Len(t, d.versions, MostVersions)
	n := 0
	for d.CanUndo() {
		d.Step(-1)
		n++
	}
	assert.Equal(t, MostVersions-1, n)
	assert.Equal(t, fmt.Sprint(2*MostVersions), d.Plan().Name)
	assert.Empty(t, d.Step(-1))
	assert.Equal(t, "rename", d.Step(1))
}

// A change is a question of its own: its figures are settled by the same runs, those that do
// not help are left out, the best stands first, and what was found is not looked for again.
func TestAdvice(t *testing.T) {
	o, _ := practice(t)
	o.Advise = func(_ context.Context, c *course.Course, p *plan.Plan, tm *team.Team, n int, _ uint64, _ int) (advice.Found, error) {
		worse, same := *p, *p
		worse.Cues = p.Cues[:1]
		return advice.Found{Number: n, Advice: []advice.Advice{{Plan: worse}, {Plan: *New(o).docs[1].Plan()}, {Plan: same}}}, nil
	}
	s := New(o)
	q := s.Question(Pick{})
	finish(s, s.Want(q))
	task := s.Advise(q, 4)
	assert.Equal(t, 4, s.Advising())
	news := ofType[Advised](finish(s, task))
	require.Len(t, news, 1)
	assert.Nil(t, s.Advise(q, 4), "it is known")
	assert.False(t, s.AdviceSettled(q, 4))
	a := s.Found(q, 4)
	require.Len(t, a.Changes, 3)
	finish(s, s.Want(a.Changes[0].Question, a.Changes[1].Question, a.Changes[2].Question))
	assert.True(t, s.AdviceSettled(q, 4))
	for _, c := range s.Found(q, 4).Changes {
		assert.Greater(t, s.Ask(c.Question).Clean, s.Ask(q).Clean)
	}

	first := s.Advise(q, 5)
	s.StopAdvice()
	assert.Empty(t, finish(s, first), "it was stopped")
	assert.Nil(t, s.Found(q, 5))
}

func TestFirstPlan(t *testing.T) {
	o, d := practice(t)
	d["course-plan.toml"] = []byte("somebody's own")
	s := New(o)
	assert.Equal(t, "course-plan-2.toml", s.FirstName())
	news := ofType[NotStarted](finish(s, s.StartFirst(o.Teams[0], "course-plan.toml")))
	require.Len(t, news, 1)
	assert.ErrorIs(t, news[0].Err, fs.ErrExist)
	assert.Equal(t, "somebody's own", string(d["course-plan.toml"]))

	task := s.StartFirst(o.Teams[0], "mine.toml")
	assert.True(t, s.Starting())
	assert.Nil(t, s.StartFirst(o.Teams[0], "other.toml"), "one at a time")
	s.StopFirst()
	assert.Empty(t, finish(s, task))
	assert.NotContains(t, d, "mine.toml", "stopped: nothing is written")

	started := ofType[Started](finish(s, s.StartFirst(o.Teams[0], "mine.toml")))
	require.Len(t, started, 1)
	assert.Same(t, s.Docs()[2], started[0].Doc)
	assert.Contains(t, d, "mine.toml")
	assert.False(t, started[0].Doc.Altered())
}

func TestSaveAndOutside(t *testing.T) {
	o, d := practice(t)
	s := New(o)
	doc := s.Docs()[0]
	p := *doc.Plan()
	p.Name = "Another name"
	doc.Push(&p, "rename")
	d["inside.toml"] = append(d["inside.toml"], []byte("# outside\n")...)
	write := func(how Writing, path string) []News {
		task, err := s.Write(doc, path, how)
		require.NoError(t, err)
		return finish(s, task)
	}
	assert.Equal(t, []News{NotWritten{Doc: doc, Path: "inside.toml", Outside: true}}, write(Keep, "inside.toml"))
	assert.Equal(t, []News{Held{doc}}, finish(s, s.Reread("inside.toml")))
	assert.True(t, doc.Outside())
	news := ofType[NotWritten](write(Fresh, "outside.toml"))
	require.Len(t, news, 1)
	assert.ErrorIs(t, news[0].Err, fs.ErrExist)
	assert.Equal(t, []News{Written{Doc: doc, Path: "inside.toml"}}, write(Over, "inside.toml"))
	assert.Contains(t, string(d["inside.toml"]), "Another name")
	assert.Empty(t, finish(s, s.Reread("inside.toml")), "its own save is no change")
}

func TestBrokenFileIsHeldUntilMended(t *testing.T) {
	o, d := practice(t)
	s := New(o)
	good := d["course.toml"]
	d["course.toml"] = []byte("= broken")
	assert.Equal(t, []News{Broken{"course.toml"}}, finish(s, s.Reread("course.toml")))
	assert.Error(t, s.Broken()["course.toml"])
	d["course.toml"] = good
	assert.Equal(t, []News{Reloaded{Kind: CourseFile}}, finish(s, s.Reread("course.toml")))
	assert.Empty(t, s.Broken())
	delete(d, "moth.toml")
	finish(s, s.Reread("moth.toml"))
	assert.ErrorIs(t, s.Broken()["moth.toml"], fs.ErrNotExist)
}

// Rescue keeps what is altered in a new file, once, and says what it could not keep.
func TestRescue(t *testing.T) {
	o, d := practice(t)
	s := New(o)
	require.NoError(t, s.Rescue())
	p := *s.Docs()[0].Plan()
	p.Name = "Another name"
	s.Docs()[0].Push(&p, "rename")
	require.ErrorContains(t, s.Rescue(), "inside-2.toml")
	assert.Contains(t, string(d["inside-2.toml"]), "Another name")
	require.NoError(t, s.Rescue(), "it is kept already")

	o.Create = func(string, []byte) error { return errors.New("the disk is full") }
	s = New(o)
	s.Docs()[0].Push(&p, "rename")
	assert.ErrorContains(t, s.Rescue(), "are lost: the disk is full")
}

// A panic while runs are made comes to whoever takes events.
func TestPanicOfRuns(t *testing.T) {
	b := &batch{ctx: t.Context(), said: make(chan Event, 1)}
	func() {
		defer b.pass()
		panic("no such dog")
	}()
	e := b.listen()()
	assert.PanicsWithValue(t, e.(panicEvent).what, func() { (&Session{}).Take(e) })
	assert.Contains(t, e.(panicEvent).what, "no such dog")
}

// The watcher tells of each write, and its series is told from one before.
func TestWatch(t *testing.T) {
	o, d := practice(t)
	var changed func(string)
	o.Watch = func(_ context.Context, paths []string, f func(string)) error {
		assert.Len(t, paths, 5)
		changed = f
		return nil
	}
	s := New(o)
	task, err := s.Watch()
	require.NoError(t, err)
	d["wren.toml"] = append([]byte("# a remark\n"), d["wren.toml"]...)
	changed("wren.toml")
	_, next := s.Take(task())
	require.Len(t, next, 2)
	news, _ := s.Take(next[0]())
	assert.Equal(t, Reloaded{Kind: TeamFile}, news)
	_, none := s.Take(changedEvent{"wren.toml", s.watched - 1})
	assert.Empty(t, none)
	s.Close()
	assert.Nil(t, next[1](), "the wait ends with the session")
}

// The watcher on a real folder: a plain save and a save by rename, as editors do them.
func TestWatchFolders(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "plan.toml")
	require.NoError(t, os.WriteFile(path, []byte("a"), 0o644))
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	said := make(chan string, 10)
	require.NoError(t, WatchFolders(ctx, []string{path}, func(p string) { said <- p }))
	hear := func(what string) {
		select {
		case p := <-said:
			assert.Equal(t, path, p)
		case <-time.After(3 * time.Second):
			t.Fatal("not seen: " + what)
		}
	}
	require.NoError(t, os.WriteFile(path, []byte("b"), 0o644))
	hear("a plain save")
	for range 2 { // twice: watching the file itself would die at the first
		temp := filepath.Join(dir, "temp")
		require.NoError(t, os.WriteFile(temp, []byte("c"), 0o644))
		require.NoError(t, os.Rename(temp, path))
		hear("a save by rename")
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "other"), nil, 0o644))
	select {
	case p := <-said:
		t.Fatal("said a change of another file: " + p)
	case <-time.After(3 * settle):
	}
}
