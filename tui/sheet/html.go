package sheet

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"fmt"
	"html/template"

	"cuewalk/tui/sheet/drawing"
	"cuewalk/tui/words"
)

//go:embed style.css
var style string

//go:embed page.tmpl
var pageText string

// The policy lets the file use its own style and nothing else: no script, nothing from outside.
var head = func() string {
	sum := sha256.Sum256([]byte(style))
	return `<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'sha256-` + base64.StdEncoding.EncodeToString(sum[:]) + `'; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
`
}()

var templates = template.Must(template.New("").Funcs(template.FuncMap{"disc": disc}).Parse(pageText))

// disc is the number of a cue as it stands in the drawing.
func disc(label string) template.HTML {
	w := max(16, 6+7*len(label))
	return template.HTML(fmt.Sprintf(`<svg class="disc" viewBox="0 0 %d 16" width="%d" height="16"><rect width="%d" height="16" rx="8" fill="#0b4f9e"/>`+
		`<text x="%d" y="12" font-size="11.5" font-weight="bold" text-anchor="middle" fill="#fff">%s</text></svg>`, w, w, w, w/2, template.HTMLEscapeString(label)))
}

// view is a page as the template wants it.
type view struct {
	Page
	Rings     []template.HTML
	Key       template.HTML // of two drawings
	frame     drawing.Frame
	rings     []*drawing.Picture
	Late      bool // somewhere he is late
	Two, Wide bool
	Class     string
	List      list
	Caution   string
	Made      string
}

type list struct {
	Title string
	Cues  []Cue
	Note  string
}

// HTML is the page as one file that needs nothing else, set for a page of A4 or Letter and for
// a telephone.
func HTML(p Page) ([]byte, error) {
	v := view{Page: p, Two: len(p.Plans) == 2, Caution: cautionLine, Made: made(p)}
	v.arrange()
	for _, c := range p.Plans[0].Cues {
		v.Late = v.Late || c.Late != ""
	}
	v.List = list{"Cues to learn", p.Plans[0].Cues, listNote}
	var b bytes.Buffer
	b.WriteString(head)
	fmt.Fprintf(&b, "<title>%s</title>\n<style>%s</style></head>\n", template.HTMLEscapeString(p.Course), style)
	if err := templates.ExecuteTemplate(&b, "page", v); err != nil {
		return nil, err
	}
	b.WriteString("</html>\n")
	return b.Bytes(), nil
}

// What is said on every sheet.
const (
	lastWord    = "The judge, the current rulebook and your vet have the last word."
	cautionLine = words.Model + " " + lastWord
	listNote    = "“1 before 7”: a stride before its take-off or entry. “after”: after its landing or exit. left, right: the arm. !: the dog decides on a risky leg."
)

// made says what the sheet was made from.
func made(p Page) string {
	runs := "chances from " + p.Runs + " runs, seed " + p.Seed
	if p.Runs == "0" {
		runs = "chances from the likely run alone"
	}
	return fmt.Sprintf("%s. Made on %s by cuewalk %s; %s.", upper(p.Team), p.Date, p.Version, runs)
}
