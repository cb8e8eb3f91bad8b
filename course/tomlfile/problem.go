// Package tomlfile reads the TOML files a handler writes, reports everything
// that is wrong with one in a single go, and edits and saves such files without
// touching a byte that was not asked for.
//
// Reading: [Load] or [Parse] gives a [Doc]. Its tables hand out typed values;
// a value of the wrong type or out of range is noted and reading goes on.
// [Doc.Err] then gives every problem, in the order of the file.
//
// Lines and columns count from 1, columns in characters (not bytes). A
// byte-order mark has no column.
package tomlfile

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Pos is a place in a file. Line 0 means the file as a whole.
type Pos struct {
	File         string
	Line, Column int
}

// String is "file:line:column", or only the file for a problem of the whole
// file. Control characters in the file's name are shown as escapes.
func (p Pos) String() string {
	if p.Line == 0 {
		return Plain(p.File)
	}
	return fmt.Sprintf("%s:%d:%d", Plain(p.File), p.Line, p.Column)
}

// Problem makes a problem at this place.
func (p Pos) Problem(text, hint string) Problem {
	return Problem{Pos: p, Text: text, Hint: hint}
}

// Problem is one thing wrong with a file. Text says what is wrong, Hint what to
// write instead; both are lower case without a full stop.
type Problem struct {
	Pos
	Text string
	Hint string

	cause error // what the system said, for errors.Is
}

// Error is "file:line:column: text", on one line and safe to print.
func (p Problem) Error() string { return p.Pos.String() + ": " + Plain(p.Text) }

// String is the same as [Problem.Error].
func (p Problem) String() string { return p.Error() }

// Long is Error and, when there is one, the hint on a line of its own.
func (p Problem) Long() string {
	if p.Hint == "" {
		return p.Error()
	}
	return p.Error() + "\n  hint: " + Plain(p.Hint)
}

// Unwrap gives the system's error behind a problem with a whole file, so that
// errors.Is(err, fs.ErrNotExist) and the like work.
func (p Problem) Unwrap() error { return p.cause }

// Problems is all that is wrong, in the order of the files. It is an error;
// an empty one must be turned into nil with [Problems.Err].
type Problems []Problem

// Error joins the problems, one to a line, without hints.
func (ps Problems) Error() string { return ps.join(Problem.Error) }

// Long joins the problems with their hints.
func (ps Problems) Long() string { return ps.join(Problem.Long) }

func (ps Problems) join(line func(Problem) string) string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = line(p)
	}
	return strings.Join(lines, "\n")
}

// Err is nil when there are no problems, else the problems sorted.
func (ps Problems) Err() error {
	if len(ps) == 0 {
		return nil
	}
	return ps.Sorted()
}

// Sorted gives the problems by file, line and column, each only once. Those at
// the same place stay in the order in which they were noted.
func (ps Problems) Sorted() Problems {
	out := slices.Clone(ps)
	slices.SortStableFunc(out, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return slices.CompactFunc(out, func(a, b Problem) bool {
		return a.Pos == b.Pos && a.Text == b.Text
	})
}

// Unwrap gives the single problems, for errors.Is and errors.As.
func (ps Problems) Unwrap() []error {
	errs := make([]error, len(ps))
	for i, p := range ps {
		errs[i] = p
	}
	return errs
}
