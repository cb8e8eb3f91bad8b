package belief

import (
	"context"
	"flag"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/sim"
)

var stepRuns = flag.Int("step-runs", 300, "seeded runs of each plan with whole and with half steps")

// No figure may hang on the time step: with every step halved, no leg of the rounds moves by
// more than three points beyond what counting so many runs leaves open, but for one in
// twenty. The long form is -step-runs 3000.
func TestFiguresStandStill(t *testing.T) {
	if testing.Short() {
		t.Skip("runs whole rounds twice")
	}
	legs, off := 0, 0
	for i, file := range files(t, roundsFolder+"/seen") {
		if *stepRuns <= 300 && i%3 != 0 {
			continue // a third of the rounds in the short form
		}
		c := read(t, file)
		for p := range c.Plans {
			s := sim.New(c.Course, c.Plan(p, 0), c.Teams[0])
			whole, half := counted(t, s), counted(t, s.Finer(2))
			for n := range whole.Legs {
				a, na := whole.Legs[n].Clean, ran(&whole.Legs[n])
				b, nb := half.Legs[n].Clean, ran(&half.Legs[n])
				x, y := float64(a)/float64(na), float64(b)/float64(nb)
				open := 1.96 * math.Sqrt(x*(1-x)/float64(na)+y*(1-y)/float64(nb)+1e-6)
				legs++
				if math.Abs(x-y) > 0.03+open {
					off++
					t.Logf("%s, %s, leg %d: %.3f, halved %.3f", file, c.Plans[p], n+1, x, y)
				}
			}
		}
	}
	require.Positive(t, legs)
	t.Logf("%d of %d legs within three points", legs-off, legs)
	assert.LessOrEqual(t, float64(off), 0.05*float64(legs))
}

func counted(t *testing.T, s *sim.Setup) *sim.Tally {
	t.Helper()
	tally, err := s.RunMany(context.Background(), 1, *stepRuns, nil)
	require.NoError(t, err)
	return tally
}

// ran is how many dogs came to the leg.
func ran(l *sim.LegTally) int {
	n := l.Clean + l.Refused + l.Knocked + l.Missed
	for _, k := range l.Wrong {
		n += k
	}
	return max(1, n)
}
