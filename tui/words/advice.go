package words

import (
	"strconv"
	"strings"

	"cuewalk/plan"
	"cuewalk/sim"
	"cuewalk/sim/advice"
)

// Change says what a piece of advice makes of its cue: `cue 11 "12 entry -1": shoulders to 13`.
func Change(s *sim.Setup, a *advice.Advice) string {
	was, is := &s.Plan.Cues[a.Cue], &a.Plan.Cues[a.Cue]
	head := CueName(a.Cue+1) + ` "` + was.When.String() + `"`
	var parts []string
	if was.When != is.When {
		parts = append(parts, Strides(is.When.Strides-was.When.Strides))
	}
	if was.Stand != is.Stand {
		parts = append(parts, "stand "+Place(s.Course.Units, is.Stand))
	}
	if was.Pace != is.Pace {
		parts = append(parts, is.Pace.String())
	}
	if was.Signal != is.Signal {
		parts = append(parts, signal(was.Signal, is.Signal))
	}
	if was.Shoulders != is.Shoulders {
		parts = append(parts, facing(is.Shoulders))
	}
	switch {
	case was.Word == is.Word:
	case is.Word == "":
		parts = append(parts, "no word")
	default:
		parts = append(parts, `"`+Safe(is.Word)+`"`)
	}
	return head + ": " + strings.Join(parts, ", ")
}

// Strides says how much later, or sooner, something is: "half a stride sooner".
func Strides(by float64) string {
	way := " later"
	if by < 0 {
		by, way = -by, " sooner"
	}
	switch by {
	case 0.5:
		return "half a stride" + way
	case 1:
		return "a stride" + way
	}
	return strconv.FormatFloat(by, 'f', -1, 64) + " strides" + way
}

func signal(was, is plan.Signal) string {
	if is == plan.Along {
		return "no " + was.String()
	}
	return is.String()
}

func facing(sh plan.Shoulders) string {
	switch s := Shoulders(sh); {
	case s != "":
		return s
	case sh.Facing == plan.FaceWay:
		return "shoulders the way he goes"
	}
	return "shoulders as before"
}

// Effect says by how many points of a hundred a piece of advice betters leg and run: "leg
// +25, whole run +11". It is a difference, because luck is the same on both sides of it.
func Effect(f *advice.Found, a *advice.Advice) string {
	return "leg " + Points(a.Leg-f.Leg) + ", whole run " + Points(a.Run-f.Run)
}

// NoAdvice is said where nothing was found. A change of one cue is no proof that more
// would not help.
const NoAdvice = "no change of one cue alone helps here"
