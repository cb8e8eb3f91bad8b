package tui

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/plan"
)

// A program that has to end keeps what was altered in a new file, and leaves alone what
// was not altered and what the user has given up.
func TestRescueKeepsWhatWasAltered(t *testing.T) {
	s, d := openCue(t, 3)
	require.NoError(t, s.rescue(), "nothing to keep")
	was := len(d)
	s.keys("down", "right")
	d["inside-2.toml"] = []byte("somebody else's")
	err := s.rescue()
	require.ErrorContains(t, err, "inside-3.toml")
	assert.Equal(t, "somebody else's", string(d["inside-2.toml"]))
	kept, err := plan.Parse("inside-3.toml", d["inside-3.toml"], s.course, s.teams[0])
	require.NoError(t, err)
	assert.True(t, kept.Equal(*s.doc().plan()))
	assert.Len(t, d, was+2)

	s.doc().dropped = true
	require.NoError(t, s.rescue())
	assert.Len(t, d, was+2)
}

func TestRescueSaysWhatIsLost(t *testing.T) {
	s, _ := openCue(t, 3)
	s.keys("down", "right")
	s.o.Create = func(string, []byte) error { return errors.New("the disk is full") }
	err := s.rescue()
	require.ErrorContains(t, err, "are lost")
	assert.ErrorContains(t, err, "the disk is full")
	assert.NotContains(t, err.Error(), "kept")
}
