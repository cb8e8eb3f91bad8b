//go:build unix

package tomlfile

import (
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A pipe that nobody writes to would hold the program up for ever.
func TestReadFileDoesNotWaitForAPipe(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "pipe.toml")
	require.NoError(t, syscall.Mkfifo(pipe, 0o600))
	_, err := ReadFile(pipe)
	assert.EqualError(t, err, pipe+": is a pipe or a socket, not a file")
}
