package rulebook

import (
	"math"
	"slices"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// spacing checks the distance between consecutive obstacles. Where a text says how
// to measure, it is measured so; where it does not, it is the straight line from
// where the dog leaves one obstacle to where it enters the next, which for two
// jumps is the line between centres. That choice is the program's own.
func (k *checker) spacing() {
	if len(k.r.Spacings) == 0 {
		return
	}
	for n := 2; n <= len(k.c.Order); n++ {
		rules := k.spacings(k.obstacle(n).Kind)
		fits := func(s Spacing) bool { return off(k.gap(n, s.Measure), s.Min, s.Max) == 0 }
		if len(rules) == 0 || slices.ContainsFunc(rules, fits) {
			continue
		}
		s := rules[0]
		d := k.gap(n, s.Measure)
		k.add(s.Source, "spacing", []string{k.id(n - 1), k.id(n)}, "%s to %s is %s, asked is %s: %s, %s",
			k.id(n-1), k.id(n), k.show(d), k.span(s.Min, s.Max), k.astray(off(d, s.Min, s.Max), "too short", "too long"), how(s.Measure))
	}
	for _, s := range k.r.Spacings {
		for _, rare := range s.Rare {
			k.rare(s, rare)
		}
	}
}

// spacings returns the rules for the distance to an obstacle of a kind, the most
// lenient first. A rule for that kind alone goes before one for all.
func (k *checker) spacings(kind course.Kind) []Spacing {
	var special, general []Spacing
	for _, s := range k.r.Spacings {
		switch {
		case !k.forSize(s.For):
		case slices.Contains(s.Towards, kind):
			special = append(special, s)
		case len(s.Towards) == 0:
			general = append(general, s)
		}
	}
	if len(special) > 0 {
		return special
	}
	return general
}

// forSize reports whether a figure for some classes bears on the class in hand.
func (k *checker) forSize(sizes []Size) bool {
	return len(sizes) == 0 || k.size == "" || slices.Contains(sizes, k.size)
}

// gap returns the distance from number n-1 to number n.
func (k *checker) gap(n int, m Measure) float64 {
	if m == Centres {
		return centreGap(k.c, n)
	}
	return k.c.Entry(n - 1).Exit.At.Dist(k.c.Entry(n).At)
}

func how(m Measure) string {
	if m == Centres {
		return "centre to centre"
	}
	return "end to entrance (how to measure was not seen)"
}

// rare checks that distances in a part of the range do not come too often.
func (k *checker) rare(s Spacing, part Rare) {
	var ids []string
	times := 0
	for n := 2; n <= len(k.c.Order); n++ {
		d := k.gap(n, s.Measure)
		if off(d, part.Min, part.Max) != 0 || part.Over && cm(d) == cm(part.Min) {
			continue
		}
		times++
		ids = append(ids, k.id(n-1), k.id(n))
	}
	if times > part.Times {
		k.add(s.Source, "spacing", slices.Compact(ids), "%d distances of %s, allowed are %d%s",
			times, k.span(part.Min, part.Max), part.Times, part.Note)
	}
}

// StraightWithin is how far off the line through a tyre, long jump or spread the
// straight line from the obstacle before may meet it without a finding. No rule
// seen gives an angle: this one is the program's own choice.
var StraightWithin = geom.Deg(20)

// straight checks that the kinds that must be met straight are.
func (k *checker) straight() {
	rule := k.r.Straight
	if rule == nil {
		return
	}
	for n := 2; n <= len(k.c.Order); n++ {
		o := k.obstacle(n)
		if !slices.Contains(rule.Kinds, o.Kind) {
			continue
		}
		if a := approach(k.c, n); beyond(a, StraightWithin) {
			k.add(rule.Source, "straight approach", []string{k.id(n - 1), o.ID},
				"the line from %s meets the %s %s %.0f degrees off straight; the rule asks for a straight line without an angle, and %.0f degrees is this program's own limit",
				k.id(n-1), o.Kind, o.ID, a.Abs().Degrees(), StraightWithin.Degrees())
		}
	}
}

// approach returns how far off the way through number n the straight line from the
// end of number n-1 (or from the start) meets it, right positive; 0 where the two coincide.
func approach(c *course.Course, n int) geom.Angle {
	from := c.Start
	if n > 1 {
		from = c.Entry(n - 1).Exit.At
	}
	e := c.Entry(n)
	if from.Dist(e.At) == 0 {
		return 0
	}
	return from.Towards(e.At).Off(e.Heading)
}

// beyond reports whether a is more than limit either way, in whole tenths of a
// degree: an angle drawn as exactly the limit seldom comes out as exactly that.
func beyond(a, limit geom.Angle) bool {
	return math.Round(a.Abs().Degrees()*10) > math.Round(limit.Degrees()*10)
}
