package report

import (
	"fmt"
	"io"

	"cuewalk/course"
	"cuewalk/sim"
	"cuewalk/sim/compare"
	"cuewalk/sim/options"
	"cuewalk/tui/words"
)

// ProposeText writes what was proposed, and to which files; files may be empty. The error is w's.
func ProposeText(w io.Writer, c *course.Course, team string, all []options.Proposal, files []string) error {
	var p page
	p.hang("Course", 8, c.Name)
	p.hang("Team", 8, team)
	if len(all) == 0 {
		p.line("")
		p.text(0, "No plan was found that this handler can run.")
	}
	for i := range all {
		proposal(&p, &all[i])
		if i < len(files) {
			p.text(2, "Written to "+files[i]+".")
		}
	}
	if len(all) == 1 {
		p.line("")
		p.text(0, "No other way was found that comes near it.")
	}
	p.line("")
	p.text(0, "Chances of a clean run are from luck that the search never saw. "+words.Model)
	_, err := io.WriteString(w, p.String())
	return err
}

func proposal(p *page, o *options.Proposal) {
	p.heading(o.Told)
	p.text(2, fmt.Sprintf("Clean: %s of %d runs (%s of those it was searched with). Likely time %s.", option(&o.Result),
		o.Result.Worlds, words.Percent(o.Searched), words.Seconds(o.Likely.Time)))
	for _, sentence := range words.Worst(o.Likely, 2) {
		p.hang("  -", 4, sentence)
	}
	if k := o.Slack.Tightest; k >= 0 {
		s := &o.Slack.Cues[k]
		p.text(2, fmt.Sprintf("Tightest: %s, %q: %s sooner, %s later.", words.CueName(k+1), o.Plan.Cues[k].When,
			words.Seconds(s.Early), words.Seconds(s.Late)))
	}
}

// Proposals is the JSON of proposals.
type Proposals struct {
	Course string             `json:"course"`
	Team   string             `json:"team"`
	Seed   uint64             `json:"seed"`
	Plans  []ProposalDocument `json:"plans"`
}

// ProposalDocument is the JSON of one of them: its report, and what it was searched with.
type ProposalDocument struct {
	File     *string   `json:"file"`
	Told     string    `json:"told"`
	Searched *float64  `json:"clean_searched"`
	Late     *float64  `json:"latest_s"`
	Report   Rehearsal `json:"report"`
}

// ProposeJSON writes what ProposeText says for a program to read. The error is w's.
func ProposeJSON(w io.Writer, c *course.Course, team string, all []options.Proposal, files []string, seed uint64) error {
	out := Proposals{Course: c.Name, Team: team, Seed: seed, Plans: []ProposalDocument{}}
	for i := range all {
		o := &all[i]
		d := ProposalDocument{Told: o.Told, Searched: number(o.Searched, 4), Late: number(o.Late, 3), Report: shape(o.Likely, o.Slack)}
		d.Report.Helps = []Help{}
		if i < len(files) {
			d.File = &files[i]
		}
		out.Plans = append(out.Plans, d)
	}
	return writeJSON(w, out)
}

// ImproveText writes what bettered a plan, and to which file. The error is w's.
func ImproveText(w io.Writer, im *options.Improved, file string) error {
	var p page
	s, r := im.Before, im.Against
	p.hang("Course", 8, s.Course.Name)
	p.hang("Plan", 8, s.Plan.Name)
	p.hang("Team", 8, s.Team.Name)
	p.heading("Better plan")
	p.text(2, fmt.Sprintf("Clean: %s before, %s after, in %d runs that the search never saw (%s of those it was searched with).",
		option(&r.Options[0]), option(&r.Options[1]), r.Worlds, words.Percent(im.Searched)))
	p.text(2, improvement(im))
	p.heading("Changes")
	for i := range im.Changes {
		p.hang("  -", 4, words.Points(im.Changes[i].Gain)+" points: "+changeOf(s, &im.Changes[i]))
	}
	if len(im.Changes) == 0 {
		p.text(2, "No change was found that helps.")
	}
	if file != "" {
		p.line("")
		p.text(0, "Written to "+file+".")
	}
	p.line("")
	p.text(0, words.Model)
	_, err := io.WriteString(w, p.String())
	return err
}

// improvement says whether the plan is known to be better.
func improvement(im *options.Improved) string {
	r := im.Against
	d := &r.Pairs[1][0]
	low, high := d.RunInterval()
	by := words.Points(d.Run.Mean()) + " points" + between(low, high)
	switch {
	case len(im.Changes) == 0:
		return "The plan is left as it is."
	case d.Better:
		return "It is better: " + by + "."
	case d.Worse:
		return "On other luck it is worse: " + by + ". Keep the plan as it was."
	}
	return fmt.Sprintf("The two cannot be told apart in %d runs: %s.", r.Worlds, by)
}

// changeOf says what one step changes.
func changeOf(s *sim.Setup, c *options.Change) string {
	to := s.WithPlan(&c.To)
	var text string
	for i, k := range c.Cues {
		if i > 0 {
			text += "; "
		}
		text += words.Cue(to, k+1)
	}
	switch {
	case len(c.To.Cues) < len(c.From.Cues):
		text = "a cue less; " + text
	case len(c.To.Cues) > len(c.From.Cues):
		text = "a cue more: " + text
	case c.Reach:
		text = "stands moved to where he can be in time: " + text
	}
	return text
}

// Improvement is the JSON of a plan bettered.
type Improvement struct {
	Course   string        `json:"course"`
	Plan     string        `json:"plan"`
	Team     string        `json:"team"`
	File     *string       `json:"file"`
	Runs     int           `json:"runs"`
	Before   *float64      `json:"clean_before"`
	After    *float64      `json:"clean_after"`
	Searched *float64      `json:"clean_searched"`
	Better   *bool         `json:"better"` // null where the two are not told apart
	Gain     Interval      `json:"gain"`
	Late     *float64      `json:"latest_s"`
	Changes  []ChangedCues `json:"changes"`
}

// ChangedCues is the JSON of one step: cues counted from 1.
type ChangedCues struct {
	Cues   []int    `json:"cues"`
	Change string   `json:"change"`
	Gain   *float64 `json:"gain"`
}

// ImproveJSON writes what ImproveText says for a program to read. The error is w's.
func ImproveJSON(w io.Writer, im *options.Improved, file string) error {
	s, r := im.Before, im.Against
	d := &r.Pairs[1][0]
	low, high := d.RunInterval()
	out := Improvement{
		Course: s.Course.Name, Plan: s.Plan.Name, Team: s.Team.Name, Runs: r.Worlds,
		Before: clean(&r.Options[0]), After: clean(&r.Options[1]), Searched: number(im.Searched, 4), Late: number(im.Late, 3),
		Gain: Interval{number(d.Run.Mean(), 4), number(low, 4), number(high, 4)}, Changes: []ChangedCues{},
	}
	if file != "" {
		out.File = &file
	}
	if d.Better || d.Worse {
		out.Better = &d.Better
	}
	for i := range im.Changes {
		c := &im.Changes[i]
		cues := []int{}
		for _, k := range c.Cues {
			cues = append(cues, k+1)
		}
		out.Changes = append(out.Changes, ChangedCues{cues, changeOf(s, c), number(c.Gain, 4)})
	}
	return writeJSON(w, out)
}

func clean(o *compare.Option) *float64 { return number(o.Share(), 4) }
