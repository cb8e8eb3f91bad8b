package drill

import (
	"fmt"
	"time"

	"cuewalk/tui/words"
)

// timing lets the dog run while numbers are said as it takes them; Enter gives the next
// cue. Speech is late itself: what it adds is in the taps only as far as they are tapped
// to the spoken beat.
func (p *plainDrill) timing() {
	m := p.m
	t := &m.timing
	m.mode = timing
	if t.start(m); t.stage == tapping && !p.taps() {
		return
	}
	p.say(t.doubt(), "Speed: "+speedName(t.speed)+". Type s for another, Enter to release the dog, q to go back.")
	for {
		switch p.line() {
		case "q":
			return
		case "s":
			t.readyKey(m, "s", false)
			p.say("Speed: " + speedName(t.speed) + ".")
			continue
		}
		break
	}
	t.run(m)
	p.runs()
	t.store(m)
	for i := range t.press {
		q := &t.press[i]
		p.say(upper(words.CueName(q.action)) + ": " + lateness(m, q) + ".")
	}
	if cmd := t.ask(m); cmd != nil {
		if c, ok := cmd().(chanceMsg); ok {
			t.chance = &c
		}
	}
	p.say(t.verdict(m), "It measures a finger on a key; what your feet, arm and voice add cannot be known here.")
	m.mode = choosing
}

// taps asks for eight presses with a beat of lines.
func (p *plainDrill) taps() bool {
	m := p.m
	p.say("Press Enter with the beat, eight times; q goes back.")
	m.clock.start(m.o.Now(), 0, 1)
	beat := time.NewTicker(time.Duration(beatEvery * float64(time.Second)))
	defer beat.Stop()
	for m.timing.stage == tapping {
		select {
		case <-beat.C:
			p.say("tick")
		case line, ok := <-p.lines:
			if !ok || line == "q" {
				p.over = !ok
				return false
			}
			m.timing.tapped(m, m.clock.at(m.o.Now()))
		}
	}
	return true
}

// runs lets the dog run to its end; what it takes is said.
func (p *plainDrill) runs() {
	m := p.m
	t := &m.timing
	beat := time.NewTicker(frame)
	defer beat.Stop()
	said := 0
	for p.err == nil && !p.over && (t.stage == running || t.stage == stopped) {
		select {
		case <-beat.C:
			t.tick(m, m.clock.at(m.o.Now()))
			for ; said < t.live.Legs(); said++ {
				if _, _, clean, _ := t.live.Leg(said + 1); clean {
					p.say(fmt.Sprint(said + 1))
				} else if t.stage == stopped {
					p.say(t.fault(m), "The dog is taken on from the next number.")
					t.goOn(m)
				}
			}
		case line, ok := <-p.lines:
			if !ok || line == "q" {
				p.over = !ok
				t.stage = table
				return
			}
			t.give(m, m.clock.at(m.o.Now()))
		}
	}
}
