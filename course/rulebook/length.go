package rulebook

import "cuewalk/course"

// Measure is the line a distance or a course length is measured along.
type Measure uint8

// Lines to measure along.
const (
	Unstated    Measure = iota // the texts seen do not say
	Centres                    // straight lines between the centres of consecutive obstacles
	DogPath                    // the line the dog is expected to run
	HandlerLine                // the line the handler is expected to run
)

// String returns the line in words.
func (m Measure) String() string {
	switch m {
	case Centres:
		return "straight lines between centres"
	case DogPath:
		return "the dog's expected path"
	case HandlerLine:
		return "the handler's line"
	}
	return "not stated"
}

// Measured is a course length.
type Measured struct {
	Metres  float64
	Measure Measure // the line it was measured along
	Asked   Measure // the line the organisation measures along
	Source  Source  // of that; empty where no text was seen
}

// Measure returns the length of c as these rules measure it. path is the length of
// the dog's expected path in metres, handler that of the handler's line; 0 where
// they are not known. Where the line asked for is not known, or the rules do not
// say which it is, the dog's path is given, else straight lines between centres.
func (r *Rules) Measure(c *course.Course, path, handler float64) Measured {
	m := Measured{}
	if r != nil && r.Length != nil {
		m.Asked, m.Source = r.Length.Measure, r.Length.Source
	}
	switch {
	case m.Asked == HandlerLine && handler > 0:
		m.Metres, m.Measure = handler, HandlerLine
	case m.Asked != Centres && path > 0:
		m.Metres, m.Measure = path, DogPath
	default:
		m.Metres, m.Measure = CentreLength(c), Centres
	}
	return m
}

// CentreLength returns the length in metres of the straight lines between the
// centres of consecutive obstacles. Of a tunnel the middle of its pipe is the centre.
func CentreLength(c *course.Course) float64 {
	sum := 0.0
	for i := 1; i < len(c.Order); i++ {
		sum += centreGap(c, i+1)
	}
	return sum
}

// centreGap returns the distance between the centres of numbers n-1 and n.
func centreGap(c *course.Course, n int) float64 {
	return c.Obstacles[c.Order[n-2].Obstacle].At.Dist(c.Obstacles[c.Order[n-1].Obstacle].At)
}
