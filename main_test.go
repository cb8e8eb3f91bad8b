package main

import (
	"bytes"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestMain makes the program a command called cuewalk for the scripts.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"cuewalk": main})
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

// Ids of sources, such as J1 or G5, that comments name are in the manual's table.
func TestSourcesAreInTheManual(t *testing.T) {
	manual, err := os.ReadFile("sim/MODEL.md")
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
					assert.True(t, known[string(m)], "%s names %s, which the table of sim/MODEL.md lacks", name, m)
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
