package team

import (
	"fmt"
	"strings"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// Sizes are the dogs a team file may start from.
func Sizes() []string { return []string{"large", "intermediate", "medium", "small"} }

// Handlers are the handlers a team file may start from.
func Handlers() []string { return []string{"fast", "average", "slow"} }

// Preset returns a team of the dog preset size and handler preset person.
func Preset(size, person string) (Team, error) {
	d, err := PresetDog(size)
	if err != nil {
		return Team{}, err
	}
	h, err := PresetHandler(person)
	if err != nil {
		return Team{}, err
	}
	name := "a " + size
	if size == "intermediate" {
		name = "an " + size
	}
	return Team{Name: name + " dog, " + person + " handler", Dog: d, Handler: h}, nil
}

// PresetDog returns the figures of a dog of that size class. The large dog's are
// those of the model's table of defaults; the others are scaled as the science
// table does: speed and stride by withers (G2, G4, G5), take-off and landing by
// bar and withers (J1-J3).
func PresetDog(size string) (Dog, error) {
	d := Dog{
		Withers: 0.50, Focus: 0.5,
		Collected: 2.6, Extended: 6.8, // G3, S2: P
		Acceleration: 4.5, Braking: 7, // G12-G14: P, C
		Grip: 8, Radius: 0.6, // T1, T3: P; C
		LeadChange:       0.10,                      // T6, G9 order; C
		TakeOffCollected: 0.9, TakeOffExtended: 1.5, // J1, J2: P; C
		LandingCollected: 0.8, LandingExtended: 1.4, // J1, J2: P; C
		LandingTurn: geom.Deg(60), TurnRead: 0.2, // C
		Latency: 0.25, WordLatency: 0.40, // V10, V5-V7 order; C
		Attention: geom.Deg(26), FieldOfView: geom.Deg(240), // C; V1
		Weaves: 2.6, AFrame: 1.7, DogWalk: 2.0, Seesaw: 2.6, Table: 5, // M; table count AKC
		Contact: 0.92, Entry: 0.93, Bars: 0.95, // C
	}
	for s := range d.Knows {
		d.Knows[s] = 0.7 // C
	}
	for k := range d.Draw {
		d.Draw[k] = 1
	}
	d.Draw[course.Tunnel] = 2.5  // common practice, no source: tunnels pull hardest
	d.Draw[course.Weaves] = 0.7  // C
	d.Draw[course.Seesaw] = 0.7  // C
	d.Draw[course.Table] = 0.5   // C
	d.Draw[course.AFrame] = 1.2  // C
	d.Draw[course.DogWalk] = 1.0 // C
	switch size {
	case "large":
	case "intermediate":
		d.Withers, d.Collected, d.Extended, d.Radius = 0.45, 2.5, 6.5, 0.55
		d.takeOff(0.82, 1.35, 0.73, 1.25)
		d.times(2.8, 1.8, 2.1, 2.6)
	case "medium":
		d.Withers, d.Collected, d.Extended, d.Radius, d.Grip = 0.38, 2.3, 6.0, 0.5, 8.3
		d.takeOff(0.7, 1.1, 0.6, 1.0)
		d.times(3.0, 1.9, 2.3, 2.7)
	case "small":
		d.Withers, d.Collected, d.Extended, d.Radius = 0.30, 2.1, 5.3, 0.4
		d.takeOff(0.55, 0.8, 0.5, 0.75)
		d.times(3.3, 2.1, 2.6, 2.8)
		d.FieldOfView = geom.Deg(230)
	default:
		return Dog{}, fmt.Errorf("unknown dog size %q; write one of %s", size, strings.Join(Sizes(), ", "))
	}
	return d, nil
}

func (d *Dog) takeOff(toC, toE, ldC, ldE float64) {
	d.TakeOffCollected, d.TakeOffExtended, d.LandingCollected, d.LandingExtended = toC, toE, ldC, ldE
}

func (d *Dog) times(weaves, aframe, dogWalk, seesaw float64) {
	d.Weaves, d.AFrame, d.DogWalk, d.Seesaw = weaves, aframe, dogWalk, seesaw
}

// PresetHandler returns the figures of a handler: average is the model's default
// (H1, H2 with people's limits; C), fast and slow the ends of its range.
func PresetHandler(person string) (Handler, error) {
	h := Handler{
		Speed: 5, Acceleration: 4, Braking: 5, Turning: 6, Reaction: 0.45, // H1, H3, H5; M
		Backward: 0.65, Sideways: 0.55, // H9 direction; M
		Body:    0.2,  // H11: legs and hips at a dog's eye height 0.35-0.4 m across
		Timing:  0.07, // H4 spread of reaction
		Placing: 0.12, // C
	}
	switch person {
	case "average":
	case "fast":
		h.Speed, h.Acceleration, h.Braking, h.Reaction = 6.5, 4.8, 6, 0.40
	case "slow":
		h.Speed, h.Acceleration, h.Braking, h.Turning, h.Reaction = 3.8, 3, 4, 4.5, 0.55
	default:
		return Handler{}, fmt.Errorf("unknown handler %q; write one of %s", person, strings.Join(Handlers(), ", "))
	}
	return h, nil
}
