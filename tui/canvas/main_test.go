package canvas

import (
	"os"
	"os/exec"
	"testing"
)

const eastAsian = "RUNEWIDTH_EASTASIAN"

// TestMain pins the width of ambiguous signs, which the width library takes from the
// environment before any test could set it: it runs the tests anew without the variable.
// TestWidthsHoldForEastAsianTerminals sets it on purpose and says so.
func TestMain(m *testing.M) {
	if os.Getenv(eastAsian) == "" || os.Getenv("CANVAS_TEST_WIDE") != "" {
		os.Exit(m.Run())
	}
	os.Unsetenv(eastAsian)
	again := exec.Command(os.Args[0], os.Args[1:]...)
	again.Stdout, again.Stderr = os.Stdout, os.Stderr
	if again.Run() != nil {
		os.Exit(1)
	}
}
