//go:build unix

package command

import (
	"bytes"
	"os"
	"os/exec"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

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
		cmd.Dir, cmd.Stdout, cmd.Stderr = ring, w, &errs
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
	cmd.Dir, cmd.Stdout, cmd.Stderr = ring, full, &errs
	var failed *exec.ExitError
	require.ErrorAs(t, cmd.Run(), &failed)
	assert.Equal(t, wrongUse, failed.ExitCode())
	assert.Contains(t, errs.String(), "no space left")
}

// Sentences to a reader that has gone are no error.
func TestPlainClosedPipe(t *testing.T) {
	r, w, err := os.Pipe()
	require.NoError(t, err)
	require.NoError(t, r.Close())
	var errs bytes.Buffer
	cmd := exec.Command("cuewalk", "--plain", "--runs", "0", "course.toml", "plan.toml")
	cmd.Dir, cmd.Stdin, cmd.Stdout, cmd.Stderr = ring, bytes.NewBufferString("\n\nq\n"), w, &errs
	assert.NoError(t, cmd.Run())
	assert.Empty(t, errs.String())
	require.NoError(t, w.Close())
}
