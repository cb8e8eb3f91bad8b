package tomlfile

import (
	"bytes"
	"errors"
	"strings"
	"time"

	"github.com/BurntSushi/toml"
)

// decode gives the values of a file: maps for tables, []any for every kind of
// array, string, bool, int64, float64 and time.Time.
func decode(src []byte) (map[string]any, error) {
	m := map[string]any{}
	if _, err := toml.NewDecoder(bytes.NewReader(src)).Decode(&m); err != nil {
		return nil, err
	}
	return plainArrays(m).(map[string]any), nil
}

// plainArrays turns the []map[string]any of [[x]] into []any, as x = [{..}] has.
func plainArrays(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for k := range v {
			v[k] = plainArrays(v[k])
		}
	case []map[string]any:
		out := make([]any, len(v))
		for i := range v {
			out[i] = plainArrays(v[i])
		}
		return out
	case []any:
		for i := range v {
			v[i] = plainArrays(v[i])
		}
	}
	return v
}

// typeNames takes out of a message what only a programmer knows.
var typeNames = strings.NewReplacer(" for float64", "", " for int64", "")

// decodeFault words an error of decode.
func decodeFault(src []byte, err error) fault {
	var pe toml.ParseError
	if !errors.As(err, &pe) {
		return fault{0, err.Error(), ""}
	}
	at := max(0, min(pe.Position.Start, len(src)-1))
	text := strings.TrimSuffix(typeNames.Replace(pe.Message), ".")
	return fault{at, strings.ToLower(text[:1]) + text[1:], "write each key and each [table] once, and every value in full"}
}

// same compares decoded values: NaN equals itself, times by what they say.
func same(a, b any) bool {
	switch a := a.(type) {
	case map[string]any:
		b, ok := b.(map[string]any)
		if !ok || len(a) != len(b) {
			return false
		}
		for k := range a {
			if other, ok := b[k]; !ok || !same(a[k], other) {
				return false
			}
		}
		return true
	case []any:
		b, ok := b.([]any)
		if !ok || len(a) != len(b) {
			return false
		}
		for i := range a {
			if !same(a[i], b[i]) {
				return false
			}
		}
		return true
	case float64:
		b, ok := b.(float64)
		return ok && (a == b || a != a && b != b)
	case time.Time:
		b, ok := b.(time.Time)
		return ok && a.Equal(b) && a.Location().String() == b.Location().String()
	}
	return a == b
}
