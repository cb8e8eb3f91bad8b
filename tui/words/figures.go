package words

import (
	"fmt"
	"math"
	"strconv"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// Percent is a chance of 0 to 1 as whole per cent, such as "86 %". Only what is exactly 0 or 1
// is called so: what rounds to them reads "<1 %" or ">99 %".
func Percent(p float64) string {
	switch {
	case math.IsNaN(p):
		return "? %"
	case p > 0 && p < 0.005:
		return "<1 %"
	case p < 1 && p >= 0.995:
		return ">99 %"
	}
	return strconv.Itoa(int(math.Round(100*p))) + " %"
}

// Points is a difference of two chances in whole points, with its sign: "+12", "-3", "0".
func Points(d float64) string {
	n := int(math.Round(100 * d))
	if n > 0 {
		return "+" + strconv.Itoa(n)
	}
	return strconv.Itoa(n)
}

// Interval is a 95 % interval of a chance, such as "83 to 89 %"; empty where both ends are
// the same, that is where no runs were made. Its ends are rounded outwards.
func Interval(low, high float64) string {
	if low == high || math.IsNaN(low) || math.IsNaN(high) {
		return ""
	}
	l, h := int(math.Floor(100*low+1e-9)), int(math.Ceil(100*high-1e-9))
	return fmt.Sprintf("%d to %d %%", l, h)
}

// Chance is a chance with its interval where there is one: "86 % (83 to 89 %)".
func Chance(p, low, high float64) string {
	if i := Interval(low, high); i != "" {
		return Percent(p) + " (" + i + ")"
	}
	return Percent(p)
}

// Length is a length of m metres to a tenth in units u: "4.2 m".
func Length(u course.Units, m float64) string {
	if math.IsInf(m, 0) || math.IsNaN(m) {
		return "-"
	}
	return tenth(m/u.Factor()) + " " + u.String()
}

// Seconds is a time to a tenth of a second: "1.3 s".
func Seconds(s float64) string { return tenth(s) + " s" }

// Speed is a speed of ms metres a second; it stays in metres on a course in feet, as
// scores do.
func Speed(ms float64) string { return tenth(ms) + " m/s" }

// Place is a place on the map in units u, as plans write it: "(12.5, 8.0)".
func Place(u course.Units, p geom.Point) string {
	return "(" + tenth(p.X/u.Factor()) + ", " + tenth(p.Y/u.Factor()) + ")"
}

// Bearing is where something lies off the dog's nose: "12 degrees left", "straight ahead".
func Bearing(a geom.Angle) string {
	d := int(math.Round(a.Wrap().Degrees()))
	switch {
	case d <= 2 && d >= -2:
		return "straight ahead"
	case d > 0:
		return strconv.Itoa(d) + " degrees right"
	}
	return strconv.Itoa(-d) + " degrees left"
}

// degrees is the size of an angle: "48 degrees".
func degrees(a geom.Angle) string {
	d := int(math.Round(a.Wrap().Abs().Degrees()))
	if d == 1 {
		return "1 degree"
	}
	return strconv.Itoa(d) + " degrees"
}

// tenth writes a number with one decimal and never as "-0.0".
func tenth(x float64) string {
	s := strconv.FormatFloat(x, 'f', 1, 64)
	if s == "-0.0" {
		return "0.0"
	}
	return s
}
