package words

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestShare(t *testing.T) {
	for want, p := range map[string]float64{"fewer than 1 in 100 runs": .004, "7 runs in 100": .07, "2 runs in 10": .151,
		"5 runs in 10": .5, "8 runs in 10": .84, "97 runs in 100": .97, "99 runs in 100": .999} {
		assert.Equal(t, want, Share(p, "runs"))
	}
	assert.Equal(t, "2 to 4 runs in 10", ShareRange(.21, .38, "runs"))
	assert.Equal(t, "4 to 12 runs in 100", ShareRange(.041, .115, "runs"))
}
