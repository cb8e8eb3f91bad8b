package rulebook

import (
	"fmt"
	"math"

	"cuewalk/course"
)

// Finding is one point in which a course is not as a rule asks. It informs and
// refuses nothing.
type Finding struct {
	Rule      string     // short name, such as "spacing"
	Section   string     // of the edition; empty where none was visible
	Edition   string     // the text the figure is from
	Kind      SourceKind // the kind of that text
	Doubtful  bool
	Obstacles []string // ids, in course order
	What      string   // what is off and by how much, with a remark where the figure is no plain rule
}

// Check returns where c is not as r asks for dogs of a size class, in a fixed
// order. size is "" where the class is not known. c must be a checked course; r
// may be nil, which finds nothing. Course length is taken from straight lines
// between centres; CheckPath takes the dog's path.
func Check(c *course.Course, r *Rules, size Size) []Finding { return CheckPath(c, r, size, 0) }

// CheckPath is Check for a caller who knows the length of the dog's expected path
// in metres.
func CheckPath(c *course.Course, r *Rules, size Size, path float64) []Finding {
	if r == nil || len(c.Order) == 0 {
		return nil
	}
	k := &checker{c: c, r: r, size: size}
	k.counts()
	k.limits()
	k.ends()
	k.spacing()
	k.straight()
	k.inARow()
	k.heights()
	k.sizes()
	k.bends()
	k.room()
	k.ring()
	k.length(path)
	return k.found
}

// checker gathers findings about one course.
type checker struct {
	c     *course.Course
	r     *Rules
	size  Size
	found []Finding
}

// add notes a finding unless its figure was only recalled.
func (k *checker) add(s Source, rule string, ids []string, format string, args ...any) {
	if s.Kind == Memory {
		return
	}
	what := fmt.Sprintf(format, args...)
	if remark := s.Remark(); remark != "" {
		what += " (" + remark + ")"
	}
	k.found = append(k.found, Finding{
		Rule: rule, Section: s.Section, Edition: s.Edition, Kind: s.Kind, Doubtful: s.Doubtful,
		Obstacles: ids, What: what,
	})
}

// obstacle returns the obstacle of number n, and id its id.
func (k *checker) obstacle(n int) course.Obstacle { return k.c.Obstacles[k.c.Order[n-1].Obstacle] }

func (k *checker) id(n int) string { return k.obstacle(n).ID }

// show writes a length in the course's own units.
func (k *checker) show(m float64) string {
	return fmt.Sprintf("%.2f %s", m/k.c.Units.Factor(), k.c.Units)
}

// cm returns m metres in whole centimetres. Distances are compared so, because a
// distance of exactly 5 m seldom comes out as exactly 5.
func cm(m float64) int64 { return int64(math.Round(m * 100)) }

// off says how far m is outside from..to, in whole centimetres; 0 within. to is 0
// for no upper end.
func off(m, from, to float64) int64 {
	switch {
	case cm(m) < cm(from):
		return cm(m) - cm(from)
	case to > 0 && cm(m) > cm(to):
		return cm(m) - cm(to)
	}
	return 0
}

// span writes a range in the course's own units.
func (k *checker) span(from, to float64) string {
	switch {
	case to == 0:
		return "at least " + k.show(from)
	case cm(from) == cm(to):
		return k.show(from)
	case from == 0:
		return "at most " + k.show(to)
	}
	u := k.c.Units.Factor()
	return fmt.Sprintf("%.4g to %.4g %s", from/u, to/u, k.c.Units)
}

// astray writes by how much a length is off, such as "0.80 m too short".
func (k *checker) astray(by int64, short, long string) string {
	if by < 0 {
		return k.show(float64(-by)/100) + " " + short
	}
	return k.show(float64(by)/100) + " " + long
}

// taken returns the obstacles on the numbered course, each once, in the order they
// are first taken.
func taken(c *course.Course) []course.Obstacle {
	seen := make([]bool, len(c.Obstacles))
	var obstacles []course.Obstacle
	for _, s := range c.Order {
		if !seen[s.Obstacle] {
			seen[s.Obstacle] = true
			obstacles = append(obstacles, c.Obstacles[s.Obstacle])
		}
	}
	return obstacles
}
