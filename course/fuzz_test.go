package course

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"cuewalk/course/geom"
)

// Whatever a file holds, reading it does not panic, and what loads is finite,
// inside the limits, and can be asked everything.
func FuzzCourse(f *testing.F) {
	files, err := filepath.Glob("testdata/*/*.toml")
	require.NoError(f, err)
	for _, file := range files {
		src, err := os.ReadFile(file)
		require.NoError(f, err)
		f.Add(src)
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		kind, sniffed := Sniff("f.toml", src)
		c, err := Parse("f.toml", src)
		if err != nil {
			require.Nil(t, c)
			require.NotEmpty(t, err.Error())
			return
		}
		require.NoError(t, sniffed)
		require.Equal(t, "course", kind)
		requireSound(t, c)
	})
}

func requireSound(t *testing.T, c *Course) {
	require.NotEmpty(t, c.Name)
	require.LessOrEqual(t, max(c.Ring.X, c.Ring.Y), MostRing+1e-6)
	require.GreaterOrEqual(t, min(c.Ring.X, c.Ring.Y), 5-1e-6)
	requireInside(t, c, c.Start)
	require.NotEmpty(t, c.Obstacles)
	require.LessOrEqual(t, len(c.Obstacles), MostObstacles)
	require.NotEmpty(t, c.Order)
	require.LessOrEqual(t, len(c.Order), MostObstacles)
	for i, o := range c.Obstacles {
		require.Equal(t, i, c.Find(o.ID), "ids are unique")
		for _, x := range []float64{o.Width, o.Wing, o.Height, o.Length} {
			require.False(t, math.IsNaN(x) || x < 0 || x > 25, "%s: size %g", o.ID, x)
		}
		for _, s := range o.Footprint() {
			requireInside(t, c, s.A)
			requireInside(t, c, s.B)
		}
	}
	for _, e := range c.Entries() {
		require.True(t, e.At.Finite() && e.Exit.At.Finite())
		require.False(t, math.IsNaN(float64(e.Heading)))
		require.Positive(t, e.Half)
	}
	for n := range c.Order {
		require.False(t, c.Entry(n+1).WrongWay, "number %d", n+1)
		require.True(t, c.Order[n].Takes(c.Entry(n+1)), "number %d", n+1)
		require.NotEmpty(t, c.Label(n+1))
	}
}

func requireInside(t *testing.T, c *Course, p geom.Point) {
	const slack = 0.011
	require.True(t, p.X >= -slack && p.Y >= -slack && p.X <= c.Ring.X+slack && p.Y <= c.Ring.Y+slack, "%v outside %v", p, c.Ring)
}
