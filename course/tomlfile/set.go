package tomlfile

import (
	"bytes"
	"fmt"
	"maps"
	"slices"
)

// Set gives src with the value at a path replaced by a literal such as 7.5,
// "run" or [1, 2], or with the key added to its table. Every other byte stays.
// The result was read again and differs from src in that value alone; anything
// else is an error, and so is a path that leads nowhere or to a [table].
//
// A new key comes after the last key of its table. A table that is not there at
// all is begun at the end of the file.
func Set(src []byte, path Path, literal string) ([]byte, error) {
	e, err := edit(src)
	if err != nil {
		return nil, err
	}
	value, err := literalValue(literal)
	if err != nil {
		return nil, err
	}
	want, err := withValue(e.values, path, value)
	if err != nil {
		return nil, fmt.Errorf("cannot set %s: %w", path, err)
	}
	if n := e.layout.find(path); n != nil {
		if n.form != scalar && n.form != array && n.form != inline {
			return nil, fmt.Errorf("cannot set %s: it is a table with lines of its own", path)
		}
		return e.checked(path, splice(e.src, n.val, literal), want)
	}
	out, err := e.addKey(path, literal)
	if err != nil {
		return nil, err
	}
	return e.checked(path, out, want)
}

// editing is a file being edited. Its src has no byte-order mark.
type editing struct {
	bom     bool
	src     []byte
	layout  *layout
	values  map[string]any
	newline string
}

// edit takes src apart. A file with errors is not edited.
func edit(src []byte) (*editing, error) {
	e := &editing{src: bytes.TrimPrefix(src, bom), newline: "\n"}
	e.bom = len(e.src) < len(src)
	if len(src) > MaxSize {
		return nil, Problems{tooLarge("the file")}
	}
	lay, faults := scan(e.src)
	if len(faults) > 0 || len(lay.doubles) > 0 {
		return nil, fmt.Errorf("the file has errors: mend them first")
	}
	values, err := decode(e.src)
	if err != nil {
		return nil, fmt.Errorf("the file has errors: mend them first: %w", err)
	}
	e.layout, e.values = lay, values
	if i := bytes.IndexByte(e.src, '\n'); i > 0 && e.src[i-1] == '\r' {
		e.newline = "\r\n"
	}
	return e, nil
}

// checked reads the edited text again and gives it, with its byte-order mark,
// if it says what is wanted and nothing else.
func (e *editing) checked(path Path, out []byte, want map[string]any) ([]byte, error) {
	got, err := decode(out)
	if err != nil {
		return nil, fmt.Errorf("changing %s would break the file: %w", path, err)
	}
	if _, faults := scan(out); len(faults) > 0 || !same(got, want) {
		return nil, fmt.Errorf("changing %s would change more than that", path)
	}
	if e.bom {
		out = slices.Concat(bom, out)
	}
	return out, nil
}

// literalValue is what a literal means. It must be one value and nothing else.
func literalValue(literal string) (any, error) {
	const key = "v = "
	src := []byte(key + literal)
	lay, faults := scan(src)
	v := lay.root.byKey["v"]
	if len(faults) > 0 || len(lay.root.kids) != 1 || v == nil || v.val != (span{len(key), len(src)}) {
		return nil, fmt.Errorf("%s is no TOML value", Show(literal))
	}
	m, err := decode(src)
	if err != nil {
		return nil, fmt.Errorf("%s is no TOML value: %w", Show(literal), err)
	}
	return m["v"], nil
}

// withValue gives a copy of a decoded value in which the one at path is
// another. A key may be new; tables on the way to it may be, too.
func withValue(tree map[string]any, path Path, value any) (map[string]any, error) {
	if len(path) == 0 {
		return nil, fmt.Errorf("the path is empty")
	}
	v, err := replaced(tree, path, value)
	if err != nil {
		return nil, err
	}
	return v.(map[string]any), nil
}

func replaced(in any, path Path, value any) (any, error) {
	if len(path) == 0 {
		return value, nil
	}
	switch step := path[0].(type) {
	case string:
		m, ok := in.(map[string]any)
		if !ok && in != nil {
			return nil, fmt.Errorf("there is no table to hold %s", name(step))
		}
		kid, err := replaced(m[step], path[1:], value)
		if err != nil {
			return nil, err
		}
		m = maps.Clone(m)
		if m == nil {
			m = map[string]any{}
		}
		m[step] = kid
		return m, nil
	case int:
		list, ok := in.([]any)
		if !ok || step < 0 || step >= len(list) {
			return nil, fmt.Errorf("there is no element %d", step)
		}
		kid, err := replaced(list[step], path[1:], value)
		if err != nil {
			return nil, err
		}
		list = slices.Clone(list)
		list[step] = kid
		return list, nil
	}
	return nil, fmt.Errorf("a path has keys and whole numbers only, not %v", path[0])
}

// splice gives src with a span replaced by text.
func splice(src []byte, at span, text string) []byte {
	return slices.Concat(src[:at.from], []byte(text), src[at.to:])
}
