package drawing

// sign is a sign of the drawing and what it means, with the breadth it takes in the key.
type sign struct {
	means string
	room  float64
	draw  func(p *Picture, x, y float64)
}

// keyLetter is the mean breadth of a letter in the key, in millimetres.
const keyLetter = 1.38

// signs are the signs that this scene has.
func (p *Picture) signs() []sign {
	s := &p.scene
	var all []sign
	add := func(has bool, means string, draw func(p *Picture, x, y float64)) {
		if has {
			all = append(all, sign{means, 9 + keyLetter*float64(len(means)), draw})
		}
	}
	add(len(s.Dog) > 0, "dog, a tick a stride", func(p *Picture, x, y float64) {
		p.styled(nil, `stroke="#000" stroke-width="0.5"`, false, point{x, y}, point{x + 6, y})
		for _, d := range [2]float64{1.7, 4.3} {
			p.styled(nil, `stroke="#000" stroke-width="0.25"`, false, point{x + d, y - .75}, point{x + d, y + .75})
		}
	})
	add(len(s.Handler) > 1, "handler", func(p *Picture, x, y float64) {
		p.styled(nil, `stroke="`+handlerInk+`" stroke-width="0.4" stroke-linecap="butt" stroke-dasharray="1.5 0.9"`, false, point{x, y}, point{x + 6, y})
	})
	add(len(s.Stands) > 0, "cue: nose, arm", func(p *Picture, x, y float64) {
		p.ellipse(x+3, y)
	})
	short := false
	for _, st := range s.Stands {
		short = short || st.Short
	}
	add(short, "he gets this far", func(p *Picture, x, y float64) {
		for _, k := range [2]float64{-1, 1} {
			p.styled(nil, `stroke="`+handlerInk+`" stroke-width="0.35"`, false, point{x + 2.3, y - .7*k}, point{x + 3.7, y + .7*k})
		}
	})
	add(len(s.Wrong) > 0, "wrong way, its chance", func(p *Picture, x, y float64) {
		p.styled(nil, `stroke="`+wrongInk+`" stroke-width="0.8" stroke-dasharray="0 1.5"`, false, point{x, y}, point{x + 4.5, y})
		p.styled(nil, `fill="`+wrongInk+`"`, true, point{x + 6.5, y}, point{x + 4.5, y - 1}, point{x + 4.5, y + 1})
	})
	add(len(s.Shadows) > 0, "hidden by the handler", func(p *Picture, x, y float64) {
		p.styled(nil, `fill="#ececec" stroke="#555" stroke-width="0.15" stroke-dasharray="0.6 0.6"`, true,
			point{x, y - 1}, point{x + 6, y - 1.3}, point{x + 6, y + 1.3}, point{x, y + 1})
	})
	return all
}

func (p *Picture) ellipse(x, y float64) {
	p.svg.WriteString(`<ellipse cx="` + num(x) + `" cy="` + num(y) + `" rx="1.35" ry="0.7" fill="` + handlerInk + `"/>` + "\n")
	p.styled(nil, `fill="`+handlerInk+`"`, true, point{x - .6, y - .5}, point{x, y - 1.75}, point{x + .6, y - .5})
	p.styled(nil, `stroke="`+handlerInk+`" stroke-width="0.5"`, false, point{x + 1.2, y}, point{x + 2.6, y - 1.1})
}

// keyRows is how many rows the key takes.
func (p *Picture) keyRows() int {
	rows, x := 0, p.Width
	for _, s := range p.signs() {
		if x+s.room > p.Width {
			rows, x = rows+1, 0
		}
		x += s.room
	}
	return rows
}

// key writes the key from y down.
func (p *Picture) key(y float64) {
	x := p.Width
	y -= keyLine
	for _, s := range p.signs() {
		if x+s.room > p.Width {
			x, y = 0, y+keyLine
		}
		s.draw(p, x+0.5, y)
		p.write(x+8, y+0.9, "start", `font-size="2.7"`, s.means)
		x += s.room
	}
}

// Key is a picture of what the signs of some scenes mean, as broad as width in millimetres.
func Key(width float64, scenes ...Scene) *Picture {
	p := &Picture{Width: width, ink: newInk(1, 1)}
	for _, s := range scenes {
		t := &p.scene
		t.Dog, t.Handler = append(t.Dog, s.Dog...), append(t.Handler, s.Handler...)
		t.Stands, t.Wrong, t.Shadows = append(t.Stands, s.Stands...), append(t.Wrong, s.Wrong...), append(t.Shadows, s.Shadows...)
	}
	p.Height = keyLine * float64(p.keyRows())
	p.key(2.6)
	return p
}

// writing writes title, key and foot.
func (p *Picture) writing(f Frame, rows int) {
	for i, line := range f.Title {
		style, letter := `font-size="3.4"`, 1.75
		if i == 0 {
			style, letter = `font-size="4.4" font-weight="bold"`, 2.5
		}
		p.write(rulerLeft, titleLine*float64(i+1)-0.2, "start", style, p.cut(line, letter))
	}
	if rows > 0 {
		p.key(p.Height - footLine*float64(len(f.Foot)) - keyLine*float64(rows) + 2.6)
	}
	for i, line := range f.Foot {
		p.write(rulerLeft, p.Height-footLine*float64(len(f.Foot)-i)+2.6, "start", `font-size="2.7"`, p.cut(line, 1.4))
	}
}

// cut shortens a line that is too long for the picture, whose letters are so broad.
func (p *Picture) cut(line string, letter float64) string {
	most := max(1, int((p.Width-rulerLeft)/letter))
	if r := []rune(line); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return line
}
