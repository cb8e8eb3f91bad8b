package geom

// Smooth rises from 0 at a to 1 at b without a corner; it is 0 before a and 1 past b.
// a and b must differ.
func Smooth(a, b, x float64) float64 {
	t := max(0, min(1, (x-a)/(b-a)))
	return t * t * (3 - 2*t)
}
