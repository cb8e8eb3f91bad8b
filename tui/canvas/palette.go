package canvas

import (
	"strconv"
	"strings"

	"github.com/muesli/termenv"
)

// Palette turns each Role into the escape sequence that starts it. Make one when the
// colours of the terminal are known, not per frame. It is never changed after that.
type Palette struct {
	start [256]string // complete: begins with a reset, so one sequence changes any style to any other
	inks  [256]bool   // whether a blank in this role can be seen (reversed or underlined)
	reset string
}

// tone is one role's colour on one kind of background.
type tone struct {
	ansi int    // SGR number for 16 colours; 0 is the terminal's own foreground
	hex  string // for 256 and true colour; "" is the terminal's own foreground
}

// look is how one role is drawn. The additions Strong and Chosen come on top.
type look struct {
	dark, light     tone
	bold, underline bool // in colour
	monoBold        bool // where there are no colours
	monoUnderline   bool
}

// looks keeps to an orange-blue family: those stay apart in all three kinds of colour
// blindness. The hues start from the set of Okabe and Ito (2008, from memory), shifted
// until each reached 4.5:1 against its backgrounds.
var looks = [roleCount]look{
	Plain:    {},
	Dog:      {bold: true, monoBold: false},
	Handler:  {dark: tone{35, "#f0c0dc"}, light: tone{35, "#9c2f6f"}},
	Right:    {dark: tone{96, "#3fa9ff"}, light: tone{34, "#0055b0"}},
	Wrong:    {dark: tone{91, "#ff7a33"}, light: tone{31, "#a02800"}, bold: true, monoBold: true},
	Hidden:   {dark: tone{37, "#a8a0b4"}, light: tone{90, "#5f5a66"}},
	Caution:  {dark: tone{33, "#e3b55a"}, light: tone{33, "#7a5600"}},
	Quiet:    {dark: tone{37, "#a0a0a0"}, light: tone{90, "#666666"}},
	Title:    {bold: true, monoUnderline: true},
	Key:      {dark: tone{36, "#8cc8d8"}, light: tone{36, "#1f6473"}, monoBold: true},
	Obstacle: {},
	Track:    {dark: tone{37, "#a8a8a8"}, light: tone{90, "#5c5c5c"}},
	Altered:  {dark: tone{33, "#e3b55a"}, light: tone{33, "#7a5600"}, underline: true, monoUnderline: true},
}

// NewPalette makes the palette for a terminal with these colours and a dark or light
// background. For termenv.Ascii no role gives any escape sequence at all.
func NewPalette(profile termenv.Profile, dark bool) *Palette {
	if profile == termenv.Ascii {
		return &Palette{}
	}
	return newPalette(func(l look) []string {
		t := l.light
		if dark {
			t = l.dark
		}
		return attributes(l.bold, l.underline, t.sgr(profile))
	})
}

// NewMono makes the palette for a terminal that has styles but should show no colour, as
// when NO_COLOR is set: bold, underline and reverse only, for faint is unreadable on some.
func NewMono() *Palette {
	return newPalette(func(l look) []string { return attributes(l.monoBold, l.monoUnderline, "") })
}

func newPalette(of func(look) []string) *Palette {
	p := &Palette{reset: "\x1b[0m"}
	for i := range p.start {
		role := Role(i)
		attrs := of(looks[role.base()])
		underlined := len(attrs) > 0 && attrs[len(attrs)-1] == "4"
		if role&Strong != 0 && (len(attrs) == 0 || attrs[0] != "1") {
			attrs = append([]string{"1"}, attrs...)
		}
		if role&Chosen != 0 {
			attrs = append(attrs, "7")
		}
		if len(attrs) > 0 {
			p.start[i] = "\x1b[0;" + strings.Join(attrs, ";") + "m"
		}
		p.inks[i] = role&Chosen != 0 || underlined
	}
	return p
}

// attributes lists SGR parameters: bold first, underline last.
func attributes(bold, underline bool, colour string) []string {
	var a []string
	if bold {
		a = append(a, "1")
	}
	if colour != "" {
		a = append(a, colour)
	}
	if underline {
		a = append(a, "4")
	}
	return a
}

func (t tone) sgr(profile termenv.Profile) string {
	switch {
	case profile == termenv.ANSI && t.ansi != 0:
		return strconv.Itoa(t.ansi)
	case profile == termenv.ANSI || t.hex == "":
		return ""
	}
	return profile.Color(t.hex).Sequence(false)
}
