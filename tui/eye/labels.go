package eye

import (
	"strconv"

	"cuewalk/course"
)

// Labels names each obstacle by the number it has at or next after course number leg, by
// its last number where it has none any more, and by its id where it is a dummy.
func Labels(c *course.Course, leg int) []string {
	names := make([]string, len(c.Obstacles))
	for i, o := range c.Obstacles {
		names[i] = o.ID
	}
	for n := 1; n < leg && n <= len(c.Order); n++ {
		names[c.Order[n-1].Obstacle] = strconv.Itoa(n)
	}
	for n := len(c.Order); n >= max(leg, 1); n-- {
		names[c.Order[n-1].Obstacle] = strconv.Itoa(n)
	}
	return names
}
