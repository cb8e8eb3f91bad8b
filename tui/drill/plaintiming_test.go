package drill

import (
	"bytes"
	"io"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/plan/learn"
	"cuewalk/tui/progress"
)

// Timing by the Enter key in sentences, at the time of day: the dog runs, what it takes is
// said, and each press is told early or late.
func TestPlainTiming(t *testing.T) {
	t.Parallel()
	o := small(t)
	o.Store = progress.Store{Dir: t.TempDir()}
	require.NoError(t, o.Store.Change(o.Course, o.Plan, func(g *progress.Progress) { g.Delay = &learn.Delay{Seconds: 0.05} }))
	in, typed := io.Pipe()
	go func() {
		for _, line := range []string{"2", "s", "s", ""} {
			_, _ = io.WriteString(typed, line+"\n")
		}
		for range 3 {
			time.Sleep(700 * time.Millisecond)
			_, _ = io.WriteString(typed, "\n")
		}
		_, _ = io.WriteString(typed, "\n\n") // more presses than cues do nothing
		time.Sleep(12 * time.Second)
		_ = typed.Close()
	}()
	var out bytes.Buffer
	done := make(chan error)
	go func() { done <- Plain(o, in, &out) }()
	// The run ends by itself; what is typed next ends the program.
	select {
	case err := <-done:
		require.NoError(t, err)
	case <-time.After(60 * time.Second):
		t.Fatal("it does not end")
	}
	said := out.String()
	assert.Contains(t, said, "Your keys come 0.05 s late")
	assert.Contains(t, said, "Speed: full.")
	assert.Contains(t, said, "\n1\n", "what the dog takes is said")
	assert.Contains(t, said, "Cue 1: ")
	assert.Contains(t, said, "In time, that is within 0.15 s:")
}
