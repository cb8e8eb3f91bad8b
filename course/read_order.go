package course

import (
	"fmt"
	"strings"
	"unicode"

	"cuewalk/course/tomlfile"
)

// order reads the numbered course.
func (r *reader) order() {
	const hint = `write the ids in the order they are run, such as order = "gate elm -tube"`
	r.top.Missing("order", hint)
	words, ok := r.words()
	if !ok {
		return
	}
	if len(words) == 0 {
		r.top.Problem("order", "order is empty", hint)
	}
	if n := len(words); n > MostObstacles {
		r.orderProblem(words[MostObstacles], fmt.Sprintf("order has %d numbers", n),
			fmt.Sprintf("a course has at most %d: delete the rest", MostObstacles))
		return
	}
	last := ""
	for n, w := range words {
		r.step(n+1, w, last)
		last = strings.TrimPrefix(w.text, "-")
	}
}

// words reads the words of the order, which is a text or a list of them.
func (r *reader) words() ([]field, bool) {
	if !r.top.IsList("order") {
		text, ok := r.top.String("order")
		return fields(text), ok
	}
	list, ok := r.top.Strings("order")
	words := make([]field, len(list))
	for i, w := range list {
		words[i] = field{text: strings.TrimSpace(w), element: i + 1}
	}
	return words, ok
}

// orderProblem notes a problem with a word of the order where it stands.
func (r *reader) orderProblem(w field, text, hint string) {
	if w.element > 0 {
		r.top.ElementProblem("order", w.element-1, text, hint)
		return
	}
	r.top.InsideProblem("order", w.at, text, hint)
}

// step reads number n of the order; last is the id before it.
func (r *reader) step(n int, w field, last string) {
	id, reverse := strings.CutPrefix(w.text, "-")
	problem := func(text, hint string) { r.orderProblem(w, text, hint) }
	i, defined := r.index[id]
	switch {
	case !defined:
		problem(r.undefined(n, w.text, id))
		return
	case id == last:
		problem(fmt.Sprintf("%s comes twice in a row, as numbers %d and %d", tomlfile.Show(id), n-1, n), "leave one out, or put an obstacle between them")
		return
	case i < 0:
		return // has its own problem
	}
	if o := r.course.Obstacles[i]; reverse && o.Kind.OneWay() {
		problem(fmt.Sprintf("number %d takes %s the wrong way: %s has one way only", n, tomlfile.Show(id), o.Kind.One()),
			fmt.Sprintf("write %s without the -, or turn its facing by 180", tomlfile.Plain(id)))
		return
	}
	r.course.Order = append(r.course.Order, Step{Obstacle: i, Reverse: reverse})
}

// undefined words the problem of an id that no obstacle has.
func (r *reader) undefined(n int, word, id string) (text, hint string) {
	switch {
	case id == "":
		return fmt.Sprintf("number %d is a - without an id", n), "write the - and the id as one word: -tube"
	case strings.Contains(id, ","):
		return fmt.Sprintf("number %d is %s: ids have no commas between them", n, tomlfile.Show(word)), `put blanks between the ids: order = "gate elm -tube"`
	}
	text = fmt.Sprintf("number %d is %s, but no obstacle has this id", n, tomlfile.Show(id))
	if near := tomlfile.Nearest(id, r.ids); near != "" {
		return text, "did you mean " + tomlfile.Show(near) + "?"
	}
	return text, "write the id of an obstacle, or add the obstacle under [obstacles]"
}

// field is a word of the order and where it stands: the byte of a text at which it begins,
// or its place in a list, from 1.
type field struct {
	text    string
	at      int
	element int
}

// fields splits a text at blanks.
func fields(s string) []field {
	var out []field
	for at := 0; at < len(s); {
		rest := s[at:]
		skip := len(rest) - len(strings.TrimLeftFunc(rest, unicode.IsSpace))
		at += skip
		rest = rest[skip:]
		n := strings.IndexFunc(rest, unicode.IsSpace)
		if n < 0 {
			n = len(rest)
		}
		if n > 0 {
			out = append(out, field{text: rest[:n], at: at})
		}
		at += n
	}
	return out
}
