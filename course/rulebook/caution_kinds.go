package rulebook

import (
	"fmt"
	"math"
	"strings"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// Where the cautions come from.
const (
	fromBirch  = "Birch, Carter and Boyd 2016, Comparative Exercise Physiology 12(2): the flight shortens from 126 % of the withers (20 border collies)"
	fromOhio   = "2022, Frontiers in Veterinary Science 8:791617: odds of injury 1.31 at 2 to 4 in above the shoulder, 1.50 above 4 in (4,197 dogs); 110 % is 2 in at 50 cm"
	fromLayout = "FCI 2012, layout, and FCI 2023 (change list, second-hand): tyre, long jump and spread in a straight line; the angle is this program's own"
	fromLevy   = "Levy et al. 2009, Veterinary and Comparative Orthopaedics and Traumatology 22:321 names A-frame and dog walk among the obstacles dogs are hurt on; the angle is this program's own"
	fromGrip   = "Haagensen et al. 2022, Journal of Experimental Biology 225:jeb244435: grip limits tight turns (abstract); the limit is this program's own"
	fromCross  = "common practice, no source"
	fromAge    = "club and trainers' pages: growth plates close at 8 to 12 months in small dogs, 18 to 24 in large ones; competition opens at 15 to 18"
	fromFit    = "FCI 2012, categories, and FCI 2018, A.1: open to healthy and physically fit dogs; 41.7 % of 4,701 agility dogs had been hurt (Pechette Markley et al. 2021, JAVMA 259:1001)"
)

// Limits of the cautions.
const (
	barCaution = 1.10 // of the withers, see fromOhio
	barTooHigh = 1.26 // of the withers, see fromBirch
	// slipperyPull is the sideways acceleration in m/s2 from which a turn on slippery
	// ground is named: half of gravity, the program's own choice (the studies' figures
	// were not seen).
	slipperyPull = 4.9
	// closeCrossing is how near ahead of a landing dog, in metres, a crossing is
	// named: about one stride, the program's own choice.
	closeCrossing = 2.0
	grown         = 18 // months, see fromAge
)

// SliceOver is how far off the line of a contact obstacle an approach is named as
// slicing it. No source gives an angle: it is the program's own choice.
var SliceOver = geom.Deg(20)

// look gathers cautions about one course.
type look struct {
	c       *course.Course
	withers float64
	known   Circumstances
	seen    []Caution
}

func (l *look) add(source string, ids []string, format string, args ...any) {
	l.seen = append(l.seen, Caution{What: fmt.Sprintf(format, args...), Obstacles: ids, Source: source})
}

// bars names bars that are high for the dog.
func (l *look) bars() {
	if l.withers <= 0 {
		return
	}
	var high, tooHigh []string
	worst := 0.0
	for _, o := range taken(l.c) {
		if !bar(o.Kind) {
			continue
		}
		part := math.Round(o.Height/l.withers*1000) / 1000
		switch {
		case part >= barTooHigh:
			tooHigh = append(tooHigh, o.ID)
		case part >= barCaution:
			high = append(high, o.ID)
		}
		worst = max(worst, part)
	}
	if len(tooHigh) > 0 {
		l.add(fromBirch, tooHigh, "bar at up to %.0f %% of the dog's withers; from 126 %% dogs no longer jump longer for a higher bar: ask your vet before jumping it, and the organiser for the dog's right class", worst*100)
	}
	if len(high) > 0 {
		l.add(fromOhio, high, "bar at 110 %% of the dog's withers or more; dogs jumping well above the shoulder were hurt more often: your vet can say whether it suits this dog")
	}
}

// bar reports whether a kind's height is that of a bar to be cleared.
func bar(k course.Kind) bool { return k == course.Jump || k == course.Spread || k == course.Wall }

// crooked names tyres, long jumps and spreads that are not met straight.
func (l *look) crooked() {
	l.off(StraightWithin, func(k course.Kind) bool {
		return k == course.Tyre || k == course.LongJump || k == course.Spread
	}, fromLayout, "the dog meets the %s %s %.0f degrees off straight and may hit the frame or land on a part; the judge and the current rulebook say what is allowed")
}

// contacts names contact obstacles that are entered at a slant.
func (l *look) contacts() {
	l.off(SliceOver, course.Kind.Contact, fromLevy,
		"the dog meets the %s %s %.0f degrees off line and may slip off its side; straighten the line or ask the judge")
}

// off adds a caution for every number of some kinds met more than limit off its way.
func (l *look) off(limit geom.Angle, of func(course.Kind) bool, source, what string) {
	for n := 1; n <= len(l.c.Order); n++ {
		o := l.c.Obstacles[l.c.Order[n-1].Obstacle]
		if a := l.approach(n); of(o.Kind) && beyond(a, limit) {
			l.add(source, []string{o.ID}, what, o.Kind, o.ID, a.Abs().Degrees())
		}
	}
}

func (l *look) approach(n int) geom.Angle {
	for _, leg := range l.known.Legs {
		if leg.Number == n {
			return leg.Approach
		}
	}
	return approach(l.c, n)
}

// slippery names tight fast turns on sand or wet ground.
func (l *look) slippery() {
	sand := strings.EqualFold(l.c.Surface, "sand")
	if !sand && !l.known.Wet {
		return
	}
	ground := "on sand"
	switch {
	case sand && l.known.Wet:
		ground = "on wet sand"
	case l.known.Wet:
		ground = "on wet ground"
	}
	for _, leg := range l.known.Legs {
		if leg.Radius <= 0 || leg.Speed*leg.Speed/leg.Radius < slipperyPull {
			continue
		}
		l.add(fromGrip, l.ids(leg.Number), "a turn of %.1f m radius at %.1f m/s %s pulls %.1f m/s2 sideways and the dog may slip; slow it down there, and the judge can say whether the ground is safe",
			leg.Radius, leg.Speed, ground, leg.Speed*leg.Speed/leg.Radius)
	}
}

// crossings names handlers crossing close in front of a landing dog.
func (l *look) crossings() {
	for _, leg := range l.known.Legs {
		if leg.Crossing > 0 && leg.Crossing < closeCrossing {
			l.add(fromCross, l.ids(leg.Number), "the handler crosses %.1f m in front of the landing dog and both may be hurt; cross earlier or further on, and heed the judge", leg.Crossing)
		}
	}
}

// ids returns the id of number n, nothing for a number that is not on the course.
func (l *look) ids(n int) []string {
	if n < 1 || n > len(l.c.Order) {
		return nil
	}
	return []string{l.c.Obstacles[l.c.Order[n-1].Obstacle].ID}
}

// dog names age and fitness.
func (l *look) dog(r *Rules) {
	age := l.known.AgeMonths
	if r != nil && r.Age != nil && age > 0 && age < r.Age.Months {
		l.add(fmt.Sprintf("%s (%s)", r.Age.Edition, r.Age.Kind), nil,
			"the dog is %d months old, these rules ask for at least %d%s; see the current rulebook", age, r.Age.Months, comma(r.Age.Note))
	}
	if age > 0 && age < grown {
		l.add(fromAge, nil, "the dog is %d months old and may still be growing; ask your vet before it jumps, weaves or turns at speed", age)
	}
	l.add(fromFit, nil, "run only a grown, fit and sound dog, warmed up; whether this dog is, your vet says")
}

func comma(s string) string {
	if s == "" {
		return ""
	}
	return " (" + s + ")"
}
