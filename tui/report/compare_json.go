package report

import (
	"io"
	"math"

	"cuewalk/course"
	"cuewalk/sim"
	"cuewalk/sim/compare"
	"cuewalk/sim/options"
)

// Comparison is the JSON of a comparison. Better and runs are those of the only team; of
// several, better is the plan that is better for each of them.
type Comparison struct {
	Course      string           `json:"course"`
	Seed        uint64           `json:"seed"`
	Better      *string          `json:"better"`
	BetterFile  *string          `json:"better_file"`
	Runs        int              `json:"runs"`
	Differences []Difference     `json:"differences"`
	Teams       []TeamComparison `json:"teams"`
}

// TeamComparison is the JSON of one team's plans.
type TeamComparison struct {
	Team        string       `json:"team"`
	Better      *string      `json:"better"`
	BetterFile  *string      `json:"better_file"`
	Runs        int          `json:"runs"` // of the plans that are left
	NotTold     []string     `json:"not_told_apart"`
	Plans       []PlanFigure `json:"plans"`
	Differences []Difference `json:"differences"`
	Mix         *MixFigure   `json:"mix"`
}

// PlanFigure is the JSON of how one plan did.
type PlanFigure struct {
	Plan      string     `json:"plan"`
	File      string     `json:"file"`
	Runs      int        `json:"runs"`
	Clean     *float64   `json:"clean"`
	CleanLow  *float64   `json:"clean_low"`
	CleanHigh *float64   `json:"clean_high"`
	Time      *float64   `json:"time_s"`
	Legs      []*float64 `json:"legs_clean"`
}

// Difference is the JSON of one plan less another: chances of 0 to 1.
type Difference struct {
	Team    string          `json:"team"`
	Plan    string          `json:"plan"`
	Less    string          `json:"less"`
	Better  *string         `json:"better"`
	Runs    int             `json:"runs"`
	Clean   Interval        `json:"clean"`
	Time    Interval        `json:"time_s"`
	Legs    []LegDifference `json:"legs"`
	Matters []int           `json:"matters"` // legs where the choice is known to matter
}

// Interval is the JSON of a mean with its 95 % interval; null where it is not known.
type Interval struct {
	Mean *float64 `json:"mean"`
	Low  *float64 `json:"low"`
	High *float64 `json:"high"`
}

// LegDifference is the JSON of the difference on one leg.
type LegDifference struct {
	Leg int `json:"leg"`
	Interval
}

// MixFigure is the JSON of the best mix.
type MixFigure struct {
	Parts []MixPart `json:"parts"`
	Clean *float64  `json:"clean"`
}

// MixPart is the JSON of one stretch of it.
type MixPart struct {
	From int    `json:"from"`
	To   int    `json:"to"`
	Plan string `json:"plan"`
}

// CompareJSON writes what CompareText says for a program to read. The error is w's.
func CompareJSON(w io.Writer, c *course.Course, all []*options.Against, seed uint64) error {
	out := Comparison{Course: c.Name, Seed: seed, Differences: []Difference{}}
	for i, a := range all {
		t := shapeAgainst(a)
		out.Teams = append(out.Teams, t)
		out.Differences = append(out.Differences, t.Differences...)
		out.Runs = max(out.Runs, t.Runs)
		switch {
		case i == 0:
			out.Better, out.BetterFile = t.Better, t.BetterFile
		case out.Better == nil || t.Better == nil || a.Result.Best != all[0].Result.Best:
			out.Better, out.BetterFile = nil, nil
		}
	}
	return writeJSON(w, out)
}

func shapeAgainst(a *options.Against) TeamComparison {
	r := a.Result
	t := TeamComparison{Team: a.Team.Name, Runs: r.Worlds, NotTold: []string{}, Differences: []Difference{}}
	if r.Best >= 0 {
		t.Better, t.BetterFile = &a.Plans[r.Best].Name, &a.Plans[r.Best].File
	} else {
		for _, i := range r.Living {
			t.NotTold = append(t.NotTold, a.Plans[i].Name)
		}
	}
	for i := range a.Plans {
		t.Plans = append(t.Plans, shapePlan(a, i))
		for k := i + 1; k < len(a.Plans); k++ {
			t.Differences = append(t.Differences, shapeDifference(a, i, k))
		}
	}
	if a.Mix != nil {
		t.Mix = &MixFigure{Clean: number(float64(a.Mix.Clean)/float64(r.Worlds), 4)}
		for _, p := range a.Mix.Parts {
			t.Mix.Parts = append(t.Mix.Parts, MixPart{p.First, p.Last, a.Plans[p.Option].Name})
		}
	}
	return t
}

func share95(o *compare.Option) (low, high float64) { return sim.Wilson(o.Clean, o.Worlds, 1.96) }

func shapePlan(a *options.Against, i int) PlanFigure {
	o := &a.Result.Options[i]
	low, high := share95(o)
	p := PlanFigure{
		Plan: a.Plans[i].Name, File: a.Plans[i].File, Runs: o.Worlds, Clean: number(o.Share(), 4),
		CleanLow: number(low, 4), CleanHigh: number(high, 4), Time: number(a.Likely[i].Time, 3),
	}
	for _, clean := range o.Legs {
		p.Legs = append(p.Legs, number(float64(clean)/float64(o.Worlds), 4))
	}
	return p
}

func shapeDifference(a *options.Against, x, y int) Difference {
	p := &a.Result.Pairs[x][y]
	d := Difference{Team: a.Team.Name, Plan: a.Plans[x].Name, Less: a.Plans[y].Name, Runs: p.Run.Worlds(), Matters: []int{}}
	switch {
	case p.Better:
		d.Better = &a.Plans[x].Name
	case p.Worse:
		d.Better = &a.Plans[y].Name
	}
	low, high := p.RunInterval()
	d.Clean = Interval{number(p.Run.Mean(), 4), number(low, 4), number(high, 4)}
	if p.Time.Worlds() > 0 {
		low, high := p.Time.Interval(compare.Alpha)
		d.Time = Interval{number(p.Time.Mean(), 3), number(low, 3), number(high, 3)}
	}
	for i := range p.Legs {
		leg := &p.Legs[i]
		low, high := leg.Interval(compare.Alpha)
		d.Legs = append(d.Legs, LegDifference{i + 1, Interval{number(leg.Mean(), 4), number(low, 4), number(high, 4)}})
		if math.Abs(leg.Mean()) >= mattering && (low > 0 || high < 0) {
			d.Matters = append(d.Matters, i+1)
		}
	}
	return d
}
