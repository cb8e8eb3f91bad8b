package tomlfile

import (
	"bytes"
	"errors"
	"slices"

	"github.com/pelletier/go-toml/v2/unstable"
)

const (
	mostFaults   = 20 // past this many broken lines it is no TOML file
	mostKeyParts = 64 // a.b.c has three
)

// fault is a place that is not TOML.
type fault struct {
	at   int
	text string
	hint string
}

// scan finds where everything in src is written. It is the only user of the
// unstable parser, which promises no compatibility: its version is pinned and
// the corpus test watches over it.
//
// With faults the layout is of no use. They come from several places: after
// each, scanning goes on at the next line that looks like a fresh start.
func scan(src []byte) (*layout, []fault) {
	src = slices.Clip(src) // the parser computes offsets from capacities
	s := &scanner{src: src, lay: &layout{root: &node{form: headed}}}
	s.table = s.lay.root
	for from := 0; from < len(src) && len(s.faults) < mostFaults; {
		from = s.stretch(from)
	}
	return s.lay, s.faults
}

type scanner struct {
	src    []byte
	base   int // where the parser's input begins in src
	parser unstable.Parser
	lay    *layout
	table  *node // the table that keys go to now
	lost   bool  // that table is a double: leave its keys out
	faults []fault
}

// stretch scans from an offset to the end or to the first error, and gives the
// offset from which to go on.
func (s *scanner) stretch(from int) int {
	s.base = from
	s.parser.Reset(s.src[from:])
	good := from
	for s.parser.NextExpression() {
		e := s.parser.Expression()
		if e.Kind == unstable.KeyValue {
			good = s.keyLine(e)
		} else {
			good = s.header(e)
		}
		good = lineEnd(s.src, good) // nothing but a remark follows
	}
	var pe *unstable.ParserError
	if !errors.As(s.parser.Error(), &pe) {
		return len(s.src)
	}
	at := s.span(s.parser.Range(pe.Highlight)).from
	at = min(at, len(s.src)-1)
	start := min(skip(s.src, good, ""), at)
	f, resume := faultAt(s.src, start, at, pe.Message)
	s.faults = append(s.faults, f)
	return resume
}

func (s *scanner) span(r unstable.Range) span {
	from := s.base + int(r.Offset)
	return span{from, from + int(r.Length)}
}

// part is one part of a dotted key.
type part struct {
	name string
	at   span
}

func (s *scanner) parts(it unstable.Iterator) []part {
	var ps []part
	for it.Next() {
		p := part{string(it.Node().Data), s.span(it.Node().Raw)}
		if bytes.IndexByte(it.Node().Data, 0) >= 0 {
			s.faults = append(s.faults, fault{p.at.from, `a key must not contain \u0000`, "give it a name of letters and digits"})
		}
		ps = append(ps, p)
	}
	if len(ps) > mostKeyParts {
		s.faults = append(s.faults, fault{ps[0].at.from, "this key has too many parts", "use a few names with points between them at most"})
		ps = ps[:mostKeyParts]
	}
	return ps
}

// header takes in [a.b] or [[a.b]] and gives the end of its last key.
func (s *scanner) header(e *unstable.Node) int {
	ps := s.parts(e.Key())
	last := ps[len(ps)-1]
	open := s.openBracket(ps[0].at.from)
	lines := wholeLines(s.src, span{open, last.at.to})
	owner, blocked := s.walk(ps[:len(ps)-1], false)
	target, isNew := owner.kid(last.name, last.at)
	if blocked == nil && !isNew && !mayOpen(target, e.Kind == unstable.ArrayTable) {
		blocked = target
	}
	s.lost = blocked != nil
	if s.lost {
		s.lay.doubles = append(s.lay.doubles, double{open, blocked, true})
		s.lay.cuts = append(s.lay.cuts, lines)
		s.table = &node{name: last.name, form: headed, parent: owner, key: last.at, val: span{open, last.at.to}}
		return last.at.to
	}
	at := span{open, last.at.to}
	if e.Kind == unstable.ArrayTable {
		target.form = elements
		target = target.newElement(headed, at)
	}
	target.form, target.val = headed, at
	s.table = target
	s.lay.entries = append(s.lay.entries, entry{node: target, header: true, lines: lines})
	return last.at.to
}

// mayOpen reports whether a header may name a table that is known already.
func mayOpen(n *node, element bool) bool {
	if element {
		return n.form == elements
	}
	return n.form == implied && !n.dotted
}

func (s *scanner) openBracket(at int) int {
	for at > 0 && (s.src[at-1] == '[' || s.src[at-1] == ' ' || s.src[at-1] == '\t') {
		at--
	}
	return skip(s.src, at, "")
}

// walk goes down the parts of a key before its last. blocked is the value that
// stands where a table would have to be; the walk then goes on beside the tree.
func (s *scanner) walk(ps []part, dotted bool) (n, blocked *node) {
	n = s.lay.root
	if dotted {
		n = s.table
	}
	for _, p := range ps {
		k, isNew := n.kid(p.name, p.at)
		if isNew {
			k.dotted = dotted
		}
		k = k.newest()
		if k.form == inline || !k.isTable() || dotted && !k.dotted {
			return &node{parent: n}, k
		}
		n = k
	}
	return n, nil
}

// keyLine takes in a line "key = value" and gives its end.
func (s *scanner) keyLine(e *unstable.Node) int {
	leaf, whole := s.keyValue(e)
	lines := wholeLines(s.src, whole)
	switch {
	case s.lost:
		s.lay.cuts = append(s.lay.cuts, whole)
	case leaf != nil:
		s.lay.entries = append(s.lay.entries, entry{node: leaf, owner: s.table, lines: lines})
	}
	return whole.to
}

// keyValue takes in "key = value" of the table s.table. leaf is nil when the
// key was there already.
func (s *scanner) keyValue(e *unstable.Node) (leaf *node, whole span) {
	ps := s.parts(e.Key())
	last := ps[len(ps)-1]
	owner, first := s.walk(ps[:len(ps)-1], true)
	leaf, isNew := owner.kid(last.name, last.at)
	if first == nil && !isNew {
		first = leaf
	}
	if first != nil {
		leaf = &node{name: last.name, parent: owner, key: last.at}
	}
	start := skipBlanks(s.src, last.at.to)
	start = skipBlanks(s.src, start+1) // past the =
	whole = span{ps[0].at.from, s.value(leaf, e.Value(), start)}
	leaf.whole = whole
	if first != nil {
		s.lay.doubles = append(s.lay.doubles, double{ps[0].at.from, first, false})
		s.lay.cuts = append(s.lay.cuts, whole)
		return nil, whole
	}
	return leaf, whole
}

// value takes in a value that starts at an offset, and gives its end.
func (s *scanner) value(n *node, v *unstable.Node, at int) (end int) {
	defer func() { n.val = span{at, end} }()
	switch v.Kind {
	case unstable.Array:
		n.form = array
		end = at + 1
		for c := v.Children(); c.Next(); {
			end = skip(s.src, end, ",")
			el := n.newElement(scalar, span{end, end})
			end = s.value(el, c.Node(), end)
			el.key = el.val
		}
		return s.closing(end)
	case unstable.InlineTable:
		n.form = inline
		outer := s.table
		s.table = n
		end = at + 1
		for c := v.Children(); c.Next(); {
			_, whole := s.keyValue(c.Node())
			end = whole.to
		}
		s.table = outer
		return s.closing(end)
	default:
		n.form = scalar
		return s.span(v.Raw).to
	}
}

// closing is the offset behind the ] or } that follows the last element.
func (s *scanner) closing(at int) int { return min(skip(s.src, at, ",")+1, len(s.src)) }
