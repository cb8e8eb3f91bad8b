package sheet

import (
	"strings"

	"cuewalk/tui/sheet/drawing"
	"cuewalk/tui/words"
)

// pictureFrame is the room for a drawing on its own, in millimetres.
var pictureFrame = drawing.Frame{Width: 150, Height: 210, Key: true}

// SVG is the drawing of plan i of the page as a file of its own, with what it shows written on it.
func SVG(p Page, i int) []byte {
	f := pictureFrame
	f.Title = []string{p.Course, p.Plans[i].Name + ", for " + p.Team, p.Plans[i].Verdict}
	made, from, _ := strings.Cut(made(p), "; ")
	f.Foot = []string{words.Model, lastWord, made, upper(from)}
	return drawing.Draw(p.Plans[i].Scene, f).SVG(p.Course + ": " + p.Plans[i].Name)
}
