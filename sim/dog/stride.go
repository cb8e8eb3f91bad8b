package dog

import (
	"math"

	"cuewalk/course/geom"
	"cuewalk/plan/team"
)

// gravity in m/s2.
const gravity = 9.81

// Dog is a dog's figures made ready for use. It is not changed by runs.
type Dog struct {
	team.Dog
	GripHere float64 // grip on this surface, m/s2
	span     float64 // paw-to-paw span beyond the trunk's flight, m

	// Cosines of the bearings beyond which nothing pulls, nothing is seen, and the
	// handler is seen less well.
	edge, rim, plain float64
}

// New returns the dog of figures f on a surface; an unknown or empty one counts as
// grass. Sand is slower (T8 gives the order; the factor is C).
func New(f team.Dog, surface string) *Dog {
	d := &Dog{Dog: f, GripHere: f.Grip, span: 1.65 * f.Withers} // J3: 1.65 withers
	if surface == "sand" {
		d.GripHere *= 0.85
	}
	half := float64(f.FieldOfView) / 2
	d.edge, d.rim = math.Cos(min(tails*float64(f.Attention), half, math.Pi)), math.Cos(min(half, math.Pi))
	d.plain = math.Cos(max(0, half-dim))
	return d
}

// StrideLength returns the length of a galloping stride at speed v for a dog of
// the given withers: h (1 + v / sqrt(g h)) (G5, a fit within 3 % of G4).
func StrideLength(withers, v float64) float64 {
	return withers * (1 + v/math.Sqrt(gravity*withers))
}

// StrideTime returns the seconds a stride takes at speed v > 0.
func StrideTime(withers, v float64) float64 { return StrideLength(withers, v) / v }

// Airborne returns the seconds in the air of a jump whose paws leave takeOff
// metres before the bar and land landing metres behind it at speed v: the trunk
// flies the paws' way less one body span (J1-J3).
func Airborne(takeOff, landing, span, v float64) float64 {
	return max(0.12, (takeOff+landing-span)/v)
}

// extension returns 0 for collected strides, 1 for extended ones.
func (d *Dog) extension(v float64) float64 {
	return clamp01((v - d.Collected) / (d.Extended - d.Collected))
}

// tightest returns the largest curvature the dog can run at speed v, 1/m: grip
// over v squared, and never tighter than its smallest radius.
func (d *Dog) tightest(v float64) float64 {
	return min(1/d.Radius, d.GripHere/max(v*v, 0.01))
}

// fastest returns the highest speed at which the dog can run curvature k.
func (d *Dog) fastest(k float64) float64 {
	return math.Sqrt(d.GripHere / max(math.Abs(k), 1e-6))
}

// barSpeed returns the highest speed at which the dog meets a bar: the higher it
// is against the withers, the slower (J4; the slope is C).
func (d *Dog) barSpeed(height float64) float64 {
	return d.Extended * (barPace - barCost*height/d.Withers)
}

// barLength returns the factor on take-off and landing distance for a bar: the
// trajectory grows with height until 126 % of the withers, then shortens (J4; the
// slopes are C).
func (d *Dog) barLength(height float64) float64 {
	const turn = 1.26
	r := height / d.Withers
	if r <= turn {
		return 1 + 0.25*(r-1.2)
	}
	return 1 + 0.25*(turn-1.2) - 0.6*(r-turn)
}

// Span returns the take-off and landing distance at speed v over entry height.
func (d *Dog) jump(v, height, room float64) (takeOff, landing float64) {
	x := d.extension(v)
	f := max(0.6, d.barLength(height))
	if height <= 0 {
		f = 1
	}
	takeOff = f * lerp(d.TakeOffCollected, d.TakeOffExtended, x)
	landing = f * lerp(d.LandingCollected, d.LandingExtended, x)
	// A jump close behind pulls the landing in (J5, J6): full length from 4.6 m on, C.
	return takeOff, landing * lerp(0.75, 1, clamp01((room-3.2)/1.4))
}

// change moves v toward want within the dog's acceleration and braking for dt,
// less what the turn takes of the grip (friction circle, G14).
func (d *Dog) change(v, want, k, dt float64) float64 {
	if want < v {
		return max(want, v-d.Braking*dt)
	}
	lat := v * v * math.Abs(k) / d.GripHere
	return min(want, v+d.Acceleration*math.Sqrt(max(0, 1-lat*lat))*dt)
}

func clamp01(x float64) float64 { return max(0, min(1, x)) }

func lerp(a, b, t float64) float64 { return a + (b-a)*t }

func turn(a geom.Angle) float64 { return math.Abs(float64(a)) }
