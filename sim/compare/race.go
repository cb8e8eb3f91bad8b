// Package compare tells plans apart by runs with the same luck. It holds differences of
// pairs, their intervals, and a rule that says when enough has been seen; what the runs
// are made of is no concern of its.
//
// The rule is a test by betting: against "b is at least as good as a" a gambler bets on
// every world in which only one of the two was clean. His capital is a martingale where
// the claim holds, so that it ever reaches 1/alpha with a chance of at most alpha however
// often one looks (Ville's inequality; Howard et al. 2021, Ann Stat). Many pairs share
// the allowance (union bound).
package compare

import "math"

// Alpha is the chance that is allowed for calling any two of several equal plans different.
const Alpha = 0.05

// bets are the shares of the decided worlds that the gambler bets on, in equal parts: from
// a difference that takes long to see to one that is plain (C).
var bets = [...]float64{0.55, 0.65, 0.80}

// Evidence is the gambler's capital, begun at 1, against "b is at least as good as a"
// after wins worlds in which only a was clean and losses in which only b was.
func Evidence(wins, losses int) float64 {
	sum := 0.0
	for _, p := range bets {
		sum += math.Exp(float64(wins)*math.Log(2*p) + float64(losses)*math.Log(2*(1-p)))
	}
	return sum / float64(len(bets))
}

// Race keeps the score of several options that meet the same worlds. An option that
// another has been shown to beat drops out. Make one with NewRace.
type Race struct {
	alpha  float64
	only   [][]int  // [a][b]: worlds in which a was clean and b was not, while both ran
	beaten [][]bool // [a][b]: a has been shown to be better than b
	out    []bool
	worlds int
}

// NewRace returns a race of at least one option. The chance that it ever says of two
// options that one is better when it is not is at most alpha, all pairs together.
func NewRace(options int, alpha float64) *Race {
	r := &Race{alpha: alpha, out: make([]bool, options)}
	for range options {
		r.only = append(r.only, make([]int, options))
		r.beaten = append(r.beaten, make([]bool, options))
	}
	return r
}

// Add takes in one world: by option, whether it was clean. What is said of options that
// are out is not read.
func (r *Race) Add(clean []bool) {
	r.worlds++
	for a := range r.out {
		for b := range r.out {
			if !r.out[a] && !r.out[b] && clean[a] && !clean[b] {
				r.only[a][b]++
			}
		}
	}
	r.judge()
}

// judge drops every option that another one is shown to beat by now.
func (r *Race) judge() {
	k := len(r.out)
	need := float64(k*(k-1)) / r.alpha
	var drop []int
	for a := range r.out {
		for b := range r.out {
			if a == b || r.out[a] || r.out[b] || Evidence(r.only[a][b], r.only[b][a]) < need {
				continue
			}
			r.beaten[a][b] = true
			drop = append(drop, b)
		}
	}
	for _, b := range drop {
		r.out[b] = true
	}
}

// Worlds returns how many worlds were added.
func (r *Race) Worlds() int { return r.worlds }

// Beats reports whether a has been shown to be better than b.
func (r *Race) Beats(a, b int) bool { return r.beaten[a][b] }

// Living returns the options that none has been shown to beat, in order.
func (r *Race) Living() []int {
	var in []int
	for i, out := range r.out {
		if !out {
			in = append(in, i)
		}
	}
	return in
}

// Best returns the one option left, and false while several are.
func (r *Race) Best() (int, bool) {
	if in := r.Living(); len(in) == 1 {
		return in[0], true
	}
	return -1, false
}
