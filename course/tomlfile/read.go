package tomlfile

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"unicode/utf8"
)

// MaxSize is the largest file that is read, in bytes: 1 MiB.
const MaxSize = 1 << 20

// ReadFile gives the content of a file of at most [MaxSize] bytes. It never
// reads more than that into memory. The error is a [Problem] that says what to
// do; errors.Is finds the system's error behind it.
func ReadFile(path string) ([]byte, error) {
	info, err := os.Stat(path) // before opening: a pipe would wait for a writer
	if err != nil {
		return nil, fileProblem(path, err)
	}
	if info.IsDir() {
		return nil, Pos{File: path}.Problem("is a folder, not a file", "name a file in it")
	}
	// What the shell has opened, as in <(command), has its writer.
	if opened := strings.HasPrefix(path, "/dev/"); !opened && info.Mode()&(fs.ModeNamedPipe|fs.ModeSocket) != 0 {
		return nil, Pos{File: path}.Problem("is a pipe or a socket, not a file", "name a file")
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, fileProblem(path, err)
	}
	defer f.Close()
	if info.Size() > MaxSize {
		return nil, tooLarge(path)
	}
	data, err := io.ReadAll(io.LimitReader(f, MaxSize+1))
	if err != nil {
		return nil, fileProblem(path, err)
	}
	if len(data) > MaxSize {
		return nil, tooLarge(path)
	}
	return data, nil
}

func tooLarge(path string) Problem {
	return Pos{File: path}.Problem("is larger than 1 MiB", "a course, team or plan has a few kilobytes: is it the right file?")
}

// fileProblem words an error of the system about a whole file.
func fileProblem(path string, err error) Problem {
	p := Problem{Pos: Pos{File: path}, cause: err}
	var system *fs.PathError
	reason := err.Error()
	if errors.As(err, &system) {
		reason = system.Err.Error()
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		p.Text, p.Hint = "there is no such file", "check the name and the folder"
		if near := nearestFile(path); near != "" {
			p.Hint = "did you mean " + Show(near) + "?"
		}
	case errors.Is(err, fs.ErrPermission):
		p.Text, p.Hint = "access is not allowed", "change the permissions of the file or its folder"
	default:
		p.Text, p.Hint = reason, "try again, or use a copy in another folder"
	}
	return p
}

// nearestFile is the file beside path whose name is nearest to it.
func nearestFile(path string) string {
	dir, base := filepath.Split(path)
	files, err := os.ReadDir(filepath.Clean(dir))
	if err != nil {
		return ""
	}
	names := make([]string, 0, len(files))
	for _, f := range files {
		if !f.IsDir() {
			names = append(names, f.Name())
		}
	}
	near := Nearest(base, names)
	if near == "" {
		return ""
	}
	return filepath.Join(dir, near)
}

// refuse gives the problem of content that is no TOML text at all.
func (d *Doc) refuse(src []byte) error {
	switch {
	case len(src) > MaxSize:
		return Problems{tooLarge(d.name)}
	case bytes.HasPrefix(src, []byte{0xff, 0xfe}), bytes.HasPrefix(src, []byte{0xfe, 0xff}):
		return Problems{d.whole("is saved as UTF-16", "save it as UTF-8 text in the editor")}
	case len(bytes.TrimSpace(d.src)) == 0:
		return Problems{d.whole("the file is empty", "begin with its kind, for example course = \"name\"")}
	}
	if at := bytes.IndexByte(d.src, 0); at >= 0 {
		return Problems{d.pos(at).Problem("this is a binary file, not text", "name a TOML file saved as UTF-8 text")}
	}
	if at := brokenUTF8(d.src); at >= 0 {
		text := fmt.Sprintf(`byte \x%02x is not UTF-8: a binary file, or text in another encoding`, d.src[at])
		return Problems{d.pos(at).Problem(text, "save it as UTF-8 text in the editor")}
	}
	return nil
}

// brokenUTF8 is the offset of the first byte that is not UTF-8, or -1.
func brokenUTF8(src []byte) int {
	for at := 0; at < len(src); {
		r, n := utf8.DecodeRune(src[at:])
		if r == utf8.RuneError && n == 1 {
			return at
		}
		at += n
	}
	return -1
}
