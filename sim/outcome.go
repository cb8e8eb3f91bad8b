package sim

// Outcome is what came of one seeded run: what two plans did with the same luck can be
// set side by side by it.
type Outcome struct {
	Clean bool    // the whole run
	Time  float64 // seconds, release to the last landing or exit
	Legs  []bool  // by leg: clean
}

// outcome returns what is worth setting side by side of a run.
func (r *result) outcome() Outcome {
	o := Outcome{Clean: r.clean, Time: r.time, Legs: make([]bool, len(r.ends))}
	for n := range o.Legs {
		o.Legs[n] = r.ends[n] == endClean
	}
	return o
}
