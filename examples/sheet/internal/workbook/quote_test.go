package workbook_test

import (
	"bytes"
	"encoding/json"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/examples/sheet/internal/workbook"
	"github.com/coverwright/coverwright/unit/caution"
)

func written(t testing.TB, data []byte, o workbook.Options) ([]byte, []workbook.Check) {
	t.Helper()
	spec, order := worked(t, data)
	var b bytes.Buffer
	checks, err := workbook.Quote(&b, spec, order, o)
	require.NoError(t, err)
	return b.Bytes(), checks
}

func TestQuoteWorkbook(t *testing.T) {
	data := part(t, true)
	_, order := worked(t, data)
	book, checks := written(t, data, workbook.Options{})
	assert.Greater(t, len(checks), 200)
	f, err := excelize.OpenReader(bytes.NewReader(book))
	require.NoError(t, err)
	defer f.Close()
	assert.Equal(t, []string{"Quote", "Job", "Terms", "Furniture", "Panels", "Cushions", "Parts", "Seams", "Covers", "Stock", "Fillings", "Work", "Findings", "Options",
		"Cut list", "To buy", "Thread", "Foam", "Hours", "To mind", "Workings", "Before", "Shares"}, f.GetSheetList())
	for _, s := range []string{"Thread", "Foam"} {
		at, err := f.SearchSheet(s, caution.Pointer)
		require.NoError(t, err)
		assert.Len(t, at, 1, s)
	}
	names := map[string]string{}
	for _, d := range f.GetDefinedName() {
		names[d.Name] = d.RefersTo
	}
	for _, n := range []string{"labour_rate", "markup", "quote_total", "price_damask", "buy_hide", "tax_rate_1", "job_name"} {
		assert.Contains(t, names, n)
	}
	sheet, cell, _ := strings.Cut(strings.ReplaceAll(names["quote_total"], "$", ""), "!")
	total, err := f.GetCellValue(strings.Trim(sheet, "'"), cell, excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	assert.Equal(t, order.Quote.Total.Amount(), total)
	// What a customer changes is worked out again by the sheet: most figures
	// are formulas.
	formulas := 0
	for _, c := range checks {
		formula, err := f.GetCellFormula(c.Sheet, c.Cell)
		require.NoError(t, err)
		assert.NotEmpty(t, formula)
		assert.NotContains(t, formula, "SHOP", "the copy computes without the add-in")
		formulas++
	}
	// Every amount of the quote is one of them, but those that are the customer's price.
	rows, err := f.GetRows("Workings", excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	first := slices.IndexFunc(rows, func(r []string) bool { return len(r) > 0 && r[0] == order.Quote.Lines[0].What })
	require.Positive(t, first)
	for i, l := range order.Quote.Lines {
		formula, err := f.GetCellFormula("Workings", "H"+strconv.Itoa(first+1+i))
		require.NoError(t, err)
		assert.Equal(t, l.Sells == cost.AsListed, formula == "", l.What)
	}
	again, _ := written(t, data, workbook.Options{})
	assert.True(t, bytes.Equal(book, again), "the same job gives the same bytes")
}

// excelize has an engine of its own: a second opinion on the sheets without
// array arithmetic, which it does not know. LibreOffice judges every formula,
// behind the tag libreoffice.
func TestASecondEngineAgrees(t *testing.T) {
	book, checks := written(t, part(t, true), workbook.Options{})
	f, err := excelize.OpenReader(bytes.NewReader(book))
	require.NoError(t, err)
	defer f.Close()
	agreed := 0
	for _, c := range checks {
		if !slices.Contains([]string{"Cut list", "To buy", "Foam"}, c.Sheet) {
			continue
		}
		got, err := f.CalcCellValue(c.Sheet, c.Cell, excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		x, err := strconv.ParseFloat(got, 64)
		require.NoError(t, err)
		assert.InDelta(t, c.Want, x, c.Step/2*1.0001, "%s %s", c.Sheet, c.Cell)
		agreed++
	}
	assert.Greater(t, agreed, 100)
}

// Names of a job that look like formulas stay texts.
func TestTextIsNeverAFormula(t *testing.T) {
	var j map[string]any
	require.NoError(t, json.Unmarshal(part(t, false), &j))
	j["name"] = "=1+1"
	piece, ok := j["pieces"].([]any)[0].(map[string]any)
	require.True(t, ok)
	piece["name"] = `=HYPERLINK("http://x","y")`
	for _, g := range j["goods"].([]any) {
		g.(map[string]any)["name"] = "@SUM(A1)"
	}
	evil, err := json.Marshal(j)
	require.NoError(t, err)
	book, _ := written(t, evil, workbook.Options{})
	f, err := excelize.OpenReader(bytes.NewReader(book))
	require.NoError(t, err)
	defer f.Close()
	seen := 0
	for _, s := range f.GetSheetList() {
		rows, err := f.GetRows(s)
		require.NoError(t, err)
		for r, row := range rows {
			for c, v := range row {
				if !strings.HasPrefix(v, "=") && !strings.HasPrefix(v, "@") {
					continue
				}
				seen++
				formula, err := f.GetCellFormula(s, at(c+1, r+1))
				require.NoError(t, err)
				assert.Empty(t, formula, "%s %s", s, at(c+1, r+1))
				kind, err := f.GetCellType(s, at(c+1, r+1))
				require.NoError(t, err)
				assert.Contains(t, []excelize.CellType{excelize.CellTypeSharedString, excelize.CellTypeInlineString}, kind)
			}
		}
	}
	assert.Positive(t, seen)
}

// amountsOf gives the amounts of the workings by what they are of.
func amountsOf(t *testing.T, f *excelize.File) map[string]string {
	t.Helper()
	rows, err := f.GetRows("Workings", excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	out := map[string]string{}
	for _, r := range rows {
		if len(r) > 7 {
			out[r[0]] = r[7]
		}
	}
	return out
}

// Foam of every form, with batting, gives the amounts of the order.
func TestFillingsInTheWorkbook(t *testing.T) {
	price := `"duty": "heavy", "base": "board", "price": "3.40 USD/bd ft"`
	data := []byte(`{"schema": "coverwright/job/1", "name": "fillings", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "tweed", "material": "woven", "price": "42.00 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "boat", "lives": "boat", "cushions": [
			{"name": "T", "width": "22 in", "depth": "22 in", "thickness": "4 in", "left_ear": "2 in", "right_ear": "2 in", "ear_depth": "5 in", "top": "cloth",
				"foam": {"use": "seat", ` + price + `, "priced_by": "outline", "layers": [{"name": "top", "thickness": "1 in"}, {"name": "core", "thickness": "3 in"}],
					"wrap": {"loft": "3/8 in", "price": "4.00 USD/sq yd"}}},
			{"name": "roll", "kind": "bolster", "width": "20 in", "depth": "6 in", "top": "cloth", "foam": {"use": "headrest", ` + price + `, "rolled": "1 in"}},
			{"name": "round roll", "kind": "bolster", "width": "20 in", "depth": "6 in", "top": "cloth", "foam": {"use": "headrest", ` + price + `}}],
			"foam": [{"name": "wedge", "width": "20 in", "depth": "18 in", "thickness": "5 in", "back_thickness": "3 in", "filling": {"use": "seat", ` + price + `}},
				{"name": "slab", "width": "20 in", "depth": "18 in", "thickness": "2 in", "filling": {"use": "seat", ` + price + `, "sheet": {"length": "72 in", "width": "24 in"}}}]}],
		"quote": {"labour_rate": "60.00 USD/h"}}`)
	book, _ := written(t, data, workbook.Options{})
	_, order := worked(t, data)
	f, err := excelize.OpenReader(bytes.NewReader(book))
	require.NoError(t, err)
	defer f.Close()
	rows, err := f.GetRows("Foam")
	require.NoError(t, err)
	var parts []string
	for _, r := range rows {
		if len(r) > 1 && (r[0] == "boat" || r[1] == "sheets") {
			parts = append(parts, r[1])
		}
	}
	assert.Equal(t, []string{"T, top", "T, batting", "T, core", "roll", "round roll", "wedge", "slab", "sheets"}, parts)
	amounts := amountsOf(t, f)
	for _, l := range order.Quote.Lines {
		got, err := strconv.ParseFloat(amounts[l.What], 64)
		require.NoError(t, err, l.What)
		want, err := strconv.ParseFloat(l.Amount.Amount(), 64)
		require.NoError(t, err, l.What)
		assert.InDelta(t, want, got, 1e-9, l.What)
	}
}

// Goods at hand are lines of the quote that the sheet works out as the library does, and
// a customer's own need no price.
func TestGoodsAtHandInTheWorkbook(t *testing.T) {
	data := []byte(atHand)
	_, order := worked(t, data)
	book, checks := written(t, data, workbook.Options{})
	assert.NotEmpty(t, checks)
	f, err := excelize.OpenReader(bytes.NewReader(book))
	require.NoError(t, err)
	defer f.Close()
	amounts := amountsOf(t, f)
	for _, l := range order.Quote.Lines {
		want, err := strconv.ParseFloat(l.Amount.Amount(), 64)
		require.NoError(t, err)
		x, err := strconv.ParseFloat(amounts[l.What], 64)
		require.NoError(t, err)
		assert.InDelta(t, want, x, 1e-9, l.What)
	}
}

// A customer's own cloth, what the shop has, and a remnant.
const atHand = `{"schema": "coverwright/job/1", "name": "seats", "currency": "USD", "goods": [
		{"id": "cloth", "kind": "roll", "name": "tweed", "material": "woven", "width": "54 in", "whose": "customer", "handling": {"per_length": "6 USD/yd"},
			"at_hand": [{"name": "hers", "length": "2 yd"}]},
		{"id": "lining", "kind": "roll", "name": "lining", "material": "woven", "price": "10 USD/yd", "width": "54 in", "charged": "cost", "at_hand": [{"name": "bolt", "length": "9 yd"}]},
		{"id": "plain", "kind": "roll", "name": "plain", "material": "woven", "price": "30 USD/yd", "width": "54 in", "at_hand": [{"name": "rest", "length": "25 in", "remnant": true}]}],
		"pieces": [{"name": "seat", "count": 8, "panels": [{"name": "cover", "goods": "cloth", "width": "24 in", "length": "24 in", "edges": "raw"},
			{"name": "under", "goods": "lining", "width": "24 in", "length": "24 in", "edges": "raw"}, {"name": "back", "goods": "plain", "width": "24 in", "length": "24 in", "edges": "raw"}],
			"labour": [{"task": "cover", "time": "1 h"}]}],
		"quote": {"labour_rate": "50 USD/h", "markup": "20 %"}}`

// Two taxes or discounts of one name have each its own formula.
func TestTaxesOfOneNameInTheWorkbook(t *testing.T) {
	data := []byte(`{"schema": "coverwright/job/1", "name": "seats", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "tweed", "material": "woven", "price": "42.00 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "seat", "panels": [{"name": "cover", "goods": "cloth", "width": "24 in", "length": "24 in"}], "labour": [{"task": "cover", "time": "3 h"}]}],
		"customer_copy": {"tax": "below"},
		"quote": {"labour_rate": "50 USD/h", "taxes": [{"name": "tax", "rate": "5 %", "on": ["goods"]}, {"name": "tax", "rate": "5 %", "on": ["labour"]}],
			"discounts": [{"name": "friend", "rate": "2 %", "kinds": ["goods"]}, {"name": "friend", "rate": "2 %", "kinds": ["labour"]}]}}`)
	book, _ := written(t, data, workbook.Options{})
	f, err := excelize.OpenReader(bytes.NewReader(book))
	require.NoError(t, err)
	defer f.Close()
	rows, err := f.GetRows("Quote")
	require.NoError(t, err)
	formulas := map[string]int{}
	for i := range rows {
		for _, c := range []string{"C", "D"} {
			formula, err := f.GetCellFormula("Quote", c+strconv.Itoa(i+1))
			require.NoError(t, err)
			formulas[formula]++
		}
	}
	for _, want := range []string{"tax_1", "tax_2", "off_1", "off_2"} {
		assert.Equal(t, 1, formulas[want], want)
	}
}
