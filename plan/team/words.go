package team

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"cuewalk/course"
	"cuewalk/course/tomlfile"
)

// namesKey is the key in [dog.knows] for the names of obstacles.
const namesKey = "names"

// longestWord in characters that a handler may teach the program.
const longestWord = 40

// Meanings lists every meaning as it is written in files: the directions, then
// the kinds of obstacle.
func Meanings() []string {
	var all []string
	for s := Come; s < Name; s++ {
		all = append(all, senseNames[s])
	}
	return append(all, course.KindNames()...)
}

// String returns the meaning as it is written in files; empty for silence.
func (m Meaning) String() string {
	if m.Sense == Name {
		return m.Kind.String()
	}
	return m.Sense.String()
}

// Vocabulary lists every word this team can use in a plan: its own words in the
// order of the alphabet, then all meanings, which are words themselves.
func (t *Team) Vocabulary() []string {
	own := make([]string, 0, len(t.Words))
	for w := range t.Words {
		own = append(own, w)
	}
	slices.Sort(own)
	for _, m := range Meanings() {
		if _, taken := t.Words[m]; !taken {
			own = append(own, m)
		}
	}
	return own
}

func readWords(root *tomlfile.Table) map[string]Meaning {
	tab, ok := root.Table("words")
	if !ok {
		return nil
	}
	words := map[string]Meaning{}
	for _, w := range tab.Keys() {
		meaning, ok := tab.String(w)
		if !ok {
			continue
		}
		m, known := MeaningOf(meaning)
		switch {
		case !known:
			tab.Problem(w, fmt.Sprintf("%s means nothing to the program", tomlfile.Show(meaning)), oneOf(meaning, Meanings()))
		case strings.TrimSpace(w) != w || w == "":
			tab.KeyProblem(w, fmt.Sprintf("the word %s begins or ends with a blank, or is empty", tomlfile.Show(w)), "write the word as it is said")
		case utf8.RuneCountInString(w) > longestWord:
			tab.KeyProblem(w, fmt.Sprintf("the word %s has more than %d characters", tomlfile.Show(w), longestWord), "write a shorter one")
		default:
			words[w] = m
		}
	}
	return words
}

// oneOf is the hint for a word that is none of the known ones.
func oneOf(word string, known []string) string {
	list := "write one of " + strings.Join(known, ", ")
	if near := tomlfile.Nearest(word, known); near != "" {
		return "did you mean " + tomlfile.Show(near) + "? " + list
	}
	return list
}

// readKnows reads [dog.knows]: a figure for each direction, for "names", or for
// one of the team's own words, which stands for what it means.
func readKnows(dog, root *tomlfile.Table, t *Team, d *Dog) {
	tab, ok := dog.Table("knows")
	if !ok {
		return
	}
	words, hasWords := root.Table("words")
	var by [SenseCount]string
	for _, key := range tab.Keys() {
		sense, ok := knownAs(key, t)
		if !ok && hasWords && words.Has(key) {
			tab.Float(key, 0, 1) // its meaning is wrong, which is said there
			continue
		}
		if !ok {
			tab.KeyProblem(key, fmt.Sprintf("unknown word %s", tomlfile.Show(key)), oneOf(key, t.knowable()))
			continue
		}
		x, ok := tab.Float(key, 0, 1)
		if !ok {
			continue
		}
		if by[sense] != "" {
			tab.KeyProblem(key, fmt.Sprintf("%s says the same as %s above", tomlfile.Show(key), tomlfile.Show(by[sense])),
				"keep one of the two: what a dog knows is kept for each direction, and once for all obstacle names")
			continue
		}
		by[sense], d.Knows[sense] = key, x
	}
}

func knownAs(key string, t *Team) (Sense, bool) {
	if m, ok := t.Meaning(key); ok {
		return m.Sense, true
	}
	return Name, key == namesKey
}

// knowable lists the keys [dog.knows] may have, kinds of obstacle left out:
// "names" stands for them.
func (t *Team) knowable() []string {
	var all []string
	for _, w := range t.Vocabulary() {
		if _, isKind := course.KindOf(w); !isKind {
			all = append(all, w)
		}
	}
	return append(all, namesKey)
}

func readDraw(dog *tomlfile.Table, d *Dog) {
	tab, ok := dog.Table("draw")
	if !ok {
		return
	}
	for k, name := range course.KindNames() {
		if x, ok := tab.Float(name, 0, mostDraw); ok {
			d.Draw[k] = x
		}
	}
}
