package report

import (
	"io"

	"cuewalk/course/rulebook"
	"cuewalk/sim/reading"
)

// Reading is the JSON of a course that was read without a plan. Its keys are
// documented in JSON.md and stay as they are. Angles are degrees, right positive;
// lengths are metres whatever the course's units. An obstacle is named by its id,
// with "-" before it for the way against the one it is drawn.
type Reading struct {
	Course   string           `json:"course"`
	Rules    string           `json:"rules"`
	Length   *float64         `json:"length_m"`
	SCT      *float64         `json:"sct_s,omitempty"`
	MCT      *float64         `json:"mct_s,omitempty"`
	Findings []ReadingFinding `json:"findings"`
	Cautions []ReadingCaution `json:"cautions"`
	Legs     []ReadingLeg     `json:"legs"`
	Traps    []ReadingTrap    `json:"traps"`
}

// ReadingFinding is the JSON of a point in which the course is not as a rule asks.
type ReadingFinding struct {
	Rule      string   `json:"rule"`
	Section   string   `json:"section"`
	Edition   string   `json:"edition"`
	Obstacles []string `json:"obstacles"`
	What      string   `json:"what"`
}

// ReadingCaution is the JSON of a caution.
type ReadingCaution struct {
	What      string   `json:"what"`
	Obstacles []string `json:"obstacles"`
	Source    string   `json:"source"`
}

// ReadingLeg is the JSON of one leg.
type ReadingLeg struct {
	Number     int              `json:"leg"`
	Obstacle   string           `json:"obstacle"`
	Distance   *float64         `json:"distance_m"`
	Turn       *float64         `json:"turn_deg"`
	Approach   *float64         `json:"approach_deg"`
	Lead       string           `json:"lead"`
	Line       []ReadingMeeting `json:"line"`
	View       []ReadingView    `json:"view"`
	Challenges []string         `json:"challenges"`
}

// ReadingMeeting is the JSON of what lies on a landing line extended.
type ReadingMeeting struct {
	Obstacle string   `json:"obstacle"`
	Range    *float64 `json:"range_m"`
}

// ReadingView is the JSON of what comes before the dog's eyes.
type ReadingView struct {
	Obstacle   string   `json:"obstacle"`
	Bearing    *float64 `json:"bearing_deg"`
	Range      *float64 `json:"range_m"`
	Separation *float64 `json:"separation_deg"`
}

// ReadingTrap is the JSON of a trap.
type ReadingTrap struct {
	Leg      int      `json:"leg"`
	Obstacle string   `json:"obstacle"`
	Pull     *float64 `json:"pull"`
	Why      string   `json:"why"`
}

// ReadJSON writes what r says for a program to read. speed is the judge's chosen
// speed in m/s for the course times, 0 for none. The error is w's.
func ReadJSON(w io.Writer, r *reading.Reading, speed float64) error {
	return writeJSON(w, shapeReading(r, speed))
}

func shapeReading(r *reading.Reading, speed float64) Reading {
	out := Reading{
		Course: r.Course.Name, Length: number(r.Measured.Metres, 3),
		Findings: make([]ReadingFinding, 0, len(r.Findings)), Cautions: make([]ReadingCaution, 0, len(r.Cautions)),
		Legs: make([]ReadingLeg, 0, len(r.Legs)), Traps: make([]ReadingTrap, 0, len(r.Traps)),
	}
	if r.Rules != nil {
		out.Rules = r.Rules.Name
	}
	if t, ok := r.Times(speed); ok {
		out.SCT, out.MCT = seconds(t.SCT), seconds(t.MCT)
	}
	for _, f := range r.Findings {
		out.Findings = append(out.Findings, ReadingFinding{f.Rule, f.Section, f.Edition, listed(f.Obstacles), f.What})
	}
	for _, c := range r.Cautions {
		out.Cautions = append(out.Cautions, ReadingCaution{c.What, listed(c.Obstacles), c.Source})
	}
	for i := range r.Legs {
		out.Legs = append(out.Legs, shapeReadingLeg(r, &r.Legs[i]))
	}
	for i := range r.Traps {
		t := &r.Traps[i]
		out.Traps = append(out.Traps, ReadingTrap{t.Leg, r.Label(t.Entry), number(t.Pull, 4), t.Why})
	}
	return out
}

func shapeReadingLeg(r *reading.Reading, l *reading.Leg) ReadingLeg {
	out := ReadingLeg{
		Number: l.Number, Obstacle: r.Course.Label(l.Number), Distance: number(l.Distance, 3),
		Turn: number(l.Turn.Degrees(), 1), Approach: number(l.Approach.Degrees(), 1), Lead: l.Lead.String(),
		Line: make([]ReadingMeeting, 0, len(l.Meets)), View: make([]ReadingView, 0, len(l.Views)),
		Challenges: make([]string, 0, len(l.Names)),
	}
	for _, m := range l.Meets {
		out.Line = append(out.Line, ReadingMeeting{met(r, m), number(m.Range, 3)})
	}
	for _, v := range l.Views {
		out.View = append(out.View, ReadingView{r.Label(v.Entry), number(v.Bearing.Degrees(), 1), number(v.Range, 3), number(v.Separation.Degrees(), 1)})
	}
	for _, c := range l.Names {
		out.Challenges = append(out.Challenges, c.String())
	}
	return out
}

// met names what a line meets: the entry the dog would take, or the obstacle whose
// side stands in its way.
func met(r *reading.Reading, m reading.Meeting) string {
	if m.Entry >= 0 {
		return r.Label(m.Entry)
	}
	return r.Course.Obstacles[m.Obstacle].ID
}

// listed is a list that is written as [] where it is empty.
func listed(ids []string) []string {
	if ids == nil {
		return []string{}
	}
	return ids
}

// seconds is a time that some rule gives; nil for none.
func seconds(h rulebook.Hundredths) *float64 {
	if h == 0 {
		return nil
	}
	return number(h.Float(), 2)
}
