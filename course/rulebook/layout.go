package rulebook

import (
	"fmt"
	"slices"
	"strings"

	"cuewalk/course"
)

// counts checks the number of obstacles on the course.
func (k *checker) counts() {
	if len(k.r.Counts) == 0 {
		return
	}
	n := len(k.c.Order)
	asked := make([]string, len(k.r.Counts))
	for i, c := range k.r.Counts {
		if n >= c.Min && (c.Max == 0 || n <= c.Max) {
			return
		}
		asked[i] = c.String()
	}
	first := k.r.Counts[0]
	k.add(first.Source, "number of obstacles", nil, "%d obstacles, asked are %s", n, strings.Join(asked, ", "))
}

// String returns the count as it is shown, such as "15 to 22".
func (c Count) String() string {
	s := fmt.Sprintf("%d to %d", c.Min, c.Max)
	switch {
	case c.Max == 0:
		s = fmt.Sprintf("at least %d", c.Min)
	case c.Min == 0:
		s = fmt.Sprintf("at most %d", c.Max)
	}
	if c.Level != "" {
		s += " (" + c.Level + ")"
	}
	return s
}

// limits checks which kinds are on the course and how often. Every passage counts.
func (k *checker) limits() {
	for _, l := range k.r.Limits {
		times, ids := k.passages(l)
		switch {
		case l.Distinct && times == 0:
		case times < l.Min:
			k.add(l.Source, l.Rule, ids, "%d on the course, at least %d asked", times, l.Min)
		case l.Max >= 0 && times > l.Max:
			k.add(l.Source, l.Rule, ids, "%d on the course, at most %d allowed", times, l.Max)
		}
	}
}

// passages counts what a limit counts and names the obstacles.
func (k *checker) passages(l Limit) (times int, ids []string) {
	var kinds [course.KindCount]bool
	for n := range k.c.Order {
		o := k.obstacle(n + 1)
		if !slices.Contains(l.Kinds, o.Kind) || l.Distinct && kinds[o.Kind] {
			continue
		}
		kinds[o.Kind] = true
		times++
		if !slices.Contains(ids, o.ID) {
			ids = append(ids, o.ID)
		}
	}
	return times, ids
}

// ends checks the first and the last obstacle.
func (k *checker) ends() {
	e := k.r.Ends
	if e == nil {
		return
	}
	for _, end := range []struct {
		n     int
		name  string
		kinds []course.Kind
	}{{1, "first", e.First}, {len(k.c.Order), "last", e.Last}} {
		o := k.obstacle(end.n)
		if !slices.Contains(end.kinds, o.Kind) {
			k.add(e.Source, end.name+" obstacle", []string{o.ID}, "%s is %s, asked is %s", o.ID, o.Kind.One(), either(end.kinds))
		}
	}
}

// either writes kinds as "jump, wall or tyre".
func either(kinds []course.Kind) string {
	names := make([]string, len(kinds))
	for i, kind := range kinds {
		names[i] = kind.String()
	}
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " or " + names[len(names)-1]
}

// inARow checks that no two contact obstacles follow each other.
func (k *checker) inARow() {
	if k.r.Apart == nil {
		return
	}
	for n := 2; n <= len(k.c.Order); n++ {
		if a, b := k.obstacle(n-1), k.obstacle(n); a.Kind.Contact() && b.Kind.Contact() {
			k.add(*k.r.Apart, "contacts in a row", []string{a.ID, b.ID}, "the %s %s follows the %s %s", b.Kind, b.ID, a.Kind, a.ID)
		}
	}
}

// ring checks the size of the ring, whichever way round it is drawn.
func (k *checker) ring() {
	w, l := min(k.c.Ring.X, k.c.Ring.Y), max(k.c.Ring.X, k.c.Ring.Y)
	if w <= 0 {
		return
	}
	for _, r := range k.r.Rings {
		if off(w, r.Width, 0) == 0 && off(l, r.Length, 0) == 0 {
			continue
		}
		where := ""
		if r.Where != "" {
			where = " " + r.Where
		}
		k.add(r.Source, "ring size", nil, "the ring is %s by %s, asked is at least %s by %s%s",
			k.show(w), k.show(l), k.show(r.Width), k.show(r.Length), where)
	}
}

// length checks the length of the course.
func (k *checker) length(path float64) {
	rule := k.r.Length
	if rule == nil || rule.Min == 0 && rule.Max == 0 {
		return
	}
	m := k.r.Measure(k.c, path, 0)
	by := off(m.Metres, rule.Min, rule.Max)
	if by == 0 {
		return
	}
	which := ""
	if m.Measure != m.Asked {
		which = "; the line to measure along: " + m.Asked.String()
	}
	k.add(rule.Source, "course length", nil, "%s along %s, asked is %s: %s%s",
		k.show(m.Metres), m.Measure, k.span(rule.Min, rule.Max), k.astray(by, "too short", "too long"), which)
}
