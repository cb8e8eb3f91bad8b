//go:build !windows

package tomlfile

import (
	"path/filepath"

	"github.com/google/renameio/v2"
)

// replace puts data in the place of target, whole or not at all.
func replace(target string, data []byte) error {
	return renameio.WriteFile(target, data, 0o644, renameio.WithTempDir(filepath.Dir(target)))
}
