// Package drawing draws a ring seen from above as an SVG picture to scale: black on white,
// the paper's way up, every sign told apart by its shape and not by its colour alone. It
// draws what it is given and computes nothing of a run.
//
// On the map lengths are metres, x to the right and y up; on the picture millimetres of
// print, x to the right and y down.
package drawing

import (
	"cuewalk/course"
	"cuewalk/course/geom"
)

// Scene is what is to be drawn. Everything but the course may be left out. Texts are drawn
// as they are: control characters in them must have been made visible.
type Scene struct {
	Course  *course.Course
	Dog     []Stretch
	Strides []geom.Pose // where the dog's feet come down and which way it then goes
	Handler []geom.Point
	Stands  []Stand
	Wrong   []Wrong
	Shadows []Shadow
}

// Stretch is a piece of the dog's line.
type Stretch struct {
	Way    []geom.Point
	Ground bool // it gallops here; else it flies, or is on or in an obstacle
}

// Stand is a place where the handler gives a cue.
type Stand struct {
	Label string
	At    geom.Point
	Chest geom.Angle
	Arm   float64    // -1 left, +1 right, 0 none
	Where geom.Point // where the model's handler was instead
	Short bool       // he was not at the stand
}

// Wrong is a way off the course.
type Wrong struct {
	Way      []geom.Point // from the dog's line to the wrong obstacle; none where only that is known
	At       geom.Point   // the opening it ends at
	Obstacle int
	Label    string // its chance
}

// Shadow is what a body hides from the dog.
type Shadow struct {
	Eye, Body geom.Point
	Radius    float64 // of the body
	Reach     float64 // metres from the eye that are drawn
}
