package tomlfile

import "fmt"

// Path leads from the root to a value: keys (string) and numbers of elements
// (int, from 0), as in Path{"cue", 2, "stand"}.
type Path []any

// String writes a path for a message: cue[2].stand.
func (p Path) String() string {
	s := ""
	for _, step := range p {
		switch step := step.(type) {
		case string:
			if s != "" {
				s += "."
			}
			s += name(step)
		default:
			s += fmt.Sprintf("[%v]", step)
		}
	}
	return s
}
