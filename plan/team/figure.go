package team

import (
	"math"

	"cuewalk/course"
	"cuewalk/course/geom"
)

// dimension is what a figure measures, which says how the file's value becomes
// metres, seconds and radians.
type dimension uint8

const (
	share  dimension = iota // a number without a unit
	length                  // or a speed, an acceleration: anything with one length in it
	time
	angle // degrees in the file
)

// ours turns a value in the file's units into metres, seconds or radians.
func (d dimension) ours(x float64, u course.Units) float64 {
	switch d {
	case length:
		return x * u.Factor()
	case angle:
		return float64(geom.Deg(x))
	}
	return x
}

// theirs is the other way round.
func (d dimension) theirs(x float64, u course.Units) float64 {
	switch d {
	case length:
		return x / u.Factor()
	case angle:
		return geom.Angle(x).Degrees()
	}
	return x
}

// figure is one figure of a T that a file may set: its key, what it measures, and
// the range that is taken, both ends included, in metres, seconds or degrees.
type figure[T any] struct {
	key         string
	dim         dimension
	least, most float64
	of          func(*T) *float64
}

// limits returns the range in the file's units, rounded to hundredths so that it
// can be shown.
func (f figure[T]) limits(u course.Units) (least, most float64) {
	if f.dim != length || u == course.Metres {
		return f.least, f.most
	}
	k := 100 / u.Factor()
	return math.Round(f.least*k) / 100, math.Round(f.most*k) / 100
}

// Ranges are wide: they refuse slips (centimetres for metres, milliseconds for
// seconds), not unusual dogs. Withers: rulebooks measure from toy to giant breeds.
// The rest is common practice, no source.
var dogFigures = []figure[Dog]{
	{"withers", length, 0.15, 0.90, func(d *Dog) *float64 { return &d.Withers }},
	{"focus", share, 0, 1, func(d *Dog) *float64 { return &d.Focus }},
	{"collected", length, 0.5, 8, func(d *Dog) *float64 { return &d.Collected }},
	{"extended", length, 1, 12, func(d *Dog) *float64 { return &d.Extended }},
	{"acceleration", length, 0.5, 12, func(d *Dog) *float64 { return &d.Acceleration }},
	{"braking", length, 0.5, 15, func(d *Dog) *float64 { return &d.Braking }},
	{"grip", length, 2, 20, func(d *Dog) *float64 { return &d.Grip }},
	{"radius", length, 0.2, 2, func(d *Dog) *float64 { return &d.Radius }},
	{"lead-change", time, 0, 1, func(d *Dog) *float64 { return &d.LeadChange }},
	{"take-off-collected", length, 0.2, 3, func(d *Dog) *float64 { return &d.TakeOffCollected }},
	{"take-off-extended", length, 0.2, 4, func(d *Dog) *float64 { return &d.TakeOffExtended }},
	{"landing-collected", length, 0.2, 3, func(d *Dog) *float64 { return &d.LandingCollected }},
	{"landing-extended", length, 0.2, 4, func(d *Dog) *float64 { return &d.LandingExtended }},
	{"landing-turn", angle, 0, 120, func(d *Dog) *float64 { return (*float64)(&d.LandingTurn) }},
	{"turn-read", time, 0, 1, func(d *Dog) *float64 { return &d.TurnRead }},
	{"latency", time, 0.05, 1, func(d *Dog) *float64 { return &d.Latency }},
	{"word-latency", time, 0.05, 2, func(d *Dog) *float64 { return &d.WordLatency }},
	{"attention", angle, 5, 60, func(d *Dog) *float64 { return (*float64)(&d.Attention) }},
	{"field-of-view", angle, 90, 360, func(d *Dog) *float64 { return (*float64)(&d.FieldOfView) }},
	{"weaves", time, 1, 30, func(d *Dog) *float64 { return &d.Weaves }},
	{"A-frame", time, 0.5, 30, func(d *Dog) *float64 { return &d.AFrame }},
	{"dog-walk", time, 0.5, 30, func(d *Dog) *float64 { return &d.DogWalk }},
	{"seesaw", time, 0.5, 30, func(d *Dog) *float64 { return &d.Seesaw }},
	{"table", time, 0, 30, func(d *Dog) *float64 { return &d.Table }},
	{"contact", share, 0, 1, func(d *Dog) *float64 { return &d.Contact }},
	{"entry", share, 0, 1, func(d *Dog) *float64 { return &d.Entry }},
	{"bars", share, 0, 1, func(d *Dog) *float64 { return &d.Bars }},
}

var handlerFigures = []figure[Handler]{
	{"speed", length, 0.5, 10, func(h *Handler) *float64 { return &h.Speed }},
	{"acceleration", length, 0.5, 10, func(h *Handler) *float64 { return &h.Acceleration }},
	{"braking", length, 0.5, 12, func(h *Handler) *float64 { return &h.Braking }},
	{"turning", angle, 30, 1000, func(h *Handler) *float64 { return &h.Turning }},
	{"reaction", time, 0, 2, func(h *Handler) *float64 { return &h.Reaction }},
	{"backward", share, 0.1, 1, func(h *Handler) *float64 { return &h.Backward }},
	{"sideways", share, 0.1, 1, func(h *Handler) *float64 { return &h.Sideways }},
	{"body", length, 0.1, 0.6, func(h *Handler) *float64 { return &h.Body }},
	{"timing", time, 0, 1, func(h *Handler) *float64 { return &h.Timing }},
	{"placing", length, 0, 2, func(h *Handler) *float64 { return &h.Placing }},
}

// step is apart from the rest: nobody has one unless the file says so.
var step = figure[Handler]{key: "step", dim: length, least: 0.3, most: 1.5}

// mostDraw is the largest pull of a kind of obstacle that a file may give.
const mostDraw = 10

// ordered are the pairs of figures of which the second cannot be less than the
// first.
var ordered = []struct{ slow, fast string }{
	{"collected", "extended"},
	{"take-off-collected", "take-off-extended"},
	{"landing-collected", "landing-extended"},
}

// Figure is one figure that a team file may set, and the range that is taken, both ends
// included: metres, seconds or degrees.
type Figure struct {
	Table       string // dog or handler
	Key         string
	Least, Most float64
}

// Figures lists every figure of dog and handler that a team file may set.
func Figures() []Figure {
	var out []Figure
	for _, f := range dogFigures {
		out = append(out, Figure{"dog", f.key, f.least, f.most})
	}
	for _, f := range handlerFigures {
		out = append(out, Figure{"handler", f.key, f.least, f.most})
	}
	return out
}
