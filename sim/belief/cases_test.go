package belief

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var (
	update  = flag.Bool("update", false, "write the list of statements known not to hold anew")
	only    = flag.String("case", "", "run only the files whose names match this regular expression")
	figures = flag.Bool("figures", false, "print every figure of every plan and team")
	runs    = flag.Int("runs", 300, "seeded runs of each plan and team")
)

const (
	casesFolder  = "../../testdata/cases"
	roundsFolder = "../../testdata/rounds"
	knownFile    = casesFolder + "/known-lies.txt"
	seed         = 1
)

// requiredShare of the statements about whole rounds must hold: what holds today. The aim
// is 0.8.
const requiredShare = 0.3

// judged is what came of the files of a folder.
type judged struct {
	table  Table
	names  []string // files that were run
	failed Known
}

// judge runs every case file of a folder as a test of its own.
func judge(t *testing.T, folder string) judged {
	t.Helper()
	j := judged{table: Table{}, failed: Known{}}
	for _, path := range files(t, folder) {
		name := filepath.Base(path)
		t.Run(strings.TrimSuffix(name, ".txtar"), func(t *testing.T) {
			c := read(t, path)
			verdicts := run(t, c)
			j.table.Add(c.Manoeuvre, verdicts)
			j.names = append(j.names, name)
			for _, v := range verdicts {
				if !v.Held {
					j.failed[v.Statement.Listed(name)] = true
				}
			}
		})
	}
	return j
}

// files are the case files of a folder that -case chooses.
func files(t *testing.T, folder string) []string {
	t.Helper()
	all, err := filepath.Glob(filepath.Join(folder, "*.txtar"))
	require.NoError(t, err)
	require.NotEmpty(t, all, "no case files in %s", folder)
	chosen, err := regexp.Compile(*only)
	require.NoError(t, err)
	return slices.DeleteFunc(all, func(path string) bool { return !chosen.MatchString(path) })
}

func read(t *testing.T, path string) *Case {
	t.Helper()
	src, err := os.ReadFile(path)
	require.NoError(t, err)
	c, err := Parse(path, src)
	if long, ok := err.(interface{ Long() string }); ok {
		t.Fatal("\n" + long.Long())
	}
	require.NoError(t, err)
	require.NotEmpty(t, c.Beliefs, "%s: no statements; write them in a part named beliefs", path)
	require.NotEmpty(t, c.Manoeuvre, "%s: write a line manoeuvre: NAME above the first part", path)
	require.NotEmpty(t, c.Source, "%s: write a line source: common practice, no source", path)
	return c
}

// run measures and judges a case and prints what does not hold.
func run(t *testing.T, c *Case) []Verdict {
	t.Helper()
	n := *runs
	if strings.HasPrefix(c.Manoeuvre, "round") { // many obstacles, wide ranges: a third of the runs will do
		n = max(1, n/3)
	}
	m, err := c.Measure(seed, n)
	require.NoError(t, err)
	if *figures {
		for p := range m {
			for k := range m[p] {
				fmt.Printf("%s | %s, %s | %s\n", filepath.Base(c.File), c.Plans[p], c.Teams[k].Name, m[p][k].String())
			}
		}
	}
	verdicts := c.Judge(m)
	for _, v := range verdicts {
		var texts []string
		for _, f := range v.Findings {
			if !f.Held || *figures {
				texts = append(texts, f.Text)
			}
		}
		switch {
		case !v.Held:
			t.Logf("not held: %s\n      %s", v.Statement.Listed(filepath.Base(c.File)), strings.Join(texts, "; "))
		case *figures:
			t.Logf("held: %s\n      %s", v.Statement.Listed(filepath.Base(c.File)), strings.Join(texts, "; "))
		}
	}
	return verdicts
}

// What coaches believe of single situations. Sources stand in each file. A statement that
// does not hold must be in the list of those known; the list is no leave to add to it.
func TestCases(t *testing.T) {
	if testing.Short() {
		t.Skip("thousands of runs: in the full tests")
	}
	j := judge(t, casesFolder)
	t.Logf("\n%s", j.table)
	src, err := os.ReadFile(knownFile)
	if err != nil && !os.IsNotExist(err) {
		t.Fatal(err)
	}
	known := ReadKnown(src)
	if *update {
		rewrite(t, known, j)
		return
	}
	for _, line := range known.Of(j.names).Without(j.failed) {
		t.Errorf("on the list of those known not to hold, and holds now or is no longer written (run with -update): %s", line)
	}
	for _, line := range j.failed.Without(known) {
		t.Errorf("does not hold, and is not on the list of those known: %s", line)
	}
	if *only == "" && len(j.names) == len(files(t, casesFolder)) {
		for _, line := range known.Without(known.Of(j.names)) {
			t.Errorf("%s names a file that is not there: %s", knownFile, line)
		}
	}
}

// rewrite writes the list of what does not hold, and prints what has changed. Lines
// of files that were not run stay.
func rewrite(t *testing.T, known Known, j judged) {
	t.Helper()
	now := Known{}
	for line := range known {
		now[line] = true
	}
	for _, line := range known.Of(j.names).Without(j.failed) {
		delete(now, line)
		t.Logf("taken off the list: %s", line)
	}
	for _, line := range j.failed.Without(known) {
		now[line] = true
		t.Logf("put on the list: %s", line)
	}
	lines := append([]string{"# Statements that do not hold. Written by go test ./sim/belief -run TestCases -update"}, now.Without(nil)...)
	require.NoError(t, os.WriteFile(knownFile, []byte(strings.Join(lines, "\n")+"\n"), 0o644))
}

// What coaches believe of whole rounds of three levels.
func TestRounds(t *testing.T) {
	if testing.Short() {
		t.Skip("thousands of runs: in the full tests")
	}
	total, chosen := Table{}, 0
	for _, part := range []string{"seen", "unseen"} {
		folder := filepath.Join(roundsFolder, part)
		if _, err := os.Stat(folder); os.IsNotExist(err) && part == "unseen" {
			continue
		}
		t.Run(part, func(t *testing.T) {
			j := judge(t, folder)
			chosen += len(files(t, folder)) - len(j.names)
			for heading, c := range j.table {
				total[heading+", "+part] = c
			}
		})
	}
	t.Logf("\n%s", total)
	if sum := total.Total(); *only == "" && chosen == 0 {
		require.GreaterOrEqual(t, sum.Share(), requiredShare, "%d of %d statements hold", sum.Held, sum.All)
	}
}
