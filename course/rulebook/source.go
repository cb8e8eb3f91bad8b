package rulebook

// SourceKind is the kind of text a figure was read in.
type SourceKind byte

// Kinds of text. Memory is a figure that was recalled, not read: it serves as a
// default size and is never held against a course.
const (
	RuleMaker  SourceKind = 'R' // the rule-maker's own page or a reproduction of its text
	Judges     SourceKind = 'J' // a judges' guide of the rule-maker
	SecondHand SourceKind = 'S' // a club page, news page or diary reporting the rule
	Memory     SourceKind = 'M'
)

// String returns the kind in words.
func (k SourceKind) String() string {
	switch k {
	case RuleMaker:
		return "rule text"
	case Judges:
		return "judges' guide"
	case SecondHand:
		return "second-hand"
	case Memory:
		return "from memory"
	}
	return "unknown source"
}

// Source says where a figure comes from.
type Source struct {
	Edition  string // edition or text, such as "FCI 2012"
	Section  string // section or chapter; empty where none was visible
	Kind     SourceKind
	Doubtful bool   // two sources disagree, or the edition's own text was not seen
	Why      string // why it is doubtful
}

// Remark returns what a reader must know before relying on the figure: that it is
// second-hand, or why it is doubtful. It is empty for a plain figure.
func (s Source) Remark() string {
	switch {
	case s.Doubtful && s.Kind == SecondHand:
		return "second-hand and doubtful: " + s.Why
	case s.Doubtful:
		return "doubtful: " + s.Why
	case s.Kind == SecondHand:
		return "second-hand figure"
	}
	return ""
}

func rule(edition, section string) Source {
	return Source{Edition: edition, Section: section, Kind: RuleMaker}
}

func judges(edition, section string) Source {
	return Source{Edition: edition, Section: section, Kind: Judges}
}

func secondHand(edition, section string) Source {
	return Source{Edition: edition, Section: section, Kind: SecondHand}
}

func memory(edition string) Source {
	return Source{Edition: edition, Kind: Memory, Doubtful: true, Why: "recalled, not seen in a text"}
}

func (s Source) doubt(why string) Source {
	s.Doubtful, s.Why = true, why
	return s
}
