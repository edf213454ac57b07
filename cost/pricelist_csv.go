package cost

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// ReadPriceListCSV reads a price list from CSV with a header. The columns, in
// any order, are code, kind, description and price, and if wanted uplift,
// tax_class (or "tax class"), and how it is sold: step, pack, least, cut_charge,
// freight, supplier, dated, sells; see Entry.
//
//	code,kind,description,price,uplift,step,pack,dated
//	CLOTH-12,goods,patterned cloth,42.00 USD/yd,25 % markup,0.25 yd,55 yd,2026-11-02
//
// Commas, semicolons or tabs separate the cells, whichever the header has. At
// most 20000 rows and 8 MiB. Faults come together in a *ListError, each with
// its row and column.
func ReadPriceListCSV(r io.Reader) (PriceList, error) {
	text, err := readAll(r)
	if err != nil {
		return PriceList{}, err
	}
	b := newBuilder(2)
	c := csv.NewReader(bytes.NewReader(text))
	c.Comma = separator(text)
	c.FieldsPerRecord = -1
	var names []string
	for row := 1; ; row++ {
		rec, err := c.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			b.fault(row, "", err)
			break
		}
		if names == nil {
			if names = header(b, rec); names == nil {
				break
			}
			continue
		}
		if row > mostRows {
			b.fault(row, "", check.Refuse("", "", unit.ErrRange, "at most 20000 rows"))
			break
		}
		if len(rec) != len(names) {
			b.fault(row, "", check.Refuse("", "", unit.ErrSyntax, "as many cells as the header has"))
		} else {
			cells := map[string]string{}
			for i, n := range names {
				cells[n] = rec[i]
			}
			b.add(row, cells)
		}
		if b.full() {
			break
		}
	}
	if names == nil && len(b.faults.Cells) == 0 {
		b.fault(1, "", check.Refuse("", "", unit.ErrRequired, "a header with code, kind, description and price"))
	}
	return b.done()
}

// readAll reads a file of bounded size and drops the mark that spreadsheets
// put before UTF-8.
func readAll(r io.Reader) ([]byte, error) {
	text, err := io.ReadAll(io.LimitReader(r, mostBytes+1))
	if err != nil {
		return nil, err
	}
	if len(text) > mostBytes {
		return nil, check.Refuse("price list", "", unit.ErrRange, "at most 8 MiB")
	}
	if !utf8.Valid(text) {
		return nil, check.Refuse("price list", "", unit.ErrSyntax, "UTF-8 text")
	}
	return bytes.TrimPrefix(text, []byte("\ufeff")), nil
}

// separator finds what separates the cells of the first line.
func separator(text []byte) rune {
	line, _, _ := bytes.Cut(text, []byte("\n"))
	for _, c := range []byte{',', ';', '\t'} {
		if bytes.IndexByte(line, c) >= 0 {
			return rune(c)
		}
	}
	return ','
}

// header checks the names of the columns; nil when they are wrong.
func header(b *builder, rec []string) []string {
	names := make([]string, len(rec))
	for i, n := range rec {
		n = strings.ReplaceAll(strings.ToLower(strings.TrimSpace(n)), " ", "_")
		if !slices.Contains(columns, n) {
			b.fault(1, n, check.Refuse("", n, unit.ErrUnknown, "one of "+strings.Join(columns, ", ")))
			return nil
		}
		if slices.Contains(names[:i], n) {
			b.fault(1, n, check.Refuse("", n, unit.ErrRange, "each column once"))
			return nil
		}
		names[i] = n
	}
	for _, n := range columns[:required] {
		if !slices.Contains(names, n) {
			b.fault(1, n, check.Refuse("", "", unit.ErrRequired, "a column of that name"))
			return nil
		}
	}
	return names
}

// WriteCSV writes the list as ReadPriceListCSV reads it. Of the columns about
// how things are sold it writes those that an entry uses.
func (l PriceList) WriteCSV(w io.Writer) error {
	rows := [][]string{columns}
	used := make([]bool, len(columns))
	for _, e := range l.entries {
		cells := e.cells()
		for i, s := range cells {
			used[i] = used[i] || i < always || s != ""
		}
		rows = append(rows, cells)
	}
	c := csv.NewWriter(w)
	for _, row := range rows {
		var cells []string
		for i, s := range row {
			if used[i] || i < always {
				cells = append(cells, s)
			}
		}
		if err := c.Write(cells); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}
