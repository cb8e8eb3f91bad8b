package course

import (
	"fmt"
	"math"
	"strings"

	"cuewalk/course/geom"
	"cuewalk/course/tomlfile"
)

// Limits of a course file, lengths in metres.
const (
	MostObstacles = 1000 // obstacles of a course, and numbers of its order
	MostRing      = 500  // either side of the ring
	leastRing     = 5
)

// UsualBar is the bar height in metres where a course file gives none: that of
// large dogs (FCI 2012 to 2017: 0.55 to 0.65 m).
const UsualBar = 0.60

// Bar heights in metres that are taken, from poles all but on the ground.
const leastBar, mostBar = 0.05, 1.2

var surfaces = []string{"grass", "turf", "sand", "carpet"}

// Parse reads the course that is written in src; name is what problems call the
// file. The error is a tomlfile.Problems with everything that is wrong, each at
// its place in the file; with an error there is no course.
func Parse(name string, src []byte) (*Course, error) {
	return ParseWith(name, src, nil)
}

// ParseWith reads a course as [Parse] does and asks known about the rulebook that
// it names: an error says why there is no such rulebook. known may be nil.
func ParseWith(name string, src []byte, known func(rules string) error) (*Course, error) {
	doc, err := tomlfile.Parse(name, src)
	if err != nil {
		return nil, err
	}
	if other := kindOf(doc); other != "course" && other != "" {
		return nil, tomlfile.Problems{doc.Root().KeyPos(keyOf(doc)).Problem(
			"this is a "+other+", not a course", `a course begins with course = "name"`)}
	}
	r := reader{top: doc.Root(), course: &Course{File: name}}
	r.head(known)
	r.obstacles()
	r.order()
	r.checkPlaces()
	doc.Done()
	if err := doc.Err(); err != nil {
		return nil, err
	}
	return r.course, nil
}

// reader is a course being read.
type reader struct {
	lengths
	top     *tomlfile.Table
	course  *Course
	ringOK  bool
	startOK bool
	bar     float64           // usual bar height, metres
	ids     []string          // every id of the file, also those of broken obstacles
	index   map[string]int    // where it is in course.Obstacles, -1 for a broken one
	tables  []*tomlfile.Table // that of each obstacle
}

// head reads everything but the obstacles and their order.
func (r *reader) head(known func(string) error) {
	c, t := r.course, r.top
	c.Name = r.text("course", `write course = "Quarry Meadow, jumping round"`)
	if !t.Has("course") {
		t.Missing("course", `begin the file with course = "name"`)
	}
	r.rules(known)
	if u, ok := t.Word("units", Metres.String(), Feet.String()); ok && u == Feet.String() {
		c.Units = Feet
	}
	r.lengths = lengths{c.Units}
	r.ring()
	c.Surface, _ = t.Word("surface", surfaces...)
	r.start()
	r.bar = UsualBar
	if bar, ok := r.length(t, "height", leastBar, mostBar); ok {
		r.bar = bar
	}
}

// text reads a text that must not be blank.
func (r *reader) text(key, hint string) string {
	s, ok := r.top.String(key)
	if ok && strings.TrimSpace(s) == "" {
		r.top.Problem(key, key+" is empty", hint)
	}
	return s
}

func (r *reader) rules(known func(string) error) {
	const hint = `name a rulebook, or leave the line out to check the course against none`
	c := r.course
	c.Rules = r.text("rules", hint)
	if strings.TrimSpace(c.Rules) == "" || known == nil {
		return
	}
	if err := known(c.Rules); err != nil {
		r.top.Problem("rules", err.Error(), hint)
	}
}

func (r *reader) ring() {
	r.top.Missing("ring", "write its width and length, such as ring = [24, 40]")
	p, ok := r.point(r.top, "ring")
	if !ok {
		return
	}
	if least := min(p.X, p.Y); least < leastRing-tiny {
		r.top.Problem("ring", "the ring is too small: "+r.show(least), "write both sides "+r.between(leastRing, MostRing))
		return
	}
	if most := max(p.X, p.Y); most > MostRing+tiny {
		r.top.Problem("ring", "the ring is too large: "+r.show(most), "write both sides "+r.between(leastRing, MostRing))
		return
	}
	r.course.Ring, r.ringOK = p, true
}

func (r *reader) start() {
	r.top.Missing("start", "write where the dog waits, such as start = [3, 2]")
	p, ok := r.point(r.top, "start")
	if !ok {
		return
	}
	r.course.Start, r.startOK = p, true
	if text, hint := r.outside([]geom.Segment{{A: p, B: p}}); text != "" {
		r.top.Problem("start", "the start "+text, hint)
	}
}

// tiny is what rounding may do to a length, metres.
const tiny = 1e-9

// lengths reads lengths in the units of a file.
type lengths struct{ units Units }

// length reads a length from least to most metres, and gives metres.
func (l lengths) length(t *tomlfile.Table, key string, least, most float64) (float64, bool) {
	x, ok := t.Float(key, math.Inf(-1), math.Inf(1))
	if !ok {
		return 0, false
	}
	m := x * l.units.Factor()
	if m < least-tiny || m > most+tiny {
		t.Problem(key, fmt.Sprintf("%s is out of range: %s %s", key, tomlfile.Number(x), l.units),
			"write a number "+l.between(least, most))
		return 0, false
	}
	return m, true
}

// point reads a place on the map, and gives metres.
func (l lengths) point(t *tomlfile.Table, key string) (geom.Point, bool) {
	p, ok := t.Point(key)
	if !ok {
		return geom.Point{}, false
	}
	return l.metres(t, key, p)
}

// metres brings a place into metres; one that is beyond any ring is a problem.
func (l lengths) metres(t *tomlfile.Table, key string, p [2]float64) (geom.Point, bool) {
	m := geom.Point{X: p[0], Y: p[1]}.Mul(l.units.Factor())
	if far := max(math.Abs(m.X), math.Abs(m.Y)); far > 2*MostRing {
		t.Problem(key, key+" is beyond any ring: "+tomlfile.Number(max(math.Abs(p[0]), math.Abs(p[1])))+" "+l.units.String(),
			"write lengths in "+l.units.String()+"; the ring is at most "+l.show(MostRing))
		return geom.Point{}, false
	}
	return m, true
}

// show writes a length given in metres in the units of the file.
func (l lengths) show(metres float64) string {
	return tomlfile.Number(math.Round(metres/l.units.Factor()*100)/100) + " " + l.units.String()
}

// between writes limits given in metres, rounded so that either may be written.
func (l lengths) between(least, most float64) string {
	f := l.units.Factor()
	return fmt.Sprintf("from %s to %s %s", tomlfile.Number(roundUp(least/f)), tomlfile.Number(-roundUp(-most/f)), l.units)
}

// roundUp rounds up to hundredths, but for what rounding put there.
func roundUp(x float64) float64 { return math.Ceil(x*100-1e-6) / 100 }

// place writes a place as it stands in the file.
func (l lengths) place(p geom.Point) string {
	f := l.units.Factor()
	round := func(x float64) float64 { return math.Round(x/f*100) / 100 }
	return tomlfile.Pair([2]float64{round(p.X), round(p.Y)})
}
