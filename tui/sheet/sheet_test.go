package sheet

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/base64"
	"encoding/xml"
	"errors"
	"io"
	"maps"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/plan"
	"cuewalk/plan/team"
	"cuewalk/sim"
	"cuewalk/tui/sheet/drawing"
)

// demo rehearses plans of the demonstration over a few seeded runs.
func demo(t testing.TB, runs int, ring, who string, plans ...string) []*sim.Rehearsal {
	t.Helper()
	read := func(name string) []byte {
		b, err := os.ReadFile(filepath.Join("..", "..", "testdata", "demo", name))
		require.NoError(t, err)
		return b
	}
	tm, err := team.Parse(who, read(who+".toml"))
	require.NoError(t, err)
	tm.Handler.Step = 0.75
	c, err := course.Parse(ring, read(ring+".toml"))
	require.NoError(t, err)
	var out []*sim.Rehearsal
	for _, name := range plans {
		p, err := plan.Parse(name, read(ring+"-"+name+".toml"), c, tm)
		require.NoError(t, err)
		s := sim.New(c, p, tm)
		r := s.Rehearse()
		if runs > 0 {
			tally, err := s.RunMany(context.Background(), 1, runs, nil)
			require.NoError(t, err)
			r = r.With(tally)
		}
		out = append(out, r)
	}
	return out
}

var rings, people = []string{"meadow-jumping", "meadow-agility"}, []string{"rook", "pip"}

// pages are the demonstration's sheets: each course, team and plan, and both plans together.
func pages(t testing.TB) map[string]Page {
	if made := maps.Clone(demos); made != nil {
		return made
	}
	all := map[string]Page{}
	for _, ring := range rings {
		for _, who := range people {
			for _, plans := range [][]string{{"a"}, {"b"}, {"a", "b"}} {
				all[ring+" "+who+" "+strings.Join(plans, "")] = Of("2026-05-01", "v1.2.3", demo(t, 40, ring, who, plans...)...)
			}
		}
	}
	demos = maps.Clone(all)
	return all
}

// demos keeps the pages: making them takes most of the time.
var demos map[string]Page

// visit calls f for every node of a page, parsed as browsers do (golang.org/x/net/html).
func visit(t *testing.T, page []byte, f func(*html.Node)) {
	t.Helper()
	doc, err := html.Parse(bytes.NewReader(page))
	require.NoError(t, err)
	for n := range doc.Descendants() {
		f(n)
	}
}

func attribute(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

// requireHarmless checks that a page holds nothing that runs, loads or sends, and that its
// policy allows its own style and nothing else.
func requireHarmless(t *testing.T, page []byte) {
	t.Helper()
	policy, style := "", ""
	known := strings.Fields("html head meta title style body main header h1 h2 p b bdi div section table tbody tr td th footer svg g rect path circle ellipse text")
	visit(t, page, func(n *html.Node) {
		if n.Type != html.ElementNode {
			return
		}
		require.Contains(t, known, n.Data)
		for _, a := range n.Attr {
			require.False(t, strings.HasPrefix(a.Key, "on") || slices.Contains([]string{"href", "src", "style", "action"}, a.Key), "%s %s", n.Data, a.Key)
			require.NotContains(t, a.Val, "ZgotmplZ")
		}
		switch {
		case n.Data == "meta" && attribute(n, "http-equiv") == "Content-Security-Policy":
			policy = attribute(n, "content")
		case n.Data == "style":
			style += n.FirstChild.Data
		}
	})
	sum := sha256.Sum256([]byte(style))
	require.Equal(t, "default-src 'none'; style-src 'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'; base-uri 'none'; form-action 'none'", policy)
	require.NotContains(t, style, "url(")
	require.NotContains(t, style, "@import")
}

func TestPagesAreWholeAndHarmless(t *testing.T) {
	for name, p := range pages(t) {
		page, err := HTML(p)
		require.NoError(t, err)
		requireHarmless(t, page)
		assert.Less(t, len(page), 300_000, name)
		text := shown(t, page)
		for _, want := range []string{p.Course, p.Team, p.Plans[0].Name, p.Date, p.Version, "seed 1", "Likelihoods from a model", "The judge, the current rulebook and your vet"} {
			assert.True(t, strings.Contains(text, want), "%s: no %q", name, want)
		}
		if len(p.Plans) == 1 {
			for _, c := range p.Plans[0].Cues {
				assert.True(t, strings.Contains(text, c.Moment), "%s: no %q", name, c.Moment)
			}
		}
	}
}

// shown is the text of a page.
func shown(t *testing.T, page []byte) string {
	var b strings.Builder
	visit(t, page, func(n *html.Node) {
		if n.Type == html.TextNode && n.Parent.Data != "style" && n.Parent.Data != "title" {
			b.WriteString(n.Data)
			b.WriteByte(' ')
		}
	})
	return strings.Join(strings.Fields(b.String()), " ")
}

// The drawing shows the run of the simulator: dog and handler at every sample lie on a drawn
// line, every stand and wrong way is where the simulator has it.
func TestDrawingIsTheRun(t *testing.T) {
	for _, ring := range rings {
		r := demo(t, 0, ring, "rook", "a")[0]
		p := Of("", "", r)
		pic := drawing.Draw(p.Plans[0].Scene, drawing.Frame{Width: 150, Height: 200})
		lines, bodies := strokes(t, pic.SVG(""))
		// Where the edge of the ring lies tells the scale without asking the drawing.
		at := func(q geom.Point) geom.Point {
			return geom.Point{X: 6 + q.X*pic.Scale, Y: 3 + (r.Setup.Course.Ring.Y-q.Y)*pic.Scale}
		}
		const hair = 0.02 // metres a line may be simplified by
		near := func(q geom.Point) bool {
			return slices.ContainsFunc(lines, func(l geom.Segment) bool { return l.Dist(at(q)) < hair*pic.Scale+0.02 })
		}
		for i, s := range r.Trace.Samples {
			require.True(t, near(s.Dog.At), "%s: dog at sample %d", ring, i)
			require.True(t, near(s.Hand.At), "%s: handler at sample %d", ring, i)
		}
		for i, a := range r.Setup.Actions {
			if a.HasStand {
				require.True(t, slices.ContainsFunc(bodies, func(b geom.Point) bool { return b.Dist(at(a.Stand)) < 0.3*pic.Scale }), "%s: stand %d", ring, i)
			}
		}
		for _, w := range p.Plans[0].Scene.Wrong {
			for _, q := range w.Way {
				require.True(t, near(q), "%s: wrong way to %d", ring, w.Obstacle)
			}
		}
	}
}

// strokes are the straight lines of all paths of an SVG, and the middles of its ellipses.
func strokes(t *testing.T, svg []byte) (lines []geom.Segment, bodies []geom.Point) {
	t.Helper()
	num := func(s string) float64 { v, err := strconv.ParseFloat(s, 64); require.NoError(t, err); return v }
	d := xml.NewDecoder(bytes.NewReader(svg))
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return lines, bodies
		}
		require.NoError(t, err)
		el, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		at := map[string]string{}
		for _, a := range el.Attr {
			at[a.Name.Local] = a.Value
		}
		switch el.Name.Local {
		case "ellipse":
			bodies = append(bodies, geom.Point{X: num(at["cx"]), Y: num(at["cy"])})
		case "path":
			f := strings.Fields(strings.NewReplacer("M", " ", "L", " ", "Z", " ").Replace(at["d"]))
			for i := 3; i < len(f); i += 2 {
				lines = append(lines, geom.Segment{A: geom.Point{X: num(f[i-3]), Y: num(f[i-2])}, B: geom.Point{X: num(f[i-1]), Y: num(f[i])}})
			}
		}
	}
}

// A person who paces out what is said ends up at the stand: the words are followed here by
// other code than wrote them.
func TestPacesLeadToTheStand(t *testing.T) {
	n, worst := 0, 0.0
	for _, ring := range rings {
		for _, name := range []string{"a", "b"} {
			r := demo(t, 0, ring, "rook", name)[0]
			for i, c := range Of("", "", r).Plans[0].Cues {
				if c.Pace == nil {
					continue
				}
				off := follow(t, r.Setup.Course, c.Pace).Dist(r.Setup.Actions[i].Stand)
				assert.Less(t, off, 0.5, "%s %s, cue %d: %s", ring, name, i, c.Pace)
				worst, n = max(worst, off), n+1
				if c.Pace.Metres > 0 {
					steps, err := strconv.ParseFloat(strings.Replace(strings.Replace(c.Pace.Steps, "½", ".5", 1), " ", "", 1), 64)
					require.NoError(t, err, c.Pace.Steps)
					assert.InDelta(t, c.Pace.Metres/0.75, steps, 0.25001)
				}
			}
		}
	}
	assert.Greater(t, n, 50)
	t.Logf("%d stands, at most %.2f m off", n, worst)
}

var (
	thing = regexp.MustCompile(`^(left wing|right wing|left post|right post|first pole|last pole|entry|exit) of (\d+)$`)
	aim   = regexp.MustCompile(`^toward (\d+)$`)
)

// follow goes where p says.
func follow(t *testing.T, c *course.Course, p *Pace) geom.Point {
	t.Helper()
	m := thing.FindStringSubmatch(p.From)
	require.NotNil(t, m, p.From)
	n, _ := strconv.Atoi(m[2])
	e := c.Entry(n)
	half := e.Half + c.Obstacles[e.Obstacle].Wing
	// Left of a heading clockwise from up is 90 degrees less.
	left := geom.Point{X: math.Sin(float64(e.Heading) - math.Pi/2), Y: math.Cos(float64(e.Heading) - math.Pi/2)}
	at, way := e.At, e.Heading
	switch {
	case strings.HasPrefix(m[1], "left"):
		at = at.Add(left.Mul(half))
	case strings.HasPrefix(m[1], "right"):
		at = at.Sub(left.Mul(half))
	case m[1] == "exit" || m[1] == "last pole":
		at, way = e.Exit.At, e.Exit.Heading
	}
	to := geom.Point{}
	switch {
	case p.Toward == "":
		return at
	case p.Toward == "along the bar":
		to = at.Sub(e.At).Mul(1 / at.Dist(e.At))
	case p.Toward == "on the dog's way":
		to = way.Unit()
	case p.Toward == "against its way":
		to = way.Unit().Mul(-1)
	default:
		a := aim.FindStringSubmatch(p.Toward)
		require.NotNil(t, a, p.Toward)
		k, _ := strconv.Atoi(a[1])
		goal := c.Obstacles[c.Order[k-1].Obstacle].At
		to = goal.Sub(at).Mul(1 / goal.Dist(at))
	}
	return at.Add(to.Mul(p.Metres))
}

// Cues are short enough to learn: at most five words, what is said counting as one.
func TestCuesAreShort(t *testing.T) {
	letters := regexp.MustCompile(`[A-Za-z-]{2,}`)
	for name, p := range pages(t) {
		for _, pl := range p.Plans {
			for _, c := range pl.Cues {
				n := len(letters.FindAllString(c.Moment+" "+c.What+" "+c.Arm, -1))
				if c.Word != "" {
					n++
				}
				assert.LessOrEqual(t, n, 5, "%s: %s", name, c.Moment+": "+c.line())
			}
		}
	}
}

// Names that are markup, control or direction characters do no harm and can be read.
func TestHostileNames(t *testing.T) {
	const nasty = "<script>alert(1)</script>\"'><img src=x onerror=alert(2)>]]>{{.}}&lt;\x1b[31m\u202egnirts\u2066\x00"
	rs := demo(t, 0, "meadow-jumping", "rook", "a", "b")
	c := *rs[0].Setup.Course
	c.Name, c.Rules = nasty, nasty
	c.Obstacles = slices.Clone(c.Obstacles)
	for i := range c.Obstacles {
		c.Obstacles[i].ID = nasty + strconv.Itoa(i)
	}
	tm := *rs[0].Setup.Team
	tm.Name, tm.Words = nasty, map[string]team.Meaning{nasty: {Sense: team.Come}}
	var bad []*sim.Rehearsal
	for _, r := range rs {
		pl := *r.Setup.Plan
		pl.Name, pl.Cues = nasty, slices.Clone(pl.Cues)
		for i := range pl.Cues {
			pl.Cues[i].Word = nasty
		}
		bad = append(bad, sim.New(&c, &pl, &tm).Rehearse())
	}
	for _, runs := range [][]*sim.Rehearsal{bad[:1], bad} {
		p := Of(nasty, nasty, runs...)
		page, err := HTML(p)
		require.NoError(t, err)
		requireHarmless(t, page)
		text := shown(t, page)
		assert.True(t, strings.Contains(text, "<script>alert(1)</script>"), "the name can be read")
		assert.True(t, strings.Contains(text, `\u202egnirts`), "what would turn the text is told")
		for _, out := range []string{string(page), string(SVG(p, 0)), Text(p)} {
			for _, r := range out {
				require.True(t, r == '\n' || !unicode.IsControl(r) && !unicode.Is(unicode.Bidi_Control, r), "%U", r)
			}
		}
		strokes(t, SVG(p, 0)) // is XML
	}
}

func TestTextIsNarrow(t *testing.T) {
	all := pages(t)
	wide := all["meadow-jumping rook a"]
	wide.Course, wide.Team = strings.Repeat("宽", 90), strings.Repeat("x", 95)
	all["wide"] = wide
	for name, p := range all {
		for _, line := range strings.Split(Text(p), "\n") {
			assert.LessOrEqual(t, ansi.StringWidth(line), Columns, "%s: %q", name, line)
		}
	}
}

// What is counted: a page made from a rehearsal, the rehearsal itself left out.
func BenchmarkHTML(b *testing.B) {
	r := demo(b, 200, "meadow-jumping", "rook", "a")
	var page []byte
	for b.Loop() {
		page, _ = HTML(Of("2026-05-01", "v1.2.3", r...))
	}
	b.ReportMetric(float64(len(page)), "bytes")
}

// What is counted: the likely run without seeded runs, and the page from it.
func BenchmarkLikelyRunAndHTML(b *testing.B) {
	s := demo(b, 0, "meadow-jumping", "rook", "a")[0].Setup
	for b.Loop() {
		r := sim.New(s.Course, s.Plan, s.Team).Rehearse()
		HTML(Of("2026-05-01", "v1.2.3", r))
	}
}
