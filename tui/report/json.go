package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf16"

	"cuewalk/sim"
	"cuewalk/sim/advice"
	"cuewalk/sim/slack"
	"cuewalk/tui/words"
)

// Rehearsal is the JSON of a rehearsal. Its keys are documented in JSON.md and
// stay as they are. A figure that does not exist is null, never NaN.
type Rehearsal struct {
	Course    string   `json:"course"`
	Plan      string   `json:"plan"`
	Team      string   `json:"team"`
	Seed      uint64   `json:"seed"`
	Runs      int      `json:"runs"`
	Length    *float64 `json:"length_m"`
	Clean     *float64 `json:"clean"`
	CleanLow  *float64 `json:"clean_low"`
	CleanHigh *float64 `json:"clean_high"`
	Time      *float64 `json:"time_s"`
	Time10    *float64 `json:"time_s_p10"`
	Time90    *float64 `json:"time_s_p90"`
	Legs      []Leg    `json:"legs"`
	Cues      []Cue    `json:"cues"`
	Helps     []Help   `json:"helps"`
	Tightest  *int     `json:"tightest_cue"` // counted from 1
}

// Leg is the JSON of one leg.
type Leg struct {
	Number  int      `json:"leg"`
	From    string   `json:"from"`
	To      string   `json:"to"`
	Clean   *float64 `json:"clean"`
	Faults  []Fault  `json:"faults"`
	Speed   *float64 `json:"speed_ms"`
	Stride  *float64 `json:"stride_m"`
	TakeOff *float64 `json:"takeoff_m"`
	Landing *float64 `json:"landing_m"`
	Radius  *float64 `json:"radius_m"`
	Time    *float64 `json:"time_s"`
	Hidden  []Hidden `json:"hidden"`
	Cues    []Cue    `json:"cues"` // those meant for its target
}

// Fault is the JSON of one thing that goes wrong.
type Fault struct {
	Kind     string   `json:"kind"`
	Obstacle *string  `json:"obstacle"`
	Taken    *string  `json:"taken"` // forward or reverse, as in the order; null where nothing was taken
	Chance   *float64 `json:"chance"`
	Bearing  *float64 `json:"bearing_deg"`
	Range    *float64 `json:"range_m"`
	InView   *float64 `json:"in_view_s"`
	Why      string   `json:"why"`
}

// Hidden is the JSON of an obstacle that the handler's body covered.
type Hidden struct {
	Obstacle string   `json:"obstacle"`
	Seconds  *float64 `json:"seconds"`
}

// Cue is the JSON of what became of one cue.
type Cue struct {
	When      string   `json:"when"`
	Given     *float64 `json:"given_s"`
	Late      *float64 `json:"late_s"`
	Short     *float64 `json:"short_s"` // above 0: it cannot be reached
	Read      *bool    `json:"read_before_takeoff"`
	Manoeuvre string   `json:"manoeuvre"`
	Early     *float64 `json:"slack_early_s"` // null where slack was not looked for, or the cue has none of the kind
	Lateness  *float64 `json:"slack_late_s"`
	Off       *float64 `json:"slack_m"`
	OffWay    *string  `json:"slack_way"`
}

// JSON writes what r says, what would help, and how much room each cue has, for a program
// to read; room may be nil. The error is w's.
func JSON(w io.Writer, r *sim.Rehearsal, found []advice.Found, room *slack.Slack) error {
	out := shape(r, room)
	out.Helps = shapeHelps(r, found)
	return writeJSON(w, out)
}

// writeJSON writes v with nothing in it that a terminal would obey: what cannot be seen is
// written as an escape, which reads back the same.
func writeJSON(w io.Writer, v any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return err
	}
	var out strings.Builder
	for _, c := range b.String() {
		switch {
		case c == '\n' || strconv.IsPrint(c):
			out.WriteRune(c)
		default:
			for _, unit := range utf16.AppendRune(nil, c) {
				fmt.Fprintf(&out, `\u%04x`, unit)
			}
		}
	}
	_, err := io.WriteString(w, out.String())
	return err
}

func shape(r *sim.Rehearsal, room *slack.Slack) Rehearsal {
	s := r.Setup
	out := Rehearsal{
		Course: s.Course.Name, Plan: s.Plan.Name, Team: s.Team.Name, Seed: r.Seed, Runs: r.Runs,
		Length: number(r.Length, 3), Clean: number(r.Clean, 4), CleanLow: number(r.Low, 4), CleanHigh: number(r.High, 4),
		Time: number(r.Time, 3), Legs: make([]Leg, len(r.Legs)), Cues: make([]Cue, len(r.Cues)),
	}
	if r.Runs > 0 && r.Clean > 0 { // else no run was clean, and none has a time
		out.Time10, out.Time90 = some(r.Time10, 3), some(r.Time90, 3)
	}
	for i := range r.Legs {
		out.Legs[i] = shapeLeg(r, &r.Legs[i], room)
	}
	if room != nil && room.Tightest >= 0 {
		n := room.Tightest + 1
		out.Tightest = &n
	}
	for i := range r.Cues {
		out.Cues[i] = shapeCue(r, &r.Cues[i], room)
	}
	return out
}

func shapeLeg(r *sim.Rehearsal, l *sim.Leg, room *slack.Slack) Leg {
	c := r.Setup.Course
	out := Leg{
		Number: l.Number, From: c.Label(l.Number - 1), To: c.Label(l.Number), Clean: number(l.Clean, 4),
		Speed: number(l.Speed, 3), Stride: some(l.Stride, 3), TakeOff: some(l.TakeOff, 3), Landing: some(l.Landing, 3),
		Radius: number(l.Radius, 3), Time: number(l.Time, 3),
		Faults: make([]Fault, len(l.Faults)), Hidden: make([]Hidden, len(l.Hidden)), Cues: []Cue{},
	}
	for i := range l.Faults {
		out.Faults[i] = shapeFault(r, l, &l.Faults[i])
	}
	for i, h := range l.Hidden {
		out.Hidden[i] = Hidden{Obstacle: c.Obstacles[h.Obstacle].ID, Seconds: number(h.Seconds, 3)}
	}
	for i := range r.Cues {
		if r.Cues[i].Obstacle == l.Number {
			out.Cues = append(out.Cues, shapeCue(r, &r.Cues[i], room))
		}
	}
	return out
}

func shapeFault(r *sim.Rehearsal, l *sim.Leg, f *sim.Fault) Fault {
	out := Fault{Kind: f.Kind.String(), Chance: number(f.Chance, 6), Why: words.Why(r, *l, *f)}
	if obstacles := r.Setup.Course.Obstacles; f.Obstacle >= 0 && f.Obstacle < len(obstacles) {
		out.Obstacle = &obstacles[f.Obstacle].ID
	}
	if f.Entry >= 0 && (f.Kind == sim.OffCourse || f.Kind == sim.WrongSide) {
		taken := "forward"
		if r.Setup.Entries[f.Entry].Reverse {
			taken = "reverse"
		}
		out.Taken = &taken
	}
	if f.Entry >= 0 && words.Located(*f) {
		out.Range = number(f.Range, 3)
		if !f.Stray || f.Kind != sim.Refusal {
			out.Bearing = number(f.Bearing.Degrees(), 1)
		}
		if !f.Stray {
			out.InView = number(f.InView, 3)
		}
	}
	return out
}

func shapeCue(r *sim.Rehearsal, t *sim.CueTiming, room *slack.Slack) Cue {
	a := r.Setup.Actions[t.Action]
	out := Cue{When: a.When.String(), Manoeuvre: a.Manoeuvre.String()}
	out.room(room, a.Cue)
	if t.Sample < 0 {
		return out
	}
	out.Given, out.Late, out.Short = number(t.Given, 3), number(t.Late, 3), number(t.Short, 3)
	if t.Obstacle > 0 {
		out.Read = &t.ReadInTime
	}
	return out
}

// room fills in the slack of cue k of the plan.
func (c *Cue) room(room *slack.Slack, k int) {
	if room == nil || k < 0 || k >= len(room.Cues) {
		return
	}
	s := &room.Cues[k]
	if s.Timed {
		c.Early, c.Lateness = number(s.Early, 3), number(s.Late, 3)
	}
	if s.Placed {
		way := s.Way.String()
		c.Off, c.OffWay = number(s.Off, 2), &way
	}
}

// number is v rounded to so many digits, or nil where it is no number.
func number(v float64, digits int) *float64 {
	if !finite(v) {
		return nil
	}
	scale := math.Pow10(digits)
	if rounded := math.Round(v*scale) / scale; finite(rounded) {
		v = rounded + 0 // no negative zero
	}
	return &v
}

// some is number for a figure whose 0 means that there is none.
func some(v float64, digits int) *float64 {
	if v == 0 {
		return nil
	}
	return number(v, digits)
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
