package drawing

import (
	"encoding/xml"
	"fmt"
	"strings"
)

// nib is how what is drawn counts when labels look for room.
type nib struct {
	half float64 // half the breadth in millimetres
	layer
}

func (p *Picture) open(attributes string) { p.svg.WriteString("<g " + attributes + ">\n") }
func (p *Picture) shut()                  { p.svg.WriteString("</g>\n") }

// path draws a chain of straight lines, closed where asked; n is nil for what labels may
// cover.
func (p *Picture) path(n *nib, closed bool, pts ...point) {
	p.svg.WriteString(`<path d="`)
	p.chain(closed, pts)
	p.svg.WriteString("\"/>\n")
	p.mark(n, closed, pts)
}

// styled is path with attributes of its own.
func (p *Picture) styled(n *nib, attributes string, closed bool, pts ...point) {
	p.svg.WriteString(`<path ` + attributes + ` d="`)
	p.chain(closed, pts)
	p.svg.WriteString("\"/>\n")
	p.mark(n, closed, pts)
}

func (p *Picture) chain(closed bool, pts []point) {
	for i, q := range pts {
		switch i {
		case 0:
			p.svg.WriteByte('M')
		case 1:
			p.svg.WriteByte('L')
		default:
			p.svg.WriteByte(' ')
		}
		p.svg.WriteString(num(q.x) + " " + num(q.y))
	}
	if closed {
		p.svg.WriteByte('Z')
	}
}

func (p *Picture) mark(n *nib, closed bool, pts []point) {
	if n == nil {
		return
	}
	for i := 1; i < len(pts); i++ {
		p.ink.stroke(pts[i-1], pts[i], n.half, n.layer)
	}
	if closed && len(pts) > 1 {
		p.ink.stroke(pts[len(pts)-1], pts[0], n.half, n.layer)
	}
}

// disc draws a circle.
func (p *Picture) disc(n *nib, attributes string, at point, r float64) {
	fmt.Fprintf(&p.svg, `<circle cx="%s" cy="%s" r="%s"%s/>`+"\n", num(at.x), num(at.y), num(r), spaced(attributes))
	if n != nil {
		p.ink.spot(at, r+n.half, n.layer)
	}
}

func spaced(attributes string) string {
	if attributes == "" {
		return ""
	}
	return " " + attributes
}

// text writes s with its base line at y; anchor is start, middle or end.
func (p *Picture) text(x, y float64, anchor, s string) { p.write(x, y, anchor, "", s) }

func (p *Picture) write(x, y float64, anchor, attributes, s string) {
	if anchor != "start" {
		attributes += ` text-anchor="` + anchor + `"`
	}
	fmt.Fprintf(&p.svg, `<text x="%s" y="%s"%s>%s</text>`+"\n", num(x), num(y), spaced(strings.TrimSpace(attributes)), escape(s))
}

// escape makes s text of an XML document.
func escape(s string) string {
	var b strings.Builder
	xml.EscapeText(&b, []byte(s)) // a strings.Builder never fails
	return b.String()
}
