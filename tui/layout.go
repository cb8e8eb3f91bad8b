package tui

// The smallest window the screen can be used in; below that it says so and nothing else.
const (
	leastWidth  = 40
	leastHeight = 12
)

// rect is a rectangle of cells; one without width or height is not shown.
type rect struct{ x, y, w, h int }

func (r rect) shown() bool { return r.w > 0 && r.h > 0 }

func (r rect) holds(x, y int) bool { return x >= r.x && y >= r.y && x < r.x+r.w && y < r.y+r.h }

// column cuts rows off the top of what is left of a rectangle, or off its foot.
type column struct{ rect }

func (c *column) top(h int) rect {
	h = min(max(h, 0), c.h)
	r := rect{c.x, c.y, c.w, h}
	c.y, c.h = c.y+h, c.h-h
	return r
}

func (c *column) foot(h int) rect {
	h = min(max(h, 0), c.h)
	c.h -= h
	return rect{c.x, c.y + c.h, c.w, h}
}

// layout is where everything stands while rehearsing and altering.
type layout struct {
	head, broken, legs, ring, side, where, cue, eye, foot rect
	now, mini, cues, model                                rect // parts of side
}

// step picks the value for the largest limit that n reaches; limits fall.
func step(n int, pairs ...[2]int) int {
	for _, p := range pairs {
		if n >= p[0] {
			return p[1]
		}
	}
	return 0
}

// lay divides a window for rehearsing. What matters most is given its rows first; the ring
// takes what is left.
func lay(w, h int, broken bool) layout {
	var l layout
	c := column{rect{0, 0, w, h}}
	l.head = c.top(1)
	l.foot = c.foot(1)
	if broken {
		l.broken = c.top(1)
	}
	l.legs = c.top(step(h, [2]int{44, 5}, [2]int{34, 4}, [2]int{20, 3}, [2]int{0, 2}))
	l.eye = c.foot(step(h, [2]int{50, 9}, [2]int{36, 8}, [2]int{30, 7}, [2]int{26, 6}, [2]int{18, 5}))
	wide := w >= 72
	if !wide {
		l.cue = c.foot(step(h, [2]int{24, 2}, [2]int{0, 1}))
	}
	l.where = c.foot(3)
	l.ring = c.rect
	if wide && c.h >= 6 {
		l.ring.w = w - sideWidth(w)
		l.side = rect{l.ring.w + 1, c.y, w - l.ring.w - 1, c.h}
		l.split()
	}
	return l
}

func sideWidth(w int) int { return min(30+(w-72)*2/5, 72) }

// split divides the side between the instant, the cues and the small ring.
func (l *layout) split() {
	c := column{l.side}
	if l.side.h >= 22 {
		l.now = c.top(8)
		l.mini = c.foot(l.side.h * 2 / 5)
		c.foot(1)
		l.cues = c.rect
		return
	}
	l.model = c.foot(1)
	l.now = c.rect
}
