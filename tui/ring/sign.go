package ring

import "cuewalk/tui/canvas"

// Sign is one sign of the ring and its one meaning.
type Sign struct {
	Sign  string // as it stands on the screen; a number in it stands for any
	Fine  string // the same on a fine canvas, where it differs
	Name  string // in a word or two, for a line of the legend
	Role  canvas.Role
	Means string
	Layer Layer
}

// mark is the index of a sign in the table.
type mark uint8

const (
	nothing mark = iota
	dogMark
	aheadMark
	strideMark
	lineMark
	flightMark
	wrongMark
	chanceMark
	rightMark
	numberMark
	hiddenMark
	chosenMark
	leaderMark
	handlerMark
	armMark
	wayMark
	standMark
	lateMark
	beforeMark
	barMark
	wingMark
	mouthMark
	pipeMark
	rampMark
	zoneMark
	poleMark
	shadowMark
	sightMark
	hidesMark
	bestMark
	edgeMark
	rulerMark
	markCount
)

// table is the one table of signs: the drawing takes its signs and roles from here, the
// legend its words. What matters most stands first.
var table = [markCount]Sign{
	dogMark:     {"D", "", "dog", canvas.Dog | canvas.Strong, "the dog", Line},
	aheadMark:   {"> v < ^", "", "dog's way", canvas.Dog | canvas.Strong, "which way the dog runs", Line},
	strideMark:  {"> v < ^", "", "stride", canvas.Dog | canvas.Strong, "a stride, which way the dog runs: close together is collected", Strides},
	lineMark:    {"...", "⠂⠂⠂", "dog's line", canvas.Dog, "the dog's line", Line},
	flightMark:  {"~~~", "⠒⠒⠒", "dog in the air", canvas.Dog, "the dog's line in the air", Line},
	wrongMark:   {"* * *", "", "may go wrong", canvas.Wrong, "where the dog may go wrong, from where it leaves its line", WrongWays},
	chanceMark:  {"31%", "", "how likely", canvas.Wrong, "how likely that is, at what the dog then takes", WrongWays},
	rightMark:   {"[7]", "", "right one", canvas.Right | canvas.Strong, "the obstacle to take now; the dog does not know it", Course},
	numberMark:  {"7", "", "number", canvas.Plain, "course number, on the side to take the obstacle from", Course},
	hiddenMark:  {"7?", "", "dog cannot see it", canvas.Hidden, "an obstacle that the dog cannot see now", Shadow},
	chosenMark:  {"{ }", "", "chosen", canvas.Plain | canvas.Chosen, "chosen: what the keys alter", Course},
	leaderMark:  {",,", "⠐⠐", "number's obstacle", canvas.Quiet, "joins a number to its obstacle", Course},
	handlerMark: {"H", "", "handler", canvas.Handler | canvas.Strong, "the handler", Handler},
	armMark:     {"a", "", "his arm", canvas.Handler | canvas.Strong, "the handler's arm, on the side where he holds it out", Handler},
	wayMark:     {"'''", "⠁⠁⠁", "handler's way", canvas.Handler, "where the handler goes, or can be in time", Handler},
	standMark:   {"h", "", "stand", canvas.Handler, "where the handler is meant to be at a cue", Stands},
	lateMark:    {"!", "", "was late, here", canvas.Caution, "where the handler was instead when it was time", Stands},
	beforeMark:  {`"""`, "⠄⠄⠄", "dog otherwise", canvas.Quiet, "where the dog would run otherwise: before the change, or if nobody turned it", Line},
	barMark:     {`- | / \`, "⠤⠤", "bar, edge", canvas.Obstacle, "a bar, or the edge of an obstacle", Course},
	wingMark:    {"#", "", "wing, wall", canvas.Obstacle, "wings of a jump; a wall; a table", Course},
	mouthMark:   {"@", "", "opening", canvas.Obstacle, "an opening: the mouth of a tunnel, a tyre", Course},
	pipeMark:    {")))", "⠶⠶", "tunnel", canvas.Obstacle, "tunnel", Course},
	rampMark:    {"===", "⠶⠶", "ramp", canvas.Obstacle, "ramp: A-frame, dog walk, seesaw", Course},
	zoneMark:    {"&", "", "contact zone", canvas.Obstacle, "contact zone", Course},
	poleMark:    {":::", "⠐⠐", "weaves", canvas.Obstacle, "weave poles", Course},
	shadowMark:  {";;", "⡪⡪", "hidden behind him", canvas.Hidden, "what the handler's body hides from the dog", Shadow},
	sightMark:   {"``", "", "dog's attention", canvas.Quiet, "the edges of what the dog attends to", Sight},
	hidesMark:   {"b", "⡪⡪", "would hide the trap", canvas.Hidden, "where your body would hide the chosen trap from the dog", Shadow},
	bestMark:    {"B", "", "hides it best", canvas.Hidden | canvas.Strong, "where your body hides most of it", Shadow},
	edgeMark:    {"+", "", "edge of the ring", canvas.Quiet, "the edge of the ring", Rulers},
	rulerMark:   {"5", "", "x and y", canvas.Quiet, "x and y in the file's unit, as on the paper", Rulers},
}

// Table lists all signs of the ring, those that matter most first.
func Table() []Sign { return append([]Sign(nil), table[nothing+1:]...) }

// Used is the signs of one frame.
type Used uint64

func (u Used) with(m mark) Used { return u | 1<<m }

func (u Used) has(m mark) bool { return u&(1<<m) != 0 }

// Legend lists the signs that stand in the frame, those that matter most first.
func (u Used) Legend() []Sign {
	var out []Sign
	for m := nothing + 1; m < markCount; m++ {
		if u.has(m) {
			out = append(out, table[m])
		}
	}
	return out
}

// Shown is the sign as it stands on a canvas, fine or not.
func (s Sign) Shown(fine bool) string {
	if fine && s.Fine != "" {
		return s.Fine
	}
	return s.Sign
}

// DrawLegend writes the legend of a frame over a view, what matters most first: one sign to a
// row with its meaning where all have room so, and else one after the other with their names,
// as many as fit. It returns the rows used.
func DrawLegend(v canvas.View, u Used) int {
	w, h := v.Size()
	signs := u.Legend()
	if len(signs) <= h && roomFor(signs, v.Fine(), w) {
		for y, s := range signs {
			v.Text(v.Text(0, y, s.Shown(v.Fine()), s.Role)+1, y, s.Means, canvas.Quiet)
		}
		return len(signs)
	}
	x, y := 0, 0
	for _, s := range signs {
		sign := s.Shown(v.Fine())
		n := canvas.Width(sign) + 1 + len(s.Name)
		if x > 0 && x+n > w {
			x, y = 0, y+1
		}
		if y >= h {
			return h
		}
		if x+n > w {
			continue
		}
		x = v.Text(v.Text(x, y, sign, s.Role)+1, y, s.Name, canvas.Quiet) + 3
	}
	return y + 1
}

// roomFor reports whether every sign has room for its meaning beside it.
func roomFor(signs []Sign, fine bool, w int) bool {
	for _, s := range signs {
		if canvas.Width(s.Shown(fine))+1+len(s.Means) > w {
			return false
		}
	}
	return true
}
