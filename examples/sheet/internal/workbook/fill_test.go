package workbook_test

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/examples/sheet/internal/workbook"
)

// shop makes a workbook as a shop might have it: its own sheets, styles,
// notes, a chart, formulas on the cells that are filled.
func shop(t testing.TB, change func(f *excelize.File)) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	must := func(err error) { require.NoError(t, err) }
	must(f.SetSheetName("Sheet1", "Our quote"))
	_, err := f.NewSheet("It's cuts")
	must(err)
	bold, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true, Color: "AA0000"}, NumFmt: 4})
	must(err)
	for cell, v := range map[string]any{"A1": "Rate", "B1": 70.5, "A2": "Markup", "B2": 0.4, "A3": "Damask", "B3": 72, "A5": "Total", "B5": 1, "A6": "With tip", "C9": "note"} {
		must(f.SetCellValue("Our quote", cell, v))
	}
	must(f.SetCellStyle("Our quote", "B5", "B5", bold))
	must(f.SetCellFormula("Our quote", "B6", "B5*1.1"))
	must(f.AddComment("Our quote", excelize.Comment{Cell: "C9", Author: "shop", Text: "keep me"}))
	must(f.AddChart("Our quote", "E2", &excelize.Chart{Type: excelize.Col, Series: []excelize.ChartSeries{{Name: "x", Values: "'Our quote'!$B$1:$B$3"}}}))
	must(f.MergeCell("Our quote", "A12", "C12"))
	define := func(name, ref string) {
		must(f.SetDefinedName(&excelize.DefinedName{Name: name, RefersTo: ref}))
	}
	define("shop_labour_rate", "'Our quote'!$B$1")
	define("shop_markup", "'Our quote'!$B$2")
	define("shop_price_damask", "'Our quote'!$B$3")
	define("shop_contingency", "'Our quote'!$B$4") // empty
	define("fill_total", "'Our quote'!$B$5")
	define("fill_cuts", "'It''s cuts'!$B$2:$G$60")
	define("fill_buy_damask", "'Our quote'!$B$8")
	define("their_own", "'Our quote'!$A$1")
	if change != nil {
		change(f)
	}
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	return b.Bytes()
}

func fillDemo(t testing.TB, book, data []byte) ([]byte, []string, error) {
	t.Helper()
	var b bytes.Buffer
	report, err := workbook.Fill(t.Context(), book, data, &b, job.Options{Effort: 0.001}, workbook.Options{})
	return b.Bytes(), report, err
}

func TestFillReadsAndWritesByName(t *testing.T) {
	before := shop(t, func(f *excelize.File) {
		// Something of an earlier job that must go.
		require.NoError(t, f.SetCellValue("It's cuts", "B59", "old"))
	})
	data := quickly(t, part(t, true))
	after, report, err := fillDemo(t, before, data)
	require.NoError(t, err)
	assert.Equal(t, []string{"read shop_labour_rate", "read shop_markup", "read shop_price_damask", "wrote fill_buy_damask", "wrote fill_cuts", "wrote fill_total"}, report)

	// The same job with these rates, worked out the ordinary way.
	var j map[string]any
	require.NoError(t, json.Unmarshal(data, &j))
	for _, g := range j["goods"].([]any) {
		if m := g.(map[string]any); m["id"] == "damask" {
			m["price"] = "72 USD/yd"
		}
	}
	q := j["quote"].(map[string]any)
	delete(q, "shop_rate")
	q["labour_rate"], q["markup"] = "70.5 USD/h", "40 %"
	text, err := json.Marshal(j)
	require.NoError(t, err)
	_, order := worked(t, text)

	f, err := excelize.OpenReader(bytes.NewReader(after))
	require.NoError(t, err)
	defer f.Close()
	raw := func(sheet, cell string) string {
		v, err := f.GetCellValue(sheet, cell, excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		return v
	}
	assert.Equal(t, order.Quote.Total.Amount(), raw("Our quote", "B5"))
	assert.Equal(t, order.Cuts[0].Piece, raw("It's cuts", "B2"))
	assert.Equal(t, order.Cuts[len(order.Cuts)-1].Part, raw("It's cuts", "C"+at(1, 1+len(order.Cuts))[1:]))
	assert.Empty(t, raw("It's cuts", "B59"))
	assert.Empty(t, raw("Our quote", "B6"), "the stored result of a formula is dropped")

	// Nothing else has changed: values, formulas, styles, and every other part
	// of the file.
	old, err := excelize.OpenReader(bytes.NewReader(before))
	require.NoError(t, err)
	defer old.Close()
	for _, s := range old.GetSheetList() {
		for r := 1; r <= 70; r++ {
			for c := 1; c <= 12; c++ {
				cell := at(c, r)
				was, err := old.GetCellFormula(s, cell)
				require.NoError(t, err)
				is, err := f.GetCellFormula(s, cell)
				require.NoError(t, err)
				require.Equal(t, was, is)
				style, err := old.GetCellStyle(s, cell)
				require.NoError(t, err)
				now, err := f.GetCellStyle(s, cell)
				require.NoError(t, err)
				require.Equal(t, style, now, "%s %s", s, cell)
				if s == "It's cuts" && c >= 2 && c <= 7 || cell == "B5" || cell == "B6" || cell == "B8" {
					continue
				}
				v, err := old.GetCellValue(s, cell)
				require.NoError(t, err)
				require.Equal(t, v, raw(s, cell), "%s %s", s, cell)
			}
		}
	}
	assert.Len(t, f.GetDefinedName(), len(old.GetDefinedName()))
	a, b := parts(t, before), parts(t, after)
	for name, was := range a {
		require.Contains(t, b, name)
		switch {
		case strings.HasPrefix(name, "xl/worksheets/sheet"), name == "xl/workbook.xml", name == "xl/sharedStrings.xml", name == "[Content_Types].xml":
			continue
		}
		assert.Equal(t, was, b[name], name)
	}
	// Filled twice is filled once.
	twice, _, err := fillDemo(t, after, data)
	require.NoError(t, err)
	assert.Equal(t, parts(t, after)["xl/worksheets/sheet1.xml"], parts(t, twice)["xl/worksheets/sheet1.xml"])
}

func parts(t testing.TB, book []byte) map[string]string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(book), int64(len(book)))
	require.NoError(t, err)
	out := map[string]string{}
	for _, f := range z.File {
		r, err := f.Open()
		require.NoError(t, err)
		b, err := io.ReadAll(r)
		require.NoError(t, err)
		out[f.Name] = string(b)
	}
	return out
}

func TestHostileWorkbooksAreRefused(t *testing.T) {
	small := part(t, false)
	define := func(name, ref string) func(*excelize.File) {
		return func(f *excelize.File) {
			for _, d := range f.GetDefinedName() {
				if d.Name == name {
					require.NoError(t, f.DeleteDefinedName(&excelize.DefinedName{Name: name}))
				}
			}
			require.NoError(t, f.SetDefinedName(&excelize.DefinedName{Name: name, RefersTo: ref}))
		}
	}
	set := func(cell string, v any) func(*excelize.File) {
		return func(f *excelize.File) { require.NoError(t, f.SetCellValue("Our quote", cell, v)) }
	}
	for want, change := range map[string]func(*excelize.File){
		"1048576 rows":                  define("fill_cuts", "'Our quote'!$A$1:$XFD$1048576"),
		"one cell or one range":         define("fill_total", "fill_total"),
		`refers to "shop_b"`:            func(f *excelize.File) { define("shop_a", "shop_b")(f); define("shop_b", "shop_a")(f) },
		`refers to "#REF!`:              define("fill_total", "#REF!"),
		"that is not there":             define("fill_total", "Nowhere!$A$1"),
		"is not known":                  define("fill_totals", "'Our quote'!$B$5"),
		"known; see":                    define("shop_rate", "'Our quote'!$B$1"),
		"names no goods":                define("shop_price_velvet", "'Our quote'!$B$3"),
		"would overwrite":               define("fill_net", "'Our quote'!$B$6"),
		"has 1 rows; the job needs 2":   define("fill_cuts", "'Our quote'!$H$1:$M$1"),
		`holds "seventy"`:               set("B1", "seventy"),
		`holds "70.5"`:                  set("B1", "70.5"),
		`holds "1"; a number is wanted`: set("B1", true),
		"labour_rate":                   set("B1", -5),
		"markup":                        set("B2", 1e300),
		"whose result is not stored": func(f *excelize.File) {
			require.NoError(t, f.SetCellValue("Our quote", "B1", nil))
			require.NoError(t, f.SetCellFormula("Our quote", "B1", "B1+1"))
		},
		"write 35 %":                     set("B2", 35),
		"holds 4, which is 400 %":        func(f *excelize.File) { set("B4", 4)(f) },
		"lies under a merged cell":       define("fill_job", "'Our quote'!$B$12"),
		"both write":                     define("fill_net", "'Our quote'!$B$5"),
		"is a range; one cell is wanted": define("shop_markup", "'Our quote'!$A$1:$B$2"),
		"no name beginning with": func(f *excelize.File) {
			for _, d := range f.GetDefinedName() {
				require.NoError(t, f.DeleteDefinedName(&excelize.DefinedName{Name: d.Name}))
			}
		},
	} {
		_, _, err := fillDemo(t, shop(t, change), small)
		assert.ErrorContains(t, err, want, want)
	}
	for _, junk := range [][]byte{nil, []byte("junk"), shop(t, nil)[:500]} {
		_, _, err := fillDemo(t, junk, small)
		assert.ErrorIs(t, err, workbook.ErrWorkbook)
	}
	var b bytes.Buffer
	_, err := workbook.Fill(t.Context(), shop(t, nil), []byte(`{"schema": 7}`), &b, job.Options{}, workbook.Options{})
	assert.Error(t, err)
	_, err = workbook.Fill(t.Context(), shop(t, nil), []byte(`not json`), &b, job.Options{}, workbook.Options{})
	assert.Error(t, err)
	assert.Zero(t, b.Len())
}

// A share may be a fraction alone: 0.35 is 35 %, and so is a cell that a sheet
// shows as 35 %.
func TestSharesAreFractions(t *testing.T) {
	total := func(markup any) string {
		book := shop(t, func(f *excelize.File) {
			require.NoError(t, f.SetCellValue("Our quote", "B2", markup))
			percent, err := f.NewStyle(&excelize.Style{NumFmt: 9})
			require.NoError(t, err)
			require.NoError(t, f.SetCellStyle("Our quote", "B2", "B2", percent))
		})
		after, _, err := fillDemo(t, book, part(t, false))
		require.NoError(t, err)
		return cellOf(t, after, "B5")
	}
	assert.NotEqual(t, total(0.35), total(0.07))
	assert.Equal(t, total(0.35), total(0.1+0.25))
}

func cellOf(t testing.TB, book []byte, cell string) string {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(book))
	require.NoError(t, err)
	defer f.Close()
	v, err := f.GetCellValue("Our quote", cell, excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	return v
}

// The deposit is what is paid first of several payments; where the whole is
// paid at once there is none.
func TestNoDepositIsNoTotal(t *testing.T) {
	book := shop(t, func(f *excelize.File) {
		require.NoError(t, f.SetDefinedName(&excelize.DefinedName{Name: "fill_deposit", RefersTo: "'Our quote'!$B$9"}))
	})
	with := func(change func(q map[string]any)) []byte {
		var j map[string]any
		require.NoError(t, json.Unmarshal(part(t, false), &j))
		q := j["quote"].(map[string]any)
		delete(q, "stages")
		change(q)
		data, err := json.Marshal(j)
		require.NoError(t, err)
		after, _, err := fillDemo(t, book, data)
		require.NoError(t, err)
		return after
	}
	none := with(func(map[string]any) {})
	assert.Equal(t, "0", cellOf(t, none, "B9"))
	assert.NotEqual(t, "0", cellOf(t, none, "B5"))
	one := with(func(q map[string]any) { q["stages"] = []any{map[string]any{"name": "when done"}} })
	assert.Equal(t, "0", cellOf(t, one, "B9"))
	half := with(func(q map[string]any) { q["deposit"] = "50 %" })
	var deposit, total float64
	for cell, x := range map[string]*float64{"B9": &deposit, "B5": &total} {
		_, err := fmt.Sscan(cellOf(t, half, cell), x)
		require.NoError(t, err)
	}
	assert.InDelta(t, total/2, deposit, 0.0051)
}

// A workbook from anywhere is filled in or refused, and then nothing is written.
func FuzzFill(f *testing.F) {
	f.Add(shop(f, nil))
	f.Add([]byte("PK\x03\x04"))
	f.Add([]byte{})
	small := part(f, false)
	f.Fuzz(func(t *testing.T, data []byte) {
		after, _, err := fillDemo(t, data, small)
		if err != nil {
			require.Empty(t, after)
		}
	})
}
