package ring

import "cuewalk/tui/canvas"

// Sign is one line of the legend.
type Sign struct {
	Sign  string
	Role  canvas.Role
	Means string
}

// Legend says what the signs of the ring mean, those that matter most first.
func Legend() []Sign {
	return []Sign{
		{"D>", canvas.Dog | canvas.Strong, "dog and where it heads"},
		{">", canvas.Dog, "one stride on the ground: close together is collected"},
		{"*~~*", canvas.Dog, "flight from take-off to landing"},
		{"H", canvas.Handler | canvas.Strong, "handler; beside him his chest and his arm"},
		{". '", canvas.Handler, "his way"},
		{"h2", canvas.Handler, "his stand at cue 2; h0 is the lead-out"},
		{"!", canvas.Caution, "where he was instead; beside an obstacle: it may get the dog"},
		{"!!!", canvas.Caution, "it gets the dog three times in ten or more; !! one in ten"},
		{"[3]", canvas.Right | canvas.Strong, "obstacle to be taken now, from this side; the dog does not know it"},
		{"x", canvas.Wrong, "likely wrong way, to its end at X"},
		{"/ -", canvas.Quiet, "edges of what the dog attends to"},
		{":", canvas.Hidden, "shadow of the handler; an obstacle the dog cannot see"},
		{"#--#", canvas.Obstacle, "bar between wings; o--o without wings, =--= a dummy"},
		{"@@@", canvas.Obstacle, "tunnel"},
		{"ooo", canvas.Obstacle, "weave poles"},
		{"=", canvas.Obstacle, "ramps and planks, : their contact zones"},
		{"+", canvas.Quiet, "every 5 m or 10 ft"},
	}
}
