package plan

import "cuewalk/course"

// recognise names what action i of actions is in the trade's words.
func recognise(c *course.Course, actions []Action, i int) Manoeuvre {
	switch actions[i].Cross {
	case FrontCross:
		return Front
	case BlindCross:
		return Blind
	case RearCross:
		return Rear
	}
	return NoManoeuvre
}
