package belief

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"cuewalk/course/tomlfile"
)

// usualMargin is by how much a chance must be higher or lower where the statement
// does not say.
const usualMargin = 0.02

const number = `(-?[0-9]*\.?[0-9]+)`

// How statements are written.
var (
	rangeForm  = regexp.MustCompile(`^(.+?): *` + number + ` to ` + number + `$`)
	moreForm   = regexp.MustCompile(`^(.+?) ([<>]) (.+?)(?: by ` + number + `)?$`)
	nearForm   = regexp.MustCompile(`^(.+?) ~ (.+?) within ` + number + `$`)
	amongForm  = regexp.MustCompile(`^(.+?): *([0-9]+(?: or [0-9]+)*)$`)
	legForm    = regexp.MustCompile(`^leg ([0-9]+) (.+)$`)
	intoPrefix = "off course into "
)

var legWords = map[string]Quantity{
	"clean": LegClean, "off course": OffCourse, "wrong side": WrongSide, "refusal": Refusal,
	"knocked bar": KnockedBar, "missed contact": MissedContact, "time": LegTime, "speed": LegSpeed,
}

// beliefs reads the part that holds the statements, one a line.
func (r *reader) beliefs(p part) {
	for i, line := range strings.Split(string(p.data), "\n") {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		s := Statement{Pos: tomlfile.Pos{File: r.c.File, Line: p.line + i, Column: 1}, Text: line}
		if text, hint := r.c.statement(&s); text != "" {
			r.problem(s.Line, text, hint)
			continue
		}
		r.c.Beliefs = append(r.c.Beliefs, s)
	}
}

// statement fills in s from its text; it gives back what is wrong and what to write.
func (c *Case) statement(s *Statement) (wrong, hint string) {
	subject, relation, ok := strings.Cut(s.Text, ":")
	if !ok {
		return "a statement without a colon", `write what it is about, a colon and what is believed: "leg 3 clean: all: 0.9 to 1"`
	}
	if wrong, hint = c.subject(strings.TrimSpace(subject), &s.Subject); wrong != "" {
		return wrong, hint
	}
	return c.relation(strings.TrimSpace(relation), s)
}

func (c *Case) subject(text string, s *Subject) (wrong, hint string) {
	switch {
	case text == "run clean":
		s.Quantity = RunClean
	case text == "run time":
		s.Quantity = RunTime
	case text == "worst leg":
		s.Quantity = WorstLeg
	case strings.HasPrefix(text, "easy legs "):
		s.Quantity = EasyLegs
		s.Legs, wrong = c.numbers(strings.Fields(text)[2:])
		return wrong, `write course numbers: "easy legs 2 3 4"`
	default:
		return c.legSubject(text, s)
	}
	return "", ""
}

func (c *Case) legSubject(text string, s *Subject) (wrong, hint string) {
	m := legForm.FindStringSubmatch(text)
	if m == nil {
		return tomlfile.Show(text) + " is nothing that can be believed of a run", `write "leg N clean", "run clean", "run time", "easy legs N N" or "worst leg"`
	}
	legs, wrong := c.numbers(m[1:2])
	if wrong != "" {
		return wrong, "write the number of the course that the leg leads to"
	}
	s.Leg = legs[0]
	if id, ok := strings.CutPrefix(m[2], intoPrefix); ok {
		s.Quantity, s.Into = OffCourseInto, c.Course.Find(id)
		if s.Into < 0 {
			return "the course has no obstacle " + tomlfile.Show(id), "write an id of its [obstacles]"
		}
		if s.Into == c.Course.Order[s.Leg-1].Obstacle {
			return fmt.Sprintf("%s is the right obstacle of leg %d", id, s.Leg), `write "wrong side" for its wrong side`
		}
		return "", ""
	}
	q, ok := legWords[m[2]]
	if !ok {
		return tomlfile.Show(m[2]) + " is nothing that can be believed of a leg", `write clean, off course, "off course into ID", wrong side, refusal, knocked bar, missed contact, time or speed`
	}
	s.Quantity = q
	return "", ""
}

// numbers reads course numbers and says which is none.
func (c *Case) numbers(words []string) (legs []int, wrong string) {
	for _, w := range words {
		n, err := strconv.Atoi(w)
		if err != nil || n < 1 || n > len(c.Course.Order) {
			return nil, fmt.Sprintf("%s is no number of a course with %d", tomlfile.Show(w), len(c.Course.Order))
		}
		legs = append(legs, n)
	}
	return legs, ""
}

const relationHint = `write "RUN: 0.2 to 0.5", "RUN > RUN by 0.1", "RUN < RUN by 0.1" or "RUN ~ RUN within 0.1"`

func (c *Case) relation(text string, s *Statement) (wrong, hint string) {
	if s.Subject.Quantity == WorstLeg {
		return c.among(text, s)
	}
	value := func(text string) float64 {
		x, _ := strconv.ParseFloat(text, 64) // of the form's own digits
		return x
	}
	var a, b string
	if m := nearForm.FindStringSubmatch(text); m != nil {
		s.Relation, a, b, s.By = Near, m[1], m[2], value(m[3])
	} else if m := moreForm.FindStringSubmatch(text); m != nil {
		a, b, s.By = m[1], m[3], value(m[4])
		if m[4] == "" && s.Subject.Quantity.Chance() {
			s.By = usualMargin
		}
		if s.Relation = More; m[2] == "<" {
			s.Relation = Less
		}
	} else if m := rangeForm.FindStringSubmatch(text); m != nil {
		s.Relation, a, s.Low, s.High = Between, m[1], value(m[2]), value(m[3])
		if s.Low > s.High {
			return "the range begins above its end", "write the lower figure first"
		}
	} else {
		return "what is believed is not understood: " + tomlfile.Show(text), relationHint
	}
	if s.A, wrong = c.who(a); wrong == "" && b != "" {
		s.B, wrong = c.who(b)
	}
	return wrong, `write all, a plan's name, a team's name, or "PLAN, TEAM"`
}

func (c *Case) among(text string, s *Statement) (wrong, hint string) {
	m := amongForm.FindStringSubmatch(text)
	if m == nil {
		return "which legs may be the worst is not understood: " + tomlfile.Show(text), `write "RUN: 3 or 7"`
	}
	s.Relation = Among
	if s.Legs, wrong = c.numbers(strings.Split(m[2], " or ")); wrong != "" {
		return wrong, "write numbers of the course"
	}
	s.A, wrong = c.who(m[1])
	return wrong, `write all, a plan's name, a team's name, or "PLAN, TEAM"`
}

// who finds the runs that are meant.
func (c *Case) who(text string) (w Who, wrong string) {
	w = Who{-1, -1}
	if text == "all" {
		return w, ""
	}
	for _, name := range strings.Split(text, ",") {
		name = strings.TrimSpace(name)
		p, t := slices.Index(c.Plans, name), slices.Index(c.teamNames(), name)
		switch {
		case p >= 0 && w.Plan < 0:
			w.Plan = p
		case t >= 0 && w.Team < 0:
			w.Team = t
		default:
			return w, tomlfile.Show(name) + " is no plan and no team of this case"
		}
	}
	return w, ""
}
