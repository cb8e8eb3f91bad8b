package dog

import "cuewalk/course"

// Tightest returns the largest curvature the dog can run at speed v, 1/m.
func (d *Dog) Tightest(v float64) float64 { return d.tightest(v) }

// Fastest returns the highest speed at which the dog can run curvature k, m/s.
func (d *Dog) Fastest(k float64) float64 { return min(d.Extended, d.fastest(k)) }

// BarSpeed returns the highest speed at which the dog meets a bar of this height, m/s.
func (d *Dog) BarSpeed(height float64) float64 { return min(d.Extended, d.barSpeed(height)) }

// Trunk returns how far before a bar the middle of the dog's trunk leaves the
// ground at speed v, and how far behind it it comes down, in metres. room is the
// distance to the next opening straight behind.
func (d *Dog) Trunk(v, height, room float64) (before, behind float64) {
	takeOff, landing := d.jump(v, height, room)
	return max(0.3, takeOff-d.span/2), max(0.3, landing-d.span/2)
}

// OutSpeed returns the speed at which the dog comes out of an obstacle it does not jump, m/s.
func (d *Dog) OutSpeed(e *course.Entry) float64 { return d.outSpeed(e) }

// Room returns the metres from the far side of entry i to the nearest opening
// straight on behind it; FarSight where there is none.
func (s *Scene) Room(i int) float64 { return s.room[i] }
