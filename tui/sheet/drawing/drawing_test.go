package drawing

import (
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/tui/place"
)

var update = flag.Bool("update", false, "write the golden files anew")

// everything is a course with an obstacle of every kind, and all that can be drawn on it.
func everything() Scene {
	c := &course.Course{Name: "One of each", Ring: geom.Point{X: 30, Y: 36}, Start: geom.Point{X: 3, Y: 2}}
	for k := range course.KindCount {
		o := course.Obstacle{ID: k.String(), Kind: k, Wings: k != course.Spread,
			At: geom.Point{X: 4 + 8*float64(k%4), Y: 6 + 11*float64(k/4)}, Facing: geom.Deg(float64(k) * 25)}
		if k == course.Tunnel {
			o.Through = []geom.Point{{X: 10, Y: 17}, {X: 12, Y: 20}, {X: 15, Y: 20}}
		}
		o.Defaults(0.6)
		c.Obstacles = append(c.Obstacles, o)
		c.Order = append(c.Order, course.Step{Obstacle: int(k)})
	}
	c.Obstacles = append(c.Obstacles, course.Obstacle{ID: "dummy", Kind: course.Jump, At: geom.Point{X: 27, Y: 33}, Width: 1.2})
	s := Scene{Course: c}
	withLine(&s)
	s.Wrong = []Wrong{{Way: []geom.Point{{X: 12, Y: 7}, {X: 20, Y: 12}, {X: 27, Y: 17}}, At: geom.Point{X: 27, Y: 17}, Label: "31 %"}}
	s.Shadows = []Shadow{{Eye: geom.Point{X: 6, Y: 8}, Body: geom.Point{X: 9, Y: 12}, Radius: 0.2, Reach: 9}}
	return s
}

// withLine gives a scene a dog's line straight from number to number and a handler beside it.
func withLine(s *Scene) {
	c := s.Course
	from := c.Start
	for n := 1; n <= len(c.Order); n++ {
		e := c.Entry(n)
		to := geom.Pose{At: e.At, Heading: e.Heading}
		s.Dog = append(s.Dog, Stretch{[]geom.Point{from, to.Ahead(-1)}, true}, Stretch{[]geom.Point{to.Ahead(-1), e.Exit.At}, false})
		s.Strides = append(s.Strides, geom.Pose{At: from.Lerp(e.At, 0.5), Heading: from.Towards(e.At)})
		at := from.Lerp(e.At, 0.5).Add(geom.Point{X: 1.5})
		s.Handler = append(s.Handler, at)
		s.Stands = append(s.Stands, Stand{Label: strconv.Itoa(n - 1), At: at, Chest: e.Heading, Arm: 1,
			Where: at.Add(geom.Point{Y: -1}), Short: n%4 == 0})
		from = e.Exit.At
	}
}

func TestGolden(t *testing.T) {
	got := Draw(everything(), Frame{Width: 150, Height: 200, Title: []string{"One of each"}, Foot: []string{"likelihoods"}, Key: true}).SVG("One of each")
	path := filepath.Join("testdata", "everything.svg")
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, got, 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.True(t, string(want) == string(got), "the drawing has changed; run with -update and look at it")
}

// A picture is XML that draws and does nothing else: no script, no link, no style sheet.
func TestSVGIsPlain(t *testing.T) {
	s := everything()
	s.Wrong[0].Label = `<b>&]]>`
	svg := Draw(s, Frame{Width: 150, Height: 200, Title: []string{`</text><script/>`}, Key: true}).SVG(`a "name" <b>&`)
	known := map[string]bool{"svg": true, "title": true, "g": true, "rect": true, "path": true, "circle": true, "ellipse": true, "text": true}
	d := xml.NewDecoder(strings.NewReader(string(svg)))
	elements := 0
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		el, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		elements++
		assert.True(t, known[el.Name.Local], "element %s", el.Name.Local)
		for _, a := range el.Attr {
			name := a.Name.Local
			assert.False(t, strings.HasPrefix(name, "on") || name == "style" || name == "href" || name == "src", "attribute %s", name)
			assert.NotContains(t, a.Value, "url(")
			assert.NotContains(t, a.Value, "NaN")
		}
	}
	assert.Greater(t, elements, 100)
	assert.True(t, strings.Contains(string(svg), "&lt;script/&gt;"), "the title is text")
	assert.True(t, strings.Contains(string(svg), "&lt;b&gt;&amp;]]&gt;"), "the label is text")
}

// The same lengths come out whatever the room: what is drawn is to scale.
func TestToScale(t *testing.T) {
	s := everything()
	for _, f := range []Frame{{Width: 90, Height: 150, Key: true}, {Width: 190, Height: 110}, {Width: 40, Height: 60}} {
		p := Draw(s, f)
		assert.LessOrEqual(t, p.Width, f.Width+1e-9)
		assert.LessOrEqual(t, p.Height, f.Height+1e-9)
		var ring struct{ w, h float64 }
		var span float64 // of the first jump, from wing end to wing end
		each(t, p.SVG(""), func(name string, at map[string]string) {
			if name == "rect" && at["stroke-width"] == "0.3" {
				ring.w, ring.h = number64(t, at["width"]), number64(t, at["height"])
			}
			if name == "path" && at["stroke-width"] == num(wingLine) {
				for _, q := range pathPoints(t, at["d"]) {
					o := s.Course.Obstacles[0]
					if c := p.at(o.At); math.Hypot(q.x-c.x, q.y-c.y) < (o.Width/2+o.Wing)*p.Scale+0.1 {
						span = max(span, 2*math.Hypot(q.x-c.x, q.y-c.y))
					}
				}
			}
		})
		assert.InDelta(t, s.Course.Ring.X*p.Scale, ring.w, 0.01)
		assert.InDelta(t, s.Course.Ring.Y*p.Scale, ring.h, 0.01)
		assert.InDelta(t, 2.2*p.Scale, span, 0.03, "a bar of 1.2 m between wings of 0.5 m")
	}
}

// random is a course such as a judge might set: obstacles a few metres apart, each taken once.
func random(seed uint64) Scene {
	r := rand.New(rand.NewPCG(seed, 1))
	c := &course.Course{Name: "random", Ring: geom.Point{X: 24 + 10*r.Float64(), Y: 30 + 12*r.Float64()}, Start: geom.Point{X: 3, Y: 1.5}}
	kinds := []course.Kind{course.Jump, course.Jump, course.Jump, course.Jump, course.Spread, course.Wall, course.Tyre, course.LongJump, course.Tunnel,
		course.Weaves, course.AFrame, course.Seesaw}
	for tries := 0; len(c.Obstacles) < 20 && tries < 2000; tries++ {
		o := course.Obstacle{Kind: kinds[r.IntN(len(kinds))], Facing: geom.Deg(360 * r.Float64()), Wings: r.IntN(4) > 0,
			At: geom.Point{X: 3 + (c.Ring.X-6)*r.Float64(), Y: 4 + (c.Ring.Y-8)*r.Float64()}}
		if o.Kind == course.Tunnel {
			u, v := o.Facing.Unit().Mul(2), o.Facing.Right().Mul(1.2)
			o.Through = []geom.Point{o.At.Sub(u), o.At.Add(v), o.At.Add(u)}
		}
		o.Defaults(0.6)
		free := true
		for _, q := range c.Obstacles {
			for _, a := range q.Footprint() {
				for _, b := range o.Footprint() {
					free = free && a.Gap(b) > 2.5
				}
			}
		}
		for _, b := range o.Footprint() {
			free = free && min(b.A.X, b.B.X, b.A.Y, b.B.Y) > 0.5 && max(b.A.X, b.B.X) < c.Ring.X-0.5 && max(b.A.Y, b.B.Y) < c.Ring.Y-0.5
		}
		if free {
			c.Order = append(c.Order, course.Step{Obstacle: len(c.Obstacles)})
			c.Obstacles = append(c.Obstacles, o)
		}
	}
	s := Scene{Course: c}
	withLine(&s)
	for range 4 {
		e := c.Entry(1 + r.IntN(len(c.Order)))
		from := c.Obstacles[r.IntN(len(c.Obstacles))].At
		s.Wrong = append(s.Wrong, Wrong{Way: []geom.Point{from, e.At}, At: e.At, Label: strconv.Itoa(5+r.IntN(60)) + " %"})
	}
	return s
}

// No label covers an obstacle, a handler or another label, and no leader runs through a
// number, over 50 random courses; numbers keep off the dog's line but for few.
func TestLabelsCoverNothing(t *testing.T) {
	all, onLine, dropped := 0, 0, 0
	for seed := range uint64(50) {
		s := random(seed)
		p := Draw(s, Frame{Width: 90, Height: 150, Key: true})
		for i, l := range p.labels {
			if l.sort == number {
				all++
				require.True(t, l.OK, "seed %d: number %s has no place", seed, l.text)
			}
			if !l.OK {
				dropped++
				continue
			}
			for k, o := range s.Course.Obstacles {
				for _, f := range o.Footprint() {
					assert.False(t, meets(p.at(f.A), p.at(f.B), l.Rect), "seed %d: %q covers obstacle %d", seed, l.text, k)
				}
			}
			for _, st := range s.Stands {
				at := p.at(st.At)
				assert.False(t, meets(at, at, l.Rect), "seed %d: %q covers a handler", seed, l.text)
			}
			for k, q := range p.labels {
				if k != i && q.OK {
					assert.False(t, l.Meets(q.Rect), "seed %d: %q covers %q", seed, l.text, q.text)
				}
				if k != i && q.OK && q.Leader && l.sort == number {
					assert.False(t, meets(pt(q.From), pt(q.To), l.Rect), "seed %d: the leader of %q runs through number %s", seed, q.text, l.text)
				}
			}
			if l.sort == number && onDogLine(p, l.Rect) {
				onLine++
			}
		}
	}
	require.Greater(t, all, 500)
	t.Logf("%d numbers, %d on the dog's line; %d other labels without a place", all, onLine, dropped)
	assert.Less(t, float64(onLine), 0.03*float64(all))
	assert.Zero(t, dropped)
}

func onDogLine(p *Picture, r place.Rect) bool {
	for _, d := range p.scene.Dog {
		for i := 1; i < len(d.Way); i++ {
			if meets(p.at(d.Way[i-1]), p.at(d.Way[i]), r) {
				return true
			}
		}
	}
	return false
}

// meets reports whether the segment from a to b has a point well inside r: by looking at many.
func meets(a, b point, r place.Rect) bool {
	const n = 400
	for i := range n + 1 {
		t := float64(i) / n
		x, y := a.x+(b.x-a.x)*t, a.y+(b.y-a.y)*t
		if x > r.X+0.01 && x < r.X+r.W-0.01 && y > r.Y+0.01 && y < r.Y+r.H-0.01 {
			return true
		}
	}
	return false
}

// each calls f for every element of an SVG document.
func each(t *testing.T, svg []byte, f func(name string, at map[string]string)) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(string(svg)))
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		require.NoError(t, err)
		if el, ok := tok.(xml.StartElement); ok {
			at := map[string]string{}
			for _, a := range el.Attr {
				at[a.Name.Local] = a.Value
			}
			f(el.Name.Local, at)
		}
	}
}

func number64(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return v
}

// pathPoints are the points of a path of straight lines.
func pathPoints(t *testing.T, d string) []point {
	t.Helper()
	f := strings.Fields(strings.NewReplacer("M", " ", "L", " ", "Z", " ").Replace(d))
	require.Zero(t, len(f)%2)
	var pts []point
	for i := 0; i < len(f); i += 2 {
		pts = append(pts, point{number64(t, f[i]), number64(t, f[i+1])})
	}
	return pts
}

func BenchmarkDraw(b *testing.B) {
	s := random(1)
	for b.Loop() {
		Draw(s, Frame{Width: 90, Height: 150, Key: true}).SVG("random")
	}
}
