package rulebook

import (
	"fmt"
	"strconv"
	"strings"
)

// Hundredths is a time in hundredths of a second or a number of faults in
// hundredths: whole, because binary fractions cannot hold 68.17.
type Hundredths int64

// String returns the value with two decimals, such as "68.17".
func (h Hundredths) String() string {
	sign, n := "", int64(h)
	if n < 0 {
		sign, n = "-", -n
	}
	return fmt.Sprintf("%s%d.%02d", sign, n/100, n%100)
}

// Float returns the value as a binary fraction, for showing and for JSON only.
func (h Hundredths) Float() float64 { return float64(h) / 100 }

// MarshalJSON writes the value as a number with two decimals.
func (h Hundredths) MarshalJSON() ([]byte, error) { return []byte(h.String()), nil }

// ParseHundredths reads a number with at most two decimals, such as "68.17" or
// "60". Signs and exponents are refused.
func ParseHundredths(s string) (Hundredths, error) {
	whole, part, dotted := strings.Cut(s, ".")
	if !digits(whole, 1, 12) || dotted && !digits(part, 1, 2) {
		return 0, fmt.Errorf("%q is no time; write seconds with at most two decimals, such as 41.07", s)
	}
	n, err := strconv.ParseInt(whole+(part + "00")[:2], 10, 64)
	if err != nil {
		return 0, fmt.Errorf("%q is no time: %w", s, err)
	}
	return Hundredths(n), nil
}

func digits(s string, least, most int) bool {
	return len(s) >= least && len(s) <= most && strings.Trim(s, "0123456789") == ""
}

// share returns part/whole rounded half up; both must be positive or zero, whole not zero.
func share(part, whole int64) int64 { return (2*part + whole) / (2 * whole) }
