package reading

import (
	"cuewalk/course/geom"
)

// Shape is a leg by geometry alone: the angles between the straight line from exit
// to entry and the ways out of one and into the other obstacle. Right is positive.
type Shape struct {
	From   geom.Pose  // exit of the obstacle before, or the start
	To     geom.Pose  // entry of the next
	Gap    float64    // metres between the two
	Depart geom.Angle // from the way out to the line
	Arrive geom.Angle // from the line to the way in
	Turn   geom.Angle // their sum: how far the dog's heading turns; may pass 180 degrees
}

// shape measures leg i from centre to centre. A turn in that is all but about is
// counted to the side of the turn out, so that 270 degrees are not read as 90 the other way.
func (r *Reading) shape(i int) Shape {
	to := &r.Entries[r.right[i]]
	s := Shape{To: geom.Pose{At: to.At, Heading: to.Heading}, From: geom.Pose{At: r.Course.Start}}
	if i > 0 {
		s.From = r.Entries[r.right[i-1]].Exit
	}
	s.Gap = s.From.At.Dist(s.To.At)
	line := s.From.At.Towards(s.To.At)
	if i == 0 {
		s.From.Heading = line
	}
	s.Depart, s.Arrive = line.Off(s.From.Heading), s.To.Heading.Off(line)
	if s.Arrive.Abs() > geom.Deg(165) && s.Depart.Abs() > geom.Deg(15) && (s.Arrive > 0) != (s.Depart > 0) {
		s.Arrive += geom.Deg(360) * geom.Angle(side(s.Depart, 0))
	}
	s.Turn = s.Depart + s.Arrive
	return s
}
