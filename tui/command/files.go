package command

import (
	"errors"
	"fmt"

	"cuewalk/course"
	"cuewalk/course/rulebook"
	"cuewalk/course/tomlfile"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/tui"
)

// files is what the files of a command line hold, by kind, in the order given.
type files struct {
	courses []*course.Course
	teams   []*team.Team
	plans   []planFile
}

// planFile is a plan with the course it was read for.
type planFile struct {
	tui.PlanFile
	course *course.Course
}

// source is a file's name and content.
type source struct {
	name string
	data []byte
}

// readFiles reads the files at paths, given in any order. The error is a
// tomlfile.Problems with everything that is wrong with any of them.
func readFiles(paths []string) (*files, error) {
	var sources []source
	var wrong tomlfile.Problems
	for _, path := range paths {
		data, err := tomlfile.ReadFile(path)
		if err != nil {
			note(&wrong, path, err)
			continue
		}
		sources = append(sources, source{path, data})
	}
	f, err := parse(sources)
	note(&wrong, "", err)
	return f, wrong.Err()
}

// parse reads sources by kind: courses and teams first, since plans refer to them.
func parse(sources []source) (*files, error) {
	f := &files{}
	var wrong tomlfile.Problems
	var plans []source
	courseGiven := false
	for _, s := range sources {
		kind, err := course.Sniff(s.name, s.data)
		switch kind {
		case "course":
			courseGiven = true
			err = add(&f.courses, s, parseCourse)
		case "team":
			err = add(&f.teams, s, team.Parse)
		case "plan":
			plans = append(plans, s)
		case "":
		default:
			err = tomlfile.Pos{File: s.name}.Problem("this is a "+kind, "give a course, a plan or a team")
		}
		note(&wrong, s.name, err)
	}
	for _, s := range plans {
		switch {
		case len(f.courses) > 0:
			note(&wrong, s.name, f.addPlan(s))
		case courseGiven: // and broken: what is wrong with it comes first
			note(&wrong, s.name, readable(s))
		default:
			note(&wrong, s.name, readable(s))
			note(&wrong, s.name, tomlfile.Pos{File: s.name}.Problem("a plan cannot be read without its course", "give the course's file too"))
		}
	}
	return f, wrong.Err()
}

// readable says what keeps s from being read at all.
func readable(s source) error {
	doc, err := tomlfile.Parse(s.name, s.data)
	if err != nil {
		return err
	}
	return doc.Err()
}

// add reads s with parse and appends what it holds to all.
func add[T any](all *[]T, s source, parse func(string, []byte) (T, error)) error {
	v, err := parse(s.name, s.data)
	if err == nil {
		*all = append(*all, v)
	}
	return err
}

// addPlan reads the plan s for the first course and team of f that it fits. Where
// it fits none, the error is what is wrong with it on the one it fits best.
func (f *files) addPlan(s source) error {
	teams := f.teams
	if len(teams) == 0 {
		teams = []*team.Team{nil}
	}
	var least tomlfile.Problems
	for _, c := range f.courses {
		for _, t := range teams {
			p, err := plan.Parse(s.name, s.data, c, t)
			if err == nil {
				f.plans = append(f.plans, planFile{tui.PlanFile{Plan: p, Raw: s.data}, c})
				return nil
			}
			var wrong tomlfile.Problems
			note(&wrong, s.name, err)
			if least == nil || len(wrong) < len(least) {
				least = wrong
			}
		}
	}
	return least.Err()
}

// parseCourse reads a course and refuses a rulebook that is not known.
func parseCourse(name string, data []byte) (*course.Course, error) {
	return course.ParseWith(name, data, func(rules string) error {
		_, err := rulebook.Find(rules)
		return err
	})
}

// note adds what is wrong with the file called name to wrong; nil adds nothing.
func note(wrong *tomlfile.Problems, name string, err error) {
	var one tomlfile.Problem
	var all tomlfile.Problems
	switch {
	case err == nil:
	case errors.As(err, &all):
		*wrong = append(*wrong, all...)
	case errors.As(err, &one):
		*wrong = append(*wrong, one)
	default:
		*wrong = append(*wrong, tomlfile.Pos{File: name}.Problem(err.Error(), ""))
	}
}

// team is the team to run with: the first given, else the usual one.
func (f *files) team() (*team.Team, error) {
	if len(f.teams) > 0 {
		return f.teams[0], nil
	}
	t, err := team.Preset("large", "average")
	return &t, err
}

// oneOfEach says what is missing or too many for a command that needs one course,
// one plan and at most one team.
func (f *files) oneOfEach() error {
	if len(f.courses) != 1 || len(f.plans) != 1 || len(f.teams) > 1 {
		return fmt.Errorf("give one course, one plan and at most one team; these are %s, %s and %s",
			several(len(f.courses), "course"), several(len(f.plans), "plan"), several(len(f.teams), "team"))
	}
	return nil
}

func several(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
