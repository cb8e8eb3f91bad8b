//go:build unix

package progress

import (
	"os"
	"os/exec"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A full disk: the process may write no file longer than some bytes. It is played in a
// process of its own, since the limit cannot be taken back.
func TestFullDisk(t *testing.T) {
	c, p := demo(t)
	if dir := os.Getenv("CUEWALK_TEST_FULL_DISK"); dir != "" {
		s := Store{dir}
		require.NoError(t, s.Change(c, p, func(g *Progress) { g.Runs = 7 }))
		limit := syscall.Rlimit{Cur: 16, Max: 16}
		require.NoError(t, syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limit))
		err := s.Change(c, p, func(g *Progress) { g.Runs = 8 })
		require.ErrorContains(t, err, "not kept")
		g, err := s.Load(c, p)
		require.NoError(t, err)
		assert.Equal(t, 7, g.Runs, "what was there is there still")
		assert.Len(t, files(t, dir), 2, "no half file is left")
		return
	}
	cmd := exec.Command(os.Args[0], "-test.run", "^TestFullDisk$")
	cmd.Env = append(os.Environ(), "CUEWALK_TEST_FULL_DISK="+t.TempDir())
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, string(out))
}
