// Package belief holds the simulator to what coaches believe: a case is a situation
// with a course, plans, teams and statements of what comes of them, written without
// running anything. The statements are judged on the figures of seeded runs.
package belief

import (
	"fmt"
	"strings"

	"github.com/rogpeppe/go-internal/txtar"

	"cuewalk/course"
	"cuewalk/course/rulebook"
	"cuewalk/course/tomlfile"
	"cuewalk/plan"
	"cuewalk/plan/team"
)

// Case is one situation and what is believed of it.
type Case struct {
	File      string
	About     string // the situation in a sentence or two
	Manoeuvre string // what it is an example of
	Source    string // who says so: "common practice, no source", or an id with what it says
	Course    *course.Course
	Plans     []string // names, in the order of the file
	Teams     []*team.Team
	Beliefs   []Statement

	plans [][]*plan.Plan // by plan and team
}

// Plan returns plan p as read for team t; both are indices.
func (c *Case) Plan(p, t int) *plan.Plan { return c.plans[p][t] }

// part is one of the files in a case file.
type part struct {
	name string
	line int // of the case file, at which it begins
	data []byte
}

// padded is the part with the lines before it left blank, so that whatever reads it
// tells lines of the case file.
func (p part) padded() []byte {
	return append([]byte(strings.Repeat("\n", p.line-1)), p.data...)
}

// Parse reads a case; name is what problems call the file. The error is a
// tomlfile.Problems with everything that is wrong, each at its line of the case file.
// A file without statements is read all the same.
func Parse(name string, src []byte) (*Case, error) {
	r := &reader{c: &Case{File: name}}
	parts := r.head(src)
	var plans []part
	var beliefs *part
	for i := range parts {
		p := parts[i]
		switch {
		case p.name == "beliefs":
			beliefs = &parts[i]
		case strings.HasSuffix(p.name, ".toml"):
			plans = append(plans, r.file(p)...)
		default:
			r.problem(p.line-1, fmt.Sprintf("there is no use for a part named %s", tomlfile.Show(p.name)), `name it with .toml at its end, or "beliefs"`)
		}
	}
	r.plans(plans, parts)
	if beliefs != nil && r.c.Course != nil {
		r.beliefs(*beliefs)
	}
	if err := r.wrong.Err(); err != nil {
		return nil, err
	}
	return r.c, nil
}

// reader is a case being read.
type reader struct {
	c     *Case
	wrong tomlfile.Problems
}

func (r *reader) problem(line int, text, hint string) {
	r.wrong = append(r.wrong, tomlfile.Pos{File: r.c.File, Line: line, Column: 1}.Problem(text, hint))
}

// note adds what a reader of one part found.
func (r *reader) note(err error) {
	if all, ok := err.(tomlfile.Problems); ok {
		r.wrong = append(r.wrong, all...)
	} else if err != nil {
		r.problem(1, err.Error(), "")
	}
}

// head reads the lines before the first part and cuts the parts.
func (r *reader) head(src []byte) []part {
	archive := txtar.Parse(src)
	lines := func(data []byte) int { return strings.Count(string(data), "\n") }
	var about []string
	for i, line := range strings.Split(strings.TrimRight(string(archive.Comment), "\n"), "\n") {
		key, value, ok := strings.Cut(line, ":")
		switch {
		case ok && key == "manoeuvre":
			r.c.Manoeuvre = strings.TrimSpace(value)
		case ok && key == "source":
			r.c.Source = strings.TrimSpace(value)
		case r.c.Manoeuvre+r.c.Source != "" && strings.TrimSpace(line) != "":
			r.problem(i+1, "a line behind manoeuvre and source", "write the situation above them")
		default:
			about = append(about, line)
		}
	}
	r.c.About = strings.TrimSpace(strings.Join(about, "\n"))
	var parts []part
	line := 1 + lines(archive.Comment)
	for _, f := range archive.Files {
		parts = append(parts, part{f.Name, line + 1, f.Data})
		line += 1 + lines(f.Data)
	}
	return parts
}

// file reads a course or team; a plan is given back, since it needs both.
func (r *reader) file(p part) (plans []part) {
	src := p.padded()
	kind, err := course.Sniff(r.c.File, src)
	switch kind {
	case "course":
		if r.c.Course != nil {
			r.problem(p.line, "a second course", "write another case file for it")
			return nil
		}
		r.c.Course, err = course.ParseWith(r.c.File, src, knownRules)
	case "team":
		var t *team.Team
		if t, err = team.Parse(r.c.File, src); err == nil {
			r.c.Teams = append(r.c.Teams, t)
		}
	case "plan":
		return []part{p}
	case "":
	default:
		r.problem(p.line, "this is a "+kind, "give a course, a plan or a team")
	}
	r.note(err)
	return nil
}

func knownRules(rules string) error {
	_, err := rulebook.Find(rules)
	return err
}

// plans reads every plan for every team.
func (r *reader) plans(plans, all []part) {
	switch {
	case r.c.Course == nil && r.wrong == nil:
		r.problem(1, "there is no course", `write a part such as "-- course.toml --"`)
	case len(plans) == 0 && r.wrong == nil:
		r.problem(1, "there is no plan", `write a part such as "-- plan.toml --"`)
	case len(r.c.Teams) == 0 && r.wrong == nil:
		r.problem(1, "there is no team", `write a part such as "-- team.toml --"`)
	}
	if r.c.Course == nil {
		return
	}
	for _, p := range plans {
		var read []*plan.Plan
		for _, t := range r.c.Teams {
			made, err := plan.Parse(r.c.File, p.padded(), r.c.Course, t)
			r.note(err)
			if err == nil {
				read = append(read, made)
			}
		}
		if len(read) == len(r.c.Teams) && len(read) > 0 {
			r.c.Plans = append(r.c.Plans, read[0].Name)
			r.c.plans = append(r.c.plans, read)
		}
	}
	r.names()
}

// names refuses names by which a statement could not tell what it means.
func (r *reader) names() {
	seen := map[string]bool{"all": true}
	for _, name := range append(r.c.teamNames(), r.c.Plans...) {
		if seen[name] || strings.ContainsAny(name, ",:<>~") {
			r.problem(1, "the name "+tomlfile.Show(name)+" will not do for a plan or team of a case", "give each its own name of letters and blanks")
		}
		seen[name] = true
	}
}

func (c *Case) teamNames() []string {
	var names []string
	for _, t := range c.Teams {
		names = append(names, t.Name)
	}
	return names
}
