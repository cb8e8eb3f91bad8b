package belief

import (
	"fmt"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/tools/txtar"

	"cuewalk/course"
	"cuewalk/plan"
	"cuewalk/plan/team"
)

// Parse reads a case. Its errors name the file, and the line in it where there is one.
func Parse(file string, src []byte) (*Case, error) {
	c := &Case{File: file}
	archive := txtar.Parse(src)
	c.head(string(archive.Comment))
	var beliefs string
	plans := map[string][]byte{}
	for _, f := range archive.Files {
		name := path.Join(file, f.Name)
		switch first, _, _ := strings.Cut(firstKey(f.Data), " "); {
		case f.Name == "beliefs":
			beliefs = string(f.Data)
		case first == "course":
			co, err := course.Parse(name, f.Data)
			if err != nil {
				return nil, err
			}
			c.Course = co
		case first == "team":
			t, err := team.Parse(name, f.Data)
			if err != nil {
				return nil, err
			}
			c.Teams = append(c.Teams, t)
		case first == "plan":
			plans[f.Name] = f.Data
			c.Plans = append(c.Plans, f.Name)
		default:
			return nil, fmt.Errorf("%s: part %q is neither a course, a plan, a team nor the beliefs: begin it with course, plan or team", file, f.Name)
		}
	}
	if c.Course == nil || len(c.Teams) == 0 || len(c.Plans) == 0 {
		return nil, fmt.Errorf("%s: a case holds one course, a plan or more and a team or more", file)
	}
	if err := c.read(plans); err != nil {
		return nil, err
	}
	return c, c.believe(beliefs, strings.Count(string(src[:strings.LastIndex(string(src), "-- beliefs --")]), "\n")+1)
}

// firstKey returns the first line that says anything.
func firstKey(src []byte) string {
	for line := range strings.Lines(string(src)) {
		if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "#") {
			return line
		}
	}
	return ""
}

// head takes in what stands before the parts.
func (c *Case) head(text string) {
	var about []string
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if rest, ok := strings.CutPrefix(line, "manoeuvre: "); ok {
			c.Manoeuvre = rest
		} else if rest, ok := strings.CutPrefix(line, "source: "); ok {
			c.Source = rest
		} else if line != "" {
			about = append(about, line)
		}
	}
	c.About = strings.Join(about, " ")
}

// read reads the plans for every team: a plan is checked for the team that runs it.
func (c *Case) read(plans map[string][]byte) error {
	files := c.Plans
	c.Plans = nil
	for i, t := range c.Teams {
		c.For = append(c.For, map[string]*plan.Plan{})
		for _, f := range files {
			p, err := plan.Parse(path.Join(c.File, f), plans[f], c.Course, t)
			if err != nil {
				return err
			}
			c.For[i][p.Name] = p
			if i == 0 {
				c.Plans = append(c.Plans, p.Name)
			}
		}
	}
	return nil
}

// believe reads the statements, of which the first line stands after line.
func (c *Case) believe(text string, line int) error {
	for said := range strings.Lines(text) {
		line++
		said = strings.TrimSpace(said)
		if said == "" || strings.HasPrefix(said, "#") {
			continue
		}
		b, err := c.statement(said)
		if err != nil {
			return fmt.Errorf("%s:%d: %q: %w", c.File, line, said, err)
		}
		b.Line, b.Text = line, said
		c.Beliefs = append(c.Beliefs, b)
	}
	if len(c.Beliefs) == 0 {
		return fmt.Errorf("%s: nothing is believed of it: write statements in a last part, -- beliefs --", c.File)
	}
	return nil
}

func (c *Case) statement(text string) (Belief, error) {
	subject, relation, ok := strings.Cut(text, ":")
	if !ok {
		return Belief{}, fmt.Errorf(`a statement is "subject: relation", such as "leg 3 clean: all: 0.5 to 0.9"`)
	}
	b := Belief{}
	var err error
	if b.Subject, err = c.subject(strings.TrimSpace(subject)); err != nil {
		return b, err
	}
	return b, c.relation(&b, strings.TrimSpace(relation))
}

var legSubject = regexp.MustCompile(`^leg (\d+) (clean|off course|off course into (\S+)|wrong side|refusal|knocked bar|missed contact|time|speed)$`)

var legMeasures = map[string]Measure{"clean": LegClean, "off course": LegOffCourse, "wrong side": LegWrongSide, "refusal": LegRefusal,
	"knocked bar": LegBar, "missed contact": LegContact, "time": LegTime, "speed": LegSpeed}

func (c *Case) subject(text string) (Subject, error) {
	switch text {
	case "run clean":
		return Subject{Measure: RunClean}, nil
	case "run time":
		return Subject{Measure: RunTime}, nil
	case "worst leg":
		return Subject{Measure: WorstLeg}, nil
	}
	if rest, ok := strings.CutPrefix(text, "easy legs "); ok {
		legs, err := c.numbers(strings.Fields(rest))
		return Subject{Measure: EasyLegs, Legs: legs}, err
	}
	m := legSubject.FindStringSubmatch(text)
	if m == nil {
		return Subject{}, fmt.Errorf(`unknown subject %q: write "leg 3 clean", "leg 3 off course into oak", "run clean", "run time", "easy legs 1 2 3" or "worst leg"`, text)
	}
	legs, err := c.numbers(m[1:2])
	s := Subject{Measure: legMeasures[m[2]], Legs: legs, Into: m[3]}
	if m[3] != "" {
		s.Measure = LegOffCourse
		if !slices.ContainsFunc(c.Course.Obstacles, func(o course.Obstacle) bool { return o.ID == m[3] }) {
			return s, fmt.Errorf("the course has no obstacle %q", m[3])
		}
	}
	return s, err
}

func (c *Case) numbers(words []string) ([]int, error) {
	var out []int
	for _, w := range words {
		n, err := strconv.Atoi(w)
		if err != nil || n < 1 || n > len(c.Course.Order) {
			return nil, fmt.Errorf("%q is no number of a course of %d", w, len(c.Course.Order))
		}
		out = append(out, n)
	}
	return out, nil
}

var compared = regexp.MustCompile(`^(.+?)\s*([<>~])\s*(.+?)(?:\s+(by|within)\s+([0-9.]+))?$`)

// least is how far two chances must lie apart to count as different where no figure is given.
const least = 0.02

func (c *Case) relation(b *Belief, text string) error {
	var err error
	if m := compared.FindStringSubmatch(text); m != nil {
		b.Is = map[string]Relation{">": Above, "<": Below, "~": Near}[m[2]]
		switch {
		case m[5] != "":
			b.By, err = strconv.ParseFloat(m[5], 64)
		case b.Is == Near:
			err = fmt.Errorf("say within how much")
		case b.Subject.Measure.Chance():
			b.By = least
		}
		if err != nil {
			return err
		}
		if b.Left, err = c.run(m[1]); err == nil {
			b.Right, err = c.run(m[3])
		}
		return err
	}
	run, rest, ok := strings.Cut(text, ":")
	if !ok {
		return fmt.Errorf(`unknown relation: write "all: 0.5 to 0.9", "first > second by 0.2" or "first ~ second within 0.1"`)
	}
	if b.Left, err = c.run(strings.TrimSpace(run)); err != nil {
		return err
	}
	if b.Subject.Measure == WorstLeg {
		b.Numbers, err = c.numbers(strings.Fields(strings.ReplaceAll(rest, " or ", " ")))
		return err
	}
	_, err = fmt.Sscanf(strings.TrimSpace(rest), "%g to %g", &b.Low, &b.High)
	return err
}

// run reads which plan and team a statement is about.
func (c *Case) run(text string) (Run, error) {
	var r Run
	for _, word := range strings.Split(text, ",") {
		switch word = strings.TrimSpace(word); {
		case word == "all":
		case slices.Contains(c.Plans, word):
			r.Plan = word
		case slices.ContainsFunc(c.Teams, func(t *team.Team) bool { return t.Name == word }):
			r.Team = word
		default:
			return r, fmt.Errorf("%q is no plan and no team of this case: write one of %q", word, append(slices.Clone(c.Plans), c.teamNames()...))
		}
	}
	return r, nil
}

func (c *Case) teamNames() []string {
	var out []string
	for _, t := range c.Teams {
		out = append(out, t.Name)
	}
	return out
}
