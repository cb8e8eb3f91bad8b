package dog

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"cuewalk/course/geom"
	"cuewalk/plan/team"
)

// A braking body is read before it stands, and braking is never read as running
// backwards.
func TestAnticipate(t *testing.T) {
	fast := geom.Point{Y: 4}
	assert.InDelta(t, 4-5*anticipation, Anticipate(fast, geom.Point{Y: -5}).Y, 1e-12)
	assert.Equal(t, geom.Point{}, Anticipate(geom.Point{Y: 1}, geom.Point{Y: -5}))
	assert.InDelta(t, 4+4*anticipation, Anticipate(fast, geom.Point{Y: 4}).Y, 1e-12)
}

// runner is a dog at the origin heading up the map and a handler 2 m ahead of it on
// its right who runs to the right.
func runner() (Body, Handler) {
	b := Body{Speed: 5, Mode: Ground, Entry: -1}
	return b, Handler{At: geom.Point{X: 2, Y: 2}, Vel: geom.Point{X: 4}, Chest: geom.Deg(90), Arm: -1}
}

// The more a dog watches its handler the louder he is to it, and the less obstacles pull.
func TestFocusWeighsHandlerAgainstObstacles(t *testing.T) {
	b, h := runner()
	last := 1e9
	for _, focus := range []float64{0, 0.2, 0.5, 0.8, 1} {
		d := preset(t, "large")
		d.Focus = focus
		got := loudness(d, b, h, team.Meaning{})
		assert.Less(t, got, last)
		last = got
	}
}

// A running handler is louder than the same one standing, one in view louder than
// one behind the dog, a near one louder than a far one.
func TestHowLoudTheHandlerIs(t *testing.T) {
	d := preset(t, "large")
	b, h := runner()
	loud := func(h Handler) float64 { return loudness(d, b, h, team.Meaning{}) }
	standing, behind, far := h, h, h
	standing.Vel = geom.Point{}
	behind.At = geom.Point{Y: -2.8}
	far.At = geom.Point{X: 14, Y: 14}
	assert.Greater(t, loud(h), loud(standing))
	assert.Greater(t, loud(h), loud(behind))
	assert.Greater(t, loud(h), loud(far))
}

// A dog in a tunnel hears words and sees nobody.
func TestInTheDarkOnlyWords(t *testing.T) {
	d := preset(t, "large")
	b, h := runner()
	h.Dark = true
	assert.Zero(t, loudness(d, b, h, team.Meaning{}))
	h.Told = 1
	assert.Positive(t, loudness(d, b, h, team.Meaning{Sense: team.Right}))
}

// A word counts by how well this dog knows it; one it does not know says nothing.
func TestWordCountsByHowWellItIsKnown(t *testing.T) {
	d := preset(t, "large")
	b, h := runner()
	h.Dark, h.Told = true, 1
	last := 1.0
	for _, knows := range []float64{0, 0.3, 0.7, 1} {
		d.Knows[team.Left] = knows
		l := d.Read(&b, &h, team.Meaning{Sense: team.Left})
		assert.Less(t, l.Side, last)
		last = l.Side
	}
}

// loudness returns how loud all parts of the handler are to a dog.
func loudness(d *Dog, b Body, h Handler, w team.Meaning) float64 {
	l := d.Read(&b, &h, w)
	l.total(&b, l.Chest.Add(l.Arm))
	return l.Strength
}
