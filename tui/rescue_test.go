package tui

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/plan"
)

// A program that has to end keeps what was altered in a new file, and leaves alone what
// was not altered and what the user has given up.
func TestRescueKeepsWhatWasAltered(t *testing.T) {
	s, d := openCue(t, 3)
	require.NoError(t, s.s.Rescue(), "nothing to keep")
	was := len(d)
	s.keys("down", "right")
	d["inside-2.toml"] = []byte("somebody else's")
	err := s.s.Rescue()
	require.ErrorContains(t, err, "inside-3.toml")
	assert.Equal(t, "somebody else's", string(d["inside-2.toml"]))
	kept, err := plan.Parse("inside-3.toml", d["inside-3.toml"], s.s.Course(), s.s.Teams()[0])
	require.NoError(t, err)
	assert.True(t, kept.Equal(*s.doc().Plan()))
	assert.Len(t, d, was+2)

	s.doc().Drop()
	require.NoError(t, s.s.Rescue())
	assert.Len(t, d, was+2)
}

func TestRescueSaysWhatIsLost(t *testing.T) {
	s, d := openCue(t, 3)
	s.keys("down", "right")
	d[fullDisk] = nil
	err := s.s.Rescue()
	require.ErrorContains(t, err, "are lost")
	assert.ErrorContains(t, err, "the disk is full")
	assert.NotContains(t, err.Error(), "kept")
}
