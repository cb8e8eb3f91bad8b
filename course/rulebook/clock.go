package rulebook

import "math"

// Clock is how the standard course time follows from length and speed: their
// quotient, and Table more where the course holds a table.
type Clock struct {
	Source
	Table  Hundredths
	Floors []Floor // least speed by class of competition
}

// Floor is the least speed a judge may choose, in hundredths of a metre per second.
type Floor struct {
	Source
	Level string
	Speed Hundredths
}

// Maximum is how the maximum course time follows from the standard one, in
// hundredths of it. Usual is 0 where only limits are given, a limit 0 where none
// was seen.
type Maximum struct {
	Source
	Usual, Least, Most int
}

// Times are the course times that follow from a length and a speed. MCT is the
// usual maximum time, or the longest allowed where no usual one is given. What no
// rule gives is 0.
type Times struct {
	SCT, MCT, LeastMCT, MostMCT Hundredths
}

// Times returns the course times for a course of length metres at the speed the
// judge chose, in metres per second, and whether these rules have the formula.
// Length and speed are first taken to whole centimetres. No text seen says how to
// round the quotient; here it is to the nearest hundredth, half up.
func (r *Rules) Times(length, speed float64, table bool) (Times, bool) {
	if r.Clock == nil || !within(length, 1e7) || !within(speed, 1e7) {
		return Times{}, false
	}
	cm, rate := int64(math.Round(length*100)), int64(math.Round(speed*100))
	if cm == 0 || rate == 0 {
		return Times{}, false
	}
	sct := Hundredths(share(cm*100, rate))
	if table {
		sct += r.Clock.Table
	}
	return r.MaximumFor(sct), true
}

// within reports whether v is an ordinary positive number of at most limit.
func within(v, limit float64) bool { return v > 0 && v <= limit }

// MaximumFor returns the course times that go with a standard time: SCT itself
// and what these rules say of the maximum time.
func (r *Rules) MaximumFor(sct Hundredths) Times {
	t := Times{SCT: sct}
	if r.Maximum == nil {
		return t
	}
	part := func(percent int) Hundredths { return Hundredths(share(int64(sct)*int64(percent), 100)) }
	t.LeastMCT, t.MostMCT = part(r.Maximum.Least), part(r.Maximum.Most)
	t.MCT = part(r.Maximum.Usual)
	if t.MCT == 0 {
		t.MCT = t.MostMCT
	}
	return t
}

// Best is how the standard course time follows from the best run.
type Best struct {
	Source
	Of      string // which run counts as the best
	Percent int    // of its time
	Round   Rounding
}

// Rounding is how a time is brought to whole seconds.
type Rounding uint8

// Ways to round. Unrounded keeps hundredths, half up: the text says nothing.
const (
	Unrounded Rounding = iota
	Up
	HalfUp
)

// FromBest returns the standard course time that follows from the best run's time,
// and whether these rules set it so.
func (r *Rules) FromBest(best Hundredths) (Hundredths, bool) {
	if r.Best == nil || best <= 0 {
		return 0, false
	}
	n := int64(best) * int64(r.Best.Percent) // hundredths of hundredths
	switch r.Best.Round {
	case Up:
		return Hundredths((n + 9999) / 10000 * 100), true
	case HalfUp:
		return Hundredths(share(n, 10000) * 100), true
	}
	return Hundredths(share(n, 100)), true
}
