package sheet

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"cuewalk/course/geom"
	"cuewalk/course/rulebook"
	"cuewalk/plan"
	"cuewalk/plan/learn"
	"cuewalk/sim"
	"cuewalk/sim/dog"
	"cuewalk/tui/sheet/drawing"
	"cuewalk/tui/words"
)

// This file is all that a sheet knows of how runs are made.

// What is shown of a rehearsal.
const (
	mostCare   = 3    // places to be careful
	showWrong  = 0.05 // chance from which a wrong way is drawn
	mostWrong  = 6
	hiddenFor  = 0.4 // seconds from which a shadow is drawn
	hiddenNear = 10  // metres from the dog within which it matters
	mostShadow = 2
	reachPast  = 1.5  // metres that a shadow reaches past what it hides
	turnedIn   = 0.3  // seconds in which he turns as a cue asks
	offStand   = 0.5  // metres off his stand from which that is drawn
	onePlace   = 0.25 // metres within which two cues have one sign
	meets      = 0.02
	safe       = 0.9 // legs clean less often are marked at their cue
)

// hiddenAhead is how far off the dog's nose it matters that something is hidden.
var hiddenAhead = geom.Deg(60)

// Of is the page for one rehearsal, or for two of the same course by the same team. date is
// when it was made, version that of the program; both are shown as they are.
func Of(date, version string, runs ...*sim.Rehearsal) Page {
	s := runs[0].Setup
	p := Page{
		Course: words.Safe(s.Course.Name), Team: words.Safe(s.Team.Name), Rules: words.Safe(s.Course.Rules),
		Date: words.Safe(date), Version: words.Safe(version),
		Seed: strconv.FormatUint(runs[0].Seed, 10), Runs: strconv.Itoa(runs[0].Runs),
	}
	if step := s.Team.Handler.Step; step > 0 {
		p.Step = strconv.FormatFloat(step/s.Course.Units.Factor(), 'f', 2, 64) + " " + s.Course.Units.String()
	}
	for _, r := range runs {
		p.Plans = append(p.Plans, planOf(r))
	}
	if len(runs) == 2 {
		p.Differences = differences(runs[0], runs[1], &p.Plans[0], &p.Plans[1])
	}
	p.Findings, p.Cautions = rules(runs)
	return p
}

func planOf(r *sim.Rehearsal) Plan {
	return Plan{
		Name: words.Safe(r.Setup.Plan.Name), Verdict: verdict(r), Pace: words.Pace(r),
		Scene: sceneOf(r), Cues: cuesOf(r), Careful: careful(r),
	}
}

func verdict(r *sim.Rehearsal) string {
	return "Clean " + words.InTen(r.Clean) + ": " + words.Chance(r.Clean, r.Low, r.High)
}

// cuesOf are the lines to learn.
func cuesOf(r *sim.Rehearsal) []Cue {
	s := r.Setup
	out := make([]Cue, len(s.Actions))
	risky := map[int]bool{}
	for _, n := range r.Worst(mostCare) {
		if l, ok := words.LegByNumber(r, n); ok && l.Clean < safe {
			risky[n] = true
		}
	}
	for i := range s.Actions {
		a, b := &s.Actions[i], words.CueBrief(s, i)
		out[i] = Cue{Label: strconv.Itoa(i), Moment: b.Moment, What: b.What, Arm: b.Arm, Word: b.Word, Also: b.Also}
		out[i].NewArm = i > 0 && a.Arm != s.Actions[i-1].Arm
		if a.HasStand {
			out[i].Pace = paceOut(s.Course, a.Stand, a.When.Number, s.Team.Handler.Step)
		}
	}
	for _, t := range r.Cues {
		if t.Sample >= 0 && t.Late >= 0.05 {
			out[t.Action].Late = words.Seconds(t.Late)
		}
		out[t.Action].Risk = risky[t.Obstacle+1]
	}
	for _, part := range learn.Sections(s.Course, s.Plan) {
		out[part.To].EndOfPart = true // cue i of the plan is action i+1
	}
	return out
}

// careful are the worst places, worst first.
func careful(r *sim.Rehearsal) []Care {
	var out []Care
	for _, n := range r.Worst(mostCare) {
		l, ok := words.LegByNumber(r, n)
		if !ok || len(l.Faults) == 0 {
			continue
		}
		faults := words.ByWeight(l.Faults)
		f := faults[max(0, slices.IndexFunc(faults, func(f sim.Fault) bool { return f.Kind.Counts() }))]
		out = append(out, Care{
			Leg: words.Leg(n), Chance: words.Percent(f.Chance), What: words.Fault(r.Setup, f), Because: words.Why(r, l, f),
		})
	}
	return out
}

// sceneOf is what is drawn of r.
func sceneOf(r *sim.Rehearsal) drawing.Scene {
	d := drawing.Scene{Course: r.Setup.Course}
	ss := r.Trace.Samples
	for i := range ss {
		d.Handler = append(d.Handler, ss[i].Hand.At)
		ground := ss[i].Dog.Mode == dog.Ground
		if k := len(d.Dog) - 1; k < 0 || d.Dog[k].Ground != ground {
			way := []geom.Point{}
			if k >= 0 {
				way = append(way, d.Dog[k].Way[len(d.Dog[k].Way)-1])
			}
			d.Dog = append(d.Dog, drawing.Stretch{Way: way, Ground: ground})
		}
		k := len(d.Dog) - 1
		d.Dog[k].Way = append(d.Dog[k].Way, ss[i].Dog.At)
	}
	for _, paw := range r.Trace.Paws {
		if paw.Sample >= 0 && paw.Sample < len(ss) {
			d.Strides = append(d.Strides, geom.Pose{At: paw.At, Heading: ss[paw.Sample].Dog.Heading})
		}
	}
	d.Stands, d.Wrong, d.Shadows = stands(r), wrong(r), shadows(r)
	return d
}

// stands are the places of the cues, with the way he faces once he has turned.
func stands(r *sim.Rehearsal) []drawing.Stand {
	var out []drawing.Stand
	for _, t := range r.Cues {
		a := &r.Setup.Actions[t.Action]
		st := drawing.Stand{Label: strconv.Itoa(t.Action), At: a.Stand, Arm: a.Arm.Sign()}
		if t.Sample < 0 {
			if a.HasStand {
				st.Chest = a.Stand.Towards(r.Setup.Course.Entry(max(1, a.When.Number)).At)
				out = append(out, st)
			}
			continue
		}
		if !a.HasStand {
			st.At = t.Where
		}
		st.Chest = turned(r, t.Sample)
		st.Where, st.Short = t.Where, t.Where.Dist(st.At) > offStand
		if n := len(out); n > 0 && out[n-1].At.Dist(st.At) < onePlace {
			st.Label = out[n-1].Label + " " + st.Label
			out = out[:n-1]
		}
		out = append(out, st)
	}
	return out
}

// turned is where his chest faces a moment after sample i.
func turned(r *sim.Rehearsal, i int) geom.Angle {
	ss := r.Trace.Samples
	k := i
	for k+1 < len(ss) && ss[k+1].Time <= ss[i].Time+turnedIn && ss[k+1].Cue == ss[i].Cue {
		k++
	}
	return ss[k].Hand.Chest
}

// wrong are the likeliest ways off the course.
func wrong(r *sim.Rehearsal) []drawing.Wrong {
	var faults []sim.Fault
	for i := range r.Legs {
		for _, f := range r.Legs[i].Faults {
			if f.Entry >= 0 && f.Chance >= showWrong && (f.Kind == sim.OffCourse || f.Kind == sim.WrongSide) {
				faults = append(faults, f)
			}
		}
	}
	faults = words.ByWeight(faults)
	var out []drawing.Wrong
	for _, f := range faults[:min(mostWrong, len(faults))] {
		out = append(out, drawing.Wrong{
			Way: f.Path, At: r.Setup.Entries[f.Entry].At, Obstacle: f.Obstacle, Label: words.Percent(f.Chance),
		})
	}
	return out
}

// shadows are what the handler's body hides longest of what the dog must not take.
func shadows(r *sim.Rehearsal) []drawing.Shadow {
	type hiding struct {
		leg int
		sim.Hidden
	}
	var all []hiding
	for i := range r.Legs {
		l := &r.Legs[i]
		for _, h := range l.Hidden {
			if h.Seconds >= hiddenFor && h.Obstacle != r.Setup.Course.Order[l.Number-1].Obstacle {
				all = append(all, hiding{i, h})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b hiding) int { return int(math.Copysign(1, b.Seconds-a.Seconds)) })
	var out []drawing.Shadow
	for _, h := range all {
		if len(out) == mostShadow {
			break
		}
		if d, ok := shadow(r, &r.Legs[h.leg], h.Obstacle); ok {
			out = append(out, d)
		}
	}
	return out
}

// shadow is the one that falls on an obstacle halfway through the time for which it does.
func shadow(r *sim.Rehearsal, l *sim.Leg, obstacle int) (drawing.Shadow, bool) {
	var at []int
	var seen []dog.Seen
	for i := l.First; i <= l.Last && i < len(r.Trace.Samples); i++ {
		seen = r.Setup.See(r.Trace.Samples[i], seen[:0])
		for _, e := range seen {
			if e.Entry >= 0 && r.Setup.Entries[e.Entry].Obstacle == obstacle && e.ByBody && e.Visible < 0.5 && e.Range < hiddenNear && e.Bearing.Abs() < hiddenAhead {
				at = append(at, i)
				break
			}
		}
	}
	if at == nil {
		return drawing.Shadow{}, false
	}
	s := r.Trace.Samples[at[len(at)/2]]
	return drawing.Shadow{
		Eye: s.Dog.At, Body: s.Hand.At, Radius: r.Setup.Team.Handler.Body,
		Reach: s.Dog.At.Dist(r.Setup.Course.Obstacles[obstacle].At) + reachPast,
	}, true
}

// rules are what the rulebook and care for dog and handler say of the course as it is run.
func rules(runs []*sim.Rehearsal) (findings, cautions []string) {
	s := runs[0].Setup
	book, err := rulebook.Find(s.Course.Rules)
	if err != nil {
		book = nil // none, or none that is known
	}
	withers := s.Team.Dog.Withers
	if book != nil {
		class, _ := book.Class(withers)
		for _, f := range words.Findings(rulebook.CheckPath(s.Course, book, class.Size, runs[0].Length)) {
			findings = append(findings, finding(f))
		}
	}
	for _, r := range runs {
		for _, c := range rulebook.Cautions(s.Course, withers, circumstances(r), book) {
			if text := upper(words.Safe(c.What)) + "."; !slices.Contains(cautions, text) {
				cautions = append(cautions, text)
			}
		}
		if text := meetings(r); text != "" {
			if len(runs) > 1 {
				text = words.Safe(r.Setup.Plan.Name) + ": " + text
			}
			cautions = append(cautions, text)
		}
	}
	return findings, cautions
}

// meetings says where dog and handler may run into each other; empty for nowhere.
func meetings(r *sim.Rehearsal) string {
	var where []string
	for _, l := range r.Legs {
		for _, f := range l.Faults {
			if f.Kind == sim.Collision && f.Chance >= meets {
				where = append(where, fmt.Sprintf("%d (%s)", l.Number, words.Percent(f.Chance)))
			}
		}
	}
	if where == nil {
		return ""
	}
	return "Dog and handler may meet on the way to " + strings.Join(where, ", ") + ": leave it more room."
}

// mostNamed is how many obstacles are named in a finding.
const mostNamed = 4

func finding(f words.Finding) string {
	text := upper(f.Rule)
	switch n := len(f.Obstacles); {
	case n > mostNamed:
		text += fmt.Sprintf(" (%d obstacles)", n)
	case n > 0:
		text += " (" + strings.Join(f.Obstacles, ", ") + ")"
	}
	return text + ": " + f.What + "."
}

// circumstances are what the likely run adds to the map.
func circumstances(r *sim.Rehearsal) rulebook.Circumstances {
	var k rulebook.Circumstances
	ss := r.Trace.Samples
	for i := range r.Legs {
		l := &r.Legs[i]
		leg := rulebook.Leg{Number: l.Number, Speed: l.Speed}
		if l.Last >= 0 && l.Last < len(ss) && i < len(r.Legs)-1 {
			leg.Approach = ss[l.Last].Dog.Heading.Off(r.Setup.Course.Entry(l.Number).Heading)
		}
		if l.Radius > 0 && !math.IsInf(l.Radius, 0) {
			leg.Radius = l.Radius
		}
		k.Legs = append(k.Legs, leg)
	}
	return k
}

// differences are the lines in which two plans differ.
func differences(a, b *sim.Rehearsal, pa, pb *Plan) Differences {
	var d Differences
	alike := 0
	for _, pair := range paired(a.Setup, b.Setup) {
		if same(pa, pb, pair) {
			alike++
			continue
		}
		d.Cues = append(d.Cues, CueDifference{pairName(a.Setup, b.Setup, pair), side(pa, pair[0]), side(pb, pair[1])})
	}
	d.Legs = append(d.Legs, Difference{"clean run", words.Percent(a.Clean), words.Percent(b.Clean)},
		Difference{"time", words.Seconds(a.Time), words.Seconds(b.Time)})
	for i := range min(len(a.Legs), len(b.Legs)) {
		if math.Abs(a.Legs[i].Clean-b.Legs[i].Clean) >= showWrong {
			d.Legs = append(d.Legs, Difference{words.Leg(a.Legs[i].Number), words.Percent(a.Legs[i].Clean), words.Percent(b.Legs[i].Clean)})
		}
	}
	if len(d.Legs) > mostLegs {
		d.Legs = d.Legs[:mostLegs]
	}
	if alike > 0 {
		d.Alike = counted(alike, "cue") + " the same in both, its stand too."
		if alike > 1 {
			d.Alike = counted(alike, "cue") + " the same in both, their stands too."
		}
	}
	return d
}

// mostLegs is how many columns the table of differing chances has.
const mostLegs = 8

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what + " is"
	}
	return strconv.Itoa(n) + " " + what + "s are"
}

// same reports whether both plans have a pair's cue alike, the place of the stand included.
func same(pa, pb *Plan, pair [2]int) bool {
	if pair[0] < 0 || pair[1] < 0 {
		return false
	}
	x, y := &pa.Cues[pair[0]], &pb.Cues[pair[1]]
	if (x.Pace == nil) != (y.Pace == nil) || x.Pace != nil && *x.Pace != *y.Pace {
		return false
	}
	return x.Moment == y.Moment && x.line() == y.line() && slices.Equal(x.Also, y.Also)
}

// paired puts the actions of two plans side by side, -1 where one has none: those at the same
// event of the same number.
func paired(a, b *sim.Setup) [][2]int {
	key := func(m plan.Moment) int {
		k := 2 * m.Number
		if m.Event.After() {
			k++
		}
		return k
	}
	var out [][2]int
	i, k := 0, 0
	for i < len(a.Actions) || k < len(b.Actions) {
		switch {
		case k == len(b.Actions) || i < len(a.Actions) && key(a.Actions[i].When) < key(b.Actions[k].When):
			out, i = append(out, [2]int{i, -1}), i+1
		case i == len(a.Actions) || key(b.Actions[k].When) < key(a.Actions[i].When):
			out, k = append(out, [2]int{-1, k}), k+1
		default:
			out, i, k = append(out, [2]int{i, k}), i+1, k+1
		}
	}
	return out
}

func pairName(a, b *sim.Setup, pair [2]int) string {
	s, i := a, pair[0]
	if i < 0 {
		s, i = b, pair[1]
	}
	m := s.Actions[i].When
	m.Strides = 0
	return words.Moment(m)
}

// side is one plan's side of a pair.
func side(p *Plan, i int) Side {
	if i < 0 {
		return Side{}
	}
	c := &p.Cues[i]
	s := Side{Cue: c.Label, Text: c.Moment + ": " + c.line()}
	if c.Pace != nil {
		s.Stand = c.Pace.String()
	}
	return s
}
