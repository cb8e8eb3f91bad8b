package words

import (
	"fmt"
	"math"
)

// Share says a chance as a person feels it: "3 runs in 10"; where tens are too coarse "7 runs
// in 100". The word is the plural of what is counted.
func Share(p float64, word string) string {
	k, of := parts(p)
	if k == 0 {
		return "fewer than 1 in 100 " + word
	}
	return fmt.Sprintf("%d %s in %d", k, word, of)
}

// ShareRange says a chance that is not known better than this: "2 to 4 runs in 10".
func ShareRange(low, high float64, word string) string {
	of := 10.0
	if high < .15 || low > .85 {
		of = 100
	}
	a, b := math.Floor(low*of+1e-9), math.Ceil(high*of-1e-9)
	if a == b {
		return fmt.Sprintf("%.0f %s in %.0f", a, word, of)
	}
	return fmt.Sprintf("%.0f to %.0f %s in %.0f", a, b, word, of)
}

// parts is a chance as so many of 10, or of 100 near the ends.
func parts(p float64) (k, of int) {
	if p >= .15 && p <= .85 {
		return int(math.Round(10 * p)), 10
	}
	k = int(math.Round(100 * p))
	if k == 100 && p < 1 {
		k = 99
	}
	return k, 100
}
