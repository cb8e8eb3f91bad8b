package tui

import (
	"fmt"
	"math/rand/v2"
	"runtime/debug"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// A monkey at the keys, the mouse and the window's edge: no panic, and every frame keeps to
// its window. Commands are not waited for but given to the model now and then, so that late
// answers come too.
func TestMonkey(t *testing.T) {
	for seed := range uint64(6) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			o, _ := practice(t)
			o.first, o.advise = anyPlan, fakeAdvice
			if seed%2 == 0 {
				o = fixed(o)
			}
			o.Fine = seed%3 == 0
			if seed%3 == 1 {
				o.Plans = nil
			}
			monkey(t, o, rand.New(rand.NewPCG(seed, 1)), 1500)
		})
	}
}

func monkey(t *testing.T, o Options, luck *rand.Rand, steps int) {
	s := &screen{t, New(o).(*Model)}
	var late []tea.Cmd
	w, h := 0, 0
	var did []string
	defer func() {
		if t.Failed() || recovered(t, recover()) {
			t.Logf("the last steps: %q", did[max(0, len(did)-30):])
		}
	}()
	for range steps {
		var msg tea.Msg
		switch luck.IntN(12) {
		case 0:
			w, h = luck.IntN(220), luck.IntN(70)
			msg = tea.WindowSizeMsg{Width: w, Height: h}
		case 1, 2:
			msg = tea.MouseMsg{X: luck.IntN(max(w, 1) + 4), Y: luck.IntN(max(h, 1) + 4), Action: tea.MouseAction(luck.IntN(3)),
				Button: tea.MouseButton(luck.IntN(8))}
		case 3:
			if len(late) == 0 {
				continue
			}
			k := luck.IntN(len(late))
			msg = late[k]()
			late = append(late[:k], late[k+1:]...)
		case 4:
			msg = tickMsg{s.play.number, time.Unix(0, luck.Int64N(1e9))}
		default:
			msg = keyOf(monkeyKeys[luck.IntN(len(monkeyKeys))])
		}
		did = append(did, fmt.Sprint(msg))
		if batch, ok := msg.(tea.BatchMsg); ok {
			late = append(late, batch...)
			continue
		}
		_, cmd := s.Update(msg)
		if cmd != nil && len(late) < 20 {
			late = append(late, cmd)
		}
		wellFormed(t, s.View(), w, h)
	}
	s.s.Close()
}

func recovered(t *testing.T, r any) bool {
	if r != nil {
		t.Errorf("panic: %v\n%s", r, debug.Stack())
	}
	return r != nil
}

var monkeyKeys = []string{"left", "right", "up", "down", "left", "right", "up", "down", "enter", "esc", "tab", "shift+tab", "home", "end",
	"pgup", "pgdown", "shift+left", "shift+right", "backspace", " ", "<", ">", "z", "f", "+", "-", "H", "J", "K", "L", "b", "m", "?", "a", "a", "c", "p",
	"P", "t", "T", "r", "u", "u", "U", "s", "S", "R", "i", "d", "x", "w", "w", "e", "v", "q", "n", "N", "[", "]", ",", ".", "1", "2", "3", "9", "o", "y", "é", "界", "👩‍🚀", "\x00"}
