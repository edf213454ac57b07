// Package batch works one function out over the rows of a CSV file.
//
// The header names the arguments, in any order; other columns are carried
// along. Each row gets its result and its error in two columns at the end. A
// text that a spreadsheet would run as a formula is written with an apostrophe
// before it.
package batch

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/examples/sheet/internal/table"
)

// Names of the columns that are added.
const (
	ResultColumn = "result"
	ErrorColumn  = "error"
)

// mostCell bounds a cell, so that an open quote does not read a whole file.
const mostCell = 1 << 20

// Summary counts the rows.
type Summary struct{ Rows, Errors int }

// Run reads rows from r and writes them with results to w. Commas, semicolons
// or tabs separate the cells, whichever the header has.
func Run(f *table.Function, r io.Reader, w io.Writer) (Summary, error) {
	var sum Summary
	in := bufio.NewReader(&limited{r: r})
	if b, err := in.Peek(3); err == nil && string(b) == "\ufeff" {
		if _, err := in.Discard(3); err != nil {
			return sum, err
		}
	}
	comma, err := separator(in)
	if err != nil {
		return sum, err
	}
	rd := csv.NewReader(in)
	rd.Comma = comma
	rd.ReuseRecord = true
	out := csv.NewWriter(w)
	out.Comma = comma
	header, err := rd.Read()
	if errors.Is(err, io.EOF) {
		return sum, errors.New("the file is empty: a header with the names of the arguments is wanted")
	}
	if err != nil {
		return sum, err
	}
	at, err := columns(f, header)
	if err != nil {
		return sum, err
	}
	if err := out.Write(safe(append(append([]string{}, header...), ResultColumn, ErrorColumn))); err != nil {
		return sum, err
	}
	values := make([]any, len(f.Args))
	for {
		record, err := rd.Read()
		if errors.Is(err, io.EOF) {
			out.Flush()
			return sum, out.Error()
		}
		if err != nil {
			return sum, err
		}
		sum.Rows++
		result, bad := row(f, at, values, record)
		message := ""
		if bad != nil {
			sum.Errors++
			result, message = "", bad.Error()
		}
		if err := out.Write(append(safe(append([]string{}, record...)), guard(result), guard(message))); err != nil {
			return sum, err
		}
	}
}

// limited ends with an error when a line does not end.
type limited struct {
	r    io.Reader
	line int
}

func (l *limited) Read(p []byte) (int, error) {
	n, err := l.r.Read(p)
	for _, b := range p[:n] {
		if l.line++; b == '\n' {
			l.line = 0
		}
		if l.line > mostCell {
			return 0, errors.New("a line is longer than 1 MiB")
		}
	}
	return n, err
}

// separator looks at the header.
func separator(in *bufio.Reader) (rune, error) {
	b, err := in.Peek(in.Size())
	if err != nil && !errors.Is(err, io.EOF) && !errors.Is(err, bufio.ErrBufferFull) {
		return 0, err
	}
	line, _, _ := strings.Cut(string(b), "\n")
	for _, c := range []rune{'\t', ';'} {
		if strings.ContainsRune(line, c) {
			return c, nil
		}
	}
	return ',', nil
}

// columns gives the column of each argument, -1 for one that is left out.
func columns(f *table.Function, header []string) ([]int, error) {
	at := make([]int, len(f.Args))
	for i, a := range f.Args {
		at[i] = -1
		for k, h := range header {
			if !strings.EqualFold(strings.TrimSpace(h), a.Name) {
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
		if h == ResultColumn || h == ErrorColumn {
			return nil, fmt.Errorf("the file has a column %q already", h)
		}
	}
	return at, nil
}

func row(f *table.Function, at []int, values []any, record []string) (string, *table.Fault) {
	for i, a := range f.Args {
		values[i] = nil
		if at[i] < 0 {
			continue
		}
		cell := strings.TrimSpace(record[at[i]])
		if cell == "" {
			continue
		}
		v, err := parse(a, cell)
		if err != nil {
			return "", &table.Fault{Code: table.Value, Message: a.Name + ": " + err.Error()}
		}
		values[i] = v
	}
	r, bad := f.Call(values)
	if bad != nil {
		return "", bad
	}
	switch r.Kind {
	case table.Text:
		return r.Text, nil
	case table.Column:
		parts := make([]string, len(r.Column))
		for i, x := range r.Column {
			parts[i] = strconv.FormatFloat(x, 'f', -1, 64)
		}
		return strings.Join(parts, "; "), nil
	case table.Grid:
		rows := make([]string, len(r.Grid))
		for i, line := range r.Grid {
			cells := make([]string, len(line))
			for k, x := range line {
				cells[k] = cellText(x)
			}
			rows[i] = strings.Join(cells, " ")
		}
		return strings.Join(rows, "; "), nil
	}
	return strconv.FormatFloat(r.Number, 'f', -1, 64), nil
}

// cellText writes a cell of a grid. No cell of a row is a range, so none is
// blank or without a value.
func cellText(v any) string {
	if x, ok := v.(float64); ok {
		return strconv.FormatFloat(x, 'f', -1, 64)
	}
	return fmt.Sprint(v)
}

var errNumber = errors.New("a number with a decimal point is wanted")

// parse reads a cell. A range has rows set off by semicolons and numbers by
// blanks: "24 18 2; 12 9 4".
func parse(a table.Arg, cell string) (any, error) {
	switch a.Kind {
	case table.Text:
		return unguard(cell), nil
	case table.Range:
		var rows [][]any
		for _, line := range strings.Split(cell, ";") {
			var cells []any
			for _, word := range strings.Fields(line) {
				x, err := figure(word)
				if err != nil {
					return nil, err
				}
				cells = append(cells, x)
			}
			rows = append(rows, cells)
		}
		return rows, nil
	}
	x, err := figure(cell)
	if err != nil && a.TakesText() {
		return unguard(cell), nil // a text with a unit: the function reads it
	}
	return x, err
}

// figure reads a plain decimal; no hexadecimals, infinities or underscores.
func figure(s string) (float64, error) {
	if strings.ContainsFunc(s, func(r rune) bool { return !strings.ContainsRune("0123456789+-.eE", r) }) {
		return 0, errNumber
	}
	x, err := strconv.ParseFloat(s, 64)
	if err != nil && !errors.Is(err, strconv.ErrRange) {
		return 0, errNumber
	}
	return x, nil // an infinity is refused by the function, as #NUM!
}

// safe guards every cell in place.
func safe(record []string) []string {
	for i := range record {
		record[i] = guard(record[i])
	}
	return record
}

// guard keeps a text from being run as a formula when the file is opened in a
// spreadsheet. Numbers stay as they are.
func guard(s string) string {
	t := strings.TrimLeft(s, " \t\r\n\u00a0\ufeff")
	if t == "" || !strings.ContainsRune("=+-@|%＝＋－＠", []rune(t)[0]) && !strings.HasPrefix(s, "\t") && !strings.HasPrefix(s, "\r") {
		return s
	}
	if _, err := figure(strings.TrimSpace(s)); err == nil {
		return s
	}
	return "'" + s
}

// unguard takes off the apostrophe that guard put on.
func unguard(s string) string {
	if rest, ok := strings.CutPrefix(s, "'"); ok && guard(rest) == s {
		return rest
	}
	return s
}
