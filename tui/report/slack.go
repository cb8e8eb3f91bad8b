package report

import (
	"fmt"

	"cuewalk/sim"
	"cuewalk/sim/slack"
	"cuewalk/tui/words"
)

// rooms writes how much room each cue has; nothing where that was not looked for.
func rooms(p *page, r *sim.Rehearsal, room *slack.Slack) {
	if room == nil || len(room.Cues) == 0 {
		return
	}
	p.heading("How late you may be")
	p.line(roomRow("", "planned for", "sooner", "later", "off its place"))
	for k := range room.Cues {
		p.line(roomOf(r, room, k))
	}
	p.text(2, "By how much each cue alone may come sooner or later, in seconds and strides, and how far he may stand off its "+
		"place, with the run within 5 points of the best that this cue could do for it; + where there is more room than was "+
		"tried, below 0 where it should be moved: so much the other way, or so far off its place.")
	if k := room.Tightest; k >= 0 {
		p.text(2, fmt.Sprintf("The tightest is %s, %q: that is the one to practise.", words.CueName(k+1), r.Setup.Plan.Cues[k].When))
	}
}

func roomRow(number, when, early, late, off string) string {
	return column("  "+number, 6) + column(when, 21) + column(early, 16) + column(late, 16) + column(off, 20)
}

func roomOf(r *sim.Rehearsal, room *slack.Slack, k int) string {
	c := &room.Cues[k]
	early, late, off := "-", "-", "-"
	if c.Timed {
		early, late = roomIn(c.Early, c.EarlyStep, c.EarlyMore), roomIn(c.Late, c.LateStep, c.LateMore)
	}
	if c.Placed {
		off = words.Length(r.Setup.Course.Units, c.Off)
		if c.OffMore {
			off += "+"
		} else {
			off += " " + c.Way.String()
		}
	}
	return roomRow(fmt.Sprint(k+1), r.Setup.Plan.Cues[k].When.String(), early, late, off)
}

func roomIn(seconds, strides float64, more bool) string {
	plus := ""
	if more {
		plus = "+"
	}
	return fmt.Sprintf("%s (%g)%s", words.Seconds(seconds), strides, plus)
}
