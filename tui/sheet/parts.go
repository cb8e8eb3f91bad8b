package sheet

import "math"

// A list is learnt best in parts of three to five (Cowan 2001: about four chunks at once).
const (
	leastPart, bestPart, mostPart = 3, 4, 5
)

// parts says after which of n cues a part ends. natural tells how good a place the end of cue
// i is: a tunnel or contact, where there is time, a change of sides. The last cue ends one.
func parts(n int, natural func(i int) bool) []bool {
	ends := make([]bool, n)
	if n == 0 {
		return ends
	}
	cost, from := make([]float64, n+1), make([]int, n+1)
	for to := 1; to <= n; to++ {
		cost[to] = math.Inf(1)
		for size := 1; size <= mostPart && size <= to; size++ {
			c := cost[to-size] + math.Abs(float64(size-bestPart))
			if size < leastPart {
				c += 10
			}
			if to < n && !natural(to-1) {
				c += 1.5
			}
			if c < cost[to] {
				cost[to], from[to] = c, to-size
			}
		}
	}
	for to := n; to > 0; to = from[to] {
		ends[to-1] = true
	}
	return ends
}
