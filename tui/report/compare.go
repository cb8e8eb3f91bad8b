package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"cuewalk/course"
	"cuewalk/sim/compare"
	"cuewalk/sim/options"
	"cuewalk/tui/words"
)

// CompareText writes how plans did against each other, team by team. The error is w's.
func CompareText(w io.Writer, c *course.Course, all []*options.Against, seed uint64) error {
	var p page
	p.hang("Course", 8, c.Name)
	for _, a := range all {
		p.heading(a.Team.Name)
		oneTeam(&p, c, a)
	}
	p.line("")
	p.text(0, fmt.Sprintf("All plans met the same luck, seed %d. Intervals are 95 %%, those of differences wherever the runs stop. %s", seed, words.Model))
	_, err := io.WriteString(w, p.String())
	return err
}

// letter is what a plan is called in a comparison: A, B, ... or P27.
func letter(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return fmt.Sprintf("P%d", i+1)
}

func oneTeam(p *page, c *course.Course, a *options.Against) {
	for i, plan := range a.Plans {
		o := &a.Result.Options[i]
		p.hang("  "+letter(i), 5, fmt.Sprintf("%s: clean %s of %d runs, likely time %s", plan.Name, option(o), o.Worlds, words.Seconds(a.Likely[i].Time)))
	}
	p.line("")
	p.text(2, verdict(a))
	for x := range a.Plans {
		for y := x + 1; y < len(a.Plans); y++ {
			pair(p, c, a, x, y)
		}
	}
	mixed(p, a)
}

// option is how often a plan was clean, with its interval.
func option(o *compare.Option) string {
	low, high := share95(o)
	return words.Chance(o.Share(), low, high)
}

// verdict says which plan is better, or that they are not told apart.
func verdict(a *options.Against) string {
	r := a.Result
	if r.Best >= 0 {
		return fmt.Sprintf("%s (%s) is better; clear after %d runs of each.", letter(r.Best), a.Plans[r.Best].Name, r.Worlds)
	}
	names := make([]string, len(r.Living))
	for i, k := range r.Living {
		names[i] = letter(k)
	}
	text := fmt.Sprintf("%s cannot be told apart in %d runs.", strings.Join(names, " and "), r.Worlds)
	if len(names) == 2 && r.Pairs[r.Living[0]][r.Living[1]].Run.NoMatter() {
		text += " Any difference is under two points."
	}
	return text
}

// mattering is how large a difference on a leg has to be, and clear of 0, to be named (C).
const mattering = 0.02

// pair writes the differences of plans x and y: the run's, and the legs where the choice
// matters.
func pair(p *page, c *course.Course, a *options.Against, x, y int) {
	d := &a.Result.Pairs[x][y]
	low, high := d.RunInterval()
	p.line("")
	text := fmt.Sprintf("%s less %s: whole run %s points", letter(x), letter(y), words.Points(d.Run.Mean()))
	p.text(2, text+between(low, high)+sooner(d)+".")
	n := 0
	for i := range d.Legs {
		leg := &d.Legs[i]
		low, high := leg.Interval(compare.Alpha)
		if math.Abs(leg.Mean()) < mattering || low <= 0 && high >= 0 {
			continue
		}
		n++
		p.hang("    -", 6, fmt.Sprintf("leg to %d: %s points%s", i+1, words.Points(leg.Mean()), between(low, high)))
	}
	if n == 0 {
		p.text(4, "No leg is known to be where the choice matters.")
	}
}

func between(low, high float64) string {
	if math.IsInf(low, 0) {
		return ""
	}
	return fmt.Sprintf(" (%s to %s)", words.Points(max(low, -1)), words.Points(min(high, 1)))
}

// sooner says how much sooner x is home than y, in runs in which both were clean.
func sooner(d *compare.Pair) string {
	if d.Time.Worlds() == 0 {
		return ""
	}
	text := fmt.Sprintf("; where both are clean %+.1f s", d.Time.Mean())
	if low, high := d.Time.Interval(compare.Alpha); !math.IsInf(low, 0) {
		text += fmt.Sprintf(" (%+.1f to %+.1f)", low, high)
	}
	return text
}

func mixed(p *page, a *options.Against) {
	if a.Mix == nil {
		return
	}
	var parts []string
	for _, part := range a.Mix.Parts {
		parts = append(parts, fmt.Sprintf("%s to %d", letter(part.Option), part.Last))
	}
	p.line("")
	p.text(2, fmt.Sprintf("Best mix: %s: clean %s on the same luck.", strings.Join(parts, ", then "),
		words.Percent(float64(a.Mix.Clean)/float64(a.Result.Worlds))))
}
