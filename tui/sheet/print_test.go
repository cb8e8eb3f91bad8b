package sheet

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"github.com/ledongthuc/pdf"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
)

// browser is a Chromium that prints without a screen; the test is left out where there is none.
func browser(t *testing.T) string {
	t.Helper()
	if testing.Short() {
		t.Skip("printing takes seconds")
	}
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	t.Skip("no Chromium here: whether sheets print on one page is not checked (the package is called chromium)")
	return ""
}

// printed is a page as a PDF on paper.
func printed(t *testing.T, chromium, paper string, page []byte) string {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "page.html"), filepath.Join(dir, "page.pdf")
	// Without a screen there is nobody to choose the paper: this copy names it.
	text := strings.Replace(string(page), "</head>", "<style>@page{size:"+paper+"}</style></head>", 1)
	from := strings.Index(text, "'sha256-")
	text = text[:from] + "'unsafe-inline'" + text[from+strings.Index(text[from:], ";"):]
	require.NoError(t, os.WriteFile(in, []byte(text), 0o600))
	cmd := exec.Command(chromium, "--headless", "--no-sandbox", "--disable-gpu", "--user-data-dir="+filepath.Join(dir, "profile"),
		"--no-pdf-header-footer", "--print-to-pdf="+out, in)
	msg, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", msg)
	return out
}

// Every sheet of the demonstration is one page of A4 and of Letter (ISO 216: 210 by 297 mm; US
// Letter: 8.5 by 11 in), and all its text is on it, within margins of 9 mm.
func TestPrintsOnOnePage(t *testing.T) {
	chromium := browser(t)
	const point = 25.4 / 72 // millimetres
	size := map[string][2]float64{"A4": {210, 297}, "letter": {215.9, 279.4}}
	for name, p := range pages(t) {
		if strings.Contains(name, "jumping pip") || strings.Contains(name, "agility rook") {
			continue // a print takes seconds; the layout is the same
		}
		page, err := HTML(p)
		require.NoError(t, err)
		for paper, want := range size {
			f, doc, err := pdf.Open(printed(t, chromium, paper, page))
			require.NoError(t, err)
			assert.Equal(t, 1, doc.NumPage(), "%s on %s", name, paper)
			first := doc.Page(1)
			assert.InDelta(t, want[0], first.V.Key("MediaBox").Index(2).Float64()*point, 0.3)
			assert.InDelta(t, want[1], first.V.Key("MediaBox").Index(3).Float64()*point, 0.3)
			var text strings.Builder
			for _, g := range first.Content().Text {
				x, y := g.X*point, g.Y*point
				assert.True(t, x >= 9 && x <= want[0]-9 && y >= 9 && y <= want[1]-9, "%s on %s: %q at %.0f, %.0f mm", name, paper, g.S, x, y)
				text.WriteString(g.S)
			}
			got := bare(text.String())
			for _, s := range texts(t, page) {
				assert.True(t, strings.Contains(got, bare(s)), "%s on %s: %q is not on the page", name, paper, s)
			}
			f.Close()
		}
	}
}

// texts are the texts of a page that stand outside of drawings.
func texts(t *testing.T, page []byte) []string {
	var all []string
	visit(t, page, func(n *html.Node) {
		if n.Type != html.TextNode || strings.TrimSpace(n.Data) == "" {
			return
		}
		for up := n.Parent; up != nil; up = up.Parent {
			if up.Data == "svg" || up.Data == "head" {
				return
			}
		}
		all = append(all, n.Data)
	})
	require.NotEmpty(t, all)
	return all
}

// bare is a text without what printing may alter: blanks and where lines break.
func bare(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || r == '\u00ad' {
			return -1
		}
		return r
	}, s)
}
