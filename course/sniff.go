package course

import (
	"bytes"
	"regexp"

	"cuewalk/course/tomlfile"
)

// fileKinds are the kinds of file by the key that names them.
var fileKinds = []struct{ key, kind string }{
	{"course", "course"}, {"team", "team"}, {"plan", "plan"}, {"run", "journal"},
}

// Sniff says what kind of file src is: course, team, plan or journal. The first
// key that names a kind decides; a file that is broken elsewhere is still told.
// name is what the error calls the file.
func Sniff(name string, src []byte) (string, error) {
	doc, err := tomlfile.Parse(name, src)
	if err != nil {
		if kind := sniffBroken(src); kind != "" {
			return kind, nil
		}
		return "", err
	}
	if kind := kindOf(doc); kind != "" {
		return kind, nil
	}
	first := doc.Root().Keys()[0]
	hint := `begin with course = "name", plan = "name" or team = "name"`
	if near := tomlfile.Nearest(first, []string{"course", "team", "plan"}); near != "" {
		hint = "did you mean " + tomlfile.Show(near) + "? " + hint
	}
	return "", tomlfile.Problems{doc.Root().KeyPos(first).Problem("this is no course, plan or team: it begins with "+tomlfile.Show(first), hint)}
}

// keyOf returns the first key of a file that names a kind, "" where none does.
func keyOf(doc *tomlfile.Doc) string {
	for _, key := range doc.Root().Keys() {
		for _, f := range fileKinds {
			if f.key == key {
				return key
			}
		}
	}
	return ""
}

func kindOf(doc *tomlfile.Doc) string { return kindNamed(keyOf(doc)) }

func kindNamed(key string) string {
	for _, f := range fileKinds {
		if f.key == key {
			return f.kind
		}
	}
	return ""
}

// naming is a line that names the kind of a file.
var naming = regexp.MustCompile(`(?m)^[ \t]*(?:(course|team|plan)[ \t]*=|\[\[[ \t]*(run)[ \t]*\]\])`)

// sniffBroken is Sniff for a file that cannot be read.
func sniffBroken(src []byte) string {
	m := naming.FindSubmatch(bytes.TrimPrefix(src, []byte("\ufeff")))
	if m == nil {
		return ""
	}
	return kindNamed(string(m[1]) + string(m[2]))
}
