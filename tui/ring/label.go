package ring

import (
	"math"
	"strconv"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/sim"
	"cuewalk/tui/canvas"
	"cuewalk/tui/place"
)

// tag is a text waiting for its place.
type tag struct {
	text  string
	role  canvas.Role
	mark  mark
	owner int // obstacle that it belongs to
}

// Costs of a place for a label, in steps away from what it names: a blank cell costs nothing.
var coverCost = [...]float64{
	blank: 0, shade: .1, sight: .2, edge: .4, ground: .3, before: .6, handlerWay: .8, wrongWay: 2, dogLine: 3, dogArrow: 7,
	leader: 3, obstacleInk: 40, obstacleKey: 60, figure: place.Never, label: place.Never, ruler: place.Never,
}

const (
	touchCost   = 0.9 // of an obstacle's stroke right beside the text, which is harder to read
	foreignCost = 2.0 // of each cell of another obstacle around the text: whose number is it?
	foreignMost = 4.0 // of all of them: a number far off with a leader is no clearer
)

// labels places every number in view beside its obstacle, then the chances of what goes wrong.
func (d *pen) labels() {
	var tags []tag
	var labels []place.Label
	add := func(t tag, anchor place.Rect, toward geom.Point) {
		tags = append(tags, t)
		labels = append(labels, place.Label{W: float64(len(t.text)), H: 1, Anchor: anchor, Toward: place.Point(toward)})
	}
	d.numbers(add)
	d.chances(add)
	c := coster{d, tags}
	for i, p := range place.Labels(labels, place.Options{
		Bounds: place.Rect{W: float64(d.w), H: float64(d.h)}, Step: place.Point{X: 1, Y: 1}, Most: 9, Cross: 8,
		Gap: place.Point{X: 1}, Snap: true, Side: 1.6, Far: 1, Turn: .03, Cost: c.cost,
	}) {
		if p.OK {
			d.tag(&tags[i], p)
		}
	}
}

// tag writes a text where it was placed, with its leader.
func (d *pen) tag(t *tag, p place.Placed) {
	for i, r := range t.text {
		d.put(int(p.X)+i, int(p.Y), ink{sign: r, role: t.role, mark: t.letter(r), rank: label})
	}
	if t.mark != chanceMark {
		d.lead(t, int(p.X), int(p.Y))
	}
}

// A number this near to a cell of its obstacle needs no leader.
const besideX, besideY = 2, 1

// lead joins the text at x, y to the nearest cell of its obstacle where it does not lie beside it.
func (d *pen) lead(t *tag, x, y int) {
	b, n := d.boxes[t.owner], len(t.text)
	best, bx, by := math.Inf(1), 0, 0
	for j := b.y0; j < b.y1; j++ {
		for i := b.x0; i < b.x1; i++ {
			if d.cell(i, j).owner != int16(t.owner+1) {
				continue
			}
			dx, dy := max(x-i, i-(x+n-1), 0), max(y-j, j-y)
			if dx <= besideX && dy <= besideY {
				return
			}
			if far := math.Hypot(float64(dx), canvas.Aspect*float64(dy)); far < best {
				best, bx, by = far, i, j
			}
		}
	}
	if math.IsInf(best, 1) {
		return
	}
	from := canvas.Pt{X: float64(min(max(bx, x), x+n-1)) + .5, Y: float64(y) + .5}
	to := canvas.Pt{X: float64(bx) + .5, Y: float64(by) + .5}
	sign := ','
	if d.fine {
		sign = 0
		d.p.Line(from, to, canvas.Dotted, canvas.Quiet)
	}
	cells(from, to, func(i, j int) { d.sign(i, j, sign, leaderMark, leader) })
}

// letter is what one sign of the text means.
func (t *tag) letter(r rune) mark {
	switch {
	case r == '?':
		return hiddenMark
	case r == '{' || r == '}':
		return chosenMark
	}
	return t.mark
}

// numbers lists the course numbers in view, from the leg's own on: those get the best places.
func (d *pen) numbers(add func(tag, place.Rect, geom.Point)) {
	c := d.Setup.Course
	if !d.Layers.Has(Course) {
		return
	}
	for k := range c.Order {
		n := (k+max(d.Leg, 1)-1)%len(c.Order) + 1
		e := c.Entry(n)
		if anchor, ok := d.anchor(&e); ok {
			add(d.number(n, e.Obstacle), anchor, d.Camera.towards(e.Heading).Mul(-1))
		}
	}
	for i := range c.Obstacles {
		if b := d.boxes[i]; d.dummy(i) && !b.empty() && (d.hidden(i) || d.isChosen(i)) {
			add(d.nameless(i), cellsOf(b), geom.Point{})
		}
	}
}

// number is the text for course number n at obstacle i.
func (d *pen) number(n, i int) tag {
	t := tag{strconv.Itoa(n), canvas.Plain | canvas.Strong, numberMark, i}
	switch {
	case n == d.Leg:
		t.text, t.role, t.mark = "["+t.text+"]", canvas.Right|canvas.Strong, rightMark
	case d.isWrong(i) && i != d.right:
		t.role = canvas.Wrong
	case d.hidden(i):
		t.role = canvas.Hidden
	case d.Leg > 0 && n < d.Leg:
		t.role = canvas.Plain
	}
	if d.hidden(i) {
		t.text += "?"
	}
	if d.isChosen(i) {
		t.text = "{" + t.text + "}"
		t.role |= canvas.Chosen
	}
	return t
}

// nameless marks a dummy that is hidden or chosen.
func (d *pen) nameless(i int) tag {
	t := tag{"", canvas.Hidden, hiddenMark, i}
	if d.hidden(i) {
		t.text = "?"
	}
	if d.isChosen(i) {
		t.text, t.role = "{"+t.text+"}", canvas.Plain|canvas.Chosen
	}
	return t
}

// anchor is the cells of an obstacle at which it is taken by e; ok is false out of view.
func (d *pen) anchor(e *course.Entry) (place.Rect, bool) {
	b := d.boxes[e.Obstacle]
	at := d.at(e.At)
	x, y := cellOf(at)
	if b.empty() { // nothing of it is drawn
		return place.Rect{X: float64(x), Y: float64(y), W: 1, H: 1}, d.Bare && d.inView(at)
	}
	x, y = min(max(x, b.x0), b.x1-1), min(max(y, b.y0), b.y1-1)
	return place.Rect{X: float64(x), Y: float64(y), W: 1, H: 1}, true
}

func cellsOf(b rect) place.Rect {
	return place.Rect{X: float64(b.x0), Y: float64(b.y0), W: float64(b.x1 - b.x0), H: float64(b.y1 - b.y0)}
}

// chances lists how likely each told fault is, at what it takes.
func (d *pen) chances(add func(tag, place.Rect, geom.Point)) {
	if d.Bare {
		return
	}
	d.told(func(f *sim.Fault) {
		p, ok := d.end(f)
		if at := d.at(p); ok && d.inView(at) {
			add(tag{percent(f.Chance), canvas.Wrong | canvas.Strong, chanceMark, f.Obstacle},
				place.Rect{X: math.Floor(at.X), Y: math.Floor(at.Y), W: 1, H: 1}, geom.Point{})
		}
	})
}

// coster says what a place on the sheet costs.
type coster struct {
	*pen
	tags []tag
}

func (c coster) cost(i int, r place.Rect) float64 {
	x, y, n := int(r.X), int(r.Y), int(r.W)
	own := int16(c.tags[i].owner + 1)
	sum := 0.0
	for k := range n {
		sum += coverCost[c.cell(x+k, y).rank]
	}
	if sum >= place.Never {
		return sum
	}
	for _, beside := range [2]int{x - 1, x + n} {
		if k := c.cell(beside, y); k.owner != 0 || k.rank == figure || k.rank == edge {
			sum += touchCost
		}
	}
	foreign := 0.0
	for dy := -1; dy <= 1; dy++ {
		for dx := -1; dx <= n; dx++ {
			if k := c.cell(x+dx, y+dy); k.owner != 0 && k.owner != own {
				foreign += foreignCost
			}
		}
	}
	return sum + min(foreign, foreignMost)
}
