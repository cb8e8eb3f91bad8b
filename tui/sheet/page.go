// Package sheet makes the page a handler takes to the ring: the drawing, the cues to learn,
// the numbers to pace out, where to be careful. [Of] works a Page out of rehearsals; HTML, SVG
// and Text write one. A Page is a plain value that knows nothing of how runs are made.
//
// All texts of a Page are safe to show: control characters in them are visible.
package sheet

import "cuewalk/tui/sheet/drawing"

// Page is what is on a sheet.
type Page struct {
	Course, Team string
	Rules        string // the rulebook held against the course; empty for none
	Date         string
	Version      string
	Seed, Runs   string
	Step         string // the handler's step, such as "0.8 m"; empty where not known
	Plans        []Plan // one or two
	Differences  Differences
	Findings     []string
	Cautions     []string
}

// Plan is one plan on a sheet.
type Plan struct {
	Name    string
	Verdict string // how likely the whole run is to go well
	Pace    string // its likely time and length
	Scene   drawing.Scene
	Cues    []Cue
	Careful []Care
}

// Cue is one line of the list to learn.
type Cue struct {
	Label     string // its number as in the drawing
	Moment    string
	What      string
	Arm       string
	NewArm    bool // another one than before
	Word      string
	Also      []string // what else he does, not for learning
	Late      string   // how much too late he is in the model; empty for not
	MayBe     string   // how late it may be; empty where not known
	Risk      bool     // the dog decides here on a leg that is not safe
	EndOfPart bool     // the list is learnt in parts; this cue ends one
	Pace      *Pace    // where he stands; nil where the plan does not say
}

// Care is a place to be careful.
type Care struct {
	Leg     string // "12 to 13"
	Chance  string // how often it goes wrong
	What    string
	Because string
}

// Differences are what two plans do not have in common.
type Differences struct {
	Legs  []Difference // first the whole run
	Cues  []CueDifference
	Alike string // what they have in common
}

// Difference is a figure for each plan.
type Difference struct{ About, A, B string }

// CueDifference is what each plan does at one event of the run.
type CueDifference struct {
	About string
	A, B  Side
}

// Side is a plan's cue; the zero value where it has none there.
type Side struct{ Cue, Text, Stand string }
