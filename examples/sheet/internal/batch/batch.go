// Package batch works one function out over the rows of a CSV file.
//
// The header names the arguments, in any order; other columns are carried
// along. Each row gets its result and its error in two columns at the end. A
// text that a spreadsheet would run as a formula is written with an apostrophe
// before it.
package batch

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/coverwright/coverwright/examples/sheet/internal/table"
)

// Names of the columns that are added.
const (
	ResultColumn = "result"
	ErrorColumn  = "error"
)

// lookAhead is how much of a file is looked at for its decimal sign before the
// first result is written.
const lookAhead = 1 << 20

// Summary counts the rows, blank ones apart.
type Summary struct{ Rows, Errors int }

// run is one file.
type run struct {
	f      *table.Function
	rd     *reader
	sign   decimal
	header int   // cells of the header
	at     []int // column of each argument
	values []any
}

// Run reads rows from r and writes them with results to w. Commas, semicolons
// or tabs separate the cells, whichever the header has, and fractions have a
// point or a comma, whichever the arguments have; results have the same. Rows
// stay where they are, blank ones too, with their line ends and quotes. A row
// that cannot be read has an error; the others do not mind.
func Run(f *table.Function, r io.Reader, w io.Writer) (Summary, error) {
	var sum Summary
	in := bufio.NewReaderSize(r, lookAhead)
	head, err := in.Peek(lookAhead)
	if err != nil && !errors.Is(err, io.EOF) {
		return sum, err
	}
	mark := ""
	if bytes.HasPrefix(head, []byte(byteOrderMark)) {
		mark = byteOrderMark
		head = head[len(mark):]
		in.Discard(len(mark)) //nolint:errcheck // it was seen
	}
	x := run{f: f, rd: &reader{in: in, sep: separator(head)}, values: make([]any, len(f.Args))}
	ahead := &reader{in: bufio.NewReader(bytes.NewReader(bytes.Clone(head))), sep: x.rd.sep}
	ahead.next() //nolint:errcheck // the header is read again below
	header, err := x.rd.next()
	if errors.Is(err, io.EOF) {
		return sum, errors.New("the file is empty: a header with the names of the arguments is wanted")
	}
	if err != nil {
		return sum, err
	}
	if header.bad != "" {
		return sum, errors.New("header: " + header.bad)
	}
	x.header = len(header.cells)
	if x.at, err = columns(f, header.cells); err != nil {
		return sum, err
	}
	x.sign = signOf(f, x.at, ahead)
	out := bufio.NewWriter(w)
	out.WriteString(mark + x.line(header, ResultColumn, ErrorColumn)) //nolint:errcheck // told by Flush, as below
	for {
		rec, err := x.rd.next()
		if errors.Is(err, io.EOF) {
			return sum, out.Flush()
		}
		if err != nil {
			return sum, err
		}
		result, message := "", ""
		if !rec.blank() {
			sum.Rows++
			var bad *table.Fault
			if result, bad = x.row(rec); bad != nil {
				sum.Errors++
				result, message = "", strings.ToValidUTF8(bad.Error(), "\ufffd")
			}
		}
		if _, err := out.WriteString(x.line(rec, result, message)); err != nil {
			return sum, err
		}
	}
}

const byteOrderMark = "\ufeff"

// line writes a row with its result. Cells past the header stand behind it, so
// that results stand in their column. An empty line stays empty.
func (x *run) line(rec record, result, message string) string {
	if len(rec.cells) == 1 && rec.cells[0].raw == "" {
		return rec.end
	}
	cells := make([]string, 0, len(rec.cells)+2)
	for i := range max(x.header, len(rec.cells)) {
		if i == x.header {
			cells = append(cells, x.rd.quoted(guard(result)), x.rd.quoted(guard(message)))
		}
		if i < len(rec.cells) {
			cells = append(cells, x.rd.kept(rec.cells[i]))
		} else {
			cells = append(cells, "")
		}
	}
	if len(rec.cells) <= x.header {
		cells = append(cells, x.rd.quoted(guard(result)), x.rd.quoted(guard(message)))
	}
	return strings.Join(cells, string(x.rd.sep)) + rec.end
}

// columns gives the column of each argument, -1 for one that is left out.
func columns(f *table.Function, header []field) ([]int, error) {
	at := make([]int, len(f.Args))
	for i, a := range f.Args {
		at[i] = -1
		for k, h := range header {
			if !strings.EqualFold(strings.TrimSpace(h.text), a.Name) {
				continue
			}
			if at[i] >= 0 {
				return nil, fmt.Errorf("column %q stands twice", a.Name)
			}
			at[i] = k
		}
		if at[i] < 0 && !a.Optional() {
			var names []string
			for _, a := range f.Args {
				names = append(names, a.Name)
			}
			return nil, fmt.Errorf("the header has no column %q; %s takes %s", a.Name, f.Name(), strings.Join(names, ", "))
		}
	}
	for _, h := range header {
		if h.text == ResultColumn || h.text == ErrorColumn {
			return nil, fmt.Errorf("the file has a column %q already", h.text)
		}
	}
	return at, nil
}

// row works a row out.
func (x *run) row(rec record) (string, *table.Fault) {
	wrong := func(message string) (string, *table.Fault) {
		return "", &table.Fault{Code: table.Value, Message: message}
	}
	switch n := len(rec.cells); {
	case rec.bad != "":
		return wrong(rec.bad)
	case n < x.header:
		return wrong(fmt.Sprintf("the row has %d cells, the header %d", n, x.header))
	case n > x.header && !(record{cells: rec.cells[x.header:]}).blank():
		return wrong(fmt.Sprintf("the row has %d cells, the header %d; those past it stand after the error", n, x.header))
	}
	for i, a := range x.f.Args {
		x.values[i] = nil
		if x.at[i] < 0 {
			continue
		}
		cell := strings.TrimSpace(rec.cells[x.at[i]].text)
		if cell == "" {
			continue
		}
		v, err := x.sign.parse(a, cell)
		if err != nil {
			return wrong(a.Name + ": " + err.Error())
		}
		x.values[i] = v
	}
	r, bad := x.f.Call(x.values)
	if bad != nil {
		return "", bad
	}
	switch r.Kind {
	case table.Text:
		return r.Text, nil
	case table.Column:
		parts := make([]string, len(r.Column))
		for i, v := range r.Column {
			parts[i] = x.sign.write(v)
		}
		return strings.Join(parts, "; "), nil
	case table.Grid:
		rows := make([]string, len(r.Grid))
		for i, line := range r.Grid {
			cells := make([]string, len(line))
			for k, v := range line {
				cells[k] = x.sign.cell(v)
			}
			rows[i] = strings.Join(cells, " ")
		}
		return strings.Join(rows, "; "), nil
	}
	return x.sign.write(r.Number), nil
}

// cell writes a cell of a grid. No cell of a row is a range, so none is
// blank or without a value.
func (d decimal) cell(v any) string {
	if x, ok := v.(float64); ok {
		return d.write(x)
	}
	return fmt.Sprint(v)
}

// parse reads a cell. A range has rows set off by semicolons and numbers by
// blanks: "24 18 2; 12 9 4".
func (d decimal) parse(a table.Arg, cell string) (any, error) {
	switch a.Kind {
	case table.Text:
		return unguard(cell), nil
	case table.Range:
		var rows [][]any
		for _, line := range strings.Split(cell, ";") {
			var cells []any
			for _, word := range strings.Fields(line) {
				x, err := d.figure(word)
				if err != nil {
					return nil, err
				}
				cells = append(cells, x)
			}
			rows = append(rows, cells)
		}
		return rows, nil
	}
	x, err := d.figure(cell)
	if err != nil && a.TakesText() {
		return d.quantity(unguard(cell)) // a text with a unit: the function reads it
	}
	return x, err
}
