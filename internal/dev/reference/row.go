package reference

import (
	"embed"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/unit/cite"
)

//go:embed rows/*.csv
var files embed.FS

// Row is one check: a quantity with its inputs and the value a source prints.
type Row struct {
	ID        string
	Package   string
	Quantity  string
	Inputs    string
	Expected  string
	Unit      string
	Tolerance string
	Status    cite.Status
	Source    string
	Note      string
}

var header = []string{"id", "quantity", "inputs", "expected", "unit", "tolerance", "status", "source", "note"}

// Rows gives the rows of one package.
func Rows(pkg string) ([]Row, error) {
	f, err := files.Open("rows/" + pkg + ".csv")
	if err != nil {
		return nil, err
	}
	defer f.Close() //nolint:errcheck // an embedded file
	return Read(pkg, f)
}

// Read reads a CSV of rows. An error names the line.
func Read(pkg string, r io.Reader) ([]Row, error) {
	c := csv.NewReader(r)
	c.FieldsPerRecord = len(header)
	var rows []Row
	for first := true; ; first = false {
		rec, err := c.Read()
		if errors.Is(err, io.EOF) {
			if first {
				return nil, fmt.Errorf("%s.csv: no header", pkg)
			}
			return rows, nil
		}
		if err != nil {
			return nil, fmt.Errorf("%s.csv: %w", pkg, err)
		}
		line, _ := c.FieldPos(0)
		if first {
			if !slices.Equal(rec, header) {
				return nil, fmt.Errorf("%s.csv: header is %q, want %q", pkg, strings.Join(rec, ","), strings.Join(header, ","))
			}
			continue
		}
		row := Row{ID: rec[0], Package: pkg, Quantity: rec[1], Inputs: rec[2], Expected: rec[3], Unit: rec[4],
			Tolerance: rec[5], Source: rec[7], Note: rec[8]}
		if row.Status, err = cite.ParseStatus(rec[6]); err != nil {
			return nil, fmt.Errorf("%s.csv:%d: %w", pkg, line, err)
		}
		if err := row.check(); err != nil {
			return nil, fmt.Errorf("%s.csv:%d: row %s: %w", pkg, line, row.ID, err)
		}
		rows = append(rows, row)
	}
}

// check holds a row to the rules of the package comment.
func (r Row) check() error {
	switch {
	case r.ID == "" || r.Quantity == "" || r.Expected == "" || r.Tolerance == "":
		return errors.New("id, quantity, expected and tolerance must not be empty")
	case (r.Status == cite.Published || r.Status == cite.Standard) && r.Source == "":
		return fmt.Errorf("status %s needs a source", r.Status)
	case (r.Status == cite.CommonPractice || r.Status == cite.FromMemory) && r.Source != "":
		return fmt.Errorf("status %s takes no source", r.Status)
	}
	if _, err := tolerance(r.Tolerance, 1); err != nil {
		return err
	}
	if r.Source != "" {
		if _, ok := cite.Lookup(r.Source); !ok {
			return fmt.Errorf("unknown source %q", r.Source)
		}
	}
	return nil
}
