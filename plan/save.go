package plan

import (
	"bytes"
	"errors"
	"fmt"

	"cuewalk/course"
	"cuewalk/course/tomlfile"
)

// ErrChanged is the error of [Save] when the file no longer says what it is said
// to say.
var ErrChanged = errors.New("the file was changed by another program")

// Save returns src, the bytes of a plan file that says before, altered so that it
// says after. Only the values that differ are written: remarks, order and layout
// stay, lengths keep the file's units. A cue that was added is a new [[cue]]; one
// that was deleted goes with its remarks. c is the course the plan is for. Neither
// plan needs to pass Check.
//
// The result was read again and says after. The error is ErrChanged where src does
// not say before, else what keeps the file from being read or altered.
func Save(src []byte, before, after *Plan, c *course.Course) ([]byte, error) {
	old, units, err := reread(src, c)
	if err != nil {
		return nil, err
	}
	if !sameText(old, before, units) {
		return nil, ErrChanged
	}
	out, err := saveKeys(src, nil, planSettings(before, units), planSettings(after, units))
	if err != nil {
		return nil, err
	}
	altered, err := saveCues(out, before.Cues, after.Cues, units)
	if err != nil {
		altered, err = rewriteCues(out, after.Cues, units)
	}
	if err != nil {
		return nil, err
	}
	if got, _, err := reread(altered, c); err != nil || !sameText(got, after, units) {
		return nil, errors.New("the file cannot be altered without changing more than was asked for")
	}
	return altered, nil
}

// reread reads a plan file without looking at its course, and its units.
func reread(src []byte, c *course.Course) (*Plan, course.Units, error) {
	doc, err := tomlfile.Parse("the file", src)
	if err != nil {
		return nil, 0, err
	}
	r := &reader{root: doc.Root(), unread: map[int]map[string]bool{}}
	p := r.plan("", c.Units)
	return p, r.units, doc.Err()
}

// sameText reports whether two plans are written alike.
func sameText(p, o *Plan, u course.Units) bool {
	if len(p.Cues) != len(o.Cues) || differing(planSettings(p, u), planSettings(o, u)) > 0 {
		return false
	}
	for i := range p.Cues {
		if differing(cueSettings(&p.Cues[i], u), cueSettings(&o.Cues[i], u)) > 0 {
			return false
		}
	}
	return true
}

// differing counts the settings that differ; both lists have the same keys.
func differing(a, b []setting) int {
	n := 0
	for i := range a {
		if a[i] != b[i] {
			n++
		}
	}
	return n
}

// saveKeys writes the settings that differ into the table at path.
func saveKeys(src []byte, path tomlfile.Path, before, after []setting) ([]byte, error) {
	for i, s := range after {
		if s == before[i] {
			continue
		}
		key := append(append(tomlfile.Path(nil), path...), s.key)
		var err error
		switch {
		case s.literal == "" && s.key == "signal":
			src, err = tomlfile.Set(src, key, tomlfile.Quote(Along.String()))
		case s.literal == "":
			src, err = tomlfile.Delete(src, key)
		default:
			src, err = tomlfile.Set(src, key, s.literal)
		}
		if err != nil {
			return nil, err
		}
	}
	return src, nil
}

// saveCues alters the [[cue]] tables, from the last to the first so that numbers
// in front stay right.
func saveCues(src []byte, before, after []Cue, u course.Units) ([]byte, error) {
	steps := align(before, after, u)
	for i := len(steps) - 1; i >= 0; i-- {
		s := steps[i]
		var err error
		switch {
		case s.after < 0:
			src, err = tomlfile.Delete(src, tomlfile.Path{"cue", s.before})
		case s.isNew:
			src, err = tomlfile.Add(src, "cue", s.before, cueLines(&after[s.after], u)...)
		default:
			src, err = saveKeys(src, tomlfile.Path{"cue", s.before}, cueSettings(&before[s.before], u), cueSettings(&after[s.after], u))
		}
		if err != nil {
			return nil, err
		}
	}
	return src, nil
}

// rewriteCues writes all cues anew where they stand as one list in brackets.
func rewriteCues(src []byte, cues []Cue, u course.Units) ([]byte, error) {
	newline := "\n"
	if i := bytes.IndexByte(src, '\n'); i > 0 && src[i-1] == '\r' {
		newline = "\r\n"
	}
	out, err := tomlfile.Set(src, tomlfile.Path{"cue"}, inlineCues(cues, u, newline))
	if err != nil {
		return nil, fmt.Errorf("the cues cannot be altered: %w", err)
	}
	return out, nil
}
