package belief

import (
	"flag"
	"fmt"
	"testing"

	"cuewalk/sim"
)

var traceLeg = flag.Int("leg", 0, "leg whose likely run TestTrace prints")

// Prints the likely run on one leg of the cases that match -case: what the dog sees and
// what every part of the handler says of it.
func TestTrace(t *testing.T) {
	if *traceLeg == 0 {
		t.Skip("prints nothing without -leg")
	}
	for _, file := range append(files(t, casesFolder), files(t, roundsFolder+"/seen")...) {
		c := read(t, file)
		for k, r := range likely(c) {
			l := r.Legs[*traceLeg-1]
			fmt.Println(k, "clean", l.Clean)
			t0 := r.Trace.Samples[l.First].Time
			next := 0.0
			for i := l.First; i <= l.Last; i++ {
				x := &r.Trace.Samples[i]
				if x.Time-t0 < next-1e-6 {
					continue
				}
				next += 0.1
				fmt.Printf("%.2f dog %.1f %.1f h %.0f v %.1f k %.2f m%d c%d | hand %.1f %.1f v %.1f ch %.0f arm %.0f cue %d | lead %.0f %.1f drive %.1f called %.1f surv %.2f\n", x.Time-t0, x.Dog.At.X, x.Dog.At.Y, x.Dog.Heading.Degrees(), x.Dog.Speed, x.Dog.Turn, x.Dog.Mode, x.Commit, x.Hand.At.X, x.Hand.At.Y, x.Hand.Speed(), x.Hand.Chest.Degrees(), x.Hand.Pointer.Degrees(), x.Cue, x.Lead.Heading.Degrees(), x.Lead.Strength, x.Lead.Drive, x.Lead.Called, x.Survive)
				for _, s := range r.Setup.See(*x, nil) {
					if s.Pull > 0.05 || r.Setup.Right(*traceLeg) == s.Entry {
						e := r.Setup.Entries[s.Entry]
						fmt.Printf("       %s rev %v b %.0f r %.1f vis %.2f pull %.2f | motion %.1f toward %.1f chest %.1f arm %.1f side %.1f\n", c.Course.Obstacles[e.Obstacle].ID, e.Reverse, s.Bearing.Degrees(), s.Range, s.Visible, s.Pull, s.Parts.Motion, s.Parts.Toward, s.Parts.Chest, s.Parts.Arm, s.Parts.Side)
					}
				}
			}
		}
	}
}

// likely are the rehearsals of every plan with every team, by name.
func likely(c *Case) map[string]*sim.Rehearsal {
	out := map[string]*sim.Rehearsal{}
	for p := range c.Plans {
		for t, tm := range c.Teams {
			out["{"+c.Plans[p]+" "+tm.Name+"}"] = sim.New(c.Course, c.Plan(p, t), tm).Rehearse()
		}
	}
	return out
}
