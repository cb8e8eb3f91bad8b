package belief

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// Count is how many statements hold.
type Count struct{ Held, All int }

// Share is the share that holds, 0 to 1; 0 where there are none.
func (c Count) Share() float64 {
	if c.All == 0 {
		return 0
	}
	return float64(c.Held) / float64(c.All)
}

// Table counts statements by a heading, such as the manoeuvre.
type Table map[string]Count

// Add counts the verdicts under a heading.
func (t Table) Add(heading string, verdicts []Verdict) {
	c := t[heading]
	for _, v := range verdicts {
		c.All++
		if v.Held {
			c.Held++
		}
	}
	t[heading] = c
}

// Total sums up all headings.
func (t Table) Total() Count {
	var sum Count
	for _, c := range t {
		sum.Held, sum.All = sum.Held+c.Held, sum.All+c.All
	}
	return sum
}

// String is a line for each heading and one for the sum.
func (t Table) String() string {
	var b strings.Builder
	line := func(heading string, c Count) {
		fmt.Fprintf(&b, "%-40s %4d of %4d hold, %3d not  (%3.0f %%)\n", heading, c.Held, c.All, c.All-c.Held, 100*c.Share())
	}
	for _, heading := range slices.Sorted(maps.Keys(t)) {
		line(heading, t[heading])
	}
	line("all", t.Total())
	return b.String()
}
