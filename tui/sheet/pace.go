package sheet

import (
	"math"
	"strconv"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/tui/words"
)

// Pace is a place in the ring told by things on the ground, for pacing it out.
type Pace struct {
	Metres float64 // from the thing, to a tenth of the course's unit
	Length string  // the same in words: "2.5 m"
	Steps  string  // in the handler's steps, to half a step; empty where his step is not known
	From   string  // "left wing of 7"
	Toward string  // "toward 9"; empty where he stands at the thing
}

// How well a place must be told, in metres: at most near from a thing counts as being at it;
// more than poor off, the ring's edges tell it better.
const (
	nearThing = 0.3
	poor      = 0.45
)

// landmark is a thing on the ground that a person can put a foot beside.
type landmark struct {
	name   string
	at     geom.Point
	number int
	along  geom.Angle // the dog's way at it
	out    geom.Angle // along the bar and away from it
	bar    bool       // out means something
}

// landmarks are the ends of everything that is numbered, each once for every number. Left and
// right are the dog's.
func landmarks(c *course.Course) []landmark {
	var all []landmark
	for n := 1; n <= len(c.Order); n++ {
		e, of := c.Entry(n), " of "+strconv.Itoa(n)
		o := &c.Obstacles[e.Obstacle]
		switch {
		case e.Kind.Jumped():
			end := "post"
			if o.Wing > 0 {
				end = "wing"
			}
			pose := geom.Pose{At: e.At, Heading: e.Heading}
			half := e.Half + o.Wing
			all = append(all,
				landmark{"left " + end + of, pose.Beside(-half), n, e.Heading, e.Heading - math.Pi/2, true},
				landmark{"right " + end + of, pose.Beside(half), n, e.Heading, e.Heading + math.Pi/2, true})
		case e.Kind == course.Weaves:
			all = append(all, landmark{"first pole" + of, e.At, n, e.Heading, 0, false},
				landmark{"last pole" + of, e.Exit.At, n, e.Exit.Heading, 0, false})
		default:
			all = append(all, landmark{"entry" + of, e.At, n, e.Heading, 0, false},
				landmark{"exit" + of, e.Exit.At, n, e.Exit.Heading, 0, false})
		}
	}
	return all
}

// direction is a way to look from a landmark.
type direction struct {
	words string
	to    geom.Angle
	far   float64 // metres to what is looked at
}

// directions are the ways that can be told at landmark l.
func directions(c *course.Course, l *landmark) []direction {
	all := []direction{
		{"on the dog's way", l.along, 0},
		{"against its way", l.along + math.Pi, 0},
	}
	if l.bar {
		all = append(all, direction{"along the bar", l.out, 0})
	}
	own := c.Order[l.number-1].Obstacle
	for n := 1; n <= len(c.Order); n++ {
		o := c.Order[n-1].Obstacle
		at := c.Obstacles[o].At
		if o == own || at.Dist(l.at) < 2 {
			continue
		}
		all = append(all, direction{"toward " + strconv.Itoa(n), l.at.Towards(at), at.Dist(l.at)})
	}
	return all
}

// paceOut tells the place p by the thing and the direction that tell it best; number is the
// course number it is about, step the handler's step in metres, 0 where not known.
func paceOut(c *course.Course, p geom.Point, number int, step float64) *Pace {
	best, least := Pace{}, math.Inf(1)
	for _, l := range landmarks(c) {
		d := l.at.Dist(p)
		cost := 0.15*d + 0.05*math.Abs(float64(l.number-number))
		if d <= nearThing {
			if cost += 0.1 + d; cost < least {
				best, least = Pace{From: l.name}, cost
			}
			continue
		}
		tenths := tenth(c.Units, d)
		for _, way := range directions(c, &l) {
			off := l.at.Add(way.to.Unit().Mul(tenths)).Dist(p)
			if off > poor {
				continue
			}
			if cost := cost + 3*off + 0.03*way.far; cost < least {
				best, least = Pace{Metres: tenths, From: l.name, Toward: way.words}, cost
			}
		}
	}
	if math.IsInf(least, 1) {
		return byEdges(c, p)
	}
	if best.Metres > 0 {
		best.Length = words.Length(c.Units, best.Metres)
		if step > 0 {
			best.Steps = words.Halves(best.Metres / step)
		}
	}
	return &best
}

// byEdges tells a place by the edges of the ring where no thing tells it.
func byEdges(c *course.Course, p geom.Point) *Pace {
	return &Pace{From: "the ring's lower left corner",
		Toward: words.Length(c.Units, p.X) + " to the right, " + words.Length(c.Units, p.Y) + " up the map"}
}

// tenth rounds metres to a tenth of unit u.
func tenth(u course.Units, metres float64) float64 {
	return math.Round(metres/u.Factor()*10) / 10 * u.Factor()
}
