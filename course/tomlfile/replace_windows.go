package tomlfile

import (
	"os"
	"path/filepath"
)

// replace puts data in the place of target, whole or not at all: written beside it, then
// renamed over it, which Windows does in one step on one volume. Built, not run, by us.
func replace(target string, data []byte) error {
	f, err := os.CreateTemp(filepath.Dir(target), ".new-*")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name()) // gone already where all went well
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err != nil {
		return err
	}
	return os.Rename(f.Name(), target)
}
