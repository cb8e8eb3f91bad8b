package drill

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"cuewalk/course/geom"
	"cuewalk/plan/learn"
	"cuewalk/tui/words"
)

// plainDrill is the drills as sentences: one line typed, some said.
type plainDrill struct {
	m     *Model
	lines <-chan string
	out   io.Writer
	err   error
	over  bool
}

// Plain learns in lines of text, for a screen reader or where there is no terminal: the
// recall fully, the timing by the Enter key. It ends with "q" or with in.
func Plain(o Options, in io.Reader, out io.Writer) error {
	m, err := New(o)
	if err != nil {
		return err
	}
	p := &plainDrill{m: m, lines: linesOf(in), out: out}
	p.say("Course: "+words.Safe(o.Course.Name)+".", "Plan: "+words.Safe(o.Plan.Name)+".")
	p.say(m.note, m.soFar())
	for !p.over && p.err == nil {
		p.say(`Type 1 for recall, 2 for timing by the Enter key, 3 for the script, q to end.`)
		switch p.line() {
		case "1":
			p.recall()
		case "2":
			p.timing()
		case "3":
			p.err = Script(out, o)
		case "q":
			p.over = true
		}
	}
	return p.err
}

func linesOf(in io.Reader) <-chan string {
	lines := make(chan string)
	go func() {
		defer close(lines)
		for s := bufio.NewScanner(in); s.Scan(); {
			lines <- strings.TrimSpace(s.Text())
		}
	}()
	return lines
}

func (p *plainDrill) say(lines ...string) {
	for _, l := range lines {
		if p.err == nil && l != "" {
			_, p.err = fmt.Fprintln(p.out, l)
		}
	}
}

// line waits for what is typed; the end of it is as if q were.
func (p *plainDrill) line() string {
	s, ok := <-p.lines
	if !ok {
		p.over = true
		return "q"
	}
	return s
}

// recall asks until the plan is learnt, or left with q.
func (p *plainDrill) recall() {
	m := p.m
	r := &m.recall
	r.start(m)
	p.say(m.note, `Answer each question; "hint" helps, "where" says where things stand, "q" leaves.`)
	for p.err == nil && !p.over {
		k, ok := r.session.Cue()
		if !ok {
			s := &r.session
			p.say(fmt.Sprintf("You know this plan: two whole recalls without a mistake. %d questions, %d wrong, %d hints.", s.Asked, s.Wrong, s.Hints))
			r.begun = false
			return
		}
		m.note = ""
		r.ask(m)
		m.clock.stop()
		r.run = false // in sentences nothing runs: the handler sets the pace
		p.say("", upper(passName(&r.session))+".", words.Instant(m.run, r.sample), r.q.Ask)
		if !p.answers() {
			return
		}
		r.give(m)
		p.judged(k)
		p.say(m.note)
	}
}

// answers takes one line for each thing that is asked; false when it is left.
func (p *plainDrill) answers() bool {
	r := &p.m.recall
	if r.q.HasPlace {
		r.focus = 0
		if !p.place() {
			return false
		}
	}
	for i := range r.q.Fields {
		if r.focus = i; r.q.HasPlace {
			r.focus++
		}
		if !p.field(i) {
			return false
		}
	}
	return true
}

func (p *plainDrill) place() bool {
	r := &p.m.recall
	u := p.m.o.Course.Units
	for {
		p.say("Where do you stand? Two numbers in " + u.String() + ", as 12.5 8; right within " + words.Length(u, learn.Radius) + ".")
		line := p.line()
		switch {
		case line == "q":
			return false
		case p.helped(line):
			continue
		}
		f := strings.Fields(strings.ReplaceAll(line, ",", " "))
		if len(f) == 2 {
			x, errX := strconv.ParseFloat(f[0], 64)
			y, errY := strconv.ParseFloat(f[1], 64)
			if errX == nil && errY == nil && !math.IsNaN(x) && !math.IsNaN(y) {
				r.answer.Place, r.answer.Placed = geom.Point{X: x * u.Factor(), Y: y * u.Factor()}, true
				return true
			}
		}
		p.say("That is no place.")
	}
}

func (p *plainDrill) field(i int) bool {
	r := &p.m.recall
	f := &r.q.Fields[i]
	for {
		p.say(upper(f.Name) + "?")
		line := p.line()
		switch {
		case line == "q":
			return false
		case line == "" || p.helped(line):
			continue
		}
		r.answer.Words[i] = line
		return true
	}
}

// helped answers a call for help.
func (p *plainDrill) helped(line string) bool {
	m := p.m
	switch line {
	case "hint", "?":
		m.recall.hint(m)
		p.say(m.note)
		m.note = ""
	case "where":
		for n := range m.o.Course.Order {
			e := m.o.Course.Entry(n + 1)
			p.say(words.Target(m.o.Course, n+1) + " at " + words.Place(m.o.Course.Units, e.At) + ".")
		}
	default:
		return false
	}
	return true
}

func (p *plainDrill) judged(k int) {
	m := p.m
	r := &m.recall
	v := r.verdict
	if v.Right {
		p.say("Right.")
		return
	}
	if r.q.HasPlace && !v.Place {
		p.say("Your place is " + words.Length(m.o.Course.Units, v.Off) + " off.")
	}
	for i, f := range r.q.Fields {
		if !v.Words[i] {
			p.say(upper(f.Name) + ": not " + words.Safe(r.answer.Words[i]) + " but " + words.Safe(f.Right) + ".")
		}
	}
	p.say("It is " + cueText(m.setup, k) + ". It comes again soon.")
}
