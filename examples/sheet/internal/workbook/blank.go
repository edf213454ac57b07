package workbook

import (
	"encoding/json"
	"io"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/kind"
	"github.com/coverwright/coverwright/examples/sheet/internal/jobtable"
)

// Blank writes a workbook with the tables of a job that is still to be filled in: what a
// shop has in common, where there is a shop, and a piece of furniture of a kind, where
// one is named, with the names of its measures.
func Blank(w io.Writer, shop job.Shop, from *kind.Kind, o Options) error {
	text, err := json.Marshal(shop)
	if err != nil {
		return err
	}
	var tree map[string]any
	if err := json.Unmarshal(text, &tree); err != nil {
		return err
	}
	delete(tree, "schema")
	if from != nil {
		tree["pieces"] = []any{map[string]any{"name": from.Name, "from": from.Name, "measures": map[string]any{}}}
	}
	tables, err := tablesOf(tree, o)
	if err != nil {
		return err
	}
	b := newBook()
	defer b.f.Close() //nolint:errcheck // nothing is left to write
	b.keep(b.f.SetSheetName("Sheet1", jobtable.JobSheet))
	b.jobTables(tables, !o.Metric, true)
	if b.err != nil {
		return b.err
	}
	if err := b.finish("job"); err != nil {
		return err
	}
	return b.writeTo(w)
}

// tablesOf gives the tables of a job, with the names of all measures that the kinds of
// its pieces have.
func tablesOf(spec any, o Options) ([]jobtable.Table, error) {
	text, err := json.Marshal(spec)
	if err != nil {
		return nil, err
	}
	tables, err := jobtable.Of(text, jobtable.Options{Metric: o.Metric})
	if err != nil {
		return nil, err
	}
	var pieces *jobtable.Table
	for i := range tables {
		switch t := &tables[i]; t.Key {
		case "pieces":
			pieces = t
		case "measures":
			askMeasures(t, pieces)
		}
	}
	return tables, nil
}

// askMeasures adds the measures of kinds that are not given.
func askMeasures(t, pieces *jobtable.Table) {
	var out []jobtable.Row
	for _, p := range pieces.Rows {
		name := pieces.Text(p, "name")
		var own []jobtable.Row
		for _, r := range t.Rows {
			if r.Place.Under(p.Place) {
				own = append(own, r)
			}
		}
		if k, err := kind.Named(pieces.Text(p, "from")); err == nil {
			for _, m := range k.Measures {
				given := slices.ContainsFunc(own, func(r jobtable.Row) bool { return r.Cells[1] == m.Name })
				if !given && pieces.Value(p, strings.ReplaceAll(m.Name, " ", "_")) == nil {
					own = append(own, jobtable.Row{Cells: []any{name, m.Name, nil}, Place: p.Place.Dot("measures")})
				}
			}
		}
		out = append(out, own...)
	}
	t.Rows = out
}

// tapes gives where the tape goes for each row of measures, by its place among the rows.
func tapes(t, pieces jobtable.Table) map[int]string {
	out := map[int]string{}
	for i, r := range t.Rows {
		for _, p := range pieces.Rows {
			k, err := kind.Named(pieces.Text(p, "from"))
			if err != nil || pieces.Text(p, "name") != r.Cells[0] {
				continue
			}
			for _, m := range k.Measures {
				if m.Name == r.Cells[1] {
					out[i] = m.Tape
					if m.Usual != "" {
						out[i] += ". When not given, what is usual is taken."
					}
				}
			}
		}
	}
	return out
}
