package command

import (
	"context"
	"os"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"cuewalk/course"
	"cuewalk/tui"
)

// ring is a folder with a course, a plan and a team that are right.
const ring = "../../testdata/scripts/ring"

// TestMain makes the program a command called cuewalk for the tests of this package,
// and one that goes wrong on the screen.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"cuewalk":        func() { os.Exit(Run(os.Args[1:], os.Stdout, os.Stderr)) },
		"cuewalk-panics": panicOnScreen,
	})
}

// panicOnScreen opens the screen with a reader that panics when the course is read again, which
// is at once.
func panicOnScreen() {
	f, err := readFiles([]string{"course.toml", "plan.toml", "team.toml"})
	if err != nil {
		os.Exit(problems)
	}
	o, err := screenOptions{}.open(f)
	if err != nil {
		os.Exit(problems)
	}
	o.ParseCourse = func(string, []byte) (*course.Course, error) { panic("made for a test") }
	o.Watch = func(_ context.Context, _ []string, changed func(string)) error {
		go func() {
			time.Sleep(50 * time.Millisecond) // not before the screen is there
			changed("course.toml")
		}()
		return nil
	}
	os.Exit(exit(tui.Run(o), os.Stderr))
}
