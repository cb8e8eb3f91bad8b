package learn

import (
	"math"
	"slices"
)

// Figures of the timing drill.
const (
	Taps       = 8    // to the beat before a drill; their median is what keyboard, terminal, screen and finger add together
	InTime     = 0.15 // seconds: about half a stride; what is finer is noise (C)
	Missed     = 1.0  // seconds: what is farther off than this was not mistimed but forgotten (C)
	SpreadFrom = 10   // tries before a spread is told
	keptTries  = 40   // of a cue, the last ones
)

// Delay is what a press comes late by that is meant to be on a beat seen on the screen.
// Keys are seen by a program 30 to 200 ms late, more over a slow line (A19).
type Delay struct {
	Seconds float64 // median
	Spread  float64 // half of the range that holds the middle half of the taps: how unsure each press is
}

// Calibrate returns the delay from taps, seconds after their beats (negative: before).
// It needs Taps of them; false when there are fewer.
func Calibrate(taps []float64) (Delay, bool) {
	if len(taps) < Taps {
		return Delay{}, false
	}
	last := slices.Clone(taps[len(taps)-Taps:])
	slices.Sort(last)
	n := len(last)
	return Delay{Seconds: (last[n/2-1] + last[n/2]) / 2, Spread: (last[n-1-n/4] - last[n/4]) / 2}, true
}

// NearestBeat returns how long after the nearest beat t is; beats are at first, first +
// every, and so on, in seconds.
func NearestBeat(t, first, every float64) float64 {
	return t - first - every*math.Round((t-first)/every)
}

// Press returns the moment of the run that a press means: made at wall seconds after the
// release, less the delay, at the given speed of the run (1: true speed).
func Press(wall float64, d Delay, speed float64) float64 { return (wall - d.Seconds) * speed }

// Try is one cue given once: how late, in seconds of the run, early negative.
type Try float64

// InTime reports whether the press was as near as can be asked of anybody.
func (t Try) InTime() bool { return math.Abs(float64(t)) <= InTime+1e-9 }

// Forgotten reports whether the press was so far off that it tells nothing of timing.
func (t Try) Forgotten() bool { return math.Abs(float64(t)) > Missed }

// Tenths is the try to a tenth of a second, which is as fine as it can be told.
func (t Try) Tenths() float64 { return math.Round(float64(t)*10) / 10 }

// Tries are those of one cue, oldest first.
type Tries []Try

// With adds a try and lets the oldest go.
func (t Tries) With(x Try) Tries {
	out := append(slices.Clone(t), x)
	return out[max(0, len(out)-keptTries):]
}

// Spread returns the standard deviation of tries about their mean; false for fewer than
// SpreadFrom.
func (t Tries) Spread() (float64, bool) {
	if len(t) < SpreadFrom {
		return 0, false
	}
	mean := t.Mean()
	sum := 0.0
	for _, x := range t {
		sum += (float64(x) - mean) * (float64(x) - mean)
	}
	return math.Sqrt(sum / float64(len(t)-1)), true
}

// Mean returns how late the tries are on the whole; 0 for none.
func (t Tries) Mean() float64 {
	sum := 0.0
	for _, x := range t {
		sum += float64(x)
	}
	return sum / max(1, float64(len(t)))
}
