package tomlfile

// span is a half-open range of bytes in a file.
type span struct{ from, to int }

// form tells how a node came to be in the file.
type form uint8

const (
	implied  form = iota // a table that only dotted keys or deeper headers name
	headed               // a table under a [header], or one [[element]]
	elements             // all the [[elements]] of one name
	scalar
	array
	inline // a table in braces
)

// node is a value of the file and where it is written.
type node struct {
	name   string // its key; "" for an element of an array
	form   form
	parent *node
	key    span // the key, or the value itself for an element of an array
	val    span // the value; for headed tables the header from its first [
	whole  span // key and value together, as written inside a table in braces
	dotted bool // a dotted key such as a.b = 1 made this table
	bad    bool // the value cannot be read, which has been noted
	kids   []*node
	byKey  map[string]*node
	elems  []*node
	table  *Table // set once the table was handed out
}

// kid gives the child of that name and whether it is new. A new one is implied.
func (n *node) kid(name string, key span) (child *node, isNew bool) {
	if k, ok := n.byKey[name]; ok {
		return k, false
	}
	k := &node{name: name, parent: n, key: key, val: key}
	if n.byKey == nil {
		n.byKey = map[string]*node{}
	}
	n.byKey[name] = k
	n.kids = append(n.kids, k)
	return k, true
}

func (n *node) newElement(f form, at span) *node {
	e := &node{form: f, parent: n, key: at, val: at}
	n.elems = append(n.elems, e)
	return e
}

// newest is the table meant by a header that goes on from n: the last element
// of [[elements]], else n itself.
func (n *node) newest() *node {
	if n.form == elements && len(n.elems) > 0 {
		return n.elems[len(n.elems)-1]
	}
	return n
}

func (n *node) isTable() bool { return n.form == implied || n.form == headed || n.form == inline }

// within reports whether n is top or lies below it.
func (n *node) within(top *node) bool {
	for ; n != nil; n = n.parent {
		if n == top {
			return true
		}
	}
	return false
}

// scalarAt is the scalar below n whose text holds an offset, nil for none.
func (n *node) scalarAt(at int) *node {
	if n.form == scalar && n.val.from <= at && at < n.val.to {
		return n
	}
	for _, list := range [][]*node{n.kids, n.elems} {
		for _, k := range list {
			if found := k.scalarAt(at); found != nil {
				return found
			}
		}
	}
	return nil
}

// entry is one line (or several, for a value that goes over lines) at the top
// level of the file: a header or a key with its value.
type entry struct {
	node   *node // the table a header opens, or the value
	owner  *node // the table a key was written in; nil for a header
	header bool
	lines  span // whole lines, with the newline at the end
}

// double is a key or table that the file had already.
type double struct {
	at     int
	first  *node
	header bool // the second one is a [header]
}

// layout is where everything in a file is.
type layout struct {
	root    *node
	entries []entry
	doubles []double
	cuts    []span // the doubles, to be left out so that reading can go on
}

// find follows keys (string) and element numbers (int, from 0) down from the
// root; nil when there is no such value.
func (l *layout) find(path Path) *node {
	n := l.root
	for _, step := range path {
		switch s := step.(type) {
		case string:
			n = n.byKey[s]
		case int:
			if s < 0 || s >= len(n.elems) {
				return nil
			}
			n = n.elems[s]
		default:
			return nil
		}
		if n == nil {
			return nil
		}
	}
	return n
}
