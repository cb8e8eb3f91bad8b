package rulebook

import "cuewalk/course"

// National rules that rest on the FCI's. Only what their own texts say is held
// here: for the rest choose the FCI edition they rest on.
func national() []*Rules {
	return []*Rules{
		oekv("OEKV 2018", "Austrian text on FCI 2018", 200), oekv("OEKV after 2018", "Austrian text as amended, year not stated", 250),
		tkamo2015(), dgi2018(), dch2015(), scc2015(), vdh2012(), sweden2017(), finland2007(), jkc(),
	}
}

// Page: agility.oekv.at.
func oekv(name, edition string, most int) *Rules {
	s, heights := rule(name, "2.3"), rule("OEKV 2018", "6.1.1")
	return &Rules{
		Name: name, Organisation: "Österreichischer Kynologenverband", Edition: edition,
		Heights: []Height{
			{heights, "S", 0.25, 0.30, false}, {heights, "M", 0.35, 0.40, false}, {heights, "L", 0.55, 0.60, false},
		},
		Clock: &Clock{
			Source: rule("FCI before 2007", "SCT").doubt("the Austrian text gives least speeds; the quotient itself was not seen in it"),
			Floors: []Floor{{s, "A2", 330}, {s, "J2", 360}},
		},
		Maximum: &Maximum{s, 0, 150, most},
	}
}

// Pages: yumpu.com (reproduction of the Swiss regulations), docplayer.org for the
// motions, readkong.com for the changes.
func tkamo2015() *Rules {
	const ed = "TKAMO 2015"
	return &Rules{
		Name: ed, Organisation: "TKAMO (Switzerland)", Edition: "about 2015",
		Note:   "spacing is judged on the dog's running line by a motion of 2015; its figures were not seen",
		Counts: []Count{{rule(ed, "changes"), "", 15, 20}},
		Scoring: &Scoring{
			Source: rule(ed, "4.2.1 to 4.2.3, 4.3.6, 4.4"), Fault: 500, Refusal: 500, Overtime: 100, Refusals: 3, WeaveOnce: true,
		},
	}
}

// Pages: dgi.dk, the association's pages on agility.
func dgi2018() *Rules {
	const ed = "DGI 2018"
	s := rule(ed, "course")
	return &Rules{
		Name: ed, Organisation: "DGI (Denmark)", Edition: "2018/19",
		Note:     "how many refusals eliminate was not seen",
		Counts:   []Count{{s, "beginners", 12, 22}, {s, "others", 15, 22}},
		Ends:     &Ends{s, bars, []course.Kind{course.Jump, course.Spread}},
		Sizes:    []Dimension{{rule(ed, "obstacles"), course.Tunnel, "length", nil, 3, 6}},
		Straight: &Straight{s, []course.Kind{course.Tyre, course.LongJump}},
		Apart:    &s,
		Maximum:  &Maximum{rule(ed, "course time"), 200, 150, 0},
		Scoring:  &Scoring{Source: rule(ed, "course time"), Fault: 500, Refusal: 500, Overtime: 100},
	}
}

// Page: dch-danmark.dk.
func dch2015() *Rules {
	const ed = "DcH 2015"
	return &Rules{
		Name: ed, Organisation: "DcH (Denmark)", Edition: "2015",
		Counts: []Count{{rule(ed, ""), "", 15, 22}},
		Rings:  []Ring{{rule(ed, ""), 24, 40, ""}},
		Length: &Length{rule(ed, ""), 100, 200, Unstated},
	}
}

// Pages: pdfslide.tips for the text; amstaff-addict.com and
// club-dressage-avignon.com at second hand.
func scc2015() *Rules {
	const ed = "SCC 2015"
	s, club := rule(ed, ""), secondHand(ed, "")
	return &Rules{
		Name: ed, Organisation: "SCC/CNEAC (France)", Edition: "2015",
		Note:     "class D is for heavy breeds whatever their height and is not told from withers",
		Counts:   []Count{{club, "", 15, 22}},
		Limits:   []Limit{{Source: club, Rule: "hurdles", Kinds: jumps, Min: 7, Max: -1}},
		Spacings: []Spacing{{Source: club, Min: 5, Max: 7}},
		Classes:  []Class{{s, "A", "A", 0.37, false}, {s, "B", "B", 0.47, false}, {s, "C", "C", 0, false}},
		Heights: []Height{
			{club, "A", 0.35, 0.35, false}, {club, "B", 0.45, 0.45, false},
			{club, "C", 0.60, 0.60, false}, {club, "D", 0.45, 0.45, false},
		},
		Clock: &Clock{Source: s},
	}
}

// Page: doczz.fr.
func vdh2012() *Rules {
	const ed = "VDH 2012"
	return &Rules{
		Name: ed, Organisation: "VDH (Germany)", Edition: "2012",
		Age: &Age{rule(ed, "I.1"), 18, "class A1"},
	}
}

// Pages: torsbybk.com, agilitynews.eu and spaniel.se at second hand.
func sweden2017() *Rules {
	s := secondHand("Sweden 2017", "")
	choice := s.doubt("from 43 cm the owner may choose between L and XL")
	return &Rules{
		Name: "Sweden 2017", Organisation: "Swedish rules", Edition: "2017 to 2021",
		Note: "the owner may choose between XS and S below 28 cm, and between L and XL from 43 to below 50 cm",
		Classes: []Class{
			{s, "XS", "extra small", 0.28, false}, {s, "S", "small", 0.35, false}, {s, "M", "medium", 0.43, false},
			{choice, "L", "large", 0.50, false}, {s, "XL", "extra large", 0, false},
		},
		Age: &Age{s, 18, "the day before"},
	}
}

// Page: shetlanninlammaskoirat.fi at second hand.
func finland2007() *Rules {
	s := secondHand("Finland 2007", "")
	return &Rules{Name: "Finland 2007", Organisation: "Finnish rules", Edition: "2007", Age: &Age{s, 18, ""}}
}

// Pages: wisedog.jp and goodgirlplus.net at second hand.
func jkc() *Rules {
	s := secondHand("JKC", "")
	return &Rules{
		Name: "JKC", Organisation: "Japan Kennel Club", Edition: "reports, undated",
		Counts:  []Count{{s, "", 15, 20}},
		Length:  &Length{s, 100, 200, Unstated},
		Heights: []Height{{s, "S", 0.25, 0.35, false}, {s, "M", 0.35, 0.45, false}, {s, "L", 0.55, 0.65, false}},
		Scoring: &Scoring{Source: s.doubt("the report gives refusals only; the rest is the FCI's before 2007"), Fault: 500, Refusal: 500, Overtime: 100, Refusals: 3, WeaveOnce: true},
	}
}
