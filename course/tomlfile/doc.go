package tomlfile

import (
	"bytes"
	"fmt"
	"slices"
	goSort "sort"
	"unicode/utf8"
)

var bom = []byte("\ufeff")

// Doc is a file that was read, and the problems noted since.
type Doc struct {
	name     string
	src      []byte
	starts   []int                      // offset of each line
	counted  struct{ from, column int } // the column last asked for, and its offset
	layout   *layout
	root     *Table
	problems Problems
	tables   []*Table // those handed out
}

// Load reads a file and parses it.
func Load(path string) (*Doc, error) {
	src, err := ReadFile(path)
	if err != nil {
		return nil, err
	}
	return Parse(path, src)
}

// Parse reads the text of a file; name is what problems call the file. The
// error is a [Problems] with everything that keeps the file from being read:
// several broken lines at once, binary or empty content, more than [MaxSize].
//
// Keys and tables that come twice are noted as problems of the Doc, and the
// first one counts: check [Doc.Err] after reading, not only this error.
func Parse(name string, src []byte) (*Doc, error) {
	d := &Doc{name: name, src: bytes.TrimPrefix(src, bom)}
	if err := d.refuse(src); err != nil {
		return nil, err
	}
	lay, faults := scan(d.src)
	d.layout = lay
	for _, f := range faults {
		d.fault(f)
	}
	if len(faults) >= mostFaults {
		last := faults[len(faults)-1]
		d.fault(fault{last.at, "too many broken lines, the rest was not read", "is this a TOML file?"})
	}
	if len(faults) > 0 {
		return nil, d.Err()
	}
	values, ok := d.values()
	if !ok {
		return nil, d.Err()
	}
	if len(values) == 0 {
		return nil, Problems{d.whole("the file holds nothing but remarks", "begin with its kind, for example course = \"name\"")}
	}
	d.root = d.table(lay.root, values)
	return d, nil
}

// values notes the doubles and decodes what is left without them. A number or
// date that does not exist is noted too, and then stands as a bad node.
func (d *Doc) values() (map[string]any, bool) {
	lines := map[int]bool{}
	for _, o := range d.layout.doubles {
		line, _ := d.lineColumn(o.at)
		lines[line] = true
		d.fault(d.doubled(o))
	}
	src := without(d.src, d.layout.cuts)
	for try := 0; ; try++ {
		values, err := decode(src)
		if err == nil {
			return values, true
		}
		f := decodeFault(src, err)
		n := d.layout.root.scalarAt(f.at)
		if n == nil || n.bad || try == mostFaults {
			if line, _ := d.lineColumn(f.at); !lines[line] {
				d.fault(f)
			}
			return nil, false
		}
		d.fault(fault{n.val.from, f.text, "write a number or date that exists"})
		n.bad = true
		src = without(src, []span{n.val})
		src[n.val.from] = '0'
	}
}

func (d *Doc) doubled(o double) fault {
	line, _ := d.lineColumn(o.first.key.from)
	kind := "key"
	if o.header {
		kind = "table"
	}
	return fault{o.at, fmt.Sprintf("%s %s is there twice", kind, Show(o.first.name)),
		fmt.Sprintf("it stands in line %d already: delete or rename one of the two", line)}
}

// without gives src with the spans blanked out, newlines kept.
func without(src []byte, cuts []span) []byte {
	if len(cuts) == 0 {
		return src
	}
	src = slices.Clone(src)
	for _, c := range cuts {
		for i := c.from; i < c.to; i++ {
			if src[i] != '\n' && src[i] != '\r' {
				src[i] = ' '
			}
		}
	}
	return src
}

// Name is the name of the file as given to [Parse].
func (d *Doc) Name() string { return d.name }

// Root is the table at the top level.
func (d *Doc) Root() *Table { return d.root }

// Problems is what was noted so far, in the order of the file.
func (d *Doc) Problems() Problems { return d.problems.Sorted() }

// Err is nil when nothing is wrong, else the same as [Doc.Problems].
func (d *Doc) Err() error { return d.problems.Err() }

// Done calls [Table.Done] on every table that was handed out.
func (d *Doc) Done() {
	for _, t := range d.tables {
		t.Done()
	}
}

// Note adds problems found elsewhere, with places of this file.
func (d *Doc) Note(ps ...Problem) { d.problems = append(d.problems, ps...) }

func (d *Doc) fault(f fault) { d.Note(d.pos(f.at).Problem(f.text, f.hint)) }

func (d *Doc) whole(text, hint string) Problem { return Pos{File: d.name}.Problem(text, hint) }

func (d *Doc) pos(at int) Pos {
	line, column := d.lineColumn(at)
	return Pos{d.name, line, column}
}

func (d *Doc) lineColumn(at int) (line, column int) {
	if d.starts == nil {
		d.starts = []int{0}
		for i, c := range d.src {
			if c == '\n' {
				d.starts = append(d.starts, i+1)
			}
		}
	}
	at = min(at, len(d.src))
	line = goSort.SearchInts(d.starts, at+1)
	// Problems come mostly from left to right: in a long line, count on.
	from, column := d.starts[line-1], 1
	if d.counted.from > from && d.counted.from <= at {
		from, column = d.counted.from, d.counted.column
	}
	column += utf8.RuneCount(d.src[from:at])
	d.counted.from, d.counted.column = at, column
	return line, column
}
