package tomlfile

import (
	"fmt"
	"math"
)

// Floats gives a list of numbers, each from least to most as for [Table.Float].
// A list with a wrong element is not given at all.
func (t *Table) Floats(key string, least, most float64) ([]float64, bool) {
	v, n := t.ask(key)
	if n == nil {
		return nil, false
	}
	return t.floats(v, n, name(key), "a list of numbers", "write "+name(key)+" = [1, 2.5]", least, most)
}

func (t *Table) floats(v any, n *node, what, want, hint string, least, most float64) ([]float64, bool) {
	list, ok := v.([]any)
	if !ok || n.form != array {
		t.wrong(n, what, want, hint)
		return nil, false
	}
	out := make([]float64, len(list))
	for i, e := range list {
		x, good := t.number(e, n.elems[i], fmt.Sprintf("number %d of %s", i+1, what), least, most)
		out[i], ok = x, ok && good
	}
	if !ok {
		return nil, false
	}
	return out, true
}

// Point gives two finite numbers, such as x and y or width and length.
func (t *Table) Point(key string) ([2]float64, bool) {
	v, n := t.ask(key)
	if n == nil {
		return [2]float64{}, false
	}
	return t.point(v, n, name(key), "write "+name(key)+" = [3, 8.5]")
}

func (t *Table) point(v any, n *node, what, hint string) ([2]float64, bool) {
	xs, ok := t.floats(v, n, what, "a pair of numbers", hint, math.Inf(-1), math.Inf(1))
	if !ok {
		return [2]float64{}, false
	}
	if len(xs) != 2 {
		t.doc.fault(fault{n.val.from, fmt.Sprintf("%s must have 2 numbers, not %d", what, len(xs)), hint})
		return [2]float64{}, false
	}
	return [2]float64(xs), true
}

// Points gives a list of pairs of finite numbers. How many there are is for
// the caller to check.
func (t *Table) Points(key string) ([][2]float64, bool) {
	v, n := t.ask(key)
	if n == nil {
		return nil, false
	}
	hint := "write " + name(key) + " = [[10, 18], [13, 20]]"
	list, ok := v.([]any)
	if !ok || n.form != array {
		t.wrong(n, name(key), "a list of points", hint)
		return nil, false
	}
	if onlyNumbers(list) {
		t.doc.fault(fault{n.val.from, name(key) + " must be a list of points, not of numbers", hint})
		return nil, false
	}
	out := make([][2]float64, len(list))
	for i, e := range list {
		p, good := t.point(e, n.elems[i], fmt.Sprintf("point %d of %s", i+1, name(key)), "write [13, 20.5]")
		out[i], ok = p, ok && good
	}
	if !ok {
		return nil, false
	}
	return out, true
}

func onlyNumbers(list []any) bool {
	for _, e := range list {
		switch e.(type) {
		case int64, float64:
		default:
			return false
		}
	}
	return len(list) > 0
}

// IsList reports whether the value of key is a list.
func (t *Table) IsList(key string) bool {
	_, is := t.values[key].([]any)
	return is
}

// Strings gives a list of texts.
func (t *Table) Strings(key string) ([]string, bool) {
	v, n := t.ask(key)
	if n == nil {
		return nil, false
	}
	hint := "write " + name(key) + ` = ["one", "two"]`
	list, ok := v.([]any)
	if !ok || n.form != array {
		t.wrong(n, name(key), "a list of texts", hint)
		return nil, false
	}
	out := make([]string, len(list))
	for i, e := range list {
		s, good := e.(string)
		if !good {
			t.wrong(n.elems[i], fmt.Sprintf("text %d of %s", i+1, name(key)), "text", "put it in quotes")
		}
		out[i], ok = s, ok && good
	}
	if !ok {
		return nil, false
	}
	return out, true
}

// Table gives a table inside this one, written as [key], as key = { ... } or
// with dotted keys.
func (t *Table) Table(key string) (*Table, bool) {
	v, n := t.ask(key)
	if n == nil {
		return nil, false
	}
	m, ok := v.(map[string]any)
	if !ok || !n.isTable() {
		hint := fmt.Sprintf("write %s = { ... }, or [%s] with its keys below", name(key), name(key))
		t.wrong(n, name(key), "a table", hint)
		return nil, false
	}
	return t.doc.table(n, m), true
}

// Tables gives a list of tables, written as several [[key]] or as
// key = [{ ... }, { ... }]. Elements that are no tables are left out.
func (t *Table) Tables(key string) ([]*Table, bool) {
	v, n := t.ask(key)
	if n == nil {
		return nil, false
	}
	list, ok := v.([]any)
	if !ok || n.form != array && n.form != elements {
		t.wrong(n, name(key), "a list of tables", fmt.Sprintf("write [[%s]] with its keys below, once for each", name(key)))
		return nil, false
	}
	out := make([]*Table, 0, len(list))
	for i, e := range list {
		if m, ok := e.(map[string]any); ok {
			out = append(out, t.doc.table(n.elems[i], m))
		} else {
			t.wrong(n.elems[i], fmt.Sprintf("element %d of %s", i+1, name(key)), "a table", "write { key = value }")
		}
	}
	return out, true
}
