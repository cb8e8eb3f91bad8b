package sheet

import "unicode/utf8"

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
	{"", 6.15, 4.35, 4.6, 52},
	{"dense", 5.15, 4.1, 4.15, 57},
	{"tight", 4.4, 3.85, 3.75, 64},
}

const (
	room                = 259 - 22 - 10 // header and footer
	heading             = 7.0
	smallRow, smallLine = 3.85, 62 // rulebook and cautions
)

// density is the class of the largest size in which p fits below a drawing of that height, or
// beside it.
func density(p *Page, drawing float64, wide bool) string {
	for _, z := range sizes {
		left, right := z.left(p), z.right(p)
		if !wide && drawing+left <= room && right <= room || wide && drawing+max(left, right) <= room {
			return z.class
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
		if c.Late != "" {
			n += 7 + len(c.Late)
		}
		h += z.paceRow * rows(n, 26)
	}
	return h
}

// right is the height of the cues, the places to be careful and the rules.
func (z *size) right(p *Page) float64 {
	pl := &p.Plans[0]
	h := 2*heading + 8
	for _, c := range pl.Cues {
		h += z.cueRow
		if c.EndOfPart {
			h++
		}
	}
	for _, c := range pl.Careful {
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

// rows is how many rows of a line's letters a text of n takes.
func rows(n int, line float64) float64 { return float64(max(1, (n+int(line)-1)/int(line))) }
