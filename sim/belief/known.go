package belief

import (
	"slices"
	"strings"
)

// Known is a list of statements that are known not to hold, one a line: the case
// file's name, a colon, a blank and the statement as written. Nobody bends a
// statement, nor forgets one.
type Known map[string]bool

// ReadKnown reads such a list; blank lines and those that begin with # say nothing.
func ReadKnown(src []byte) Known {
	k := Known{}
	for _, line := range strings.Split(string(src), "\n") {
		if line = strings.TrimSpace(line); line != "" && line[0] != '#' {
			k[line] = true
		}
	}
	return k
}

// Listed is how a statement of the file called name stands in the list.
func (s *Statement) Listed(name string) string { return name + ": " + s.Text }

// Of keeps the lines of the files called by these names.
func (k Known) Of(names []string) Known {
	out := Known{}
	for line := range k {
		file, _, _ := strings.Cut(line, ":")
		if slices.Contains(names, file) {
			out[line] = true
		}
	}
	return out
}

// Without returns the lines that are in k and not in other, sorted.
func (k Known) Without(other Known) []string {
	var out []string
	for line := range k {
		if !other[line] {
			out = append(out, line)
		}
	}
	slices.Sort(out)
	return out
}
