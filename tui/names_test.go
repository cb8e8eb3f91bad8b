package tui

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Names of all sorts keep the layout, and nothing from a file reaches the terminal raw.
func TestNamesOfAllSorts(t *testing.T) {
	for _, name := range []string{"界界界界 course", "é̂ combining", "👩‍🚀🇳🇱 flags", "\x1b[31mred\x1b]0;title\x07", strings.Repeat("long ", 60), "\u202eturned", "tab\tnew\nline"} {
		for _, size := range [][2]int{{40, 12}, {80, 24}, {120, 40}, {200, 60}} {
			for _, keys := range [][]string{nil, {"c"}, {"a"}, {"z"}, {"w"}, {"w", "e"}, {"w", "r"}} {
				o, _ := practice(t)
				o = fixed(o)
				c, p, tm := *o.Course, *o.Plans[0].Plan, *o.Teams[0]
				c.Name, p.Name, tm.Name = name, name, name
				c.Obstacles = append(c.Obstacles[:0:0], c.Obstacles...)
				for i := range c.Obstacles {
					c.Obstacles[i].ID = name
				}
				p.For = ""
				p.Cues = append(p.Cues[:0:0], p.Cues...)
				p.Cues[2].Word = name
				o.Course, o.Plans[0].Plan, o.Teams[0] = &c, &p, &tm
				s := open(t, o, size[0], size[1])
				s.keys(keys...)
				wellFormed(t, s.View(), size[0], size[1])
				assert.NotContains(t, s.View(), "\x1b")
				assert.NotContains(t, s.View(), "\x07")
				assert.NotContains(t, s.View(), "\u202e")
			}
		}
	}
}
