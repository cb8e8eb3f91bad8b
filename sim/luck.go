package sim

import (
	"math"
	"math/rand/v2"
)

// Luck is what varies from run to run. Each thing that varies draws on its own,
// by its place on the course and not by when it happens, so that two plans meet
// the same luck. The zero value is no luck at all: nothing varies.
type Luck struct {
	seed, run uint64
	on        bool
}

// draw names what is drawn for.
type draw uint64

const (
	drawCommit draw = iota
	drawWhich
	drawCallOff
	drawTiming
	drawStandX
	drawStandY
	drawLatency
	drawSpot
	drawBar
	drawContact
	drawEntry
	drawArrival
	drawLeaves
)

// uniform returns a number in (0, 1) for purpose d at place i.
func (l Luck) uniform(d draw, i int) float64 {
	var src rand.PCG
	src.Seed(l.seed^uint64(d)<<56^uint64(i)<<32, l.run*0x9e3779b97f4a7c15+uint64(d)+1)
	src.Uint64() // the first output is close to the seed
	return (float64(src.Uint64()>>12) + 0.5) / (1 << 52)
}

// normal returns a number of mean 0 and spread sd, held within three spreads; 0
// where nothing varies.
func (l Luck) normal(d draw, i int, sd float64) float64 {
	if !l.on || sd == 0 {
		return 0
	}
	x := math.Sqrt2 * math.Erfinv(2*l.uniform(d, i)-1)
	return sd * max(-3, min(3, x))
}

// exponential returns a waiting time of mean 1.
func (l Luck) exponential(d draw, i int) float64 { return -math.Log(l.uniform(d, i)) }
