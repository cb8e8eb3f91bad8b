package plan

import (
	"fmt"
	"strconv"
	"strings"

	"cuewalk/course"
	"cuewalk/course/tomlfile"
)

// Event is what the dog does at a moment.
type Event uint8

// The events. Jumped obstacles have TakeOff and Landing, the others Enter and Exit.
const (
	Release Event = iota
	TakeOff
	Landing
	Enter
	Exit
)

var eventNames = []string{"release", "take-off", "landing", "entry", "exit"}

// String returns the event as written in files.
func (e Event) String() string { return eventNames[e] }

// After reports whether the event comes once the obstacle is done.
func (e Event) After() bool { return e == Landing || e == Exit }

// EventsOf returns the two events that a kind of obstacle has.
func EventsOf(k course.Kind) (before, after Event) {
	if k.Jumped() {
		return TakeOff, Landing
	}
	return Enter, Exit
}

// Moments returns the moments of a run over course c without strides, in order:
// the release, then the two of each number.
func Moments(c *course.Course) []Moment {
	all := []Moment{{}}
	for i, step := range c.Order {
		before, after := EventsOf(c.Obstacles[step.Obstacle].Kind)
		all = append(all, Moment{Number: i + 1, Event: before}, Moment{Number: i + 1, Event: after})
	}
	return all
}

// MostStrides is how many strides before or after its event a moment may be.
const MostStrides = 20

// Moment is an instant of the dog's run: an event at a course number, some
// strides before (negative) or after it. Release has number 0.
type Moment struct {
	Number  int
	Event   Event
	Strides float64 // halves allowed, at most MostStrides either way
}

// ParseMoment reads a moment such as "release", "2 take-off -1" or "14 exit +0.5".
func ParseMoment(s string) (Moment, error) {
	f := strings.Fields(s)
	var m Moment
	if len(f) > 0 && f[0] == "release" {
		m.Event = Release
		return m, m.offset(s, f[1:])
	}
	if len(f) < 2 {
		return m, fmt.Errorf("%s is no moment", tomlfile.Show(s))
	}
	n, err := strconv.Atoi(f[0])
	if err != nil || n < 1 {
		return m, fmt.Errorf("%s does not start with a course number", tomlfile.Show(s))
	}
	m.Number = n
	for e := TakeOff; e <= Exit; e++ {
		if eventNames[e] == f[1] {
			m.Event = e
			return m, m.offset(s, f[2:])
		}
	}
	return m, fmt.Errorf("%s is no event of an obstacle", tomlfile.Show(f[1]))
}

func (m *Moment) offset(s string, f []string) error {
	if len(f) == 0 {
		return nil
	}
	x := strings.Join(f, "")
	v, err := strconv.ParseFloat(x, 64)
	if err != nil || v < -MostStrides || v > MostStrides || v*2 != float64(int(v*2)) || (x[0] != '+' && x[0] != '-') {
		return fmt.Errorf("the strides in %s are not a signed number of halves from -%d to +%d", tomlfile.Show(s), MostStrides, MostStrides)
	}
	m.Strides = v
	return nil
}

// String returns the moment as written in files.
func (m Moment) String() string {
	var b strings.Builder
	if m.Event != Release {
		b.WriteString(strconv.Itoa(m.Number))
		b.WriteByte(' ')
	}
	b.WriteString(m.Event.String())
	if m.Strides != 0 {
		b.WriteByte(' ')
		if m.Strides > 0 {
			b.WriteByte('+')
		}
		b.WriteString(strconv.FormatFloat(m.Strides, 'f', -1, 64))
	}
	return b.String()
}

// Before reports whether m comes before o in the order of the course, judged by
// number, then event, then strides.
func (m Moment) Before(o Moment) bool {
	if m.Number != o.Number {
		return m.Number < o.Number
	}
	if m.Event.After() != o.Event.After() {
		return o.Event.After()
	}
	return m.Strides < o.Strides
}
