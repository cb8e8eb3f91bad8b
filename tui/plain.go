package tui

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"strconv"
	"strings"
	"syscall"

	"cuewalk/sim"
	"cuewalk/tui/session"
	"cuewalk/tui/words"
)

// plainWord is one word of the plain mode: what is typed, and what it does.
type plainWord struct {
	names []string
	what  string
	do    func(p *plainMode)
}

// plainMode is the screen as sentences: one line typed, some lines said.
type plainMode struct {
	m   *Model
	out io.Writer
	err error
	end bool

	found *session.Advice // advice given last
}

// Plain rehearses in lines of text, for a screen reader or a terminal that cannot move its
// cursor: the same stepping and altering as on the screen, said in sentences. It ends with "q",
// with in, or when told to by a signal; what was not saved then is kept in a new file, and the
// error says so. Other errors are those of out, or of options without course, plan or team.
func Plain(o Options, in io.Reader, out io.Writer) error {
	p := &plainMode{m: New(o).(*Model), out: out}
	if err := p.m.s.Ready(); err != nil {
		return err
	}
	if len(o.Plans) == 0 {
		return errors.New("no plan to rehearse: give a plan file")
	}
	p.runs()
	p.opening()
	told, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	defer stop()
	lines := linesOf(told, in)
	for !p.end && p.err == nil {
		select {
		case line, ok := <-lines:
			if !ok {
				p.end = true
				break
			}
			p.obey(strings.TrimSpace(line))
		case <-told.Done():
			p.end = true
		}
	}
	return errors.Join(p.err, p.m.s.Rescue())
}

// linesOf reads lines until in or ctx ends.
func linesOf(ctx context.Context, in io.Reader) <-chan string {
	lines := make(chan string)
	go func() {
		defer close(lines)
		for s := bufio.NewScanner(in); s.Scan(); {
			select {
			case lines <- s.Text():
			case <-ctx.Done():
				return
			}
		}
	}()
	return lines
}

func (p *plainMode) say(lines ...string) {
	for _, l := range lines {
		if p.err == nil && l != "" {
			_, p.err = fmt.Fprintln(p.out, l)
		}
	}
}

// runs makes the seeded runs for what is shown, at once.
func (p *plainMode) runs() {
	m := p.m
	m.s.Want()
	_ = m.s.Settle(context.Background(), m.question(0))
}

func (p *plainMode) opening() {
	q := p.m.question(0)
	p.say("Course: "+words.Safe(p.m.s.Course().Name)+".", "Plan: "+words.Safe(q.Plan.Name)+".", "Team: "+words.Safe(q.Team.Name)+".",
		words.Overall(p.m.run()))
	p.say(words.Worst(p.m.run(), 3)...)
	p.say(words.Model, "Enter steps on by a stride; ? lists all words; q ends.")
	p.where()
}

// obey does what one line says.
func (p *plainMode) obey(line string) {
	if n, err := strconv.Atoi(line); err == nil {
		at, ok := atNumber(p.m.run(), n)
		if !ok {
			p.say(fmt.Sprintf("There is no number %d: the course has 1 to %d.", n, len(p.m.s.Course().Order)))
			return
		}
		p.m.move(at)
		p.leg()
		return
	}
	for _, w := range allWords() {
		if slices.Contains(w.names, line) {
			w.do(p)
			return
		}
	}
	if p.alter(line) {
		return
	}
	p.say("Unknown word " + strconv.Quote(line) + "; ? lists all words.")
}

func plainWords() []plainWord {
	to := func(f func(r *sim.Rehearsal, at, dir int) int, dir int, then func(p *plainMode)) func(*plainMode) {
		return func(p *plainMode) { p.m.move(f(p.m.run(), p.m.at, dir)); then(p) }
	}
	return []plainWord{
		{[]string{"", "s"}, "a stride on", to(stride, 1, (*plainMode).where)},
		{[]string{"b"}, "a stride back", to(stride, -1, (*plainMode).where)},
		{[]string{"c"}, "to the next cue", to(cueStep, 1, (*plainMode).cue)},
		{[]string{"C"}, "to the cue before", to(cueStep, -1, (*plainMode).cue)},
		{[]string{"l"}, "to the next leg", to(legStep, 1, (*plainMode).leg)},
		{[]string{"L"}, "to the leg before", to(legStep, -1, (*plainMode).leg)},
		{[]string{"n"}, "to the next worst leg", func(p *plainMode) { p.m.nextWorst(1); p.leg() }},
		{[]string{"home"}, "to the start", func(p *plainMode) { p.m.toEnd(-1); p.where() }},
		{[]string{"end"}, "to the end", func(p *plainMode) { p.m.toEnd(1); p.where() }},
		{[]string{"where"}, "where dog and handler are", (*plainMode).where},
		{[]string{"see"}, "what the dog sees, from left to right", (*plainMode).see},
		{[]string{"why"}, "what goes wrong on this leg, and why", (*plainMode).leg},
		{[]string{"cue"}, "the cue that is on, and the next", (*plainMode).cue},
		{[]string{"legs"}, "all legs with their chances", (*plainMode).legs},
		{[]string{"cues"}, "all cues", (*plainMode).cues},
		{[]string{"run"}, "the whole run", func(p *plainMode) { p.say(words.Overall(p.m.run())); p.say(words.Worst(p.m.run(), 3)...) }},
		{[]string{"p"}, "the next plan", func(p *plainMode) { p.m.nextPlan(1); p.runs(); p.opening() }},
		{[]string{"t"}, "the next team", func(p *plainMode) { p.m.nextTeam(1); p.runs(); p.opening() }},
		{[]string{"compare"}, "this plan beside the next", (*plainMode).compare},
		{[]string{"?", "help"}, "these words", (*plainMode).help},
		{[]string{"q", "quit"}, "end", (*plainMode).leave},
	}
}

func allWords() []plainWord { return append(plainWords(), alterWords()...) }

func (p *plainMode) help() {
	for _, w := range plainWords() {
		names := strings.Join(w.names, " or ")
		if w.names[0] == "" {
			names = "Enter" + names
		}
		p.say(names + ": " + w.what + ".")
	}
	p.say("A number: to the leg that leads to it.")
	p.helpAltering()
	p.say(words.Cautions()...)
}

func (p *plainMode) where() { p.say(words.Instant(p.m.run(), p.m.at)) }

func (p *plainMode) leg() {
	r := p.m.run()
	i := legIndex(r, p.m.at)
	if i < 0 {
		p.say("This course has no legs.")
		return
	}
	l := r.Legs[i]
	p.say(words.Outcome(r, l) + ".")
	for _, f := range l.Faults[:min(2, shownFaults(l.Faults))] {
		p.say(words.Kind(f.Kind) + ": " + words.Why(r, l, f))
	}
	p.say(words.Measures(r, l)+".", words.Covered(r, l))
}

func (p *plainMode) see() {
	r := p.m.run()
	if p.m.at >= len(r.Trace.Samples) {
		return
	}
	things := words.Sees(r.Setup, r.Trace.Samples[p.m.at])
	if len(things) == 0 {
		p.say("Nothing draws the dog here.")
	}
	p.say(things...)
}

func (p *plainMode) cue() {
	r := p.m.run()
	a := cueAt(r, p.m.at)
	p.say(words.Cue(r.Setup, a) + ".")
	if t, ok := timingOf(r, a); ok && a > 0 {
		p.say(words.Timing(r, t) + ".")
	}
	if a+1 < len(r.Setup.Actions) {
		p.say("Next, " + words.Cue(r.Setup, a+1) + ".")
	}
}

func (p *plainMode) legs() {
	r := p.m.run()
	for _, l := range r.Legs {
		p.say(words.Outcome(r, l) + ".")
	}
}

func (p *plainMode) cues() {
	r := p.m.run()
	for a := range r.Setup.Actions {
		text := words.Cue(r.Setup, a)
		if t, ok := timingOf(r, a); ok && a > 0 {
			text += "; " + words.Timing(r, t)
		}
		p.say(text + ".")
	}
}

// compare says where the next plan, or the next team, differs by more than chance.
func (p *plainMode) compare() {
	m := p.m
	m.sides[1] = m.other(m.sides[0])
	if m.question(0) == m.question(1) {
		p.say("There is nothing to compare with: open a second plan or team.")
		return
	}
	m.sides[0], m.sides[1] = m.sides[1], m.sides[0]
	p.runs()
	m.sides[0], m.sides[1] = m.sides[1], m.sides[0]
	a, b := m.s.Ask(m.question(0)), m.s.Ask(m.question(1))
	p.say("A is "+words.Safe(m.question(0).Plan.Name)+" with "+words.Safe(m.question(0).Team.Name)+". "+words.Overall(a),
		"B is "+words.Safe(m.question(1).Plan.Name)+" with "+words.Safe(m.question(1).Team.Name)+". "+words.Overall(b))
	same := true
	for _, l := range a.Legs {
		if o, ok := words.LegByNumber(b, l.Number); ok && legsDiffer(l, o) {
			same = false
			p.say(words.Leg(l.Number) + ": A clean " + words.Percent(l.Clean) + ", B clean " + words.Percent(o.Clean) + "; " +
				strings.TrimSuffix(telling(l, o), " *") + ".")
		}
	}
	if same {
		p.say("No leg differs by more than chance.")
	}
}
