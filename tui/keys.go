package tui

import (
	"slices"
	"time"

	"cuewalk/tui/canvas"
	"cuewalk/tui/words"

	tea "github.com/charmbracelet/bubbletea"
)

// binding is one row of the table of keys: what the program obeys, and what help and footer are
// drawn from.
type binding struct {
	group      string
	back, keys []string // back does it the other way round, where there is one
	label      string   // how the keys are written; fine where the drawing is fine
	fine       string
	what       string // in the help
	foot       string // in the footer; empty: never there
	rank       int    // low ones come first in the footer
	alterRank  int    // instead of rank while altering
	walkRank   int    // instead of rank while the course is read
	judgeRank  int    // instead of rank on the verdict
	live       func(m *Model) bool
	do         func(m *Model, dir int, key string) tea.Cmd
}

type keyMap []binding

// way says in which direction key k does b; 0 if it does not.
func (b *binding) way(k string) int {
	switch {
	case slices.Contains(b.keys, k):
		return 1
	case slices.Contains(b.back, k):
		return -1
	}
	return 0
}

func (b *binding) name(fine bool) string {
	if fine && b.fine != "" {
		return b.fine
	}
	return b.label
}

// now lists the bindings that do something now, in the order of the table.
func (m *Model) now() []*binding {
	var out []*binding
	for i := range m.keys {
		if b := &m.keys[i]; b.live == nil || b.live(m) {
			out = append(out, b)
		}
	}
	return out
}

// key obeys one key: a prompt first, then the help, then the table.
func (m *Model) key(msg tea.KeyMsg) tea.Cmd {
	k := msg.String()
	if k == "ctrl+z" {
		return tea.Suspend
	}
	if m.prompt != nil {
		return m.prompt.key(m, msg)
	}
	if m.page != noPage {
		return m.pageKey(k)
	}
	m.note = note{}
	if k != "esc" && !isDigit(k) && k != "enter" && k != "backspace" {
		m.typed = ""
	}
	for _, b := range m.now() {
		if dir := b.way(k); dir != 0 {
			return b.do(m, dir, k)
		}
	}
	if k == "ctrl+c" {
		return m.quit()
	}
	return m.idle(k)
}

// noteOver takes back a note after a moment, unless another came.
type noteOver struct{ number int }

// moment is how long it is said that a key does nothing.
const moment = 2 * time.Second

// idle says for a moment that a key does nothing here.
func (m *Model) idle(k string) tea.Cmd {
	m.say(canvas.Quiet, words.Safe(keyName(k))+" does nothing here; ? lists the keys that do")
	number := m.notes
	return m.o.Tick(moment, func(time.Time) tea.Msg { return noteOver{number} })
}

func keyName(k string) string {
	if k == " " {
		return "space"
	}
	return k
}

func isDigit(k string) bool { return len(k) == 1 && k[0] >= '0' && k[0] <= '9' }

func looking(m *Model) bool    { return m.mode != altering }
func inAlter(m *Model) bool    { return m.mode == altering }
func inRehearse(m *Model) bool { return m.mode == rehearsing }
func inCompare(m *Model) bool  { return m.mode == comparing }
func typing(m *Model) bool     { return m.typed != "" }
func untyped(m *Model) bool    { return m.typed == "" }
func manyPlans(m *Model) bool  { return len(m.s.Docs()) > 1 }
func manyTeams(m *Model) bool  { return len(m.s.Teams()) > 1 }
func canUndo(m *Model) bool    { return m.doc().CanUndo() }
func canRedo(m *Model) bool    { return m.doc().CanRedo() }
func unsavedNow(m *Model) bool { return m.doc().Altered() }
func onePlan(m *Model) bool    { return m.mode != comparing }

// act makes a key's deed of one that needs neither direction nor key.
func act(f func(m *Model) tea.Cmd) func(*Model, int, string) tea.Cmd {
	return func(m *Model, _ int, _ string) tea.Cmd { return f(m) }
}

// turn makes a key's deed of one that needs the direction.
func turn(f func(m *Model, dir int)) func(*Model, int, string) tea.Cmd {
	return func(m *Model, dir int, _ string) tea.Cmd { f(m, dir); return nil }
}

// plain makes a key's deed of one that needs nothing and starts nothing.
func plain(f func(m *Model)) func(*Model, int, string) tea.Cmd {
	return func(m *Model, _ int, _ string) tea.Cmd { f(m); return nil }
}

func newKeyMap() keyMap {
	var t keyMap
	t = append(t, judgeKeys()...)
	t = append(t, alterKeys()...)
	t = append(t, walkKeys()...)
	t = append(t, only(onRun, movingKeys())...)
	t = append(t, only(onRun, lookingKeys())...)
	t = append(t, drawingKeys()...)
	t = append(t, planKeys()...)
	t = append(t, learnKeys()...)
	return append(t, generalKeys()...)
}

func movingKeys() keyMap {
	const g = "Moving through the run"
	digits := []string{"0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "backspace"}
	return keyMap{
		{group: g, back: []string{"left", "h", ","}, keys: []string{"right", "l", "."}, label: "left right", fine: "← →",
			what: "a stride back, a stride on", foot: "stride", rank: 1, live: looking,
			do: turn(func(m *Model, dir int) { m.move(stride(m.run(), m.at, dir)) })},
		{group: g, back: []string{","}, keys: []string{"."}, label: ", .", what: "a stride back, a stride on", live: inAlter,
			do: turn(func(m *Model, dir int) { m.move(stride(m.run(), m.at, dir)) })},
		{group: g, back: []string{"up", "k", "pgup"}, keys: []string{"down", "j", "pgdown"}, label: "up down", fine: "↑ ↓",
			what: "the leg before, the next leg", foot: "leg", rank: 2, live: looking,
			do: turn(func(m *Model, dir int) { m.move(legStep(m.run(), m.at, dir)) })},
		{group: g, back: []string{"shift+left", "["}, keys: []string{"shift+right", "]"}, label: "[ ]", what: "the cue before, the next cue (also shift with left, right)",
			foot: "cue", rank: 6, live: both(looking, planned),
			do: turn(func(m *Model, dir int) { m.move(cueStep(m.run(), m.at, dir)) })},
		{group: g, back: []string{"home", "g"}, keys: []string{"end", "G"}, label: "home end", what: "the start, the end", do: turn((*Model).toEnd)},
		{group: g, back: []string{"N"}, keys: []string{"n"}, label: "n N", what: "the worst leg, the next worst, and back", foot: "worst leg", rank: 7, walkRank: 7, live: looking, do: turn((*Model).nextWorst)},
		{group: g, keys: []string{"enter"}, label: "enter", what: "go to the number typed", foot: "go", rank: 0, live: typing, do: plain((*Model).goTyped)},
		{group: g, keys: []string{"enter"}, label: "enter", what: "alter the cue that is on", live: both(inRehearse, untyped), do: plain((*Model).startAltering)},
		{group: g, keys: []string{"enter"}, label: "enter", what: "everything about this leg", live: both(inWalk, untyped), do: plain(func(m *Model) { m.openPage(legPage) })},
		{group: g, keys: digits, label: "1 2 3 enter", what: "go to a course number", do: func(m *Model, _ int, k string) tea.Cmd { m.typeDigit(k); return nil }},
		{group: g, keys: []string{" "}, label: "space", what: "play, stop", foot: "play", rank: 3, alterRank: 9, walkRank: 8, do: act((*Model).playOrStop)},
		{group: g, back: []string{"<"}, keys: []string{">"}, label: "< >", what: "play slower, faster: true, half, quarter speed", do: turn((*Model).faster)},
	}
}

func lookingKeys() keyMap {
	const g = "Looking"
	pan := func(keys, back []string, x, y int, label, what string) binding {
		return binding{group: g, keys: keys, back: back, label: label, what: what,
			do: turn(func(m *Model, dir int) { m.pan(dir*x, dir*y) })}
	}
	return keyMap{
		{group: g, keys: []string{"z"}, label: "z", what: "the whole ring, and back to the leg", foot: "whole ring", rank: 8, walkRank: 9, do: plain((*Model).wholeRing)},
		{group: g, keys: []string{"f"}, label: "f", what: "follow the dog, and stop following", do: plain((*Model).follow)},
		{group: g, back: []string{"-", "_"}, keys: []string{"+", "="}, label: "+ -", what: "nearer, farther (also the wheel)", do: turn((*Model).zoom)},
		pan([]string{"L", "ctrl+right"}, []string{"H", "ctrl+left"}, 8, 0, "H L", "move the view left, right (also ctrl with left, right)"),
		pan([]string{"J", "ctrl+down"}, []string{"K", "ctrl+up"}, 0, 4, "K J", "move the view up, down (also ctrl with up, down)"),
		{group: g, back: []string{"shift+tab"}, keys: []string{"tab"}, label: "tab", what: "the next thing that goes wrong on this leg", live: inRehearse, do: turn((*Model).nextFault)},
		{group: g, back: []string{"Y"}, keys: []string{"y"}, label: "y Y", what: "one more layer on the ring, one less", do: turn((*Model).layer)},
		{group: g, keys: []string{"/"}, label: "/", what: "turn the ring a quarter", do: plain((*Model).turnRing)},
	}
}

func drawingKeys() keyMap {
	const g = "Looking"
	return keyMap{
		{group: g, keys: []string{"b"}, label: "b", what: "draw finer, and back to plain signs", do: plain((*Model).finer)},
		{group: g, keys: []string{"m"}, label: "m", what: "what the signs mean", do: plain((*Model).signs)},
	}
}

// only has keys live only where also holds.
func only(also func(m *Model) bool, keys keyMap) keyMap {
	for i := range keys {
		if keys[i].live == nil {
			keys[i].live = also
		} else {
			keys[i].live = both(also, keys[i].live)
		}
	}
	return keys
}

// onRun reports whether the screen shows a run with a place on its axis.
func onRun(m *Model) bool { return m.mode != judging }

func planKeys() keyMap {
	const g = "Plans and teams"
	return keyMap{
		{group: g, back: []string{"shift+tab"}, keys: []string{"tab"}, label: "tab", what: "light the other plan", foot: "other plan", rank: 0, live: inCompare, do: turn((*Model).otherSide)},
		{group: g, keys: []string{"a"}, label: "a", what: "alter the cue that is on", foot: "alter", rank: 4, judgeRank: 4, live: both(looking, planned), do: plain((*Model).startAltering)},
		{group: g, keys: []string{"c"}, label: "c", what: "compare two plans or teams", foot: "compare", rank: 5, judgeRank: 5, live: both(onePlan, planned), do: act((*Model).compare)},
		{group: g, keys: []string{"o"}, label: "o", what: "what would help on this leg", foot: "what helps", rank: 5, alterRank: 6, live: both(onRun, both(onePlan, planned)), do: act((*Model).seekAdvice)},
		{group: g, keys: []string{"w"}, label: "w", what: "read the course without a plan", foot: "read course", rank: 9, judgeRank: 9, live: func(m *Model) bool { return inRehearse(m) || inJudge(m) }, do: act((*Model).startWalking)},
		{group: g, back: []string{"P"}, keys: []string{"p"}, label: "p P", what: "the next plan, the one before", foot: "next plan", rank: 8, live: both(manyPlans, planned), do: nextOf((*Model).nextPlan)},
		{group: g, back: []string{"T"}, keys: []string{"t"}, label: "t T", what: "the next team, the one before", foot: "next team", rank: 9, live: manyTeams, do: nextOf((*Model).nextTeam)},
		{group: g, keys: []string{"r"}, label: "r", what: "go on with the runs that were stopped", foot: "run", rank: 3,
			live: func(m *Model) bool { return m.s.Resting() && planned(m) }, do: act((*Model).runAgain)},
		{group: g, keys: []string{"u"}, label: "u", what: "undo", foot: "undo", rank: 8, alterRank: 3, judgeRank: 3, live: both(planned, canUndo), do: act((*Model).undo)},
		{group: g, keys: []string{"U", "ctrl+r"}, label: "U", what: "redo", foot: "redo", rank: 7, live: both(planned, canRedo), do: act((*Model).redo)},
		{group: g, keys: []string{"s", "ctrl+s"}, label: "s", what: "save the plan to its file", foot: "save", rank: 4, alterRank: 4, judgeRank: 3, live: both(planned, unsavedNow), do: act((*Model).save)},
		{group: g, keys: []string{"S"}, label: "S", what: "save the plan as a new file", live: planned, do: act((*Model).saveAs)},
		{group: g, keys: []string{"R"}, label: "R", what: "take over what was changed outside", foot: "take", rank: 0, live: func(m *Model) bool { return planned(m) && m.doc().Outside() }, do: act((*Model).takeOutside)},
	}
}

// nextOf adds the runs that a new plan or team needs.
func nextOf(f func(m *Model, dir int)) func(*Model, int, string) tea.Cmd {
	return func(m *Model, dir int, _ string) tea.Cmd { f(m, dir); return m.keepRunning() }
}

func generalKeys() keyMap {
	const g = "The program"
	return keyMap{
		{group: g, keys: []string{"?", "f1"}, label: "?", what: "all keys", foot: "help", rank: 10, do: plain(func(m *Model) { m.openPage(keysPage) })},
		{group: g, keys: []string{"esc"}, label: "esc", what: "one step back; nothing is lost", foot: "back", rank: 11,
			live: (*Model).canGoBack, do: act((*Model).back)},
		{group: g, keys: []string{"q", "ctrl+c"}, label: "q", what: "quit; asks about what is not saved", foot: "quit", rank: 12, do: act((*Model).quit)},
	}
}
