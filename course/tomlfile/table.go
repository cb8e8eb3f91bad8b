package tomlfile

import (
	"fmt"
	"slices"
	"strings"
)

// Table is a table of a file. Its getters give a value and whether there is
// one of the right kind; for a value that is wrong they note a problem in the
// Doc and report false, so reading goes on and finds the next one. A key that a
// getter asked for is known; [Table.Done] reports the keys nobody asked for.
type Table struct {
	doc    *Doc
	node   *node
	values map[string]any
	known  []string // asked for, in order
	asked  map[string]bool
	read   map[string]bool
	done   bool
}

// table gives the Table of a node, the same one each time.
func (d *Doc) table(n *node, values map[string]any) *Table {
	if n.table == nil {
		n.table = &Table{doc: d, node: n, values: values, asked: map[string]bool{}, read: map[string]bool{}}
		d.tables = append(d.tables, n.table)
	}
	return n.table
}

// Doc is the file this table belongs to.
func (t *Table) Doc() *Doc { return t.doc }

// Has reports whether the file sets a key, be its value right or wrong. It does
// not make the key known.
func (t *Table) Has(key string) bool {
	_, ok := t.values[key]
	return ok
}

// Keys gives the keys in the order of the file.
func (t *Table) Keys() []string {
	keys := make([]string, 0, len(t.node.kids))
	for _, k := range t.node.kids {
		if t.Has(k.name) {
			keys = append(keys, k.name)
		}
	}
	return keys
}

// Name is the key under which the table stands, "" for the root and for an
// element of an array.
func (t *Table) Name() string { return t.node.name }

// Line is the line of a key, or of the table when the key is missing or "".
func (t *Table) Line(key string) int { return t.KeyPos(key).Line }

// KeyPos is the place of a key itself, or of the table when it is missing or "".
func (t *Table) KeyPos(key string) Pos {
	if n, ok := t.node.byKey[key]; ok && key != "" {
		return t.doc.pos(n.key.from)
	}
	return t.doc.pos(t.start())
}

// ValuePos is the place of a key's value, or of one of its elements, counted
// from 0 and, for a list in a list, more numbers. What is not there stands
// where its nearest parent does.
func (t *Table) ValuePos(key string, elems ...int) Pos {
	n, ok := t.node.byKey[key]
	if !ok {
		return t.KeyPos(key)
	}
	for _, i := range elems {
		if i < 0 || i >= len(n.elems) {
			break
		}
		n = n.elems[i]
	}
	return t.doc.pos(n.val.from)
}

// start is where the table stands: its header, or its key, or its brace.
func (t *Table) start() int {
	if t.node.form == inline {
		return t.node.key.from
	}
	return t.node.val.from
}

// Problem notes that something is wrong with the value of a key, with key ""
// or a missing one with the table. The key counts as read.
func (t *Table) Problem(key, text, hint string) {
	t.read[key] = true
	t.doc.Note(t.ValuePos(key).Problem(text, hint))
}

// KeyProblem notes that a key should not be there. The key counts as read.
func (t *Table) KeyProblem(key, text, hint string) {
	t.read[key] = true
	t.doc.Note(t.KeyPos(key).Problem(text, hint))
}

// ElementProblem is [Table.Problem] for one element of a list.
func (t *Table) ElementProblem(key string, elem int, text, hint string) {
	t.read[key] = true
	t.doc.Note(t.ValuePos(key, elem).Problem(text, hint))
}

// Missing notes, at the table, that a key is missing. It does nothing when the
// key is there with a wrong value, which has its own problem.
func (t *Table) Missing(key, hint string) {
	t.ask(key)
	if t.Has(key) {
		return
	}
	text := "missing key " + Show(key)
	if t.node.name != "" {
		text += " in " + Show(t.node.name)
	}
	t.doc.Note(t.KeyPos("").Problem(text, hint))
}

// Done notes every key that was never read as unknown, with the nearest of the
// known ones: those a getter asked for and those in more. Only the first call
// does something.
func (t *Table) Done(more ...string) {
	if t.done {
		return
	}
	t.done = true
	known := slices.Concat(t.known, more)
	for _, key := range t.Keys() {
		if !t.read[key] {
			t.doc.Note(t.KeyPos(key).Problem("unknown key "+Show(key), suggest(key, known)))
		}
	}
}

// suggest is the hint for a word that is none of the known ones.
func suggest(word string, known []string) string {
	const most = 16
	list := strings.Join(known[:min(most, len(known))], ", ")
	if len(known) > most {
		list += ", ..."
	}
	near := Nearest(word, known)
	switch {
	case len(known) == 0:
		return "delete it"
	case near != "":
		return fmt.Sprintf("did you mean %s? known here: %s", Show(near), list)
	default:
		return "known here: " + list
	}
}

// ask makes a key known and gives its value, nil when there is none
// that can be read.
func (t *Table) ask(key string) (value any, n *node) {
	if !t.asked[key] {
		t.asked[key] = true
		t.known = append(t.known, key)
	}
	t.read[key] = true
	value, ok := t.values[key]
	if !ok {
		return nil, nil
	}
	n, ok = t.node.byKey[key]
	if !ok { // cannot be: both readers saw the same file
		n = t.node
	}
	if n.bad {
		return nil, nil
	}
	return value, n
}

// wrong notes that a value is of the wrong kind.
func (t *Table) wrong(n *node, name, want, hint string) {
	if n.bad {
		return
	}
	t.doc.fault(fault{n.val.from, fmt.Sprintf("%s must be %s, not %s", name, want, t.written(n)), hint})
}

// written is a value as it stands in the file, safe and cut to a few words.
func (t *Table) written(n *node) string {
	switch n.form {
	case scalar:
		cut, more := clip(t.raw(n), 40)
		return Plain(cut) + more
	case array:
		return "a list"
	case elements:
		return "several tables"
	default:
		return "a table"
	}
}

func (t *Table) raw(n *node) string { return string(t.doc.src[n.val.from:n.val.to]) }
