package batch

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"
)

// mostRow bounds a row, so that an open quote does not read a whole file.
const mostRow = 1 << 20

// field is a cell as it stands in the file.
type field struct {
	raw, text string
	legal     bool // raw may be written again as it is
}

// record is a row as it stands in the file.
type record struct {
	cells []field
	end   string // its line end, empty where the file ends without
	bad   string // what is wrong with its quotes
}

// blank tells whether nothing stands in a row.
func (r record) blank() bool {
	for _, f := range r.cells {
		if strings.TrimSpace(f.text) != "" {
			return false
		}
	}
	return true
}

// reader reads rows (RFC 4180). A quote within a cell that does not begin with
// one is a character as any other, as in 24".
type reader struct {
	in   *bufio.Reader
	sep  byte
	line int // lines read
	size int // bytes of the row
}

// next gives a row; io.EOF after the last.
func (r *reader) next() (record, error) {
	var rec record
	if _, err := r.in.Peek(1); err != nil {
		return rec, err
	}
	r.size = 0
	for {
		f, end, bad, err := r.field()
		if err != nil {
			return rec, err
		}
		rec.cells = append(rec.cells, f)
		if bad {
			rec.bad = "a quote ends within a cell"
		}
		if end != string(r.sep) {
			rec.end = end
			return rec, nil
		}
	}
}

// field reads a cell and what ends it.
func (r *reader) field() (f field, end string, bad bool, err error) {
	var raw, text []byte
	open, closed, first := false, 0, r.line+1
loop:
	for {
		b, err := r.in.ReadByte()
		switch {
		case errors.Is(err, io.EOF) && open:
			return f, "", false, fmt.Errorf("line %d: a quote is not closed", first)
		case errors.Is(err, io.EOF):
			break loop
		case err != nil:
			return f, "", false, err
		}
		if r.size++; r.size > mostRow {
			return f, "", false, fmt.Errorf("line %d: a row is longer than 1 MiB", first)
		}
		if b == '\n' {
			r.line++
		}
		switch {
		case open:
			raw = append(raw, b)
			if b != '"' {
				text = append(text, b)
				break
			}
			if again, err := r.in.Peek(1); err != nil || again[0] != '"' {
				open, closed = false, len(raw)
				break
			}
			r.in.Discard(1) //nolint:errcheck // it was seen
			raw, text = append(raw, b), append(text, b)
		case b == '"' && len(raw) == 0:
			open = true
			raw = append(raw, b)
		case b == r.sep:
			end = string(r.sep)
			break loop
		case b == '\n':
			end = "\n"
			break loop
		default:
			raw = append(raw, b)
		}
	}
	if n := len(raw); end == "\n" && n > 0 && raw[n-1] == '\r' {
		raw, end = raw[:n-1], "\r\n"
	}
	f = field{raw: string(raw), text: string(raw)}
	switch {
	case closed > 0 && closed == len(raw):
		f.text, f.legal = string(text), true
	case closed > 0:
		return f, end, true, nil
	default:
		f.legal = !strings.ContainsAny(f.raw, "\"\r")
	}
	return f, end, false, nil
}

// kept writes a cell as it came, unless it must be guarded or was not legal.
func (r *reader) kept(f field) string {
	if g := guard(f.text); g != f.text || !f.legal {
		return r.quoted(g)
	}
	return f.raw
}

// quoted writes a text as a cell.
func (r *reader) quoted(s string) string {
	if strings.ContainsAny(s, "\"\r\n"+string(r.sep)) || strings.TrimSpace(s) != s {
		return `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
	}
	return s
}

// separator gives what separates the cells of the header: outside quotes, a
// tab, else a semicolon, else a comma.
func separator(head []byte) byte {
	line, _, _ := strings.Cut(string(head[:min(len(head), 1<<16)]), "\n")
	plain := ""
	for i, part := range strings.Split(line, `"`) {
		if i%2 == 0 {
			plain += part
		}
	}
	for _, c := range []byte{'\t', ';'} {
		if strings.IndexByte(plain, c) >= 0 {
			return c
		}
	}
	return ','
}
