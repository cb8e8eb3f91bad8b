package progress

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/adrg/xdg"
	"github.com/gofrs/flock"

	"cuewalk/course"
	"cuewalk/course/tomlfile"
	"cuewalk/plan"
)

// patience is how long a program waits for another that is writing.
const patience = 2 * time.Second

// Store is where progress is kept. The zero Store keeps nothing and leaves no trace.
type Store struct {
	Dir string // folder of the files; made when first needed
}

// UsersFolder is the folder for progress among the user's data: below $XDG_DATA_HOME or
// ~/.local/share on Unix, ~/Library/Application Support on a Mac, %LOCALAPPDATA% on
// Windows (XDG Base Directory Specification 0.8 and the platforms' own rules).
func UsersFolder() string { return filepath.Join(xdg.DataHome, "cuewalk", "progress") }

// Keeps reports whether anything is kept.
func (s Store) Keeps() bool { return s.Dir != "" }

// path is the file of a plan: its name for the reader, and a hash of course and plan so
// that no two share one.
func (s Store) path(c *course.Course, p *plan.Plan) string {
	sum := sha256.Sum256([]byte(c.Name + "\x00" + p.Name))
	name := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			return r
		case r >= 'A' && r <= 'Z':
			return r + 'a' - 'A'
		}
		return '-'
	}, p.Name)
	name = strings.Trim(name[:min(len(name), 40)], "-")
	return filepath.Join(s.Dir, name+"-"+hex.EncodeToString(sum[:6])+".json")
}

// Load returns what is kept of a plan; nothing learnt yet where there is no file. With a
// file that cannot be used it returns nothing learnt yet too, and an error that says what
// was done with the file.
func (s Store) Load(c *course.Course, p *plan.Plan) (Progress, error) {
	if !s.Keeps() {
		return New(c, p), nil
	}
	return s.read(s.path(c, p), c, p)
}

func (s Store) read(path string, c *course.Course, p *plan.Plan) (Progress, error) {
	g := New(c, p)
	data, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return g, nil
	}
	if err != nil {
		return g, fmt.Errorf("what was learnt before cannot be read: %w", err)
	}
	var kept Progress
	if err := json.Unmarshal(data, &kept); err != nil || kept.Version < 1 || kept.Cues == nil {
		return g, putAside(path)
	}
	if kept.Version > version {
		return g, errLater{path}
	}
	return kept, nil
}

// errLater is a file written by a later version: it is neither used nor replaced.
type errLater struct{ path string }

func (e errLater) Error() string {
	return tomlfile.Plain(e.path) + ": was written by a later version of this program; it is left as it is and nothing is kept now"
}

// putAside keeps a damaged file under another name.
func putAside(path string) error {
	for n := 1; n < 100; n++ {
		aside := fmt.Sprintf("%s.damaged-%d", path, n)
		if _, err := os.Lstat(aside); err == nil {
			continue
		}
		if err := os.Rename(path, aside); err != nil {
			return fmt.Errorf("%s is damaged and cannot be put aside: %w", tomlfile.Plain(path), err)
		}
		return fmt.Errorf("%s was damaged: it is kept as %s, and learning begins anew", tomlfile.Plain(path), tomlfile.Plain(filepath.Base(aside)))
	}
	return fmt.Errorf("%s is damaged, and so are many before it: delete those that end in .damaged", tomlfile.Plain(path))
}

// Change reads what is kept of a plan, lets change alter it, and replaces the file whole.
// Two programs do so one after the other, so that neither loses what the other noted. After
// an error the file is as it was.
func (s Store) Change(c *course.Course, p *plan.Plan, change func(*Progress)) error {
	if !s.Keeps() {
		return nil
	}
	if err := os.MkdirAll(s.Dir, 0o700); err != nil {
		return fmt.Errorf("the folder for what is learnt cannot be made: %w", err)
	}
	path := s.path(c, p)
	unlock, err := lock(path)
	if err != nil {
		return err
	}
	defer unlock()
	g, damaged := s.read(path, c, p)
	if later := (errLater{}); errors.As(damaged, &later) {
		return later
	}
	change(&g)
	data, err := json.MarshalIndent(g, "", " ")
	if err != nil {
		return fmt.Errorf("what was learnt cannot be written: %w", err)
	}
	if err := tomlfile.Save(path, append(data, '\n')); err != nil {
		return fmt.Errorf("what was learnt is not kept: %w", err)
	}
	return damaged
}

// lock waits for the file beside path that says who is writing.
func lock(path string) (unlock func(), err error) {
	l := flock.New(path + ".lock")
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	ok, err := l.TryLockContext(ctx, 10*time.Millisecond)
	if err != nil || !ok {
		return nil, fmt.Errorf("%s: another program is writing it, or it cannot be locked: %w", tomlfile.Plain(path), err)
	}
	return func() { _ = l.Unlock() }, nil
}
