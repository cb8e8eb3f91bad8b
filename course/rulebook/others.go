package rulebook

import (
	"strconv"

	"cuewalk/course"
)

// Lengths in feet and inches, exactly.
const (
	foot = course.FootLength
	inch = foot / 12
)

// Organisations whose rules do not rest on the FCI's, and two events.
func others() []*Rules {
	return []*Rules{
		akc2010(), usdaa(), usdaaPerformance(), cpe2021(), uki(), ankc(), newZealand(), nala(), fourH(), czechOpen(), dutchOpen(),
	}
}

// Pages: yumpu.com (judges' guide), agilitycorgi.blogspot.com for heights,
// fdocuments.in for the age.
func akc2010() *Rules {
	const ed = "AKC 2010"
	s := secondHand(ed, "chapter 2 section 4")
	return &Rules{
		Name: ed, Organisation: "American Kennel Club", Edition: "heights of 2010; judges' guide, undated",
		Note:    "spacings, ring sizes and rates for the course time were not seen; 26 in may be chosen",
		Length:  &Length{Source: judges("AKC judges' guide", "chapter 4 section 5"), Measure: DogPath},
		Classes: inchClasses(s, []float64{8, 12, 16, 20, 24}, []float64{11, 14, 18, 22, 0}),
		Heights: inchHeights(s, 8, 12, 16, 20, 24),
		Zones: []Zone{
			{secondHand(ed, ""), []course.Kind{course.DogWalk}, false, true},
		},
		Age: &Age{rule("AKC 2017", "chapter 15 section 3"), 15, "seen for one test only"},
	}
}

// inchClasses are classes named after their jump height in inches, each for dogs up
// to and including a height at the withers in inches; 0 for the largest.
func inchClasses(s Source, heights, upTo []float64) []Class {
	classes := make([]Class, len(heights))
	for i, h := range heights {
		classes[i] = Class{s, inchSize(h), string(inchSize(h)), upTo[i] * inch, true}
	}
	return classes
}

func inchHeights(s Source, heights ...float64) []Height {
	list := make([]Height, len(heights))
	for i, h := range heights {
		list[i] = Height{s, inchSize(h), h * inch, h * inch, false}
	}
	return list
}

// Pages: usdaa.com; zoomdogagility.blogspot.com for the championship heights.
func usdaa() *Rules {
	s := secondHand("USDAA 2011", "")
	return &Rules{
		Name: "USDAA", Organisation: "United States Dog Agility Association", Edition: "page, undated; heights of 2011",
		Note:    "which dogs jump which championship height was not seen",
		Counts:  usdaaCounts(),
		Heights: inchHeights(s, 12, 16, 22, 26),
		Sizes: append(usdaaSizes(),
			Dimension{s, course.LongJump, "length", []Size{"12 in"}, 20 * inch, 20 * inch},
			Dimension{s, course.LongJump, "length", []Size{"16 in"}, 36 * inch, 36 * inch},
			Dimension{s, course.LongJump, "length", []Size{"22 in"}, 48 * inch, 48 * inch},
			Dimension{s, course.LongJump, "length", []Size{"26 in"}, 60 * inch, 60 * inch},
		),
		Age: &Age{secondHand("USDAA", ""), 18, ""},
	}
}

func usdaaCounts() []Count {
	s := rule("USDAA", "obstacle requirements")
	return []Count{{s, "starters, novice", 14, 16}, {s, "advanced, masters", 17, 20}}
}

func usdaaSizes() []Dimension {
	return []Dimension{{rule("USDAA", "obstacle requirements"), course.Weaves, "poles", nil, 10, 12}}
}

// Pages: usdaa.com.
func usdaaPerformance() *Rules {
	s := rule("USDAA performance programme", "")
	return &Rules{
		Name: "USDAA Performance", Organisation: "United States Dog Agility Association", Edition: "page, undated",
		Counts:  usdaaCounts(),
		Classes: inchClasses(s, []float64{8, 12, 14, 16, 20}, []float64{12, 16, 19, 21, 0}),
		Heights: inchHeights(s, 8, 12, 14, 16, 20),
		Sizes:   usdaaSizes(),
		Age:     &Age{secondHand("USDAA", ""), 18, ""},
	}
}

// Page: vdocument.in (course design guidelines of 1 April 2021).
func cpe2021() *Rules {
	const ed = "CPE 2021"
	s := judges(ed, "course design guidelines")
	return &Rules{
		Name: ed, Organisation: "Canine Performance Events", Edition: "course design guidelines of 1 April 2021",
		Note: "18 to 24 ft is preferred",
		Spacings: []Spacing{
			{Source: s, Min: 16 * foot, Max: 26 * foot, Rare: []Rare{
				{Min: 16 * foot, Max: 17 * foot, Times: 2},
				{Min: 24 * foot, Max: 26 * foot, Over: true, Times: 3, Note: " (levels 4, 5 and C; 2 at level 3, 1 at levels 1 and 2)"},
			}},
			{Source: s, Towards: []course.Kind{course.Spread}, Min: 20 * foot, Max: 24 * foot},
		},
	}
}

// Page: ukagility.com.
func uki() *Rules {
	s := rule("UKI", "")
	return &Rules{
		Name: "UKI", Organisation: "UK Agility International", Edition: "page, undated",
		Counts: []Count{{s, "", 17, 20}},
		Sizes:  []Dimension{{s, course.Weaves, "poles", nil, 0, 12}},
	}
}

// Pages: oocities.org for the counts, tdtc.org.au at second hand.
func ankc() *Rules {
	s, club := rule("ANKC 2001", ""), secondHand("ANKC extract, undated", "")
	return &Rules{
		Name: "ANKC", Organisation: "Australian National Kennel Council", Edition: "2001 and an undated extract",
		Counts: []Count{
			{s, "agility, novice", 10, 12}, {s, "agility, open", 14, 16}, {s, "agility, master", 18, 22},
			{s, "jumping, novice", 14, 16}, {s, "jumping, open", 16, 18}, {s, "jumping, master", 18, 20},
		},
		Clock: &Clock{Source: club, Table: 500},
		Age:   &Age{club, 18, ""},
	}
}

// Page: manukaudogtrainingclub.co.nz at second hand.
func newZealand() *Rules {
	s := secondHand("New Zealand", "")
	return &Rules{
		Name: "New Zealand", Organisation: "New Zealand rules", Edition: "report, undated",
		Classes: []Class{{s, "Mini", "mini", 0.35, true}, {s, "Midi", "midi", 0.43, true}, {s, "Maxi", "maxi", 0, false}},
	}
}

// Page: nala.org.nz.
func nala() *Rules {
	return &Rules{
		Name: "NALA", Organisation: "NALA (New Zealand)", Edition: "page, undated",
		Length: &Length{Source: rule("NALA", ""), Measure: HandlerLine},
	}
}

// Page: 4h.unl.edu.
func fourH() *Rules {
	s := rule("4-H Nebraska", "designing a course")
	free := []course.Kind{
		course.Jump, course.Spread, course.LongJump, course.Wall, course.Tyre, course.Tunnel, course.Table,
	}
	return &Rules{
		Name: "4-H Nebraska", Organisation: "4-H (Nebraska)", Edition: "page, undated",
		Note:     "15 to 18 ft is preferred",
		Spacings: []Spacing{{Source: s, Min: 10 * foot}},
		Ends:     &Ends{s, free, free},
		Apart:    &s,
	}
}

// Page: czechopen.grantagility.com.
func czechOpen() *Rules {
	s := rule("Czech Open", "")
	return &Rules{
		Name: "Czech Open", Organisation: "Czech Open (event)", Edition: "page, undated",
		Note:    "in finals the winner's time counts 1.1 times; times are capped at 47 and 94 s, for teams at 50 and 100 s",
		Maximum: &Maximum{s, 200, 0, 0},
		Best:    &Best{s, "the winner", 120, HalfUp},
	}
}

// Page: dutchopen.net.
func dutchOpen() *Rules {
	return &Rules{
		Name: "Dutch Open", Organisation: "Dutch Open (event)", Edition: "page, undated",
		Best: &Best{rule("Dutch Open", ""), "the fastest clear run", 115, Unrounded},
	}
}

// inchSize names a class after its jump height in inches.
func inchSize(h float64) Size { return Size(strconv.FormatFloat(h, 'g', -1, 64) + " in") }
