//go:build libreoffice

package workbook_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/examples/sheet/internal/office"
	"github.com/coverwright/coverwright/examples/sheet/internal/workbook"
)

// variants are jobs that reach the formulas the demo job does not: other ways
// of rounding, tax, discounts, payments and currencies.
func variants(t *testing.T) map[string][]byte {
	data := demo(t)
	out := map[string][]byte{"demo": data}
	vary := func(name string, change func(job, quote map[string]any)) {
		var j map[string]any
		require.NoError(t, json.Unmarshal(data, &j))
		q, ok := j["quote"].(map[string]any)
		require.True(t, ok)
		delete(j, "options")
		change(j, q)
		b, err := json.Marshal(j)
		require.NoError(t, err)
		out[name] = b
	}
	for i, mode := range []string{"half-even", "half-down", "up", "down", "ceiling", "floor"} {
		vary(mode, func(j, q map[string]any) {
			if i >= 3 {
				j["customer_copy"] = map[string]any{"by": []string{"piece", "work"}[i%2], "tax": "below"}
			}
			q["rounding"] = mode
			q["markup"] = fmt.Sprintf("%v %%", 12.5*float64(i+1))
			q["tax_level"] = []string{"per invoice", "per line"}[i%2]
			q["prices_include_tax"] = i%3 == 0
			q["taxes"] = []any{
				map[string]any{"name": "state", "rate": "6.35 %", "on": []string{"goods", "foam", "labour"}},
				map[string]any{"name": "town", "rate": "1.125 %", "on": []string{"goods", "delivery", "thread and sundries"}},
			}
			q["discounts"] = []any{
				map[string]any{"name": "work", "rate": "7 %", "kinds": []string{"labour"}},
				map[string]any{"name": "all", "amount": "33.33 USD"},
				map[string]any{"name": "goods", "rate": "3.3 %", "kinds": []string{"goods", "labour"}},
				map[string]any{"name": "old customer", "rate": "2 %", "after_tax": true},
				map[string]any{"name": "round off", "amount": "1.11 USD", "after_tax": true},
			}
			q["stages"] = []any{
				map[string]any{"name": "a", "share": "33.3 %"}, map[string]any{"name": "b", "share": "33.3 %"}, map[string]any{"name": "rest"},
			}
			if i%2 == 1 {
				delete(q, "shop_rate")
				q["labour_rate"] = "61.37 USD/h"
				delete(q, "contingency")
			}
		})
	}
	vary("by rule", func(j, _ map[string]any) {
		for _, g := range j["goods"].([]any) {
			if m := g.(map[string]any); m["kind"] == "hide" {
				m["buy_by"], m["waste"] = "rule of thumb", "27.5 %"
			} else {
				m["shrinkage"] = "3 %"
			}
		}
	})
	vary("bare", func(_, q map[string]any) {
		for _, k := range []string{"taxes", "discounts", "stages", "contingency", "class", "markup", "issued", "valid_days"} {
			delete(q, k)
		}
		q["deposit"] = "50 %"
	})
	vary("shop terms", func(_, q map[string]any) {
		delete(q, "stages")
		q["deposit"], q["deposit_covers"] = "10 %", []string{"goods", "foam"}
		q["least"], q["step"] = "9000.00 USD", "35.00 USD"
		q["markup_by"] = map[string]any{"goods": "40 %", "foam": "0 %"}
	})
	vary("by work", func(j, q map[string]any) {
		j["customer_copy"] = map[string]any{"by": "work", "tax": "below"}
		q["tax_level"] = "per line"
	})
	vary("tax within", func(_, q map[string]any) {
		q["prices_include_tax"] = true
		q["taxes"] = []any{map[string]any{"name": "VAT", "rate": "20 %", "on": []string{"goods", "foam", "labour"}}}
	})
	out["hides at hand"] = []byte(hidesAtHand)
	out["at hand"] = []byte(atHand)
	// Another currency, with cash rounding and one without minor units.
	for _, c := range []string{"CHF", "JPY"} {
		text := strings.ReplaceAll(string(data), "USD", c)
		if c == "JPY" {
			text = strings.NewReplacer(".00 JPY", " JPY", ".50 JPY", " JPY", ".40 JPY", " JPY", ".60 JPY", " JPY").Replace(text)
		}
		var j map[string]any
		require.NoError(t, json.Unmarshal([]byte(text), &j))
		delete(j, "options")
		q, ok := j["quote"].(map[string]any)
		require.True(t, ok)
		q["cash"] = true
		b, err := json.Marshal(j)
		require.NoError(t, err)
		out[c] = b
	}
	return out
}

// hidesAtHand is a job whose leather lies in the shop: none of it is bought.
const hidesAtHand = `{"schema": "coverwright/job/1", "name": "stool", "currency": "USD",
	"goods": [{"id": "hide", "kind": "hide", "name": "leather", "material": "leather", "price": "9.20 USD/sq ft", "hides": [{"name": "L1", "area": "50 sq ft"}]}],
	"pieces": [{"name": "stool", "count": 2, "panels": [{"name": "seat", "goods": "hide", "width": "18 in", "length": "18 in"}], "labour": [{"task": "cover", "time": "1 h"}]}],
	"quote": {"labour_rate": "50 USD/h", "markup": "20 %"}}`

// Every formula, worked out anew by LibreOffice, gives the library's figure to
// its quantum, in the workbook as written and in both units.
func TestFormulasAgreeWithTheLibrary(t *testing.T) {
	profile, dir, out := t.TempDir(), t.TempDir(), t.TempDir()
	require.NoError(t, office.RecalculateAlways(profile))
	o, err := office.New(profile)
	require.NoError(t, err)
	want := map[string][]workbook.Check{}
	var files []string
	for name, data := range variants(t) {
		spec, order := worked(t, data)
		for _, metric := range []bool{false, true} {
			if metric && name != "demo" {
				continue
			}
			var b bytes.Buffer
			checks, err := workbook.Quote(&b, spec, order, workbook.Options{Metric: metric})
			require.NoError(t, err, name)
			spoilt, err := spoil(b.Bytes(), checks)
			require.NoError(t, err)
			base := fmt.Sprintf("%s-%v.xlsx", name, metric)
			want[base] = checks
			files = append(files, write(t, dir, base, spoilt))
		}
	}
	name, data, checks := changedInTheSheet(t)
	want[name] = checks
	files = append(files, write(t, dir, name, data))
	require.NoError(t, o.Convert(t.Context(), "xlsx:Calc MS Excel 2007 XML", out, files...))
	formulas := 0
	for name, checks := range want {
		f, err := excelize.OpenFile(filepath.Join(out, name))
		require.NoError(t, err)
		for _, c := range checks {
			got := cellNumber(t, f, c.Sheet, c.Cell)
			assert.InDelta(t, c.Want, got, c.Step/2*1.0001, "%s %s %s", name, c.Sheet, c.Cell)
			formulas++
		}
		assert.False(t, says(t, f, "Quote", "Figures were changed"), name) // every amount follows, there are no options
		assert.False(t, says(t, f, "Quote", "Changed since"), name)
		for _, s := range f.GetSheetList() {
			rows, err := f.GetRows(s)
			require.NoError(t, err)
			for i, r := range rows {
				for k, v := range r {
					assert.False(t, strings.HasPrefix(v, "#") || strings.HasPrefix(v, "Err:"), "%s %s %s: %s", name, s, at(k+1, i+1), v)
				}
			}
		}
		require.NoError(t, f.Close())
	}
	t.Logf("%d formulas in %d workbooks", formulas, len(want))
	assert.Greater(t, formulas, 1000)
}

// says tells whether a sheet has a line that begins with some words.
func says(t *testing.T, f *excelize.File, sheet, words string) bool {
	t.Helper()
	rows, err := f.GetRows(sheet)
	require.NoError(t, err)
	return slices.ContainsFunc(rows, func(r []string) bool { return len(r) > 0 && strings.HasPrefix(r[0], words) })
}

// spoil stores a wrong value beside every formula, so that only one that was
// worked out anew can be right.
func spoil(data []byte, checks []workbook.Check) ([]byte, error) {
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	defer f.Close()
	for _, c := range checks {
		formula, err := f.GetCellFormula(c.Sheet, c.Cell)
		if err != nil {
			return nil, err
		}
		if err := f.SetCellFloat(c.Sheet, c.Cell, -987654.25, -1, 64); err != nil {
			return nil, err
		}
		if err := f.SetCellFormula(c.Sheet, c.Cell, formula); err != nil {
			return nil, err
		}
	}
	var b bytes.Buffer
	err = f.Write(&b)
	return b.Bytes(), err
}

func cellNumber(t *testing.T, f *excelize.File, sheet, cell string) float64 {
	t.Helper()
	v, err := f.GetCellValue(sheet, cell, excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	var x float64
	_, err = fmt.Sscan(v, &x)
	require.NoError(t, err, "%s %s: %q", sheet, cell, v)
	return x
}

func write(t *testing.T, dir, name string, data []byte) string {
	t.Helper()
	file := filepath.Join(dir, name)
	require.NoError(t, os.WriteFile(file, data, 0o600))
	return file
}

const changedFile = "changed.xlsx"

// changedInTheSheet gives the workbook of the demo job with figures changed in
// it by hand, and what the library has for a job with those figures: the sheet
// must come to the same by itself.
func changedInTheSheet(t *testing.T) (string, []byte, []workbook.Check) {
	t.Helper()
	demo := part(t, true)
	book, _ := written(t, demo, workbook.Options{})
	var j map[string]any
	require.NoError(t, json.Unmarshal(demo, &j))
	q := j["quote"].(map[string]any)
	q["markup"] = "41.5 %"
	q["shop_rate"].(map[string]any)["wage"] = "23.75 USD/h"
	q["taxes"].([]any)[0].(map[string]any)["rate"] = "7.875 %"
	q["discounts"].([]any)[0].(map[string]any)["rate"] = "12.5 %"
	q["stages"].([]any)[0].(map[string]any)["share"] = "35 %"
	for _, g := range j["goods"].([]any) {
		if m := g.(map[string]any); m["id"] == "hide" {
			m["price"] = "11.37 USD/sq ft"
		}
	}
	changed, err := json.Marshal(j)
	require.NoError(t, err)
	_, checks := written(t, changed, workbook.Options{})

	f, err := excelize.OpenReader(bytes.NewReader(book))
	require.NoError(t, err)
	defer f.Close()
	tables := fields(t, f)
	set(t, f, tables, "terms", 0, "markup", 0.415)
	set(t, f, tables, "terms", 0, "shop rate wage", 23.75)
	set(t, f, tables, "taxes", 0, "rate", 0.07875)
	set(t, f, tables, "discounts", 0, "rate", 0.125)
	set(t, f, tables, "stages", 0, "share", 0.35)
	for i := range 9 {
		if v, err := f.GetCellValue(tables["goods"].sheet, tables["goods"].cell(t, i, "id")); err == nil && v == "hide" {
			set(t, f, tables, "goods", i, "price", 11.37)
		}
	}
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	return changedFile, b.Bytes(), checks
}

// grid is where a table of the job stands, and its headings.
type grid struct {
	sheet       string
	column, row int
	last        int // row
	form        bool
	heads       []string
}

// cell gives the cell of a row and a field.
func (g grid) cell(t *testing.T, row int, name string) string {
	t.Helper()
	for i, h := range g.heads {
		if h == name || strings.HasPrefix(h, name+", ") {
			if g.form {
				return at(g.column+1, g.row+i)
			}
			return at(g.column+i, g.row+1+row)
		}
	}
	t.Fatalf("no %q among %q", name, g.heads)
	return ""
}

// fields finds the tables of the job in a workbook.
func fields(t *testing.T, f *excelize.File) map[string]grid {
	t.Helper()
	out := map[string]grid{}
	for _, d := range f.GetDefinedName() {
		key, ok := strings.CutPrefix(d.Name, "table_")
		if !ok {
			continue
		}
		sheet, area, _ := strings.Cut(strings.ReplaceAll(d.RefersTo, "$", ""), "!")
		first, last, _ := strings.Cut(area, ":")
		g := grid{sheet: strings.Trim(sheet, "'"), form: slices.Contains([]string{"job", "sewing", "terms"}, key)}
		var err error
		g.column, g.row, err = excelize.CellNameToCoordinates(first)
		require.NoError(t, err)
		right, bottom, err := excelize.CellNameToCoordinates(last)
		require.NoError(t, err)
		g.last = bottom
		for i := range max(right-g.column, bottom-g.row) + 1 {
			c := at(g.column+i, g.row)
			if g.form {
				c = at(g.column, g.row+i)
			}
			h, err := f.GetCellValue(g.sheet, c)
			require.NoError(t, err)
			if (g.form && i <= bottom-g.row) || (!g.form && i <= right-g.column) {
				g.heads = append(g.heads, h)
			}
		}
		out[key] = g
	}
	require.Greater(t, len(out), 20)
	return out
}

// set changes a cell of the job.
func set(t *testing.T, f *excelize.File, tables map[string]grid, table string, row int, field string, v any) {
	t.Helper()
	g := tables[table]
	require.NoError(t, f.SetCellValue(g.sheet, g.cell(t, row, field), v))
}

// A filled workbook opens, and its formulas are worked out from what was
// written into it.
func TestAFilledWorkbookIsWorkedOutAnew(t *testing.T) {
	profile, dir, out := t.TempDir(), t.TempDir(), t.TempDir()
	o, err := office.New(profile) // a profile as a user has it
	require.NoError(t, err)
	book := shop(t, func(f *excelize.File) {
		require.NoError(t, f.SetDefinedName(&excelize.DefinedName{Name: "fill_job", RefersTo: "'Our quote'!$B$9"}))
		require.NoError(t, f.SetCellFormula("Our quote", "B10", `B9&"!"`))
	})
	after, _, err := fillDemo(t, book, part(t, false))
	require.NoError(t, err)
	file := write(t, dir, "filled.xlsx", after)
	require.NoError(t, o.Convert(t.Context(), "xlsx:Calc MS Excel 2007 XML", out, file))
	data, err := os.ReadFile(filepath.Join(out, "filled.xlsx"))
	require.NoError(t, err)
	var total, more float64
	for cell, x := range map[string]*float64{"B5": &total, "B6": &more} {
		_, err := fmt.Sscan(cellOf(t, data, cell), x)
		require.NoError(t, err, cell)
	}
	assert.Positive(t, total)
	assert.InDelta(t, total*1.1, more, 1e-6)
	assert.Equal(t, cellOf(t, after, "B9")+"!", cellOf(t, data, "B10"))
}

// Whatever is changed, the paper is so or says that it is not.
func TestTheQuoteSheetSaysWhenItIsStale(t *testing.T) {
	job := `{"schema": "coverwright/job/1", "name": "seats", "currency": "USD", "goods": [
		{"id": "cloth", "kind": "roll", "name": "tweed", "material": "woven", "width": "54 in", "price": "30 USD/yd", "increment": "1/4 yd"},
		{"id": "red", "kind": "roll", "name": "red tweed", "material": "woven", "width": "54 in", "price": "33 USD/yd", "increment": "1/4 yd"}],
		"pieces": [{"name": "seat", "panels": [{"name": "cover", "goods": "cloth", "width": "24 in", "length": "24 in", "edges": "raw"}]}],
		%s "quote": {"labour_rate": "50 USD/h", "markup": "20 %%"}}`
	const option = `"options": [{"name": "in red", "replace": [{"goods": "cloth", "with": "red"}]}],`
	cases := []struct {
		options, table, field string
		to                    any
		says                  string
	}{
		{"", "", "", nil, ""},
		{option, "", "", nil, ""},
		{"", "terms", "markup", 0.5, ""}, // all that stands there follows
		{option, "terms", "markup", 0.5, "Figures were changed after this was made, and the prices of options and quantities of covers below do not follow"},
		{"", "goods", "increment", 2, "Figures were changed after this was made, and the quantities of covers below do not follow"},
		{"", "panels", "width", 30, "Changed since"},
		{"", "pieces", "count", 3, "Changed since"},
		{"", "pieces", "name", "Seat", "Changed since"},
		{"", "panels", "count", 1, "Changed since"}, // what was left out is given
	}
	dir, out, profile := t.TempDir(), t.TempDir(), t.TempDir()
	var files []string
	for i, x := range cases {
		book, _ := written(t, fmt.Appendf(nil, job, x.options), workbook.Options{})
		f, err := excelize.OpenReader(bytes.NewReader(book))
		require.NoError(t, err)
		if x.table != "" {
			set(t, f, fields(t, f), x.table, 0, x.field, x.to)
		}
		var b bytes.Buffer
		require.NoError(t, f.Write(&b))
		require.NoError(t, f.Close())
		files = append(files, write(t, dir, fmt.Sprintf("%d.xlsx", i), b.Bytes()))
	}
	require.NoError(t, office.RecalculateAlways(profile))
	o, err := office.New(profile)
	require.NoError(t, err)
	require.NoError(t, o.Convert(t.Context(), "xlsx:Calc MS Excel 2007 XML", out, files...))
	for i, x := range cases {
		f, err := excelize.OpenFile(filepath.Join(out, fmt.Sprintf("%d.xlsx", i)))
		require.NoError(t, err)
		assert.Equal(t, strings.HasPrefix(x.says, "Figures"), says(t, f, "Quote", "Figures were changed"), x)
		assert.Equal(t, strings.HasPrefix(x.says, "Changed"), says(t, f, "Quote", "Changed since"), x)
		assert.Equal(t, x.says != "", says(t, f, "Quote", x.says) && x.says != "", x)
		require.NoError(t, f.Close())
	}
}
