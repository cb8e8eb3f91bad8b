package sheet

import (
	"html/template"
	"slices"
	"unicode/utf8"

	"cuewalk/tui/sheet/drawing"
)

// The page is set in one of a few sizes, the largest in which it fits on both A4 and Letter,
// with margins of 10 mm: a block of 190 by 259 mm (ISO 216; US Letter). Rows are in
// millimetres, as measured in print; where nothing fits, the smallest goes on to a second page.
type size struct {
	class             string
	cueRow, paceRow   float64
	textRow, textLine float64 // a row of running text and how many letters go into it
}

var sizes = []size{
	{"roomy", 8.3, 4.8, 4.6, 52},
	{"plain", 6.15, 4.35, 4.6, 52},
	{"dense", 5.15, 4.1, 4.15, 57},
	{"tight", 4.4, 3.85, 3.75, 64},
}

const (
	room                = 259 - 22 - 15 // header and footer
	heading             = 7.0
	smallRow, smallLine = 3.85, 62 // rulebook and cautions
)

// Sizes of drawings in millimetres.
const (
	besideCues           = 90.0 // breadth beside the cues
	leastHigh, mostHigh  = 95.0, 150.0
	wideBroad            = 190.0
	wideBeside, wideHigh = 126.0, 112.0 // of a wide ring
	halfBroad            = 92.0         // breadth of each of two
	leastHalf, mostHalf  = 70.0, 118.0
	roomyHalf            = 95.0 // below this, one place less to be careful is named
	careOfTwo, leastCare = 2, 1
)

// arrange decides where what stands, and how large.
func (v *view) arrange() {
	c := v.Plans[0].Scene.Course
	v.Wide = !v.Two && c.Ring.X > 1.05*c.Ring.Y
	switch {
	case v.Two:
		v.arrangeTwo()
	case v.Wide:
		v.frame = drawing.Frame{Width: wideBeside, Height: wideHigh, Key: true}
		v.draw()
		high := max(v.rings[0].Height, beside(&v.Page))
		v.Class = "walk-" + fits(room-high, func(z *size) float64 { return z.left(&v.Page) }) +
			" cue-" + fits(room-high, func(z *size) float64 { return z.list(&v.Page) })
	default:
		most := min(mostHigh, max(leastHigh, room-sizes[1].left(&v.Page)))
		v.frame = drawing.Frame{Width: besideCues, Height: most, Key: true}
		v.draw()
		high := v.rings[0].Height
		v.Class = "walk-" + fits(room-high, func(z *size) float64 { return z.left(&v.Page) }) +
			" cue-" + fits(room, func(z *size) float64 { return z.right(&v.Page) })
	}
}

func (v *view) arrangeTwo() {
	v.Class = "two"
	v.Plans = slices.Clone(v.Plans)
	high := 0.0
	for most := careOfTwo; most >= leastCare && high < roomyHalf; most-- {
		for i := range v.Plans {
			v.Plans[i].Careful = v.Plans[i].Careful[:min(most, len(v.Plans[i].Careful))]
		}
		high = half(&v.Page)
	}
	v.frame = drawing.Frame{Width: halfBroad, Height: high}
	v.draw()
	v.Key = template.HTML(drawing.Key(wideBroad, v.Plans[0].Scene, v.Plans[1].Scene).SVG("what the signs mean"))
}

// draw draws the ring of each plan.
func (v *view) draw() {
	for i := range v.Plans {
		ring := drawing.Draw(v.Plans[i].Scene, v.frame)
		v.rings = append(v.rings, ring)
		v.Rings = append(v.Rings, template.HTML(ring.SVG(v.Course+": "+v.Plans[i].Name)))
	}
}

// fits is the name of the largest size in which something is at most high.
func fits(high float64, of func(z *size) float64) string {
	for i := range sizes {
		if of(&sizes[i]) <= high {
			return sizes[i].class
		}
	}
	return sizes[len(sizes)-1].class
}

// left is the height of the numbers to pace out.
func (z *size) left(p *Page) float64 {
	h := heading + 12
	for _, c := range p.Plans[0].Cues {
		if c.Pace == nil && c.Also == nil && c.Late == "" {
			continue
		}
		n := 0
		if c.Pace != nil {
			n = len(c.Pace.Toward)
		}
		for _, a := range c.Also {
			n += 2 + len(a)
		}
		h += z.paceRow * rows(n, 22)
	}
	return h
}

// right is the height of the cues, the places to be careful and the rules.
func (z *size) right(p *Page) float64 {
	h := z.list(p) + heading
	for _, c := range p.Plans[0].Careful {
		h += 1.5 + z.textRow*rows(6+utf8.RuneCountInString(c.Leg+c.What+c.Chance+c.Because), z.textLine)
	}
	if n := len(p.Findings) + len(p.Cautions); n > 0 {
		h += heading
	}
	for _, list := range [2][]string{p.Findings, p.Cautions} {
		for _, s := range list {
			h += 0.3 + smallRow*rows(utf8.RuneCountInString(s), smallLine)
		}
	}
	return h
}

// list is the height of the cues.
func (z *size) list(p *Page) float64 {
	h := heading + 8
	for _, c := range p.Plans[0].Cues {
		h += z.cueRow
		if c.EndOfPart {
			h++
		}
	}
	return h
}

// beside is the height of what stands beside the drawing of a wide ring.
func beside(p *Page) float64 {
	const line = 36 // letters in a row
	h := 2 * heading
	for _, c := range p.Plans[0].Careful {
		h += 1.5 + 4.1*rows(6+utf8.RuneCountInString(c.Leg+c.What+c.Chance+c.Because), line)
	}
	for _, list := range [2][]string{p.Findings, p.Cautions} {
		for _, s := range list {
			h += 0.3 + smallRow*rows(utf8.RuneCountInString(s), line)
		}
	}
	return h
}

// twoLine is how many letters go into a row of half the page.
const twoLine = 60

// half is the height that two plans leave for their drawings.
func half(p *Page) float64 {
	const above, row = 15.0 + 13 + 7, 4.5
	h := above + 2*heading + 13 + 6 + 4
	for _, d := range p.Differences.Cues {
		h += row * max(rows(len(d.A.Text), 52), rows(len(d.B.Text), 52))
	}
	care := 0.0
	for i := range p.Plans {
		sum := heading
		for _, c := range p.Plans[i].Careful {
			sum += 1 + 3.9*rows(6+utf8.RuneCountInString(c.Leg+c.What+c.Chance+c.Because), twoLine)
		}
		care = max(care, sum)
	}
	for _, list := range [2][]string{p.Findings, p.Cautions} {
		for _, s := range list {
			h += 0.3 + smallRow*rows(utf8.RuneCountInString(s), 2*smallLine)
		}
	}
	return min(mostHalf, max(leastHalf, 259-14-h-care))
}

// rows is how many rows of a line's letters a text of n takes.
func rows(n int, line float64) float64 { return float64(max(1, (n+int(line)-1)/int(line))) }
