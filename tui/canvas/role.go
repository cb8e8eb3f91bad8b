package canvas

// Role says what a piece of the screen means; a Palette decides how that looks.
//
// No role may be told by its style alone. The comment of each names the sign, letter or
// place that goes with it, so that nothing is lost in grey print, without colour or
// to an eye that takes red for green.
type Role uint8

const (
	Plain    Role = iota // ordinary text; no sign
	Dog                  // the dog and its planned line; 'D' or its arrow, one mark per stride
	Handler              // the handler and his way; 'H', stands by their cue number
	Right                // the obstacle that should come next; its course number in brackets
	Wrong                // the obstacle or way wrongly taken, the only loud one; 'x' or '!'
	Hidden               // what the dog cannot see now; shade, or its outline dotted
	Caution              // late, doubtful, a trap that pulls, a worse figure; '!' or the word
	Quiet                // what may be overlooked: rules, units, the rest of a bar; no sign
	Title                // the name of a panel; stands first in its own row
	Key                  // a key in the footer or the help; stands before the word for what it does
	Obstacle             // an obstacle that is neither right nor wrong now; its drawn shape
	Track                // marks on the ground of times other than now; dots
	Altered              // a value changed and not yet saved, or that differs between two plans; '*'
	roleCount
)

// Two additions that go with any role, as in Wrong|Chosen.
const (
	Strong Role = 0x40 // the one of several alike that matters now; it also stands larger or first
	Chosen Role = 0x80 // under the cursor, what keys would alter; '>' before it or [ ] around it
)

// base is the role less its additions; an unknown one reads as Plain.
func (r Role) base() Role {
	if b := r &^ (Strong | Chosen); b < roleCount {
		return b
	}
	return Plain
}

var roleNames = [roleCount]string{"plain", "dog", "handler", "right", "wrong", "hidden", "caution",
	"quiet", "title", "key", "obstacle", "track", "altered"}

// String names the role, with "+strong" and "+chosen" after it where they are set.
func (r Role) String() string {
	s := roleNames[r.base()]
	if r&Strong != 0 {
		s += "+strong"
	}
	if r&Chosen != 0 {
		s += "+chosen"
	}
	return s
}
