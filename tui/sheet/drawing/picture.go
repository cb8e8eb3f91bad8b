package drawing

import (
	"bytes"
	"fmt"
	"math"
	"strconv"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/tui/place"
)

// Frame is the room a picture is to fill, in millimetres, and what is written round it.
type Frame struct {
	Width, Height float64  // most it may take, what is written included
	Title         []string // lines above the ring, the first one large
	Foot          []string // lines below the ring
	Key           bool     // say below the ring what the signs mean
}

// Picture is a ring laid out.
type Picture struct {
	Width, Height float64 // millimetres
	Scale         float64 // millimetres of print for one metre

	svg       bytes.Buffer
	scene     Scene
	left, top float64 // upper left corner of the ring
	ink       *ink
	labels    []label
}

// Margins round the ring, in millimetres: for the figures of the grid, and the other sides.
const (
	rulerLeft, rulerBelow = 6.0, 4.5
	marginRight           = 6.5
	marginTop             = 3.0
	titleLine, footLine   = 5.2, 3.8
	keyLine               = 4.6
)

// point is a place on the picture.
type point struct{ x, y float64 }

// Draw lays s out in f. The course must have a ring with a width and a length above 0.
func Draw(s Scene, f Frame) *Picture {
	p := &Picture{scene: s}
	above := marginTop + titleLine*float64(len(f.Title))
	below := rulerBelow + footLine*float64(len(f.Foot))
	ring := s.Course.Ring
	rows := 0
	p.Width = f.Width
	for range 3 { // a narrower picture may need more rows for the key
		if f.Key {
			rows = p.keyRows()
		}
		p.Scale = min((f.Width-rulerLeft-marginRight)/ring.X, (f.Height-above-below-keyLine*float64(rows))/ring.Y)
		p.Width = rulerLeft + marginRight + ring.X*p.Scale
	}
	p.left, p.top = rulerLeft, above
	p.Height = above + below + keyLine*float64(rows) + ring.Y*p.Scale
	p.ink = newInk(p.Width, p.Height)

	p.grid()
	for _, h := range s.Shadows {
		p.shadow(h)
	}
	p.handlerWay()
	p.dogLine()
	for _, w := range s.Wrong {
		p.wrongWay(w)
	}
	for i := range s.Course.Obstacles {
		p.obstacle(i)
	}
	for _, st := range s.Stands {
		p.stand(st)
	}
	p.letter()
	p.writing(f, rows)
	return p
}

// SVG is the picture as a stand-alone SVG document, or as an element within a page. name is
// what it shows, for those who cannot see it.
func (p *Picture) SVG(name string) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s" role="img" font-family="Helvetica, Arial, sans-serif" stroke-linecap="round" stroke-linejoin="round">`,
		num(p.Width), num(p.Height), num(p.Width), num(p.Height))
	b.WriteString("\n<title>" + escape(name) + "</title>\n")
	fmt.Fprintf(&b, `<rect width="%s" height="%s" fill="#fff"/>`+"\n", num(p.Width), num(p.Height))
	b.Write(p.svg.Bytes())
	b.WriteString("</svg>\n")
	return b.Bytes()
}

// at is a place on the map.
func (p *Picture) at(q geom.Point) point {
	return point{p.left + q.X*p.Scale, p.top + (p.scene.Course.Ring.Y-q.Y)*p.Scale}
}

// num writes millimetres to hundredths, as short as can be.
func num(x float64) string {
	x = math.Round(x*100) / 100
	if x == 0 {
		return "0" // never -0
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// gridStep is how far the lines of the grid lie apart, in metres.
func gridStep(u course.Units) float64 {
	if u == course.Feet {
		return 10 * course.FootLength
	}
	return 5
}

// grid draws the edge of the ring, thin lines and their figures.
func (p *Picture) grid() {
	c := p.scene.Course
	step, unit := gridStep(c.Units), c.Units.Factor()
	ring := c.Ring
	p.open(`fill="none" stroke="#c4c4c4" stroke-width="0.12"`)
	for x := step; x < ring.X-1e-9; x += step {
		p.path(nil, false, p.at(geom.Point{X: x}), p.at(geom.Point{X: x, Y: ring.Y}))
	}
	for y := step; y < ring.Y-1e-9; y += step {
		p.path(nil, false, p.at(geom.Point{Y: y}), p.at(geom.Point{X: ring.X, Y: y}))
	}
	p.shut()
	a, b := p.at(geom.Point{Y: ring.Y}), p.at(geom.Point{X: ring.X}) // upper left, lower right
	fmt.Fprintf(&p.svg, `<rect x="%s" y="%s" width="%s" height="%s" fill="none" stroke="#000" stroke-width="0.3"/>`+"\n",
		num(a.x), num(a.y), num(b.x-a.x), num(b.y-a.y))
	p.open(`font-size="2.6" fill="#444"`)
	for x := 0.0; x <= ring.X+1e-9; x += step {
		at := p.at(geom.Point{X: x})
		s := strconv.Itoa(int(math.Round(x / unit)))
		if x == 0 {
			s += " " + c.Units.String()
		}
		p.text(at.x, at.y+3.2, "middle", s)
		p.ink.box(place.Rect{X: at.x - 2, Y: at.y + 1, W: 4, H: 2.5})
	}
	for y := step; y <= ring.Y+1e-9; y += step {
		at := p.at(geom.Point{Y: y})
		p.text(at.x-1, at.y+0.9, "end", strconv.Itoa(int(math.Round(y/unit))))
		p.ink.box(place.Rect{X: at.x - 5, Y: at.y - 1.2, W: 4.2, H: 2.4})
	}
	p.shut()
}

func (p *Picture) bounds() place.Rect {
	r := p.scene.Course.Ring
	return place.Rect{X: 0.2, Y: p.top - 2.8, W: p.Width - 0.4, H: r.Y*p.Scale + 2.8}
}
