package compare

import "math"

// Difference sums up a - b over worlds that both met. The zero value has seen none.
type Difference struct {
	n          int
	sum, power float64 // of the differences and of their squares
}

// Add takes in what a and b came to in one world: a time, or 1 for clean and 0 for not.
func (d *Difference) Add(a, b float64) {
	x := a - b
	d.n++
	d.sum += x
	d.power += x * x
}

// AddClean is Add for what was clean or not.
func (d *Difference) AddClean(a, b bool) { d.Add(one(a), one(b)) }

func one(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

// Worlds returns how many worlds it has seen.
func (d *Difference) Worlds() int { return d.n }

// Mean returns the mean difference; 0 where no world was seen.
func (d *Difference) Mean() float64 { return d.sum / float64(max(d.n, 1)) }

// fewest is the number of worlds below which no interval is given: the formula holds for
// many only.
const fewest = 50

// tuned is the number of worlds for which the interval is narrowest (C).
const tuned = 500

// Interval returns bounds that hold the true mean difference with a chance of 1 - alpha
// at whatever number of worlds one stops (Waudby-Smith et al. 2024, Ann Stat: the
// asymptotic sequence of normal mixtures). Below 50 worlds they are infinite. One more
// world each way, a unit apart, is counted in, so that worlds that were all alike do not
// make it vanish; a time is in seconds, a clean run 1.
func (d *Difference) Interval(alpha float64) (low, high float64) {
	if d.n < fewest {
		return math.Inf(-1), math.Inf(1)
	}
	n := float64(d.n)
	mean := d.Mean()
	variance := (d.power+2)/(n+2) - mean*mean*n*n/((n+2)*(n+2))
	a := -2 * math.Log(alpha)
	rho := (a + math.Log(a+1)) / tuned // the square of the paper's
	half := math.Sqrt(variance * 2 * (n*rho + 1) / (n * n * rho) * math.Log(math.Sqrt(n*rho+1)/alpha))
	return mean - half, mean + half
}
