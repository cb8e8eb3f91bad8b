package ring

import (
	"cuewalk/course"
	"cuewalk/tui/canvas"
)

// Chances from which a trap gets its second and third mark.
const (
	pulls     = 0.10
	pullsHard = 0.30
)

// traps marks each wrong entry of the leg by how likely it gets the dog: "!", "!!", "!!!".
func (d *pen) traps() {
	if !d.Show.Traps || d.leg == nil {
		return
	}
	for i := range d.leg.Faults {
		f := &d.leg.Faults[i]
		if f.Chance < mayTrap || f.Entry < 0 || f.Entry >= len(d.Setup.Entries) {
			continue
		}
		role := canvas.Caution
		if b := d.fault(); b == f {
			role = canvas.Wrong
		}
		d.place(d.Setup.Entries[f.Entry], strength(f.Chance), role)
	}
}

func strength(chance float64) string {
	switch {
	case chance >= pullsHard:
		return "!!!"
	case chance >= pulls:
		return "!!"
	}
	return "!"
}

// place finds room for a text beside an entry on the side it is taken from.
func (d *pen) place(e course.Entry, s string, role canvas.Role) {
	x, y, ok := d.roomBeside(e, len(s))
	if !ok {
		return
	}
	d.v.Text(x, y, s, role)
	for i := -1; i <= len(s); i++ { // a cell apart, so that two numbers never read as one
		d.take(x+i, y)
	}
}
