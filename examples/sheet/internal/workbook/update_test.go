package workbook_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/kind"
	"github.com/coverwright/coverwright/examples/sheet/internal/workbook"
)

// edited changes cells of a workbook as its owner would.
func edited(t testing.TB, book []byte, change func(f *excelize.File)) []byte {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(book))
	require.NoError(t, err)
	defer f.Close()
	change(f)
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	return b.Bytes()
}

// rowOf finds the row of a sheet whose first cells are these.
func rowOf(t testing.TB, f *excelize.File, sheet string, cells ...string) int {
	t.Helper()
	rows, err := f.GetRows(sheet)
	require.NoError(t, err)
	for i, r := range rows {
		if len(r) >= len(cells) && slices.Equal(r[:len(cells)], cells) {
			return i + 1
		}
	}
	t.Fatalf("%s has no row %q", sheet, cells)
	return 0
}

// textOf is what a note says.
func textOf(c excelize.Comment) string {
	text := c.Text
	for _, r := range c.Paragraph {
		text += r.Text
	}
	return text
}

func update(t testing.TB, book []byte) workbook.Updated {
	t.Helper()
	out, err := workbook.Update(t.Context(), book, job.Options{Effort: 0.01}, workbook.Options{})
	require.NoError(t, err)
	return out
}

// The job of a workbook is that which it was written from, in both units.
func TestTheWorkbookHoldsTheJob(t *testing.T) {
	for _, whole := range []bool{false, true} {
		for _, metric := range []bool{false, true} {
			data := part(t, whole)
			spec, order := worked(t, data)
			var b bytes.Buffer
			_, err := workbook.Quote(&b, spec, order, workbook.Options{Metric: metric})
			require.NoError(t, err)
			w, wrong, err := workbook.ReadJob(b.Bytes())
			require.NoError(t, err)
			require.Empty(t, wrong)
			assert.Equal(t, metric, w.Metric)
			back, err := job.ReadSpec(bytes.NewReader(w.Text))
			require.NoError(t, err)
			want, err := json.Marshal(spec)
			require.NoError(t, err)
			got, err := json.Marshal(back)
			require.NoError(t, err)
			assert.Equal(t, string(want), string(got))
		}
	}
}

// An outline of more corners than a cell has room for stays in the workbook.
func TestLongTextsAreKept(t *testing.T) {
	var corners []string
	for i := range 3000 {
		corners = append(corners, fmt.Sprintf("%q", fmt.Sprintf("%d.%03d in, %d in", 1+i/100, i%100, 1+i%2)))
	}
	text := `{"schema": "coverwright/job/1", "name": "long", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "tweed", "material": "woven", "price": "42.00 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "seat", "panels": [{"name": "top", "goods": "cloth", "outline": {"polygon": {"corners": [` + strings.Join(corners, ",") + `]}}}]}], "quote": {"labour_rate": "60.00 USD/h"}}`
	spec, err := job.ReadSpec(strings.NewReader(text))
	require.NoError(t, err)
	_, order := worked(t, part(t, false))
	order.Cuts, order.Purchases, order.Labour, order.Foam = nil, nil, nil, nil
	var b bytes.Buffer
	_, err = workbook.Quote(&b, spec, order, workbook.Options{})
	require.NoError(t, err)
	w, wrong, err := workbook.ReadJob(b.Bytes())
	require.NoError(t, err)
	require.Empty(t, wrong)
	back, err := job.ReadSpec(bytes.NewReader(w.Text))
	require.NoError(t, err)
	assert.Equal(t, spec.Pieces, back.Pieces)
}

// A job that is begun in a blank workbook asks for what it needs, each at its cell, and
// comes to what the same job in a file comes to.
func TestAJobBeginsInTheSheet(t *testing.T) {
	k, err := kind.Named("drop-in seat")
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, workbook.Blank(&b, job.Shop{}, &k, workbook.Options{}))
	first := update(t, b.Bytes())
	var cells []string
	for _, x := range first.Wrong {
		cells = append(cells, x.Spot.String())
	}
	assert.Subset(t, cells, []string{"Job!B5", "Job!B7", "Furniture!D6"}, "name, currency, goods")
	f, err := excelize.OpenReader(bytes.NewReader(first.Data))
	require.NoError(t, err)
	defer f.Close()
	for _, x := range first.Wrong {
		notes, err := f.GetComments(x.Sheet)
		require.NoError(t, err)
		assert.True(t, slices.ContainsFunc(notes, func(c excelize.Comment) bool {
			return c.Cell == x.Cell.String() && strings.HasPrefix(textOf(c), "To mend: ") && strings.Contains(textOf(c), x.Says)
		}), "%s: %s", x.Spot, x.Says)
	}
	filled := edited(t, first.Data, func(f *excelize.File) {
		for cell, v := range map[string]any{"B5": "Six seats", "B7": "USD"} {
			require.NoError(t, f.SetCellValue("Job", cell, v))
		}
		require.NoError(t, f.SetSheetRow("Covers", "A6", &[]any{"cloth", "plain wool", "roll", "woven", 42.5, "yd", nil, nil, 54}))
		require.NoError(t, f.SetCellValue("Furniture", "B6", 6))
		require.NoError(t, f.SetCellValue("Furniture", "D6", "cloth"))
		require.NoError(t, f.SetCellValue("Furniture", "E6", "dust cover: cloth"))
		for name, v := range map[string]any{"width": 18.5, "depth": "410 mm", "frame": 0.75, "foam": 1.5} {
			require.NoError(t, f.SetCellValue("Furniture", fmt.Sprintf("C%d", rowOf(t, f, "Furniture", "drop-in seat", name)), v))
		}
		require.NoError(t, f.SetCellValue("Terms", fmt.Sprintf("B%d", rowOf(t, f, "Terms", "labour rate")), 60))
		require.NoError(t, f.SetCellValue("Terms", fmt.Sprintf("B%d", rowOf(t, f, "Terms", "labour rate per")), "h"))
		require.NoError(t, f.SetSheetRow("Work", "A6", &[]any{"drop-in seat", "cover", 1.25}))
	})
	second := update(t, filled)
	require.Empty(t, second.Wrong)
	want, err := job.Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "Six seats", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "plain wool", "material": "woven", "price": "42.50 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "drop-in seat", "from": "drop-in seat", "count": 6, "goods": "cloth", "goods_for": {"dust cover": "cloth"},
			"measures": {"width": "18.5 in", "depth": "410 mm", "frame": "3/4 in", "foam": "1 1/2 in"}, "labour": [{"task": "cover", "time": "75 min"}]}],
		"quote": {"labour_rate": "60 USD/h"}}`), job.Options{Effort: 0.01})
	require.NoError(t, err)
	assert.Equal(t, want.Quote.Total, second.Order.Quote.Total)
	g, err := excelize.OpenReader(bytes.NewReader(second.Data))
	require.NoError(t, err)
	defer g.Close()
	assert.Contains(t, g.GetSheetList(), "Quote")
	for _, s := range g.GetSheetList() { // what was to be mended is
		notes, err := g.GetComments(s)
		require.NoError(t, err)
		for _, n := range notes {
			assert.NotContains(t, textOf(n), "To mend", s)
		}
	}
}

// Brought up to date again, a workbook stays as it is.
func TestUpdateTwice(t *testing.T) {
	book, _ := written(t, part(t, false), workbook.Options{Metric: true})
	one := update(t, book)
	require.Empty(t, one.Wrong)
	assert.Empty(t, one.Remarks)
	two := update(t, one.Data)
	assert.Equal(t, one.Order.Quote.Total, two.Order.Quote.Total)
	assert.True(t, bytes.Equal(one.Data, two.Data), "the same bytes")
}

// What the owner did to a workbook, and what is wrong in it, stays.
func TestAWrongCellLosesNothing(t *testing.T) {
	book, _ := written(t, part(t, false), workbook.Options{})
	spoilt := edited(t, book, func(f *excelize.File) {
		require.NoError(t, f.SetCellValue("Furniture", "B6", "two"))
		require.NoError(t, f.SetCellValue("Furniture", "V5", "colour of the feet"))
		require.NoError(t, f.SetCellValue("Work", "A6", "no such chair"))
	})
	out := update(t, spoilt)
	var cells []string
	for _, x := range out.Wrong {
		cells = append(cells, x.Spot.String())
	}
	assert.Contains(t, cells, "Furniture!B6")
	assert.Contains(t, cells, "Work!A6")
	f, err := excelize.OpenReader(bytes.NewReader(out.Data))
	require.NoError(t, err)
	defer f.Close()
	for cell, want := range map[string]string{"B6": "two", "V5": "colour of the feet"} {
		got, err := f.GetCellValue("Furniture", cell)
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
}

func TestNoWorkbookOfAJob(t *testing.T) {
	_, err := workbook.Update(t.Context(), edited(t, shop(t, nil), func(*excelize.File) {}), job.Options{}, workbook.Options{})
	require.ErrorIs(t, err, workbook.ErrNoTables)
}

// What would be lost is told instead, each at its cell.
func TestNothingIsLeftOutInSilence(t *testing.T) {
	book, _ := written(t, part(t, true), workbook.Options{})
	for name, x := range map[string]struct {
		change func(f *excelize.File)
		at     string
	}{
		"a name twice":              {func(f *excelize.File) { require.NoError(t, f.SetCellValue("Furniture", "A8", "wing chair")) }, "Furniture!A8"},
		"a heading gone":            {func(f *excelize.File) { require.NoError(t, f.SetCellValue("Furniture", "B6", nil)) }, "Furniture!B6"},
		"the name of a line gone":   {func(f *excelize.File) { require.NoError(t, f.SetCellValue("Terms", "A8", nil)) }, "Terms!A8"},
		"the heading of what it is": {func(f *excelize.File) { require.NoError(t, f.SetCellValue("Work", "A6", nil)) }, "Work!A6"},
		"a formula without result": {func(f *excelize.File) {
			require.NoError(t, f.SetCellValue("Furniture", "B7", nil))
			require.NoError(t, f.SetCellFormula("Furniture", "B7", "1+1"))
		}, "Furniture!B7"},
		"a word said twice": {func(f *excelize.File) {
			require.NoError(t, f.SetCellValue("Furniture", "E7", "lining: lining; lining: damask"))
		}, "Furniture!E7"},
		"a text kept nowhere": {func(f *excelize.File) { require.NoError(t, f.SetCellValue("Job", "B6", "kept: 3")) }, "Job!B6"},
	} {
		out := update(t, edited(t, book, x.change))
		assert.True(t, slices.ContainsFunc(out.Wrong, func(w workbook.Wrong) bool { return w.Spot.String() == x.at }), "%s: %v", name, out.Wrong)
	}
	for _, n := range []string{"table_cushions", "table_taxes", "table_job"} {
		_, err := workbook.Update(t.Context(), edited(t, book, func(f *excelize.File) { require.NoError(t, f.DeleteDefinedName(&excelize.DefinedName{Name: n})) }), job.Options{}, workbook.Options{})
		require.ErrorIs(t, err, workbook.ErrTableGone, n)
	}
	// A row in the gap below a table, and one further down.
	g := edited(t, book, func(f *excelize.File) {
		row := rowOf(t, f, "Work", "Around the bench")
		require.NoError(t, f.SetCellValue("Work", fmt.Sprintf("A%d", row+20), "delivery"))
	})
	out := update(t, g)
	assert.True(t, slices.ContainsFunc(out.Wrong, func(w workbook.Wrong) bool { return strings.Contains(w.Says, "outside its table") }), "%v", out.Wrong)
}

// A discount of lines that the job has none of takes nothing off.
func TestADiscountOfNothing(t *testing.T) {
	book, _ := written(t, []byte(`{"schema": "coverwright/job/1", "name": "seats", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "tweed", "material": "woven", "price": "42.00 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "seat", "panels": [{"name": "kept: 1", "goods": "cloth", "width": "24 in", "length": "24 in"}]}],
		"quote": {"labour_rate": "50 USD/h", "discounts": [{"name": "friend", "rate": "2 %", "kinds": ["labour"]}]}}`), workbook.Options{})
	out := update(t, book)
	assert.Empty(t, out.Wrong)
}
