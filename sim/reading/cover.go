package reading

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// Cover is where a handler's body hides a trap from the dog during the strides in
// which it pulls most: places on a grid, each of them free to stand on and out of
// the dog's way.
type Cover struct {
	Cell   float64 // metres between places
	Places []CoverPlace
}

// CoverPlace is one place and what a body standing there does.
type CoverPlace struct {
	At    geom.Point
	Trap  float64 // share of the trap's pull that is hidden, 0..1
	Right float64 // share of the right entry's opening that is hidden meanwhile, 0..1
}

const (
	coverCell  = 0.5 // metres
	coverLeast = 0.5 // of the pull must be hidden
	coverRight = 0.4 // at most so much of the right entry may be
	mostLooks  = 8   // looks of the critical strides that are checked
	coverAway  = 0.7 // metres from the dog's line and more: nobody stands in its way
	coverReach = 8.0 // metres from the dog beyond which a body hides next to nothing
)

// covers works out the cover of every trap.
func (r *Reading) covers() {
	for i := range r.Traps {
		r.Traps[i].Cover = r.cover(&r.Traps[i])
	}
}

func (r *Reading) cover(t *Trap) Cover {
	c := Cover{Cell: coverCell}
	looks := thin(t.critical)
	if len(looks) == 0 {
		return c
	}
	leg := &r.Legs[t.Leg-1]
	at := r.Entries[t.Entry].At
	low, high := at, at
	for _, f := range looks {
		p := r.Line.Samples[f.sample].At
		low = geom.Point{X: math.Min(low.X, p.X), Y: math.Min(low.Y, p.Y)}
		high = geom.Point{X: math.Max(high.X, p.X), Y: math.Max(high.Y, p.Y)}
	}
	near := r.between(low, high)
	for y := math.Floor(low.Y/coverCell) * coverCell; y <= high.Y+coverCell; y += coverCell {
		for x := math.Floor(low.X/coverCell) * coverCell; x <= high.X+coverCell; x += coverCell {
			p := geom.Point{X: x, Y: y}
			place := CoverPlace{At: p}
			place.Trap = r.hidden(p, t.Entry, looks)
			if place.Trap < coverLeast {
				continue
			}
			place.Right = r.hidden(p, r.right[t.Leg-1], looks)
			if place.Right <= coverRight && r.stands(p, leg, near) {
				c.Places = append(c.Places, place)
			}
		}
	}
	return c
}

// thin keeps at most mostLooks of the critical looks, evenly spread.
func thin(all []flux) []flux {
	if len(all) <= mostLooks {
		return all
	}
	out := make([]flux, mostLooks)
	for i := range out {
		out[i] = all[i*(len(all)-1)/(mostLooks-1)]
	}
	return out
}

// hidden returns the share of an entry's opening that a body at p hides over the
// looks, weighted by their pull.
func (r *Reading) hidden(p geom.Point, entry int, looks []flux) float64 {
	e := &r.Entries[entry]
	side := e.Heading.Right().Mul(e.Half)
	sum, weight := 0.0, 0.0
	for _, f := range looks {
		weight += f.p
		sum += f.p * hides(r.Line.Samples[f.sample].At, p, r.Team.Handler.Body, e.At, side)
	}
	if weight == 0 {
		return 0
	}
	return sum / weight
}

// hides returns the share of the opening mid-side..mid+side that a disc of radius
// body at p covers for an eye.
func hides(eye, p geom.Point, body float64, mid, side geom.Point) float64 {
	to, line := p.Sub(eye), mid.Sub(eye)
	d, rng := to.Norm(), line.Norm()
	if d >= rng || d > coverReach || d <= body || line.Dot(to) <= 0 {
		return 0
	}
	angle := func(q geom.Point) float64 { return math.Atan2(-line.Cross(q), line.Dot(q)) }
	lo, hi := angle(mid.Sub(side).Sub(eye)), angle(mid.Add(side).Sub(eye))
	if lo > hi {
		lo, hi = hi, lo
	}
	if hi-lo < 1e-6 {
		return 0
	}
	at, half := angle(to), math.Asin(body/d)
	return max(0, min(hi, at+half)-max(lo, at-half)) / (hi - lo)
}

// between returns the obstacles that may take up places between two corners.
func (r *Reading) between(low, high geom.Point) []course.Obstacle {
	middle, half := low.Lerp(high, 0.5), low.Dist(high)/2+2
	var near []course.Obstacle
	for _, o := range r.Course.Obstacles {
		if o.At.Dist(middle) <= half+o.Length+o.Width {
			near = append(near, o)
		}
	}
	return near
}

// stands reports whether somebody can stand at p: in the ring, in none of the
// obstacles near, out of the dog's way on this leg.
func (r *Reading) stands(p geom.Point, l *Leg, near []course.Obstacle) bool {
	if p.X < 0 || p.Y < 0 || p.X > r.Course.Ring.X || p.Y > r.Course.Ring.Y || !free(near, p, r.Team.Handler.Body) {
		return false
	}
	for i := l.First; i <= l.Last; i++ {
		if r.Line.Samples[i].At.Dist(p) < coverAway {
			return false
		}
	}
	return true
}
