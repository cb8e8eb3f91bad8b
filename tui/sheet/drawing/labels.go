package drawing

import (
	"fmt"
	"strconv"
	"unicode/utf8"

	"cuewalk/course/geom"
	"cuewalk/tui/place"
)

// label is a short text with its place.
type label struct {
	place.Placed
	sort labelSort
	text string
	wish place.Label
}

type labelSort uint8

const (
	number labelSort = iota // of the course, above all
	chance
	cue
	start
)

// Sizes of labels in millimetres: height, and breadth of one digit, ample for any sans-serif.
var labelSize = [...]struct{ height, digit, room float64 }{
	number: {3.5, 2.55, 0.5},
	chance: {2.9, 1.9, 0.8},
	cue:    {3.9, 1.5, 0.9},
	start:  {2.6, 1.5, 0.3},
}

// letter finds places for all labels and writes them: the numbers of the course first, so that
// they have the best ones.
func (p *Picture) letter() {
	p.numbers()
	p.settle(0, 0)
	first := len(p.labels)
	p.others()
	p.settle(first, 1)
	p.leaders()
	for i := range p.labels {
		p.label(&p.labels[i])
	}
}

// wish adds a label that wants to stand beside anchor, on the side toward; a leader ends at owner.
func (p *Picture) wish(sort labelSort, text string, anchor, owner place.Rect, toward place.Point) {
	z := labelSize[sort]
	w := z.digit*float64(utf8.RuneCountInString(text)) + z.room
	if sort == cue {
		w = max(w, z.height)
	}
	p.labels = append(p.labels, label{sort: sort, text: text,
		wish: place.Label{W: w, H: z.height, Anchor: anchor, Owner: owner, Toward: toward}})
}

// numbers are put on the side from which the dog comes, as course maps have them.
func (p *Picture) numbers() {
	c := p.scene.Course
	for n := 1; n <= len(c.Order); n++ {
		e := c.Entry(n)
		half := e.Half + c.Obstacles[e.Obstacle].Wing
		pose := geom.Pose{At: e.At, Heading: e.Heading}
		on := e.Heading.Unit()
		p.wish(number, strconv.Itoa(n), p.around(0.5, pose.Beside(-half), pose.Beside(half)),
			p.around(0.2, pose.Beside(-e.Half), pose.Beside(e.Half)), place.Point{X: -on.X, Y: on.Y})
	}
}

func (p *Picture) others() {
	for _, w := range p.scene.Wrong {
		end := w.At
		if n := len(w.Way); n > 0 {
			end = w.Way[n-1]
		}
		p.wish(chance, w.Label, p.around(1, end), place.Rect{}, place.Point{})
	}
	for _, s := range p.scene.Stands {
		p.wish(cue, s.Label, p.around(1.4, s.At), place.Rect{}, place.Point{})
	}
	p.wish(start, "start", p.around(0.9, p.scene.Course.Start), place.Rect{}, place.Point{})
}

// settle finds places for the labels from first on, each beside all others as they lie; the
// second time each knows of all.
func (p *Picture) settle(first, stage int) {
	p.ink.settle()
	for range 2 {
		for i := first; i < len(p.labels); i++ {
			if p.settleOne(i, stage, true); !p.labels[i].OK {
				p.settleOne(i, stage, false)
			}
		}
	}
}

func (p *Picture) settleOne(i, stage int, strict bool) {
	l := &p.labels[i]
	l.OK = false
	l.Placed = place.Labels([]place.Label{l.wish}, place.Options{
		Bounds: p.bounds(), Step: place.Point{X: 0.9, Y: 0.9}, Most: 14, Near: near,
		Side: 2, Far: tolls[stage].far, Turn: 0.1,
		Cost: func(_ int, r place.Rect) float64 { return p.cost(r, i, stage, strict) },
	})[0]
}

// near is how many steps off a label needs no leader.
const near = 2

// around is the rectangle round places on the map with some room.
func (p *Picture) around(room float64, places ...geom.Point) place.Rect {
	a := p.at(places[0])
	b := a
	for _, q := range places[1:] {
		c := p.at(q)
		a, b = point{min(a.x, c.x), min(a.y, c.y)}, point{max(b.x, c.x), max(b.y, c.y)}
	}
	return place.Rect{X: a.x - room, Y: a.y - room, W: b.x - a.x + 2*room, H: b.y - a.y + 2*room}
}

// What a cell of a line costs that a label covers, and each step off what it names, by what
// stage is placed: numbers, then the others. A leader through another label costs crossed.
var tolls = [2]struct{ dog, other, far float64 }{{1.5, 0.5, 3}, {1, 0.3, 2}}

const crossed = 40

// cost keeps label i off things and other labels altogether, and off lines where it can; where
// strict, no leader may run through a number.
func (p *Picture) cost(r place.Rect, i, stage int, strict bool) float64 {
	n := p.ink.under(r)
	if n[things] > 0 {
		return place.Never
	}
	cost := tolls[stage].dog*float64(n[dogs]) + tolls[stage].other*float64(n[others])
	from, to := p.leader(r, i)
	for k := range p.labels {
		q := &p.labels[k]
		switch {
		case k == i || !q.OK:
		case grown(q.Rect, gap).Meets(r):
			return place.Never
		case passes(from, to, q.Rect):
			if strict && q.sort == number {
				return place.Never
			}
			cost += crossed
		case q.Leader && passes(pt(q.From), pt(q.To), r):
			if strict && p.labels[i].sort == number {
				return place.Never
			}
			cost += crossed
		}
	}
	return cost
}

// gap is the least room between two labels in millimetres.
const gap = 0.3

func grown(r place.Rect, by float64) place.Rect {
	return place.Rect{X: r.X - by, Y: r.Y - by, W: r.W + 2*by, H: r.H + 2*by}
}

// leader is the line that joins label i at r to what it names.
func (p *Picture) leader(r place.Rect, i int) (from, to point) {
	own := p.labels[i].wish.Owner
	if own.W <= 0 {
		own = p.labels[i].wish.Anchor
	}
	middle := point{r.X + r.W/2, r.Y + r.H/2}
	to = point{min(max(middle.x, own.X), own.X+own.W), min(max(middle.y, own.Y), own.Y+own.H)}
	return point{min(max(to.x, r.X), r.X+r.W), min(max(to.y, r.Y), r.Y+r.H)}, to
}

// passes reports whether the line from a to b goes through r (Liang and Barsky 1984).
func passes(a, b point, r place.Rect) bool {
	if max(a.x, b.x) <= r.X || min(a.x, b.x) >= r.X+r.W || max(a.y, b.y) <= r.Y || min(a.y, b.y) >= r.Y+r.H {
		return false
	}
	lo, hi := 0.0, 1.0
	clip := func(d, q float64) bool {
		switch {
		case d == 0:
			return q > 0
		case d < 0:
			lo = max(lo, q/d)
		default:
			hi = min(hi, q/d)
		}
		return lo < hi
	}
	dx, dy := b.x-a.x, b.y-a.y
	return clip(-dx, a.x-r.X) && clip(dx, r.X+r.W-a.x) && clip(-dy, a.y-r.Y) && clip(dy, r.Y+r.H-a.y)
}

// leaders joins labels that lie far off to what they name.
func (p *Picture) leaders() {
	p.open(`stroke="#000" stroke-width="0.15"`)
	for _, l := range p.labels {
		if l.OK && l.Leader {
			p.path(nil, false, pt(l.From), pt(l.To))
		}
	}
	p.shut()
}

func pt(q place.Point) point { return point{q.X, q.Y} }

// halo keeps a label clear of what runs behind it.
const halo = `paint-order="stroke" stroke="#fff" stroke-width="0.8" `

// label writes one label.
func (p *Picture) label(l *label) {
	if !l.OK {
		return
	}
	x, y := l.X+l.W/2, l.Y+l.H/2
	switch l.sort {
	case number:
		p.write(x, y+1.5, "middle", halo+`font-size="4.2" font-weight="bold"`, l.text)
	case chance:
		p.write(x, y+1.05, "middle", halo+`font-size="3" font-weight="bold" fill="`+wrongInk+`"`, l.text)
	case start:
		p.write(x, y+0.9, "middle", halo+`font-size="2.6"`, l.text)
	case cue:
		fmt.Fprintf(&p.svg, `<rect x="%s" y="%s" width="%s" height="%s" rx="%s" fill="%s"/>`+"\n",
			num(l.X), num(l.Y), num(l.W), num(l.H), num(l.H/2), handlerInk)
		p.write(x, y+1, "middle", `font-size="2.8" font-weight="bold" fill="#fff"`, l.text)
	}
}
