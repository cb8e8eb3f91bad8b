package rulebook_test

import (
	"fmt"

	"cuewalk/course"
	"cuewalk/course/geom"
	"cuewalk/course/rulebook"
)

// Which rules does a course break for a dog of 51 cm at the withers?
func ExampleCheck() {
	rules, err := rulebook.Find("KC 2022")
	if err != nil {
		fmt.Println(err)
		return
	}
	class, _ := rules.Class(0.51)
	bar := rulebook.Bar(rules, 0.51)

	c := &course.Course{Ring: geom.Point{X: 32, Y: 32}}
	for i := range 10 {
		o := course.Obstacle{ID: fmt.Sprintf("j%d", i+1), Kind: course.Jump, At: geom.Point{X: 16, Y: 2 + 5*float64(i)}}
		o.Defaults(bar)
		c.Obstacles = append(c.Obstacles, o)
		c.Order = append(c.Order, course.Step{Obstacle: i})
	}
	c.Obstacles[9].At.Y -= 1.5
	for _, f := range rulebook.Check(c, rules, class.Size) {
		fmt.Printf("%s, %s %s: %s\n", f.Rule, f.Edition, f.Section, f.What)
	}
	// Output:
	// spacing, KC 2017 H(1)(B)1.a.(3): j9 to j10 is 3.50 m, asked is 5 to 10 m: 1.50 m too short, centre to centre
}
