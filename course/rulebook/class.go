package rulebook

import (
	"math"
	"slices"
)

// Size is a size class as its organisation calls it, such as "L" or "20 in"; empty
// where the class is not known. Checks that depend on the class are then left out
// or made as lenient as the most lenient class.
type Size string

// Class is a size class of dogs. It holds the dogs below Below (and at it, where
// Including) that the smaller classes do not; Below is 0 for the largest.
type Class struct {
	Source
	Size      Size
	Name      string // in words
	Below     float64
	Including bool
}

// Height is the height of what is jumped in a class, in metres, both ends included.
type Height struct {
	Source
	Size     Size
	Min, Max float64
	Wall     bool // the figure is for walls too
}

// Class returns the class of a dog with this height at the withers in metres, and
// whether these rules have classes. Withers are read to a tenth of a millimetre,
// so that 0.35 is 35 cm and not a hair less.
func (r *Rules) Class(withers float64) (Class, bool) {
	w := tenths(withers)
	for _, c := range r.Classes {
		limit := tenths(c.Below)
		if c.Below == 0 || w < limit || c.Including && w == limit {
			return c, true
		}
	}
	return Class{}, false
}

// tenths returns m metres in whole tenths of a millimetre.
func tenths(m float64) int64 { return int64(math.Round(m * 1e4)) }

// Height returns what is jumped in a class in metres, and whether a figure is
// known. Where the text gives a range it is the upper end, to which courses are
// usually set (common practice, no source).
func (r *Rules) Height(size Size) (float64, bool) {
	h, ok := r.height(size)
	return h.Max, ok
}

func (r *Rules) height(size Size) (Height, bool) {
	i := slices.IndexFunc(r.Heights, func(h Height) bool { return h.Size == size })
	if i < 0 {
		return Height{}, false
	}
	return r.Heights[i], true
}

// Bar returns the bar height in metres for a dog with this height at the withers
// under r. Where r is nil or does not say, it is that of FCI 2023, whose heights
// are doubtful (see there): good for a default, not for a claim.
func Bar(r *Rules, withers float64) float64 {
	for _, set := range []*Rules{r, fallback} {
		if set == nil {
			continue
		}
		c, ok := set.Class(withers)
		if !ok {
			continue
		}
		if h, ok := set.Height(c.Size); ok {
			return h
		}
	}
	return 0 // unreachable: the fallback has every class and height
}

var fallback = mustFind("FCI 2023")

func mustFind(name string) *Rules {
	r, err := Find(name)
	if err != nil {
		panic(err)
	}
	return r
}
