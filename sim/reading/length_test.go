package reading

import (
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course/geom"
	"cuewalk/plan/team"
)

// The length of the best line, worked out from arcs and straights, against the
// length that an independent library (github.com/peterstace/simplefeatures) gives
// for the chain of its samples. A chain cuts the corners, here by less than half
// a per cent.
func TestLengthAgainstLibrary(t *testing.T) {
	tm, err := team.Preset("large", "average")
	require.NoError(t, err)
	courses := map[string][]geom.Point{
		"straight": {{X: 20, Y: 10}, {X: 20, Y: 16}, {X: 20, Y: 22}},
		"zigzag":   {{X: 20, Y: 10}, {X: 24, Y: 16}, {X: 18, Y: 22}, {X: 24, Y: 28}},
	}
	for name, at := range courses {
		c := set(geom.Point{X: 20, Y: 4}, len(at))
		for i, p := range at {
			c.Obstacles = append(c.Obstacles, jump(string(rune('a'+i)), p.X, p.Y, 0))
		}
		r := Read(c, &tm, nil)
		var flat []float64
		metres := 0.0
		for _, s := range r.Line.Samples {
			if s.Odo <= r.Length { // the line is measured to the last bar, not to the landing
				flat, metres = append(flat, s.At.X, s.At.Y), s.Odo
			}
		}
		line := sf.NewLineString(sf.NewSequence(flat, sf.DimXY))
		assert.LessOrEqual(t, line.Length(), metres+1e-6, name)
		assert.InEpsilon(t, line.Length(), metres, 0.005, name)
		assert.InDelta(t, metres, r.Length, 0.5, name)
	}
}
