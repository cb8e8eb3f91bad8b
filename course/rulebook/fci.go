package rulebook

import "cuewalk/course"

const (
	fciName   = "Fédération Cynologique Internationale"
	notSeen07 = "the 2007 text was not seen on this point; the figure is an older or later edition's"
	notSeen18 = "the 2018 text was not seen on this point; the figure is another edition's"
	notSeen23 = "the 2023 text was not seen on this point; the figure is an older edition's"
)

// Kinds that rules name together.
var (
	bars      = []course.Kind{course.Jump}
	jumps     = []course.Kind{course.Jump, course.Wall, course.Tyre}
	hurdles23 = []course.Kind{course.Jump, course.Wall, course.Tyre, course.LongJump}
	contacts  = []course.Kind{course.AFrame, course.DogWalk, course.Seesaw}
	straights = []course.Kind{course.Tyre, course.LongJump, course.Spread}
)

// The FCI's editions. Where a later edition's text was not seen on a point, the
// figure of the nearest edition that was seen stands in, under that edition's name
// and marked doubtful.
func fci() []*Rules {
	return []*Rules{fciBefore2007(), fci2007(), fci2012(), fci2018(), fci2023()}
}

// Pages: k9puppydogs.com, five pages reproducing the text in English.
func fciBefore2007() *Rules {
	const ed = "FCI before 2007"
	return &Rules{
		Name: ed, Organisation: fciName, Edition: "text in force before 2007, year not stated",
		Note:     "its size classes and hurdle heights were not seen",
		Counts:   []Count{{rule(ed, "general"), "", 12, 20}},
		Limits:   []Limit{{Source: rule(ed, "general"), Rule: "hurdles", Kinds: jumps, Min: 7, Max: -1}},
		Spacings: []Spacing{{Source: rule(ed, "general / layout"), Min: 5, Max: 7}},
		Rings:    []Ring{{rule(ed, "general"), 20, 40, ""}},
		Length:   &Length{rule(ed, "general"), 100, 200, Unstated},
		Sizes:    spreads(rule(ed, "general")),
		Zones:    []Zone{{rule(ed, "faults"), contacts, true, true}},
		Clock:    &Clock{Source: rule(ed, "SCT")},
		Maximum:  &Maximum{rule(ed, "MCT"), 200, 150, 0},
		Scoring:  fciScoring(rule(ed, "faults")),
		Marks: []Mark{
			{rule(ed, "marks"), "excellent", 600}, {rule(ed, "marks"), "very good", 1600},
			{rule(ed, "marks"), "good", 2600}, {rule(ed, "marks"), "", 0},
		},
	}
}

// fciScoring is what the text before 2007 charges: 5 a fault and a refusal, 1 a
// second over time, out at the third refusal.
func fciScoring(s Source) *Scoring {
	return &Scoring{Source: s, Fault: 500, Refusal: 500, Overtime: 100, Refusals: 3}
}

// spreads are the greatest depths of a spread, the same in the texts before 2007,
// of 2007 and of 2012.
func spreads(s Source) []Dimension {
	return []Dimension{
		{s, course.Spread, "length", []Size{"S"}, 0, 0.30},
		{s, course.Spread, "length", []Size{"M"}, 0, 0.40},
		{s, course.Spread, "length", []Size{"L"}, 0, 0.55},
	}
}

// classes3 are the three classes of the texts of 2007 and 2012.
func classes3(s Source) []Class {
	return []Class{
		{s, "S", "small", 0.35, false}, {s, "M", "medium", 0.43, false}, {s, "L", "large", 0, false},
	}
}

// Page: iltys.lt, reproduction; derhund.de for the committee's decisions.
func fci2007() *Rules {
	const ed = "FCI 2007"
	old := func(section string) Source { return rule("FCI before 2007", section).doubt(notSeen07) }
	return &Rules{
		Name: ed, Organisation: fciName, Edition: "2007 to 2011",
		Counts:   []Count{{rule(ed, "1"), "", 15, 20}},
		Limits:   []Limit{{Source: rule(ed, "1"), Rule: "hurdles", Kinds: jumps, Min: 7, Max: -1}},
		Spacings: []Spacing{{Source: old("general / layout"), Min: 5, Max: 7}},
		Rings:    []Ring{{rule(ed, "1"), 20, 40, ""}},
		Length:   &Length{rule(ed, "1"), 100, 200, Unstated},
		Classes:  classes3(rule(ed, "categories")),
		Heights:  heights2012(rule("FCI 2012", "obstacles").doubt(notSeen07)),
		Sizes:    spreads(rule(ed, "1")),
		Straight: &Straight{secondHand("FCI committee, February 2006", ""), straights},
		Clock:    &Clock{Source: old("SCT")},
		Maximum:  &Maximum{old("MCT"), 200, 150, 0},
		Scoring:  fciScoring(old("faults")),
	}
}

func heights2012(s Source) []Height {
	return []Height{{s, "S", 0.25, 0.35, false}, {s, "M", 0.35, 0.45, false}, {s, "L", 0.55, 0.65, false}}
}

// Pages: jps.pesprotebe.cz, just-agility.blogspot.com, ksk.rs; livrozilla.com for
// the Brazilian text; clubdogs.estranky.sk and ostrovzvirat.cz for sizes.
func fci2012() *Rules {
	const ed, brazil = "FCI 2012", "FCI 2012, Brazilian text"
	club := secondHand("FCI 2012, club reproductions", "")
	return &Rules{
		Name: ed, Organisation: fciName, Edition: "2012 to 2017",
		Counts: []Count{{rule(ed, "general"), "", 15, 22}},
		Limits: []Limit{
			{Source: rule(ed, "general"), Rule: "hurdles", Kinds: bars, Min: 7, Max: -1},
			{Source: rule(ed, "layout"), Rule: "tyre", Kinds: []course.Kind{course.Tyre}, Max: 1},
			{Source: rule(brazil, "layout"), Rule: "weaves", Kinds: []course.Kind{course.Weaves}, Max: 1},
			{Source: rule(brazil, "layout"), Rule: "spread", Kinds: []course.Kind{course.Spread}, Max: 1},
		},
		Spacings: spacing2012(rule(ed, "layout")),
		Ends:     &Ends{rule(brazil, "layout"), bars, bars},
		Rings:    []Ring{{rule(ed, "general"), 20, 40, ""}},
		Length:   &Length{rule(ed, "general"), 100, 200, Unstated},
		Classes:  classes3(rule(ed, "categories")),
		Heights:  heights2012(rule(ed, "obstacles")),
		Sizes: append(spreads(rule(ed, "obstacles")),
			Dimension{rule(ed, "obstacles"), course.Jump, "width", nil, 1.20, 1.50},
			Dimension{club, course.LongJump, "length", []Size{"S"}, 0.40, 0.50},
			Dimension{club, course.LongJump, "length", []Size{"M"}, 0.70, 0.90},
			Dimension{club, course.LongJump, "length", []Size{"L"}, 1.20, 1.50},
			Dimension{club, course.Tunnel, "length", nil, 3, 6},
			Dimension{club, course.Weaves, "poles", nil, 8, 12},
		),
		Straight: &Straight{rule(ed, "layout"), straights},
		Clock:    &Clock{Source: rule("FCI before 2007", "SCT").doubt("the 2012 text was not seen on this point")},
		Maximum:  &Maximum{rule(ed, "procedure"), 0, 150, 200},
		Scoring:  fciScoring(rule("FCI before 2007", "faults").doubt("the 2012 text was not seen on this point")),
	}
}

// spacing2012 is the spacing of 2012, limits taken to be included.
func spacing2012(s Source) []Spacing {
	return []Spacing{
		{Source: s, For: []Size{"S"}, Min: 4, Max: 7},
		{Source: s, For: []Size{"M", "I", "L"}, Min: 5, Max: 7},
	}
}

// Pages: readkong.com and pdfslide.us for the text, agilitynews.eu, agilitynow.eu
// and extremedog.pl at second hand, agility.oekv.at for heights.
func fci2018() *Rules {
	const ed = "FCI 2018"
	old := func(section string) Source { return rule("FCI 2012", section).doubt(notSeen18) }
	announced := secondHand("FCI 2018, as announced", "").doubt("announced before the edition, not confirmed as final")
	classes := classes3(secondHand(ed, "").doubt("the report leaves open where a dog of exactly 35 or 43 cm belongs"))
	return &Rules{
		Name: ed, Organisation: fciName, Edition: "2018 to 2022",
		Counts: []Count{{old("general"), "", 15, 22}},
		Limits: []Limit{
			{Source: rule(ed, ""), Rule: "contact obstacles", Kinds: contacts, Min: 3, Max: -1, Distinct: true},
			{Source: old("layout"), Rule: "tyre", Kinds: []course.Kind{course.Tyre}, Max: 1},
			{Source: announced, Rule: "table", Kinds: []course.Kind{course.Table}, Max: 0},
		},
		Spacings: spacing2012(old("layout")),
		Rings:    []Ring{{old("general"), 20, 40, ""}},
		Length:   &Length{old("general"), 100, 200, Unstated},
		Classes:  classes,
		Heights:  heights2018(),
		Sizes:    []Dimension{{announced, course.Spread, "length", nil, 0, 0.50}},
		Straight: &Straight{old("layout"), straights},
		Room:     &Room{announced, 1},
		Clock:    &Clock{Source: rule("FCI before 2007", "SCT").doubt(notSeen18)},
		Maximum:  &Maximum{old("procedure"), 0, 150, 200},
		Best:     &Best{secondHand(ed+", international trials", ""), "the fastest of the dogs with fewest course faults", 115, Up},
		Scoring:  fciScoring(rule("FCI before 2007", "faults").doubt(notSeen18)),
	}
}

// heights2018 are the heights of the Austrian text on the 2018 edition.
func heights2018() []Height {
	s := rule("OEKV on FCI 2018", "6.1.1").doubt("Austrian text; the FCI's own was not seen on this point")
	return []Height{{s, "S", 0.25, 0.30, false}, {s, "M", 0.35, 0.40, false}, {s, "L", 0.55, 0.60, false}}
}

// Pages: skc.org.sg for classes and contacts, swisscanincenter.ch for the change list.
func fci2023() *Rules {
	const ed = "FCI 2023"
	changes := secondHand(ed, "change list")
	old := func(section string) Source { return rule("FCI 2012", section).doubt(notSeen23) }
	s := rule(ed, "categories")
	return &Rules{
		Name: ed, Organisation: fciName, Edition: "2023, newest seen",
		Counts: []Count{{old("general"), "", 15, 22}},
		Limits: []Limit{
			{Source: changes, Rule: "weaves", Kinds: []course.Kind{course.Weaves}, Min: 1, Max: 1},
			{Source: changes, Rule: "tyre", Kinds: []course.Kind{course.Tyre}, Max: 1},
			{Source: changes, Rule: "wall", Kinds: []course.Kind{course.Wall}, Max: 1},
			{Source: changes, Rule: "tunnel passages", Kinds: []course.Kind{course.Tunnel}, Max: 5},
		},
		Spacings: spacing2012(old("layout")),
		Ends:     &Ends{changes, hurdles23, hurdles23},
		Rings:    []Ring{{old("general"), 20, 40, ""}},
		Length:   &Length{old("general"), 100, 200, Unstated},
		Classes: []Class{
			{s, "S", "small", 0.35, false}, {s, "M", "medium", 0.43, false},
			{s, "I", "intermediate", 0.48, false}, {s, "L", "large", 0, false},
		},
		Heights:  append(heights2018(), Height{memory(ed), "I", 0.45, 0.50, false}),
		Straight: &Straight{changes, straights},
		Zones: []Zone{
			{rule(ed, "faults"), []course.Kind{course.AFrame, course.DogWalk}, false, true},
			{rule(ed, "faults"), []course.Kind{course.Seesaw}, true, true},
		},
		Clock:   &Clock{Source: rule("FCI before 2007", "SCT").doubt(notSeen23)},
		Maximum: &Maximum{old("procedure"), 0, 150, 200},
		Scoring: fciScoring(rule("FCI before 2007", "faults").doubt(notSeen23)),
	}
}
