package session

import (
	"cuewalk/course"
	"cuewalk/course/rulebook"
	"cuewalk/plan/team"
	"cuewalk/sim/reading"
)

// Reading is the course as a team's dog reads it that nobody handles.
func (s *Session) Reading(t *team.Team) *reading.Reading {
	if r := s.readings[t]; r != nil {
		return r
	}
	r := s.c.Reading(s.course, t, rulesOf(s.course))
	if s.readings == nil {
		s.readings = map[*team.Team]*reading.Reading{}
	}
	s.readings[t] = r
	return r
}

// rulesOf is the rulebook a course names; nil for none, or one that is not known.
func rulesOf(c *course.Course) *rulebook.Rules {
	if c.Rules == "" {
		return nil
	}
	r, err := rulebook.Find(c.Rules)
	if err != nil {
		return nil
	}
	return r
}
