package rulebook

import "cuewalk/course"

// The Kennel Club (UK). Its course times come from a table whose numbers were not
// seen, and what a fault costs was seen for the tyre only, so it has neither clock
// nor scoring here. Pages: thekennelclub.org.uk, news of the regulation changes.
func kennelClub() []*Rules { return []*Rules{kc2017(), kc2022()} }

const kcName = "The Kennel Club (UK)"

func kc2017() *Rules {
	const ed = "KC 2017"
	s := secondHand("KC before 2020", "H(1)(B)2")
	page := rule("KC, page of 2016 to 2019", "")
	return &Rules{
		Name: ed, Organisation: kcName, Edition: "2017 to 2019",
		Counts:   []Count{{rule(ed, "H(1)(B)1.a.(3)"), "", 10, 20}},
		Spacings: []Spacing{{Source: rule(ed, "H(1)(B)1.a.(3)"), Min: 5, Max: 10, Measure: Centres}},
		Length:   &Length{Source: judges("KC judges' training", "H(1)(B)1.a.(4)"), Measure: Centres},
		Classes: []Class{
			{s, "S", "small", 0.350, true}, {s, "M", "medium", 0.430, true}, {s, "L", "large", 0, false},
		},
		Heights: []Height{{page, "S", 0.35, 0.35, true}, {page, "M", 0.45, 0.45, true}, {page, "L", 0.65, 0.65, true}},
		Sizes: []Dimension{
			{page, course.Spread, "length", []Size{"S"}, 0, 0.30},
			{page, course.Spread, "length", []Size{"M"}, 0, 0.40},
			{page, course.Spread, "length", []Size{"L"}, 0, 0.55},
			{page, course.LongJump, "length", []Size{"L"}, 1.2, 1.5},
		},
	}
}

func kc2022() *Rules {
	const ed = "KC 2022"
	spacing := rule("KC 2017", "H(1)(B)1.a.(3)")
	page := rule("KC, current page", "")
	older := secondHand("KC before 2020", "H(1)(B)2").doubt("a report on the classes before Intermediate came in")
	return &Rules{
		Name: ed, Organisation: kcName, Edition: "2022 on",
		Note:     "the limit of 500 mm between Intermediate and Large is from memory",
		Counts:   []Count{{spacing, "", 10, 20}},
		Spacings: []Spacing{{Source: spacing, Min: 5, Max: 10, Measure: Centres}},
		Rings:    []Ring{{rule(ed, "H(1)9.a, H(1)(B)1.a.(1)"), 32, 32, "outdoors"}},
		Length:   &Length{Source: judges("KC judges' training", "H(1)(B)1.a.(4)"), Measure: Centres},
		Classes: []Class{
			{older, "S", "small", 0.350, true}, {older, "M", "medium", 0.430, true},
			{memory(ed), "I", "intermediate", 0.500, true}, {memory(ed), "L", "large", 0, false},
		},
		Heights: []Height{
			{page, "S", 0.30, 0.30, true}, {page, "M", 0.40, 0.40, true},
			{page, "I", 0.50, 0.50, true}, {page, "L", 0.60, 0.60, true},
		},
		Sizes: []Dimension{
			{page, course.Jump, "width", nil, 1.2, 0},
			{rule("KC 2019", "H(1)(B)4.(11)"), course.Tunnel, "width", nil, 0.60, 0},
			{rule("KC 2019", "H(1)(B)4.(11)"), course.Tunnel, "length", nil, 3, 0},
		},
		OneBend: &Source{Edition: "KC 2019", Section: "H(1)(B)4.(11)", Kind: RuleMaker},
	}
}
