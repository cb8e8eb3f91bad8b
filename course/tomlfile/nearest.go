package tomlfile

import (
	"strings"
	"unicode/utf8"
)

// longestGuess is the length in characters past which no guess is made: it
// bounds the cost, and nobody mistypes a word of that length into a known one.
const longestGuess = 64

// Nearest is the known word that the writer of word most likely meant, "" when
// none is near. Near means: equal but for capitals; or few letters missing,
// added, wrong or swapped (1 up to five letters, 2 up to eight, else 3); or the
// only known word that begins with it (from three letters on). Of equally near
// words the first known one is taken.
func Nearest(word string, known []string) string {
	w := []rune(strings.ToLower(word))
	if len(w) == 0 || len(w) > longestGuess {
		return ""
	}
	best, least := "", longestGuess
	for _, k := range known {
		d := distance(w, []rune(strings.ToLower(k)))
		if d < least && d <= slips(len(w), utf8.RuneCountInString(k)) {
			best, least = k, d
		}
	}
	if best == "" && len(w) >= 3 {
		best = onlyWithPrefix(string(w), known)
	}
	return best
}

// slips is how many slips of the finger are believable in words of a and b
// letters.
func slips(a, b int) int {
	switch n := max(a, b); {
	case n > longestGuess || n < 2:
		return 0
	case n <= 5:
		return 1
	case n <= 8:
		return 2
	default:
		return 3
	}
}

func onlyWithPrefix(prefix string, known []string) string {
	found := ""
	for _, k := range known {
		if !strings.HasPrefix(strings.ToLower(k), prefix) {
			continue
		}
		if found != "" && found != k {
			return ""
		}
		found = k
	}
	return found
}

// distance is the restricted edit distance: the fewest single letters put in,
// left out, changed or swapped with their neighbour, no letter touched twice.
// It gives longestGuess for words longer than that.
func distance(a, b []rune) int {
	if len(a) > longestGuess || len(b) > longestGuess {
		return longestGuess
	}
	var rows [3][longestGuess + 1]int
	before, last, row := &rows[0], &rows[1], &rows[2]
	for j := range len(b) + 1 {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		before, last, row = last, row, before
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := 1
			if a[i-1] == b[j-1] {
				change = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+change)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
	}
	return row[len(b)]
}
