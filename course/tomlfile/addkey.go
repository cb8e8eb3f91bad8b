package tomlfile

import (
	"fmt"
	"strings"
)

// addKey gives src with a key that was not there, after the last own key of
// its table.
func (e *editing) addKey(path Path, literal string) ([]byte, error) {
	last, ok := path[len(path)-1].(string)
	if !ok {
		return nil, fmt.Errorf("cannot set %s: there is no such element", path)
	}
	line := Key(last) + " = " + literal
	table := e.layout.find(path[:len(path)-1])
	switch {
	case table == nil, table.form == implied && !table.dotted:
		return e.addTable(path[:len(path)-1], line)
	case table.form == inline:
		return e.addInBraces(table, line), nil
	case table.form == headed:
		return e.insertLines(e.behindKeys(table), line), nil
	}
	return nil, fmt.Errorf("cannot set %s: its table has no line of its own to add it to", path)
}

// addTable begins a [table] at the end of the file.
func (e *editing) addTable(path Path, line string) ([]byte, error) {
	keys := make([]string, len(path))
	for i, step := range path {
		key, ok := step.(string)
		if !ok {
			return nil, fmt.Errorf("cannot set %s: there is no such element", path)
		}
		keys[i] = Key(key)
	}
	return e.insertBlock(len(e.src), "["+strings.Join(keys, ".")+"]", line), nil
}

// addInBraces adds to a table written as { ... }.
func (e *editing) addInBraces(table *node, text string) []byte {
	end := table.val.from + 1
	for _, k := range table.kids {
		end = max(end, lastByte(k))
	}
	if end > table.val.from+1 {
		return splice(e.src, span{end, end}, ", "+text)
	}
	return splice(e.src, span{end, end}, " "+text+" ")
}

// lastByte is the end of a value in braces, also of one with a dotted key.
func lastByte(n *node) int {
	end := n.whole.to
	if n.dotted {
		for _, k := range n.kids {
			end = max(end, lastByte(k))
		}
	}
	return end
}

// behindKeys is the offset behind the line of a table's last own key; for a
// table without any, behind its header.
func (e *editing) behindKeys(table *node) int {
	at := -1
	for _, en := range e.layout.entries {
		if en.owner == table || en.node == table {
			at = max(at, en.lines.to)
		}
	}
	if at >= 0 {
		return at
	}
	if len(e.layout.entries) > 0 { // the root, with headers only
		return e.aboveRemarks(e.layout.entries[0].lines.from)
	}
	return len(e.src)
}

// aboveRemarks is the start of the remarks that touch the line at an offset
// from above.
func (e *editing) aboveRemarks(at int) int {
	for at > 0 {
		above := lineStart(e.src, at-1)
		if !strings.HasPrefix(strings.TrimLeft(string(e.src[above:at]), " \t"), "#") {
			break
		}
		at = above
	}
	return at
}

// belowRemarks is the end of the remarks that touch the line before an offset
// from below, unless they touch the header after them: those are its own.
func (e *editing) belowRemarks(at int) int {
	end := at
	for end < len(e.src) && strings.HasPrefix(strings.TrimLeft(string(lineAt(e.src, end)), " \t"), "#") {
		end = lineEnd(e.src, end)
	}
	if end < len(e.src) && !e.blankLine(end) {
		return at
	}
	return end
}

// insertLines puts whole lines at the start of a line, or at the end of the
// file. A last line without newline gets one, and the new last line has none.
func (e *editing) insertLines(at int, lines ...string) []byte {
	text := strings.Join(lines, e.newline)
	if at == len(e.src) && at > 0 && e.src[at-1] != '\n' {
		return splice(e.src, span{at, at}, e.newline+text)
	}
	return splice(e.src, span{at, at}, text+e.newline)
}

// insertBlock puts lines at the end of some lines, with a blank line before
// them unless there is one.
func (e *editing) insertBlock(at int, lines ...string) []byte {
	if at > 0 && len(strings.TrimSpace(string(lineAt(e.src, at-1)))) > 0 {
		lines = append([]string{""}, lines...)
	}
	return e.insertLines(at, lines...)
}
