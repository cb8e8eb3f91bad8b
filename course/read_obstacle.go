package course

import (
	"fmt"
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"cuewalk/course/geom"
	"cuewalk/course/tomlfile"
)

// size is a length that a kind of obstacle lets be set, with its limits in metres.
// The limits are wide: they catch slips such as centimetres, not unusual makes.
type size struct {
	key         string
	least, most float64
}

var (
	barWidth  = size{"width", 0.5, 3}
	barHeight = size{"height", leastBar, mostBar}
	sizes     = [KindCount][]size{
		Jump:     {barWidth, barHeight},
		Spread:   {barWidth, barHeight, {"length", 0.1, 1.5}},
		LongJump: {barWidth, {"height", leastBar, 0.5}, {"length", 0.3, 2.5}},
		Wall:     {barWidth, barHeight, {"length", 0.05, 1}},
		Tyre:     {{"width", 0.3, 1.2}, barHeight},
		Tunnel:   {{"width", 0.4, 1}},
		Weaves:   {},
		AFrame:   {{"width", 0.5, 1.5}, {"height", 0.8, 2.2}, {"length", 2, 6}},
		DogWalk:  {{"width", 0.2, 0.6}, {"height", 0.5, 1.6}, {"length", 5, 15}},
		Seesaw:   {{"width", 0.2, 0.6}, {"height", 0.3, 1}, {"length", 2, 5}},
		Table:    {{"width", 0.5, 2}, barHeight, {"length", 0.5, 2}},
	}
)

// Numbers of weave poles that are taken.
const leastPoles, mostPoles = 2, 24

// longestID is the most characters of an id.
const longestID = 40

// obstacles reads the table of obstacles.
func (r *reader) obstacles() {
	const hint = `write [obstacles] and below it gate = { kind = "jump", at = [3, 8], facing = 0 }`
	r.index = map[string]int{}
	r.top.Missing("obstacles", hint)
	list, ok := r.top.Table("obstacles")
	if !ok {
		return
	}
	r.ids = list.Keys()
	if len(r.ids) == 0 {
		r.top.Problem("obstacles", "there are no obstacles", hint)
	}
	for i, id := range r.ids {
		r.index[id] = -1
		if i == MostObstacles {
			list.KeyProblem(id, fmt.Sprintf("there are %d obstacles", len(r.ids)), fmt.Sprintf("a course has at most %d: delete the rest", MostObstacles))
		}
		if i >= MostObstacles {
			list.Missing(id, "") // known, but not read
			continue
		}
		if text, hint := badID(id); text != "" {
			list.KeyProblem(id, text, hint)
		}
		t, ok := list.Table(id)
		if !ok {
			continue
		}
		if o, ok := r.obstacle(id, t); ok {
			r.index[id] = len(r.course.Obstacles)
			r.course.Obstacles = append(r.course.Obstacles, o)
			r.tables = append(r.tables, t)
		}
	}
}

// badID says what is wrong with an id, and what to write instead.
func badID(id string) (text, hint string) {
	const like = "write a short word such as gate"
	shown := tomlfile.Show(id)
	switch {
	case id == "":
		return "an obstacle has no id", like
	case strings.HasPrefix(id, "-"):
		return "the id " + shown + " begins with -", "leave the - out: in order it means against the way the obstacle is drawn"
	case utf8.RuneCountInString(id) > longestID:
		return "the id " + shown + " is too long", fmt.Sprintf("an id has at most %d characters", longestID)
	case strings.IndexFunc(id, unicode.IsSpace) >= 0:
		return "the id " + shown + " has a blank in it", like + "; use - or _ for a blank"
	case strings.IndexFunc(id, func(c rune) bool { return !unicode.IsPrint(c) }) >= 0:
		return "the id " + shown + " has a character that cannot be seen", like
	}
	return "", ""
}

// obstacle reads one obstacle and reports whether all of it is right.
func (r *reader) obstacle(id string, t *tomlfile.Table) (Obstacle, bool) {
	before := len(t.Doc().Problems())
	t.Missing("kind", "write one of "+strings.Join(KindNames(), ", "))
	name, ok := r.kindName(t)
	if !ok {
		r.unknownKind(t)
		return Obstacle{}, false
	}
	kind, _ := KindOf(name)
	o := Obstacle{ID: id, Kind: kind, Line: t.Line("")}
	placed := false
	if kind == Tunnel {
		placed = r.pipe(t, &o)
	} else {
		placed = r.stand(t, &o)
	}
	r.extras(t, &o)
	for _, s := range sizes[kind] {
		if x, ok := r.length(t, s.key, s.least, s.most); ok {
			*o.size(s.key) = x
		}
	}
	r.strangers(t, kind)
	if kind == Tunnel {
		o.Height = o.Width // a pipe is as high as it is wide
	}
	if !placed || len(t.Doc().Problems()) > before {
		return o, false
	}
	o.Defaults(r.bar)
	return o, true
}

// kindName reads the name of a kind. One that people use for a kind that has another name here
// is refused with that.
func (r *reader) kindName(t *tomlfile.Table) (string, bool) {
	if name, ok := t.String("kind"); ok {
		if k, known := alsoCalled[strings.ToLower(strings.TrimSpace(name))]; known {
			t.Problem("kind", "unknown kind "+tomlfile.Show(name), "here it is called "+tomlfile.Show(kindNames[k]))
			return "", false
		}
	}
	return t.Word("kind", KindNames()...)
}

// size returns where a size that a file names is kept.
func (o *Obstacle) size(key string) *float64 {
	switch key {
	case "width":
		return &o.Width
	case "height":
		return &o.Height
	}
	return &o.Length
}

// unknownKind reads all that any obstacle may have, so that only the kind is
// reported, and what is wrong whatever the kind.
func (r *reader) unknownKind(t *tomlfile.Table) {
	t.Point("at")
	t.Float("facing", math.Inf(-1), math.Inf(1))
	t.Points("through")
	t.Bool("wings")
	for _, key := range []string{"width", "height", "length"} {
		t.Float(key, math.Inf(-1), math.Inf(1))
	}
	t.Int("poles", math.MinInt, math.MaxInt)
}

// stand reads where an obstacle other than a tunnel stands. Only a table may be
// without a way: it is taken from any side. It reports whether the place is right.
func (r *reader) stand(t *tomlfile.Table, o *Obstacle) bool {
	t.Missing("at", "write the place of its middle, such as at = [3, 8]")
	at, placed := r.point(t, "at")
	o.At = at
	if o.Kind != Table {
		t.Missing("facing", "write the way the dog goes, in degrees: facing = 0 is up the map, 90 to the right")
	}
	if deg, ok := t.Float("facing", -360, 360); ok {
		o.Facing = geom.Deg(deg).Wrap()
	} else if o.Kind != Table {
		placed = false
	}
	return placed
}

// extras reads what is not a length.
func (r *reader) extras(t *tomlfile.Table, o *Obstacle) {
	switch o.Kind {
	case Jump, Spread:
		o.Wings = true
		if wings, ok := t.Bool("wings"); ok {
			o.Wings = wings
		}
	case Weaves:
		o.Poles, _ = t.Int("poles", leastPoles, mostPoles)
	}
}

// strangers reports keys that are right for other kinds only.
func (r *reader) strangers(t *tomlfile.Table, kind Kind) {
	why := map[string]string{
		"at":      "a tunnel lies along its points: write through = [[10, 18], [13, 20]]",
		"facing":  "a tunnel is drawn from its first point to its last: change the order of the points",
		"through": "only a tunnel lies along points: write at = [3, 8] and facing = 0",
		"wings":   "only a jump and a spread can be with or without wings",
		"poles":   "only weaves have poles",
	}
	takes := map[string]bool{
		"at": kind != Tunnel, "facing": kind != Tunnel, "through": kind == Tunnel,
		"wings": kind == Jump || kind == Spread, "poles": kind == Weaves,
	}
	for _, s := range sizes[kind] {
		takes[s.key] = true
	}
	for _, key := range []string{"at", "facing", "through", "wings", "poles", "width", "height", "length"} {
		if takes[key] || !t.Has(key) {
			continue
		}
		hint := "delete it"
		if w := why[key]; w != "" {
			hint = w
		} else if kind == Weaves {
			hint = "delete it: the poles stand 0.6 m apart, write poles = 12 for how many"
		}
		t.KeyProblem(key, fmt.Sprintf("%s is not for kind %q", key, kind), hint)
	}
}
