package tui

import (
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"cuewalk/sim"
	"cuewalk/sim/advice"
	"cuewalk/tui/session"
	"cuewalk/tui/words"
)

// nothing is what is typed to leave a value as it was before the cue.
const nothing = "none"

// plainFields are the values of the cue that is on which a line alters: "pace jog".
var plainFields = []struct{ name, what, example string }{
	{"when", "another moment for the cue that is on", "13 take-off -1.5"},
	{"shift", "the cue so many strides later, or earlier", "-0.5"},
	{"stand", "where the handler is then", "7.5 13"},
	{"pace", "his pace from then on", "jog"},
	{"arm", "the side the dog works on", "left"},
	{"signal", "what the arm does", "pull"},
	{"shoulders", "what the shoulders face", "to 7"},
	{"cross", "what the cross is called", "front"},
	{"word", "the word he says", "come"},
}

// alterWords are the words with which a plan is altered and kept.
func alterWords() []plainWord {
	return []plainWord{
		{[]string{"advice"}, "what would help on this leg; take and a number takes it", (*plainMode).advice},
		{[]string{"add"}, "a new cue at this moment", func(p *plainMode) { p.change(func() { p.m.addCue() }) }},
		{[]string{"delete"}, "the cue that is on away", (*plainMode).deleteCue},
		{[]string{"undo"}, "take back the last change", func(p *plainMode) { p.version(-1, "Undone: ", "There is nothing to undo.") }},
		{[]string{"redo"}, "make it again", func(p *plainMode) { p.version(1, "Done again: ", "There is nothing to redo.") }},
		{[]string{"save"}, "the plan into its file; save and a name, into a new file", func(p *plainMode) { p.save("") }},
	}
}

// alter obeys a line of two parts, and reports whether it is one.
func (p *plainMode) alter(line string) bool {
	name, value, _ := strings.Cut(line, " ")
	value = strings.TrimSpace(value)
	switch name {
	case "save":
		p.save(value)
		return true
	case "take":
		p.takeAdvice(value)
		return true
	}
	for _, f := range plainFields {
		if f.name == name {
			if value == "" {
				p.say("Say what to make of it: " + f.name + " " + f.example + ".")
				return true
			}
			p.set(name, value)
			return true
		}
	}
	return false
}

// set gives a value of the cue that is on.
func (p *plainMode) set(name, value string) {
	m := p.m
	m.alter = alter{}
	m.choose(cueAt(m.run(), m.at))
	e := m.editing()
	i := slices.IndexFunc(m.fields(), func(f field) bool { return f.name == name })
	if i < 0 {
		p.say("The lead-out is a place only: stand 7.5 13. c goes to the next cue.")
		return
	}
	f := &m.fields()[i]
	switch {
	case name == "shift":
		by, err := strconv.ParseFloat(value, 64)
		if err != nil || math.Abs(by) > 20 || math.Round(2*by) != 2*by {
			p.say(strconv.Quote(value) + " is no number of strides; halves are allowed, such as -0.5.")
			return
		}
		e.cue.When.Strides += by
	case value == nothing && f.clear != nil && e.action > 0:
		f.clear(e)
	default:
		if err := f.set(e, strings.Trim(value, `"`)); err != nil {
			p.say(err.Error() + ".")
			return
		}
	}
	p.change(func() { m.apply(e.changedPlan(), f.what+" "+words.CueName(e.action)) })
}

// advice says which changes would help on this leg.
func (p *plainMode) advice() {
	m := p.m
	r := m.run()
	i := legIndex(r, m.at)
	if i < 0 {
		return
	}
	q, n := m.question(0), r.Legs[i].Number
	p.wait(m.s.Advise(q, n))
	if p.found = m.s.Found(q, n); p.found == nil {
		return
	}
	p.say(fmt.Sprintf("%s: what would help in the model, in points by %d runs.", words.Leg(n), advice.Runs))
	for k := range p.found.Changes {
		c := &p.found.Changes[k]
		p.say(fmt.Sprintf("%d: %s gives %s.", k+1, words.Change(r.Setup, &c.Found), words.Effect(&c.Of, &c.Found)))
	}
	if len(p.found.Changes) == 0 {
		p.say(strings.ToUpper(words.NoAdvice[:1]) + words.NoAdvice[1:] + ".")
	}
}

// wait does a task here and now, and what follows from it.
func (p *plainMode) wait(tasks ...session.Task) (told session.News) {
	for len(tasks) > 0 {
		t := tasks[0]
		tasks = tasks[1:]
		if t == nil {
			continue
		}
		news, next := p.m.s.Take(t())
		if news != nil {
			told = news
		}
		if a, ok := news.(session.Advised); ok && a.Err != nil {
			p.say(a.Err.Error() + ".")
		}
		tasks = append(tasks, next...)
	}
	return told
}

// takeAdvice makes a piece of the advice given last the plan.
func (p *plainMode) takeAdvice(value string) {
	n, err := strconv.Atoi(value)
	if err != nil || p.found == nil || n < 1 || n > len(p.found.Changes) || p.found.Question != p.m.question(0) {
		p.say("There is no such advice for this plan: advice lists what would help.")
		return
	}
	c := &p.found.Changes[n-1]
	p.change(func() { p.m.heed(p.m.run().Setup, p.found.Question, c) })
}

func (p *plainMode) deleteCue() {
	m := p.m
	if m.alter.action = cueAt(m.run(), m.at); m.alter.action == 0 {
		p.say("The lead-out cannot go.")
		return
	}
	p.change(func() { m.deleteCue() })
}

// change makes a change and says what came of it: the leg and the whole run, before and now.
func (p *plainMode) change(do func()) {
	m := p.m
	was, version := m.run(), m.doc().Version()
	m.note = note{}
	do()
	if m.note.text != "" {
		p.say(strings.TrimPrefix(m.note.text, "! ") + ".")
	}
	if m.doc().Version() != version {
		p.cue()
		p.after(was)
	}
}

// after says what a change has made of the leg and the whole run.
func (p *plainMode) after(was *sim.Rehearsal) {
	p.runs()
	now := p.m.run()
	if i := legIndex(now, p.m.at); i >= 0 {
		l := now.Legs[i]
		line := words.Outcome(now, l)
		if before, ok := words.LegByNumber(was, l.Number); ok {
			line += "; before, clean " + words.Percent(before.Clean)
		}
		p.say(line + ".")
	}
	p.say("The whole run: clean " + words.Chance(now.Clean, now.Low, now.High) + ", before " + words.Percent(was.Clean) + ".")
}

// version goes back or forth in what has been changed.
func (p *plainMode) version(dir int, said, none string) {
	m := p.m
	was := m.run()
	what := m.doc().Step(dir)
	if what == "" {
		p.say(none)
		return
	}
	m.at = joined(was, m.run(), m.at)
	p.say(said + what + ".")
	p.after(was)
}

// save writes the plan to its file, or to a new one.
func (p *plainMode) save(name string) {
	m, d := p.m, p.m.doc()
	path := name
	if path == "" {
		path = d.File()
	}
	if path == "" {
		p.say("This plan has no file yet: save and a name, such as save " + m.s.NewName("") + ".")
		return
	}
	if faults := m.faultsOf(d.Plan()); len(faults) > 0 {
		p.say("Note: this plan will not be read again as it is: " + faults[0].String() + ".")
	}
	how := session.Keep
	if name != "" {
		how = session.Fresh
	}
	t, err := m.s.Write(d, path, how)
	if err != nil {
		p.say("Not saved: " + err.Error() + ".")
		return
	}
	switch n := p.wait(t).(type) {
	case session.Written:
		p.say("Saved to " + n.Path + ".")
	case session.NotWritten:
		if n.Outside {
			p.say(filepath.Base(path) + " was changed outside since it was read; nothing was written. Save and a name writes a new file.")
			return
		}
		p.say("Not saved: " + n.Err.Error() + ".")
	}
}

// leave ends, after a word about what is not saved.
func (p *plainMode) leave() {
	for _, d := range p.m.s.Docs() {
		if d.Unsaved() {
			d.Drop()
			p.say(fmt.Sprintf("Changes to %s are not saved: save keeps them, q again drops them.", strconv.Quote(words.Safe(d.Plan().Name))))
			return
		}
	}
	p.end = true
}

// helpAltering says what can be altered.
func (p *plainMode) helpAltering() {
	for _, f := range plainFields {
		p.say(f.name + " and a value, such as " + f.name + " " + f.example + ": " + f.what + ".")
	}
	p.say("For a value, " + nothing + " leaves it as it was before the cue.")
	for _, w := range alterWords() {
		p.say(w.names[0] + ": " + w.what + ".")
	}
}
