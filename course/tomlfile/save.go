package tomlfile

import (
	"crypto/rand"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// Save replaces the content of a file, or makes it. After a crash the old or
// the new content is there, whole. A symbolic link stays and the file it points
// to is replaced; the permissions stay. A file that may not be written, a
// folder and a device are refused. The error is a [Problem].
func Save(path string, data []byte) error {
	target, err := writable(path)
	if err != nil {
		return err
	}
	if err := replace(target, data); err != nil {
		return saveProblem(path, err)
	}
	return nil
}

// saveProblem words an error on the way to a new file. What is missing then is
// the folder.
func saveProblem(path string, err error) Problem {
	p := fileProblem(path, err)
	if errors.Is(err, fs.ErrNotExist) {
		p.Text, p.Hint = "its folder does not exist", "make the folder first, or save elsewhere"
	}
	return p
}

// writable follows links and gives the file to replace.
func writable(path string) (target string, err error) {
	target, err = filepath.EvalSymlinks(path)
	if errors.Is(err, fs.ErrNotExist) {
		if _, err := os.Lstat(path); err == nil {
			return "", Problem{Pos: Pos{File: path}, Text: "is a link that points to nothing", Hint: "delete the link, or save under another name", cause: fs.ErrNotExist}
		}
		return path, nil
	}
	if err != nil {
		return "", fileProblem(path, err)
	}
	info, err := os.Stat(target)
	switch {
	case err != nil:
		return "", fileProblem(path, err)
	case info.IsDir():
		return "", Pos{File: path}.Problem("is a folder, not a file", "add the name of a file")
	case !info.Mode().IsRegular():
		return "", Pos{File: path}.Problem("is no ordinary file", "name a file on the disk")
	}
	// A rename would also replace a write-protected file: ask first.
	f, err := os.OpenFile(target, os.O_WRONLY, 0)
	if err != nil {
		return "", fileProblem(path, err)
	}
	f.Close()
	return target, nil
}

// Create makes a file that was not there. Whatever has that name already, a
// dangling link included, is left alone: the error is then a [Problem] for
// which errors.Is(err, fs.ErrExist) holds. Other programs see the whole file or
// none.
func Create(path string, data []byte) error {
	err := create(path, data)
	switch {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrExist):
		return Problem{Pos: Pos{File: path}, Text: "is there already, and was left as it is", Hint: "choose another name", cause: err}
	}
	return saveProblem(path, err)
}

func create(path string, data []byte) error {
	if _, err := os.Lstat(path); err == nil { // spares the work; Link decides
		return fs.ErrExist
	}
	temp := filepath.Join(filepath.Dir(path), ".new-"+rand.Text())
	if err := writeNew(temp, data); err != nil {
		return err
	}
	defer os.Remove(temp)
	err := os.Link(temp, path)
	if err == nil || errors.Is(err, fs.ErrExist) || errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return writeNew(path, data) // a file system without hard links
}

// writeNew writes a file that must not exist yet, to the disk.
func writeNew(path string, data []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	if closeErr := f.Close(); err == nil {
		err = closeErr
	}
	if err != nil {
		os.Remove(path)
	}
	return err
}
