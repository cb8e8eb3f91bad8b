package search

import (
	"math"
)

// Part is a stretch of a mix: numbers First to Last are run as option Option has it.
type Part struct{ First, Last, Option int }

// change is what a change from one option to another has to be worth, as a logarithm of
// chances: about a point (C).
const change = 0.01

// Mix returns the stretches of the options that would do best one after another: legs
// holds by option and leg the chance that the leg is clean, and joins says whether a
// handler who has run option a up to number n can go on with option b. One stretch alone
// is an option as it is.
func Mix(legs [][]float64, joins func(a, b, n int) bool) []Part {
	k, n := len(legs), len(legs[0])
	from := make([][]int, n)
	worth := make([]float64, k)
	for i := range n {
		from[i] = make([]int, k)
		next := make([]float64, k)
		for b := range k {
			from[i][b], next[b] = b, worth[b]
			for a := range k {
				if i > 0 && a != b && worth[a]-change > next[b] && joins(a, b, i) {
					from[i][b], next[b] = a, worth[a]-change
				}
			}
			next[b] += math.Log(max(legs[b][i], 0.001))
		}
		worth = next
	}
	best := 0
	for b := range k {
		if worth[b] > worth[best] {
			best = b
		}
	}
	parts := []Part{{First: n, Last: n, Option: best}}
	for i := n - 1; i > 0; i-- {
		p := &parts[len(parts)-1]
		if a := from[i][p.Option]; a != p.Option {
			parts = append(parts, Part{First: i, Last: i, Option: a})
			continue
		}
		p.First = i
	}
	for i, j := 0, len(parts)-1; i < j; i, j = i+1, j-1 {
		parts[i], parts[j] = parts[j], parts[i]
	}
	return parts
}
