package tomlfile

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
)

// String gives a text.
func (t *Table) String(key string) (string, bool) {
	v, n := t.ask(key)
	s, ok := v.(string)
	if n != nil && !ok {
		hint := "write " + name(key) + ` = "text"`
		if n.form == scalar {
			hint = fmt.Sprintf(`put it in quotes: %s = "%s"`, name(key), t.written(n))
		}
		t.wrong(n, name(key), "text", hint)
	}
	return s, ok
}

// Word gives a text that must be one of the allowed words.
func (t *Table) Word(key string, allowed ...string) (string, bool) {
	s, ok := t.String(key)
	if !ok {
		return "", false
	}
	if slices.Contains(allowed, s) {
		return s, true
	}
	t.Problem(key, fmt.Sprintf("unknown %s %s", name(key), Show(s)), suggest(s, allowed))
	return "", false
}

// Bool gives true or false.
func (t *Table) Bool(key string) (value, ok bool) {
	v, n := t.ask(key)
	value, ok = v.(bool)
	if n != nil && !ok {
		t.wrong(n, name(key), "true or false", fmt.Sprintf("write %s = true or %s = false, without quotes", name(key), name(key)))
	}
	return value, ok
}

// Date gives a date, with or without a time of day.
func (t *Table) Date(key string) (time.Time, bool) {
	v, n := t.ask(key)
	d, ok := v.(time.Time)
	ok = ok && d.Year() > 0 // a time of day alone has year 0
	if n != nil && !ok {
		t.wrong(n, name(key), "a date", "write it as year-month-day without quotes: "+name(key)+" = 2026-05-31")
	}
	return d, ok
}

// Float gives a number from least to most, both ends allowed; use infinities
// for no limit. Whole numbers are taken too, nan and inf never.
func (t *Table) Float(key string, least, most float64) (float64, bool) {
	v, n := t.ask(key)
	if n == nil {
		return 0, false
	}
	return t.number(v, n, name(key), least, most)
}

// Int gives a whole number from least to most, both ends allowed.
func (t *Table) Int(key string, least, most int) (int, bool) {
	v, n := t.ask(key)
	if n == nil {
		return 0, false
	}
	i, ok := v.(int64)
	if !ok {
		t.wrong(n, name(key), "a whole number", "write a number without quotes and without decimals")
		return 0, false
	}
	if i < int64(least) || i > int64(most) {
		t.outside(n, name(key), float64(least), float64(most))
		return 0, false
	}
	return int(i), true
}

// number checks one number; what names it in the problem.
func (t *Table) number(v any, n *node, what string, least, most float64) (float64, bool) {
	var x float64
	if n.bad {
		return 0, false
	}
	switch v := v.(type) {
	case float64:
		x = v
	case int64:
		x = float64(v)
	default:
		t.wrong(n, what, "a number", numberHint(v, least, most))
		return 0, false
	}
	if math.IsNaN(x) || math.IsInf(x, 0) {
		t.wrong(n, what, "a finite number", "write "+limits(least, most))
		return 0, false
	}
	if x < least || x > most {
		t.outside(n, what, least, most)
		return 0, false
	}
	return x, true
}

func (t *Table) outside(n *node, what string, least, most float64) {
	t.doc.fault(fault{n.val.from, fmt.Sprintf("%s is out of range: %s", what, t.written(n)), "write " + limits(least, most)})
}

// numberHint says what to write where v stands instead of a number.
func numberHint(v any, least, most float64) string {
	if s, ok := v.(string); ok {
		s = strings.Replace(strings.TrimSpace(s), ",", ".", 1)
		if x, err := strconv.ParseFloat(s, 64); err == nil && !math.IsInf(x, 0) && !math.IsNaN(x) {
			return "write " + Number(x) + " without quotes"
		}
	}
	return "write " + limits(least, most) + " without quotes"
}

// limits words a range of numbers.
func limits(least, most float64) string {
	low, high := least > -math.MaxFloat64, most < math.MaxFloat64
	switch {
	case low && high:
		return fmt.Sprintf("a number from %s to %s", Number(least), Number(most))
	case low:
		return fmt.Sprintf("a number not below %s", Number(least))
	case high:
		return fmt.Sprintf("a number not above %s", Number(most))
	default:
		return "a number such as 1.5"
	}
}

// name is a key as it can stand in a message and in the file.
func name(key string) string {
	if bareKey(key) {
		return key
	}
	return Show(key)
}
