package tomlfile

import (
	"bytes"
	"math"
	"testing"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func seeds(f *testing.F, add func(string)) {
	f.Helper()
	for _, s := range []string{
		brokenLines, good, planFile, "", "\ufeffa = 1", "a = [1, [2, {b.c = \"\\u00e9\"}],]\r\n[[x]]\r\n[x.y]\r\n",
		"a = 1\na = 2\n[t]\n[t]\na.b.c = 1\n[a]\n", "a = 1e999\nb = 2026-02-30\n\"\\u0000\" = 1\n", "a = '''\r\n'''\rb", "[[a]]\n[a]\n[[a.b]]\n",
	} {
		add(s)
	}
}

// FuzzParse: no input makes reading panic, every problem has a place inside the
// file and safe text, and what is taken without a problem is what the reference
// decoder takes.
func FuzzParse(f *testing.F) {
	seeds(f, func(s string) { f.Add([]byte(s)) })
	f.Fuzz(func(t *testing.T, src []byte) {
		doc, err := Parse("f", src)
		if err == nil {
			askEverything(doc.Root())
			doc.Done()
			err = doc.Err()
			var m map[string]any
			_, refErr := toml.Decode(string(bytes.TrimPrefix(src, bom)), &m)
			require.True(t, refErr == nil || err != nil, "taken, but %v", refErr)
			require.LessOrEqual(t, len(m), len(doc.Root().Keys()), "a key got lost")
		}
		if err == nil {
			return
		}
		require.NotEmpty(t, err)
		lines := bytes.Split(bytes.TrimPrefix(src, bom), []byte("\n"))
		for _, p := range err.(Problems) {
			if p.Line > 0 {
				require.LessOrEqual(t, p.Line, len(lines), "%s", p)
				require.LessOrEqual(t, p.Column, 1+utf8.RuneCount(lines[p.Line-1]), "%s", p)
			}
			for i, r := range p.Error() {
				require.False(t, unsafeAt(p.Error(), i, r), "%q", p.Error())
			}
		}
	})
}

// askEverything calls every getter for every key, all the way down.
func askEverything(t *Table) {
	for _, k := range t.Keys() {
		t.String(k)
		t.Word(k, "jump")
		t.Bool(k)
		t.Date(k)
		t.Int(k, 0, 5)
		t.Float(k, 0, math.Inf(1))
		t.Floats(k, 0, 5)
		t.Point(k)
		t.Points(k)
		t.Strings(k)
		t.InsideProblem(k, 2, "x", "")
		if sub, ok := t.Table(k); ok {
			askEverything(sub)
		}
		subs, _ := t.Tables(k)
		for _, sub := range subs {
			askEverything(sub)
		}
	}
}

// FuzzSet: a value set anywhere in any file that can be read is there when it
// is read again, and all the others are as they were; or Set gives an error.
func FuzzSet(f *testing.F) {
	seeds(f, func(s string) { f.Add([]byte(s), "key", "value", uint8(3)) })
	f.Fuzz(func(t *testing.T, src []byte, key, value string, which uint8) {
		doc, err := Parse("f", src)
		if err != nil || doc.Err() != nil {
			return
		}
		var paths []Path
		walk(doc.layout.root, doc.root.values, nil, func(p Path, n *node, _ any) {
			if n.form == scalar {
				paths = append(paths, p)
			}
		}, func(p Path) { assert.Fail(t, "no place", "%s", p) })
		path := Path{key}
		if len(paths) > 0 && int(which) < 200 {
			path = paths[int(which)%len(paths)]
		}
		out, err := Set(src, path, Quote(value))
		if err != nil {
			require.False(t, len(path) > 1 || doc.Root().Has(key) && doc.layout.find(path).form == scalar, "%s: %v", path, err)
			return
		}
		again, err := Parse("f", out)
		require.NoError(t, err)
		want, err := withValue(doc.root.values, path, string([]rune(value)))
		require.NoError(t, err)
		require.True(t, same(want, again.root.values))
		_, _ = Delete(out, path)
		_, _ = Add(out, "cue", 0, "x = 1")
	})
}
