package plan

import (
	"bytes"
	"math"
	"strconv"
	"strings"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/course/tomlfile"
)

// How near to its value a number is written: lengths to a thousandth of a
// millimetre, headings to less than a millionth of a degree.
const (
	lengthRound = 1e-6 // metres
	angleRound  = 1e-9 // radians
)

// Format writes a whole new plan file in the course's units. Lengths are written
// to a thousandth of a millimetre; Parse gives the same plan back.
func Format(p *Plan, c *course.Course) []byte {
	var b bytes.Buffer
	for _, s := range planSettings(p, c.Units) {
		if s.literal != "" {
			b.WriteString(s.line() + "\n")
		}
	}
	for i := range p.Cues {
		b.WriteString("\n[[cue]]\n")
		for _, l := range cueLines(&p.Cues[i], c.Units) {
			b.WriteString(l + "\n")
		}
	}
	return b.Bytes()
}

// setting is a key with its value as written; an empty literal stands for none.
type setting struct{ key, literal string }

func (s setting) line() string { return s.key + " = " + s.literal }

// planSettings returns the keys of a plan outside its cues, always the same ones.
func planSettings(p *Plan, u course.Units) []setting {
	return []setting{
		{"plan", tomlfile.Quote(p.Name)},
		{"for", quoted(p.For)},
		{"lead-out", pair(p.LeadOut, u)},
	}
}

// cueSettings returns the keys of a cue, always the same ones.
func cueSettings(k *Cue, u course.Units) []setting {
	stand, signal := "", ""
	if k.HasStand {
		stand = pair(k.Stand, u)
	}
	if k.Signal != Along {
		signal = k.Signal.String()
	}
	return []setting{
		{"when", tomlfile.Quote(k.When.String())},
		{"stand", stand},
		{"pace", quoted(k.Pace.String())},
		{"cross", quoted(k.Cross.String())},
		{"arm", quoted(k.Arm.String())},
		{"signal", quoted(signal)},
		{"shoulders", k.Shoulders.literal()},
		{"word", quoted(k.Word)},
	}
}

// cueLines returns the lines of a cue's table.
func cueLines(k *Cue, u course.Units) []string {
	var lines []string
	for _, s := range cueSettings(k, u) {
		if s.literal != "" {
			lines = append(lines, s.line())
		}
	}
	return lines
}

// quoted is a text as a literal; none where it is empty.
func quoted(s string) string {
	if s == "" {
		return ""
	}
	return tomlfile.Quote(s)
}

func pair(p geom.Point, u course.Units) string {
	f := u.Factor()
	return "[" + shortest(p.X, f, lengthRound) + ", " + shortest(p.Y, f, lengthRound) + "]"
}

// shortest writes x in units of unit with the fewest decimals that give it back
// within tol.
func shortest(x, unit, tol float64) string {
	for decimals := range 10 {
		s := strconv.FormatFloat(x/unit, 'f', decimals, 64)
		if v, err := strconv.ParseFloat(s, 64); err == nil && math.Abs(v*unit-x) <= tol {
			return tomlfile.Number(v)
		}
	}
	return tomlfile.Number(x / unit)
}

// String returns the shoulders as written in files, without quotes; empty where
// they stay as they were.
func (s Shoulders) String() string {
	switch s.Facing {
	case FaceNext:
		return "next"
	case FaceWay:
		return "way"
	case FaceDog:
		return "dog"
	case FaceNumber:
		return "to " + strconv.Itoa(s.Number)
	case FaceHeading:
		return shortest(float64(s.Heading), float64(geom.Deg(1)), angleRound)
	}
	return ""
}

func (s Shoulders) literal() string {
	if s.Facing == FaceHeading {
		return s.String()
	}
	return quoted(s.String())
}

// inlineCues writes cues as one list of tables in braces.
func inlineCues(cues []Cue, u course.Units, newline string) string {
	if len(cues) == 0 {
		return "[]"
	}
	var b strings.Builder
	b.WriteByte('[')
	for i := range cues {
		b.WriteString(newline + "  { " + strings.Join(cueLines(&cues[i], u), ", ") + " },")
	}
	return b.String() + newline + "]"
}
