package ring

import "cuewalk/tui/canvas"

// Sign is one sign of the ring and its one meaning.
type Sign struct {
	Sign  string // as it stands on the screen; a number in it stands for any
	Fine  string // the same on a fine canvas, where it differs
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
	naturalMark
	reachMark
	hidesMark
	bestMark
	edgeMark
	rulerMark
	markCount
)

// table is the one table of signs: the drawing takes its signs and roles from here, the
// legend its words. What matters most stands first.
var table = [markCount]Sign{
	dogMark:     {"D", "", canvas.Dog | canvas.Strong, "the dog", Line},
	aheadMark:   {"> v < ^", "", canvas.Dog | canvas.Strong, "the way it runs", Line},
	strideMark:  {"> v < ^", "", canvas.Dog | canvas.Strong, "a stride, the way it runs: close together is collected", Strides},
	lineMark:    {"...", "⠂⠂⠂", canvas.Dog, "the dog's line", Line},
	flightMark:  {"~~~", "⠒⠒⠒", canvas.Dog, "its flight over a bar", Line},
	wrongMark:   {"* * *", "", canvas.Wrong, "where it may go wrong, from where it leaves its line", WrongWays},
	chanceMark:  {"31%", "", canvas.Wrong, "how likely, at what it then takes", WrongWays},
	rightMark:   {"[7]", "", canvas.Right | canvas.Strong, "the obstacle to take now; the dog does not know it", Course},
	numberMark:  {"7", "", canvas.Plain, "course number, on the side to take it from", Course},
	hiddenMark:  {"7?", "", canvas.Hidden, "an obstacle that the dog cannot see now", Shadow},
	chosenMark:  {"{ }", "", canvas.Plain | canvas.Chosen, "chosen: what the keys alter", Course},
	leaderMark:  {",,", "⠐⠐", canvas.Quiet, "joins a number to its obstacle", Course},
	handlerMark: {"H", "", canvas.Handler | canvas.Strong, "the handler", Handler},
	armMark:     {"a", "", canvas.Handler | canvas.Strong, "his arm, on the side where he holds it out", Handler},
	wayMark:     {"'''", "⠁⠁⠁", canvas.Handler, "his way", Handler},
	standMark:   {"h", "", canvas.Handler, "where he is meant to stand at a cue", Stands},
	lateMark:    {"!", "", canvas.Caution, "where he was instead when it was time", Stands},
	beforeMark:  {`"""`, "⠄⠄⠄", canvas.Quiet, "the dog's line before the change", Line},
	barMark:     {`- | / \`, "⠤⠤", canvas.Obstacle, "a bar, or the edge of an obstacle", Course},
	wingMark:    {"#", "", canvas.Obstacle, "wings of a jump; a wall; a table", Course},
	mouthMark:   {"@", "", canvas.Obstacle, "mouth of a tunnel; a tyre", Course},
	pipeMark:    {")))", "⠶⠶", canvas.Obstacle, "tunnel", Course},
	rampMark:    {"===", "⠶⠶", canvas.Obstacle, "ramp: A-frame, dog walk, seesaw", Course},
	zoneMark:    {"&", "", canvas.Obstacle, "its contact zone", Course},
	poleMark:    {":::", "⠐⠐", canvas.Obstacle, "weave poles", Course},
	shadowMark:  {";;", "⡪⡪", canvas.Hidden, "what the handler's body hides from the dog", Shadow},
	sightMark:   {"``", "⠂⠂", canvas.Quiet, "the edges of what the dog attends to", Sight},
	naturalMark: {`"`, "", canvas.Caution, "where a dog goes that nobody turns", Line},
	reachMark:   {"'", "", canvas.Handler, "where you can be when the dog takes the obstacle", Handler},
	hidesMark:   {";;", "⡪⡪", canvas.Hidden, "where your body would hide the chosen trap from the dog", Shadow},
	bestMark:    {"B", "", canvas.Hidden | canvas.Strong, "where it hides most of it", Shadow},
	edgeMark:    {"+", "", canvas.Quiet, "the edge of the ring", Rulers},
	rulerMark:   {"5", "", canvas.Quiet, "x and y in the file's unit, as on the paper", Rulers},
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
