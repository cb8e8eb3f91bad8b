package tui

import (
	"testing"

	"github.com/muesli/termenv"
)

// frames draws the screen of a view again and again, a stride further each time.
func frames(b *testing.B, w, h int, fine bool, keys ...string) {
	o, _ := practice(b)
	o.Profile, o.Fine = termenv.TrueColor, fine
	s := open(b, o, w, h)
	s.keys(keys...)
	b.ReportAllocs()
	for b.Loop() {
		s.Update(keyOf("right"))
		if s.at >= last(s.run()) {
			s.at = 0
		}
		s.View()
	}
}

func BenchmarkFrame200x60(b *testing.B)        { frames(b, 200, 60, false) }
func BenchmarkFrameFine200x60(b *testing.B)    { frames(b, 200, 60, true) }
func BenchmarkFrameWhole200x60(b *testing.B)   { frames(b, 200, 60, false, "z") }
func BenchmarkFrameCompare200x60(b *testing.B) { frames(b, 200, 60, false, "c") }
func BenchmarkFrame80x24(b *testing.B)         { frames(b, 80, 24, false) }

// The first picture after a key that alters: the new chances by integration. The runs follow.
func BenchmarkAlterFirstPicture(b *testing.B) {
	o, _ := practice(b)
	o.Runs = -1
	s := open(b, o, 120, 40)
	s.keys("5", "enter", "a")
	b.ReportAllocs()
	key := [2]string{"left", "right"}
	for i := 0; b.Loop(); i++ {
		s.s.Forget()
		s.Update(keyOf(key[i%2]))
		s.View()
	}
}

// An alteration with 200 runs behind it, until the new chances are on the screen: of cues
// earlier and later in the run.
func BenchmarkAlter200Runs(b *testing.B) {
	for _, number := range []string{"2", "5", "8"} {
		b.Run("at "+number, func(b *testing.B) {
			o, _ := practice(b)
			o.Runs = 200
			s := open(b, o, 120, 40)
			s.keys(number, "enter", "a")
			b.ReportAllocs()
			key := [2]string{"left", "right"}
			s.keys(key[:]...) // from the second alteration of a cue on, runs begin near it
			for i := 0; b.Loop(); i++ {
				s.s.Forget()
				s.keys(key[i%2])
			}
		})
	}
}
