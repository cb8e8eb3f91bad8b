package tomlfile

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// Add gives src with one more [[name]] that has the given lines (each
// "key = value") and comes before element at, or after the last one when at is
// their number. Every other byte stays; remarks that touch a header go with it.
// The result was read again as for [Set].
func Add(src []byte, name string, at int, lines ...string) ([]byte, error) {
	e, err := edit(src)
	if err != nil {
		return nil, err
	}
	element, err := decode([]byte(strings.Join(lines, "\n")))
	if err != nil {
		return nil, fmt.Errorf("cannot add to %s: %w", name, err)
	}
	list, ok := e.values[name].([]any)
	n := e.layout.root.byKey[name]
	if n != nil && (!ok || n.form != elements) {
		return nil, fmt.Errorf("cannot add to %s: it is not written as [[%s]]", Key(name), Key(name))
	}
	if at < 0 || at > len(list) {
		return nil, fmt.Errorf("cannot add element %d to %s: it has %d", at, Key(name), len(list))
	}
	want := maps.Clone(e.values)
	want[name] = slices.Insert(slices.Clone(list), at, any(element))
	lines = append([]string{"[[" + Key(name) + "]]"}, lines...)
	var out []byte
	switch {
	case at < len(list):
		start := e.aboveRemarks(lineStart(e.src, n.elems[at].val.from))
		out = e.insertLines(start, append(lines, "")...)
	case at > 0:
		out = e.insertBlock(e.belowRemarks(e.linesOf(n.elems[at-1]).to), lines...)
	default:
		out = e.insertBlock(len(e.src), lines...)
	}
	return e.checked(Path{name, at}, out, want)
}

// Delete gives src without a key, a [table] or one [[element]], with everything
// in it. The remarks that touch a header from above and the blank lines after
// it go too; every other byte stays. The result was read again as for [Set].
func Delete(src []byte, path Path) ([]byte, error) {
	e, err := edit(src)
	if err != nil {
		return nil, err
	}
	n := e.layout.find(path)
	if n == nil || n == e.layout.root {
		return nil, fmt.Errorf("cannot delete %s: there is no such thing", path)
	}
	cut, err := e.cutOf(n)
	if err != nil {
		return nil, fmt.Errorf("cannot delete %s: %w", path, err)
	}
	want, err := withoutValue(e.values, e.gone(path, n))
	if err != nil {
		return nil, fmt.Errorf("cannot delete %s: %w", path, err)
	}
	return e.checked(path, splice(e.src, cut, ""), want)
}

// cutOf is what to take out of the file for a value to be gone.
func (e *editing) cutOf(n *node) (span, error) {
	switch {
	case n.form == headed:
		return e.blockOf(n)
	case n.form == implied || n.form == elements:
		return span{}, fmt.Errorf("it has no single place in the file")
	case n.parent.form == array:
		return span{}, fmt.Errorf("elements of a list cannot be deleted one by one")
	}
	for _, en := range e.layout.entries {
		if en.node == n {
			return en.lines, nil
		}
	}
	return e.inBraces(n), nil
}

// linesOf is from the header of a table to its last line, that of its
// sub-tables included.
func (e *editing) linesOf(table *node) span {
	s := span{len(e.src), 0}
	for _, en := range e.layout.entries {
		if en.node.within(table) {
			s.from, s.to = min(s.from, en.lines.from), max(s.to, en.lines.to)
		}
	}
	return s
}

// blockOf is what goes when a table with a header goes.
func (e *editing) blockOf(table *node) (span, error) {
	s := e.linesOf(table)
	for _, en := range e.layout.entries {
		if !en.node.within(table) && en.lines.from >= s.from && en.lines.to <= s.to {
			return s, fmt.Errorf("other tables stand between its lines")
		}
	}
	s.from = e.aboveRemarks(s.from)
	for s.to < len(e.src) && e.blankLine(s.to) {
		s.to = lineEnd(e.src, s.to)
	}
	for s.to == len(e.src) && s.from > 0 && e.blankLine(s.from-1) {
		s.from = lineStart(e.src, s.from-1)
	}
	return s, nil
}

func (e *editing) blankLine(at int) bool {
	return len(strings.TrimSpace(string(lineAt(e.src, at)))) == 0
}

// inBraces is a key and its value in { ... }, with the comma on one side.
func (e *editing) inBraces(n *node) span {
	top := n.parent
	for top.dotted {
		top = top.parent
	}
	before, after := -1, -1
	for _, k := range leaves(top) {
		switch {
		case k.to <= n.whole.from:
			before = max(before, k.to)
		case k.from >= n.whole.to && (after < 0 || k.from < after):
			after = k.from
		}
	}
	switch {
	case after >= 0:
		return span{n.whole.from, after}
	case before >= 0:
		return span{before, n.whole.to}
	}
	return span{n.whole.from, max(n.whole.to, skip(e.src, n.whole.to, ","))}
}

// leaves is where the keys with values of a table in braces stand.
func leaves(table *node) []span {
	var all []span
	for _, k := range table.kids {
		if k.dotted {
			all = append(all, leaves(k)...)
		} else {
			all = append(all, k.whole)
		}
	}
	return all
}

// gone is the path of what disappears with n: also what above it was there for
// n alone, tables that only its key or header made and lists of one [[element]].
func (e *editing) gone(path Path, n *node) Path {
	for p := n.parent; p != nil; n, p = p, p.parent {
		alone := p.form == implied && len(p.kids) == 1 || p.form == elements && len(p.elems) == 1
		if !alone {
			break
		}
		path = path[:len(path)-1]
	}
	return path
}

// withoutValue gives a copy of a decoded value without the one at path.
func withoutValue(tree map[string]any, path Path) (map[string]any, error) {
	last := path[len(path)-1]
	parent := any(tree)
	for _, step := range path[:len(path)-1] {
		switch step := step.(type) {
		case string:
			parent = parent.(map[string]any)[step]
		case int:
			parent = parent.([]any)[step]
		}
	}
	switch p := parent.(type) {
	case map[string]any:
		p = maps.Clone(p)
		delete(p, last.(string))
		parent = p
	case []any:
		parent = slices.Delete(slices.Clone(p), last.(int), last.(int)+1)
	}
	if len(path) == 1 {
		return parent.(map[string]any), nil
	}
	return withValue(tree, path[:len(path)-1], parent)
}
