package words

import (
	"strings"

	"cuewalk/course/rulebook"
)

// Finding is what is off against a rulebook, said once for all obstacles of which the same
// holds.
type Finding struct {
	Rule      string
	Obstacles []string // ids, safe to print
	What      string
	Source    string // edition and section
}

// Findings puts together findings that differ in the obstacle alone, in the order of the
// first of each.
func Findings(all []rulebook.Finding) []Finding {
	type alike struct{ rule, source, what string }
	var out []Finding
	at := map[alike]int{}
	for _, f := range all {
		one := Finding{Rule: f.Rule, What: Safe(f.What), Source: strings.TrimSpace(f.Edition + " " + f.Section)}
		for _, id := range f.Obstacles {
			one.Obstacles = append(one.Obstacles, Safe(id))
		}
		if len(one.Obstacles) == 1 {
			if what, ok := strings.CutPrefix(one.What, one.Obstacles[0]+" "); ok {
				key := alike{one.Rule, one.Source, what}
				if i, ok := at[key]; ok {
					out[i].Obstacles = append(out[i].Obstacles, one.Obstacles[0])
					out[i].What = "each " + what
					continue
				}
				at[key] = len(out)
			}
		}
		out = append(out, one)
	}
	return out
}
