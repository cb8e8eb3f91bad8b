package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestMain makes the program a command called cuewalk for the tests of this package,
// and one that goes wrong on the screen.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"cuewalk": main, "cuewalk-panics": panicOnScreen})
}

// Every script of testdata/scripts starts in a folder with a course, a plan and a
// team that are right.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/scripts",
		Setup: func(e *testscript.Env) error {
			e.Setenv("BAD", "\x1b[31mred") // a file name as an attacker would choose it
			return os.CopyFS(e.WorkDir, os.DirFS("testdata/scripts/ring"))
		},
		Cmds:                map[string]func(*testscript.TestScript, bool, []string){"exit": exitScript, "fill": fillScript},
		RequireExplicitExec: true,
	})
}

// exitScript is the script command "exit N command args...": the command must end
// with exit code N.
func exitScript(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exit N command args...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		failed, ok := err.(*exec.ExitError)
		if !ok {
			ts.Fatalf("%v", err)
		}
		got = failed.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

// fillScript is the script command "fill file bytes": a file of so many remarks.
func fillScript(ts *testscript.TestScript, _ bool, args []string) {
	n, err := strconv.Atoi(args[1])
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), bytes.Repeat([]byte("# remark\n"), n/9+1), 0o644))
}

// A reader that has gone, as in "cuewalk report ... | head -1", is no error.
func TestClosedPipe(t *testing.T) {
	for _, args := range [][]string{
		{"report", "course.toml", "plan.toml", "--runs", "0"},
		{"report", "course.toml", "plan.toml", "--runs", "0", "--json"},
		{"check", "course.toml"},
		{"--help"},
		{"--version"},
		{"completion", "bash"},
	} {
		r, w, err := os.Pipe()
		require.NoError(t, err)
		require.NoError(t, r.Close())
		var errs bytes.Buffer
		cmd := exec.Command("cuewalk", args...)
		cmd.Dir, cmd.Stdout, cmd.Stderr = "testdata/scripts/ring", w, &errs
		assert.NoError(t, cmd.Run(), "%q", args)
		assert.Empty(t, errs.String(), "%q", args)
		require.NoError(t, w.Close())
	}
}

// A full disk is an error, unlike a closed pipe.
func TestFullDisk(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("this system has no /dev/full")
	}
	defer full.Close()
	var errs bytes.Buffer
	cmd := exec.Command("cuewalk", "check", "course.toml")
	cmd.Dir, cmd.Stdout, cmd.Stderr = "testdata/scripts/ring", full, &errs
	var failed *exec.ExitError
	require.ErrorAs(t, cmd.Run(), &failed)
	assert.Equal(t, wrongUse, failed.ExitCode())
	assert.Contains(t, errs.String(), "no space left")
}

// On a terminal that answers no question, a command that draws nothing must not
// wait for an answer; the screen library alone would wait 5 s.
func TestMuteTerminal(t *testing.T) {
	cmd := exec.Command("cuewalk", "--version")
	cmd.Env = append(os.Environ(), "TERM=xterm-256color")
	start := time.Now()
	f, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: 24, Cols: 80})
	require.NoError(t, err)
	defer f.Close()
	said := make(chan string, 1)
	go func() {
		var b bytes.Buffer
		_, _ = b.ReadFrom(f) // ends with an error when the program does
		said <- b.String()
	}()
	require.NoError(t, cmd.Wait())
	assert.Less(t, time.Since(start), 3*time.Second)
	got := <-said
	assert.Contains(t, got, "cuewalk ")
	assert.NotContains(t, got, "\x1b", "a question to the terminal")
}

// Everything the demonstration holds is right, and can be written out and read again.
func TestDemoFiles(t *testing.T) {
	sources, err := demoSources()
	require.NoError(t, err)
	f, err := parse(sources)
	require.NoError(t, err)
	require.NotEmpty(t, f.courses)
	require.NotEmpty(t, f.teams)
	for _, c := range f.courses {
		n := 0
		for _, p := range f.plans {
			if p.course == c {
				n++
			}
		}
		assert.Positive(t, n, "no plan for %q", c.Name)
	}
	dir := filepath.Join(t.TempDir(), "new", "folder")
	require.NoError(t, writeNew(dir, sources))
	for _, s := range sources {
		data, err := os.ReadFile(filepath.Join(dir, s.name))
		require.NoError(t, err)
		assert.Equal(t, string(s.data), string(data), s.name)
	}
}

// What is altered in the demonstration on the screen must not be saved over a file.
func TestDemoOnScreenHasNoFiles(t *testing.T) {
	f, err := screenFiles(nil)
	require.NoError(t, err)
	o, err := screenOptions{}.open(f)
	require.NoError(t, err)
	assert.Empty(t, o.Course.File)
	require.NotEmpty(t, o.Plans)
	for _, p := range o.Plans {
		assert.Empty(t, p.Plan.File)
		assert.Nil(t, p.Raw)
		assert.Contains(t, []string{"", o.Course.Name}, p.Plan.For)
	}
}

// The files that the manual shows are right, and are for one another.
func TestREADMEFiles(t *testing.T) {
	text, err := os.ReadFile("README.md")
	require.NoError(t, err)
	var sources []source
	for i, block := range regexp.MustCompile("(?s)```toml\n(.*?)```").FindAllSubmatch(text, -1) {
		sources = append(sources, source{fmt.Sprintf("example %d", i+1), block[1]})
	}
	f, err := parse(sources)
	require.NoError(t, err)
	assert.Len(t, f.courses, 1)
	assert.Len(t, f.teams, 1)
	assert.Len(t, f.plans, 1)
}

// Ids of sources, such as J1 or G5, that comments name are in the manual's table.
func TestSourcesAreInTheManual(t *testing.T) {
	manual, err := os.ReadFile("README.md")
	require.NoError(t, err)
	id := regexp.MustCompile(`\b[AJGTSVHI][0-9]{1,2}\b`)
	known := map[string]bool{}
	for _, row := range regexp.MustCompile(`(?m)^\| ([^|]*) \|`).FindAllSubmatch(manual, -1) {
		for _, m := range id.FindAll(row[1], -1) {
			known[string(m)] = true
		}
	}
	require.NotEmpty(t, known)
	named := 0
	for _, dir := range []string{"plan", "sim", "tui"} {
		for name, src := range sourceTexts(t, dir) {
			for _, comment := range regexp.MustCompile(`//.*`).FindAll(src, -1) {
				for _, m := range id.FindAll(comment, -1) {
					named++
					assert.True(t, known[string(m)], "%s names %s, which README's table lacks", name, m)
				}
			}
		}
	}
	assert.Positive(t, named, "no comment names a source")
}

// sourceTexts are the Go files at and below dir.
func sourceTexts(t *testing.T, dir string) map[string][]byte {
	t.Helper()
	texts := map[string][]byte{}
	for name := range goFiles(t, dir) {
		src, err := os.ReadFile(name)
		require.NoError(t, err)
		texts[name] = src
	}
	return texts
}
