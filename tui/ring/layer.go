package ring

// Layer is one kind of thing that the ring shows.
type Layer uint8

// The layers, in the order in which one key adds them and another takes them away.
const (
	Course     Layer = iota // obstacles and their numbers
	Rulers                  // x and y along the edges, the edge of the ring
	Line                    // the dog's line and where it heads
	WrongWays               // where the dog would leave it, with its chance
	Handler                 // the handler and his way
	Stands                  // where he was meant to be
	Strides                 // one mark for each stride on the dog's line
	Shadow                  // what his body hides, and what the dog cannot see
	Sight                   // the edges of what the dog attends to
	LayerCount              // how many layers there are
)

var layerNames = [LayerCount]string{"course", "rulers", "dog's line", "wrong ways", "handler", "stands", "strides", "shadow", "sight"}

// String is the layer's name for the legend and for what a key says.
func (l Layer) String() string {
	if l < LayerCount {
		return layerNames[l]
	}
	return "nothing"
}

// Layers is a set of layers. The zero value shows nothing.
type Layers uint16

// LayersOf is the set of these layers.
func LayersOf(ls ...Layer) Layers {
	var s Layers
	for _, l := range ls {
		s = s.With(l)
	}
	return s
}

// Has reports whether l is in the set.
func (s Layers) Has(l Layer) bool { return s&(1<<l) != 0 }

// With is the set with l in it.
func (s Layers) With(l Layer) Layers { return s | 1<<l }

// Without is the set without l.
func (s Layers) Without(l Layer) Layers { return s &^ (1 << l) }

// More adds the next layer that is not shown and says which; LayerCount where all are.
func (s Layers) More() (Layers, Layer) {
	for l := range LayerCount {
		if !s.Has(l) {
			return s.With(l), l
		}
	}
	return s, LayerCount
}

// Fewer takes the last layer away and says which; LayerCount where only the course is left.
func (s Layers) Fewer() (Layers, Layer) {
	for l := LayerCount - 1; l > Course; l-- {
		if s.Has(l) {
			return s.Without(l), l
		}
	}
	return s, LayerCount
}

// WholeLayers is what the whole ring shows at first: the course, how the dog runs it, where it
// goes wrong, and the handler.
func WholeLayers() Layers { return LayersOf(Course, Rulers, Line, WrongWays, Handler) }

// LegLayers is what a leg shows at first: all that its verdict tells of.
func LegLayers() Layers { return WholeLayers().With(Stands).With(Strides) }
